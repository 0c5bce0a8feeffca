/** What a kind of entry at the desk is made of, and the building blocks of its form. */
import type { EntryType } from '../../../events/kinds.ts';
import { DAY, type Instant } from '../../../shared/instant.ts';
import type { Context } from './context.ts';
import type { Choice, Field, Typed } from './fields.tsx';

/** `several`: one entry for each number. `ask-first`: the fields depend on who she is. */
export type About = 'several' | 'one' | 'ask-first' | 'farm';

export interface Written {
  readonly type: EntryType;
  readonly title: string;
  readonly hint: string;
  readonly about: About;
  readonly fields: (context: Context) => readonly Field[];
  /** `data` for one cow; `id` gives names of this form's own. Throws `CannotWrite` with a sentence for the person. */
  readonly dataOf: (typed: Typed, context: Context, cow: string | undefined, id: (part: string) => string) => unknown;
}

export const text = (name: string, label: string, more: Partial<Extract<Field, { kind: 'text' }>> = {}): Field => ({
  kind: 'text',
  name,
  label,
  longest: 200,
  ...more,
});

export const number = (name: string, label: string, more: Partial<Extract<Field, { kind: 'number' }>> = {}): Field => ({
  kind: 'number',
  name,
  label,
  ...more,
});

export const choice = (
  name: string,
  label: string,
  choices: readonly Choice[],
  more: { required?: true; hint?: string } = {},
): Field => ({
  kind: 'choice',
  name,
  label,
  choices,
  ...more,
});

export const plain =
  (...names: readonly string[]) =>
  (typed: Typed): unknown =>
    Object.fromEntries(names.map((name) => [name, typed.one(name)]));

export const milkingsIn = ({ hand, now }: Context): Choice[] => {
  const found: Choice[] = [];
  let count = 0;
  for (const milking of hand.schedule.after((now - DAY) as Instant)) {
    found.push([milking.id, hand.format.milking(milking.id)]);
    count += 1;
    if (count > 8) break;
  }
  return found;
};
