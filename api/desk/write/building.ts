/** What a kind of entry at the desk is made of, and the building blocks of its form. */
import type { EntryType } from '../../../events/kinds.ts';
import { DAY, type Instant } from '../../../shared/instant.ts';
import { type Sentence, say } from '../say.tsx';
import type { Context } from './context.ts';
import type { Choice, Field, Typed } from './fields.tsx';

/** `several`: one entry for each number. `ask-first`: the fields depend on who she is. */
export type About = 'several' | 'one' | 'ask-first' | 'farm';

export interface Written {
  readonly type: EntryType;
  readonly title: Sentence;
  readonly hint: Sentence;
  readonly about: About;
  readonly fields: (context: Context) => readonly Field[];
  /** `data` for one cow; `id` gives names of this form's own. Throws `CannotWrite` with a sentence for the person. */
  readonly dataOf: (typed: Typed, context: Context, cow: string | undefined, id: (part: string) => string) => unknown;
}

/** Fields are made for whoever asks, so their labels are said when they are made. */
type Said<Kind extends Field['kind']> = Partial<Omit<Extract<Field, { kind: Kind }>, 'hint'>> & { hint?: Sentence };

export const text = (name: string, label: Sentence, { hint, ...more }: Said<'text'> = {}): Field => ({
  kind: 'text',
  name,
  label: say(label),
  longest: 200,
  ...hinted(hint),
  ...more,
});

export const number = (name: string, label: Sentence, { hint, ...more }: Said<'number'> = {}): Field => ({
  kind: 'number',
  name,
  label: say(label),
  ...hinted(hint),
  ...more,
});

const hinted = (hint: Sentence | undefined) => (hint === undefined ? {} : { hint: say(hint) });

/** Choices whose words are the desk's own. */
export const worded = (...choices: readonly (readonly [value: string, words: Sentence])[]): readonly Choice[] =>
  choices.map(([value, words]) => [value, say(words)]);

export const choice = (
  name: string,
  label: Sentence,
  choices: readonly Choice[],
  { hint, ...more }: { required?: true; hint?: Sentence } = {},
): Field => ({
  kind: 'choice',
  name,
  label: say(label),
  choices,
  ...hinted(hint),
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
