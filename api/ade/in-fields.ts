/**
 * A tolerant reader of one JSON object: takes what it knows, whatever else is there, and remembers what nobody took, so that it
 * can be reported. A value of the wrong shape counts as not taken.
 */
import { type Instant, parseInstant } from '../../shared/instant.ts';
import { type Result, refused } from '../../shared/refusal.ts';

export type Json = Readonly<Record<string, unknown>>;

export const isJson = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

export interface Fields {
  readonly raw: Json;
  readonly has: (name: string) => boolean;
  /** Text, or a number written as one. */
  readonly text: (name: string) => string | undefined;
  readonly number: (name: string) => number | undefined;
  readonly flag: (name: string) => boolean | undefined;
  /** Undefined where it is not there; a refusal where it is and cannot be read. */
  readonly time: (name: string) => Result<Instant> | undefined;
  readonly object: (name: string) => Fields | undefined;
  readonly objects: (name: string) => readonly Fields[];
  /** Takes fields without reading them: what is of no concern to anybody. */
  readonly pass: (...names: readonly string[]) => void;
  /** What was not taken, by path. */
  readonly left: () => readonly { readonly field: string; readonly value: unknown }[];
}

export const fieldsOf = (raw: Json): Fields => {
  const taken = new Set<string>();
  const inside = new Map<string, readonly Fields[]>();
  const has = (name: string): boolean => Object.hasOwn(raw, name) && raw[name] !== null && raw[name] !== undefined;
  const take = <T>(name: string, read: (value: unknown) => T | undefined): T | undefined => {
    const value = has(name) ? read(raw[name]) : undefined;
    if (value !== undefined) taken.add(name);
    return value;
  };
  return {
    raw,
    has,
    text: (name) =>
      take(name, (value) => {
        if (typeof value === 'number') return String(value);
        return typeof value === 'string' && value.trim() !== '' ? value.trim() : undefined;
      }),
    number: (name) =>
      take(name, (value) => {
        const number = typeof value === 'string' && value.trim() !== '' ? Number(value) : value;
        return typeof number === 'number' && Number.isFinite(number) ? number : undefined;
      }),
    flag: (name) => take(name, (value) => (typeof value === 'boolean' ? value : undefined)),
    time: (name) => take(name, timeOf),
    object: (name) =>
      take(name, (value) => {
        if (!isJson(value)) return undefined;
        const fields = inside.get(name)?.[0] ?? fieldsOf(value);
        inside.set(name, [fields]);
        return fields;
      }),
    objects: (name) =>
      take(name, (value) => {
        if (!Array.isArray(value) || !value.every(isJson)) return undefined;
        const list = inside.get(name) ?? value.map(fieldsOf);
        inside.set(name, list);
        return list;
      }) ?? [],
    pass: (...names) => {
      for (const name of names) taken.add(name);
    },
    left: () =>
      Object.keys(raw)
        .filter(has)
        .flatMap((field) => {
          if (!taken.has(field)) return [{ field, value: raw[field] }];
          const list = inside.get(field) ?? [];
          return list.flatMap((each) => each.left().map((more) => ({ ...more, field: `${field}.${more.field}` })));
        }),
  };
};

/** Finer than milliseconds is cut: programs write seven decimals and mean none of the last four. */
const timeOf = (value: unknown): Result<Instant> =>
  typeof value === 'string'
    ? parseInstant(value.trim().replace(/(\.\d{3})\d+/, '$1'))
    : refused('it is not a time in quotes');

const UNPRINTABLE = /[\p{C}\p{Zl}\p{Zp}]+/gu;

/** Text as an entry may hold it: one line, no control or direction characters, not longer than there is room. */
export const plainText = (text: string, longest: number): string =>
  [...text.replace(UNPRINTABLE, ' ').replace(/\s+/g, ' ').trim()].slice(0, longest).join('').trim();
