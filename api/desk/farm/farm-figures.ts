/** Numbers and lists as people type them into the longer forms, each refused with a sentence that says what to type. */
import type { Typed } from '../controls.tsx';
import { say } from '../say.tsx';

/** Fields of a group of data without those that were left empty. */
export const filled = (fields: Readonly<Record<string, unknown>>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));

/** The same, or undefined where nothing is left. */
export const filledOrNone = (fields: Readonly<Record<string, unknown>>): Record<string, unknown> | undefined => {
  const left = filled(fields);
  return Object.keys(left).length === 0 ? undefined : left;
};

/** What was there with these fields put in its place; undefined takes one out, and what is not named stays. */
export const over = (before: object | undefined, fields: Readonly<Record<string, unknown>>): Record<string, unknown> =>
  filled({ ...before, ...fields });

export interface Figures {
  /** `12`, `12.5` or `12,5`; undefined where it is empty, or wrong and noted. */
  readonly number: (name: string) => number | undefined;
  readonly problems: Map<string, string>;
}

export const figuresOf = (typed: Typed, problems: Map<string, string>): Figures => ({
  problems,
  number: (name) => {
    const text = typed.one(name)?.trim();
    if (text === undefined || text === '') return undefined;
    if (/^-?\d{1,7}([.,]\d{1,4})?$/.test(text)) return Number(text.replace(',', '.'));
    problems.set(name, say('"{text}" is not a number; type digits, such as 12 or 7.5', { text: text.slice(0, 40) }));
    return undefined;
  },
});

/** One text a line; blank lines go. */
export const linesOf = (text: string | undefined): string[] =>
  (text ?? '')
    .split(/\r?\n/)
    .map((line) => line.trim())
    .filter((line) => line !== '');

/** The numbers of rows such as `group-3-name`, in order. */
export const rowsOf = (typed: Typed, row: string): number[] =>
  [
    ...new Set(
      typed.names().flatMap((name) => {
        const found = new RegExp(`^${row}-(\\d{1,3})-`).exec(name)?.[1];
        return found === undefined ? [] : [Number(found)];
      }),
    ),
  ].sort((a, b) => a - b);
