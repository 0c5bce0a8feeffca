/**
 * All that is written about a cow, by a number she bears or bore: when each entry happened, when this book learnt of it,
 * whose it is where the number meant several cows, what was struck, and the doubts that stand.
 */
import type { Entry, EntryOf } from '../events/entry.ts';
import { officialDigits } from '../shared/cow-number.ts';
import { instantText } from '../shared/instant.ts';
import { type Animal, assignedTo, isCertain } from './animal.ts';
import type { Known } from './know.ts';
import { noticesAbout } from './leaving.ts';
import { bearersAt } from './standing.ts';
import type { Notice } from './views.ts';

export interface HistoryAnimal {
  readonly officialId: string | null;
  readonly bore: readonly { readonly number: string; readonly from: string; readonly to: string | null }[];
}

export interface HistoryLine {
  readonly entry: Entry;
  readonly struck: EntryOf<'entry-struck'> | undefined;
  /** Places in `animals`, counted from 0: hers for certain. */
  readonly whose: readonly number[];
  /** And whose it may be. */
  readonly mayBe: readonly number[];
}

export interface CowHistory {
  /** As asked. */
  readonly number: string;
  /** Every cow that the number ever meant; none where no cow of the herd bore it. */
  readonly animals: readonly HistoryAnimal[];
  /** By when they happened, then as this book recorded them. Empty where nothing is written. */
  readonly lines: readonly HistoryLine[];
  readonly doubts: readonly Notice[];
}

/** `entries`: all of the book's; `doubts`: those that stand. */
export const cowHistory = (
  known: Known,
  entries: readonly Entry[],
  doubts: readonly Notice[],
  number: string,
): CowHistory => {
  const official = officialDigits(number);
  const animals = known.herd.animals.filter(
    (animal) =>
      (official !== undefined && animal.officialId === official) || animal.spans.some((span) => span.number === number),
  );
  const numbers = new Set([number, ...animals.flatMap((animal) => animal.spans.map((span) => span.number))]);
  const strikes = new Map<Entry, EntryOf<'entry-struck'>>(known.strikes.struck.map(({ entry, by }) => [entry, by]));
  const whose = whoseIn(known, animals, strikes);
  const others = laidToOthers(known, animals);
  const isHers = (entry: Entry): boolean =>
    whose(entry).certain.length + whose(entry).mayBe.length > 0 ||
    // Struck entries are laid to nobody's door, nor is one that nobody's number fits: the number as written finds them.
    (entry.subject !== undefined && numbers.has(entry.subject) && !others.has(entry));
  const hers = entries.filter((entry) => entry.type !== 'entry-struck' && entry.type !== 'settled' && isHers(entry));
  const ids = new Set(hers.map((entry) => entry.id));
  const aboutThem = entries.filter(
    (entry) =>
      (entry.type === 'entry-struck' && ids.has(entry.data.entry)) ||
      (entry.type === 'settled' && [...ids].some((id) => entry.data.about.includes(id))),
  );
  return {
    number,
    animals: animals.map(({ officialId, spans }) => ({
      officialId: officialId ?? null,
      bore: spans.map((span) => ({
        number: span.number,
        from: instantText(span.from),
        to: span.to === null ? null : instantText(span.to),
      })),
    })),
    lines: [...hers, ...aboutThem]
      .sort((a, b) => a.at - b.at || a.position - b.position)
      .map((entry) => ({
        entry,
        struck: strikes.get(entry),
        whose: whose(entry).certain,
        mayBe: whose(entry).mayBe,
      })),
    doubts: noticesAbout(doubts, ids, numbers),
  };
};

interface Whose {
  readonly certain: readonly number[];
  readonly mayBe: readonly number[];
}

const whoseIn = (
  known: Known,
  animals: readonly Animal[],
  strikes: ReadonlyMap<Entry, unknown>,
): ((entry: Entry) => Whose) => {
  const made = new Map<Entry, { certain: number[]; mayBe: number[] }>();
  const add = (entry: Entry, index: number, how: 'certain' | 'mayBe'): void => {
    const have = made.get(entry) ?? { certain: [], mayBe: [] };
    if (!have[how].includes(index)) have[how].push(index);
    made.set(entry, have);
  };
  animals.forEach((animal, index) => {
    for (const { entry, mayBe } of assignedTo(animal)) add(entry, index, mayBe === undefined ? 'certain' : 'mayBe');
  });
  for (const { entry, animals: meant } of known.herd.ambiguous)
    for (const animal of meant) if (animals.includes(animal)) add(entry, animals.indexOf(animal), 'mayBe');
  for (const entry of strikes.keys()) {
    const bearers = bearersAt(known, entry.subject ?? '', entry.at);
    animals.forEach((animal, index) => {
      if (bearers.includes(animal.key)) add(entry, index, bearers.length === 1 ? 'certain' : 'mayBe');
    });
  }
  return (entry) => made.get(entry) ?? { certain: [], mayBe: [] };
};

/** Entries that are for certain another cow's, though she bore the same number at another time. */
const laidToOthers = (known: Known, animals: readonly Animal[]): ReadonlySet<Entry> =>
  new Set(
    known.herd.animals
      .filter((animal) => !animals.includes(animal))
      .flatMap((animal) => animal.assigned.filter((entry) => isCertain(animal, entry))),
  );
