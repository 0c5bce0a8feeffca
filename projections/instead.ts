/**
 * What is true instead of a struck entry: the entries that stand where its strikes lead, from one to the next where
 * what a strike names was struck as well. A ring leads nowhere.
 */
import type { Entry, EntryOf } from '../events/entry.ts';

export interface Correction {
  /** The struck entries of that id. */
  readonly was: readonly Entry[];
  /** Entries that count, which its strikes name instead or lead to. */
  readonly right: readonly Entry[];
  /** True where a strike says that it never happened. */
  readonly never: boolean;
}

/** By the id of the struck entry. */
export type Corrections = ReadonlyMap<string, Correction>;

type Strike = EntryOf<'entry-struck'>;

export const NOTHING = 'nothing';

/** `find`: the entries of an id; `isStruck`: whether one of them is. */
export const correctionsOf = (
  strikes: readonly Strike[],
  find: (id: string) => readonly Entry[],
  isStruck: (entry: Entry) => boolean,
): Corrections => {
  const words = new Map<string, string[]>();
  for (const { data } of strikes) {
    const have = words.get(data.entry) ?? [];
    if (data.instead !== undefined) have.push(data.instead);
    words.set(data.entry, have);
  }
  const leadsTo = (id: string, seen: Set<string>): readonly Entry[] => {
    if (seen.has(id)) return [];
    seen.add(id);
    return (words.get(id) ?? []).flatMap((word) => {
      const named = find(word);
      return named.some(isStruck) ? [...named.filter((each) => !isStruck(each)), ...leadsTo(word, seen)] : named;
    });
  };
  return new Map(
    [...words].flatMap(([id, said]): [string, Correction][] => {
      const was = find(id).filter(isStruck);
      if (was.length === 0) return [];
      const right = [...new Set(leadsTo(id, new Set()))].filter(({ type }) => type !== 'entry-struck');
      return [[id, { was, right, never: said.includes(NOTHING) }]];
    }),
  );
};

const isDose = (entry: Entry): boolean =>
  entry.type === 'treatment' || (entry.type === 'dry-off' && entry.data.product !== NO_PRODUCT);

const NO_PRODUCT = 'none';

/** A dose is set right by a dose, a dry-off by another one too, and a person's hold by whatever holds in its place. */
const canBeRight = (was: Entry, right: Entry): boolean => {
  if (isDose(right) || (was.type === 'dry-off' && right.type === 'dry-off')) return true;
  if (was.type !== 'milk-hold') return false;
  return (
    right.type === 'milk-hold' ||
    (right.type === 'residue-test' && right.data.of === 'cow' && right.data.result === 'positive')
  );
};

/** Is it said what is true instead of it? */
export const isSaidInstead = (struck: Entry, corrections: Corrections, twins: readonly Entry[]): boolean => {
  // A strike of an id that stands in the book twice does not say which of the two it means.
  if (!twins.every((each) => saysSameDose(each, struck))) return false;
  const correction = corrections.get(struck.id);
  return correction !== undefined && (correction.never || correction.right.some((right) => canBeRight(struck, right)));
};

const saysSameDose = (a: Entry, b: Entry): boolean =>
  a.type === b.type && a.subject === b.subject && a.at === b.at && medicineIn(a) === medicineIn(b);

/** The medicine that an entry speaks of having been given, `none` too. */
export const medicineIn = (entry: Entry): string | undefined => {
  if (entry.type === 'treatment') return entry.data.medicine;
  if (entry.type === 'dry-off') return entry.data.product;
  return entry.type === 'cow-entered' ? entry.data.driedOffWith : undefined;
};
