/** The fold for the farm: set-ups, labels, counts, milkings finished, tank, issued sheets, settled keys. One pass, fold order. */
import type { Entry, EntryOf } from '../events/entry.ts';
import type { MedicineListed } from '../events/kinds/medicine-listed.ts';
import { ENTRY_TYPES } from '../events/kinds.ts';
import type { Instant } from '../shared/instant.ts';
import { kept } from '../shared/kept.ts';
import { merged } from './fold-order.ts';
import { type Schedule, scheduleOf } from './schedule.ts';

export interface Listing {
  readonly id: string;
  readonly at: Instant;
  readonly data: MedicineListed;
}

export interface Farm {
  /** `undefined` until a farm is set up. */
  readonly schedule: Schedule | undefined;
  /** Labels by medicine, in fold order. */
  readonly listings: ReadonlyMap<string, readonly Listing[]>;
  readonly headCounts: readonly EntryOf<'head-count'>[];
  /** When each milking was finished (the last word counts). */
  readonly finished: ReadonlyMap<string, Instant>;
  readonly collections: readonly EntryOf<'tank-collection'>[];
  readonly tankTests: readonly EntryOf<'residue-test'>[];
  readonly issued: readonly EntryOf<'sheet-issued'>[];
  readonly returned: ReadonlySet<string>;
  readonly received: readonly EntryOf<'medicine-received'>[];
  readonly disposed: readonly EntryOf<'medicine-disposed'>[];
  /** When each sort request was first said to be done, whatever number it was said under. */
  readonly sorted: ReadonlyMap<string, Instant>;
  /** Vet's times by the treatment that they name. */
  readonly vetTimes: ReadonlyMap<string, readonly EntryOf<'vet-hold-time'>[]>;
  /** Keys of doubts, alerts and things set aside that a person has settled. */
  readonly settled: ReadonlySet<string>;
}

/** What labels and law say, whatever else happened on the farm. A cow's file is opened anew where they change. */
export type Labels = Pick<Farm, 'schedule' | 'listings'>;

/** Names of medicines match without regard to case and spacing; nothing looser. */
export const medicineKey = kept(2_000, (name: string): string =>
  name.normalize('NFC').trim().replace(/\s+/g, ' ').toLowerCase(),
);

/**
 * Where each kind is folded: `farm` here, `cow` in `cow.ts` (who she is in `who.ts`), `book` where entries are sorted out
 * before either. A kind that is missing here does not compile; a house test asks whether the fold picks it up.
 */
export const FOLDED = {
  'farm-set-up': 'farm',
  'medicine-listed': 'farm',
  'medicine-received': 'farm',
  'medicine-disposed': 'farm',
  'head-count': 'farm',
  'milking-finished': 'farm',
  'tank-collection': 'farm',
  'residue-test': 'farm-and-cow',
  'sheet-issued': 'farm',
  'sheet-returned': 'farm',
  'sort-done': 'farm',
  'vet-hold-time': 'farm-and-cow',
  settled: 'farm',
  'cow-entered': 'cow',
  'number-changed': 'cow',
  'cow-left': 'cow',
  calving: 'cow',
  abortion: 'cow',
  service: 'cow',
  'pregnancy-check': 'cow',
  'dry-off': 'cow',
  treatment: 'cow',
  'course-ended': 'cow',
  'milk-hold': 'cow',
  'milk-hold-lifted': 'cow',
  'group-move': 'cow',
  'sort-request': 'cow',
  'milk-record': 'cow',
  'entry-struck': 'book',
  'book-continued': 'book',
} as const satisfies Readonly<Record<Entry['type'], 'farm' | 'cow' | 'farm-and-cow' | 'book'>>;
type FarmKind = {
  [T in Entry['type']]: (typeof FOLDED)[T] extends 'farm' | 'farm-and-cow' ? T : never;
}[Entry['type']];
const FARM_KINDS = ENTRY_TYPES.filter((type) => FOLDED[type].startsWith('farm'));

/** The farm's entries by kind, each kind in fold order. */
export type FarmEntries = ReadonlyMap<Entry['type'], readonly Entry[]>;

/** `entries`: live ones (not struck) in fold order. */
export const farmEntries = (entries: readonly Entry[]): FarmEntries => {
  const kinds = new Map<Entry['type'], Entry[]>(FARM_KINDS.map((kind) => [kind, []]));
  for (const entry of entries) kinds.get(entry.type)?.push(entry);
  return kinds;
};

/** The same with some entries more and some less; kinds that none of them has stay the very same lists. */
export const farmEntriesWith = (
  before: FarmEntries,
  more: readonly Entry[],
  without: ReadonlySet<Entry>,
): FarmEntries => {
  const changed = new Set([...more, ...without].map(({ type }) => type));
  return new Map(
    [...before].map(([kind, entries]) => [
      kind,
      changed.has(kind)
        ? merged(
            entries.filter((entry) => !without.has(entry)),
            more.filter(({ type }) => type === kind),
          )
        : entries,
    ]),
  );
};

/** What the farm's entries say. Lists that are those of `before` say what they said then. */
export const foldFarm = (
  entries: FarmEntries,
  before?: { readonly entries: FarmEntries; readonly farm: Farm },
): Farm => {
  const only = <T extends FarmKind>(type: T) => (entries.get(type) ?? []) as unknown as readonly EntryOf<T>[];
  const from = <T extends FarmKind, Field extends keyof Farm>(
    type: T,
    field: Field,
    fold: (entries: readonly EntryOf<T>[]) => Farm[Field],
  ): Farm[Field] =>
    before !== undefined && before.entries.get(type) === entries.get(type) ? before.farm[field] : fold(only(type));
  return {
    schedule: from('farm-set-up', 'schedule', scheduleOf),
    listings: from('medicine-listed', 'listings', listingsOf),
    headCounts: only('head-count'),
    finished: from(
      'milking-finished',
      'finished',
      (finished) => new Map(finished.map((entry) => [entry.data.milking, entry.at])),
    ),
    collections: only('tank-collection'),
    tankTests: from('residue-test', 'tankTests', (tests) => tests.filter((entry) => entry.data.of === 'tank')),
    issued: only('sheet-issued'),
    returned: from('sheet-returned', 'returned', (returned) => new Set(returned.map((entry) => entry.data.ref))),
    received: only('medicine-received'),
    disposed: only('medicine-disposed'),
    sorted: from(
      'sort-done',
      'sorted',
      (done) => new Map(done.map((entry) => [entry.data.request, entry.at] as const).reverse()),
    ),
    vetTimes: from('vet-hold-time', 'vetTimes', vetTimesOf),
    settled: from('settled', 'settled', (settled) => new Set(settled.map((entry) => entry.data.about))),
  };
};

const vetTimesOf = (entries: readonly EntryOf<'vet-hold-time'>[]): Farm['vetTimes'] => {
  const times = new Map<string, EntryOf<'vet-hold-time'>[]>();
  for (const entry of entries) {
    const have = times.get(entry.data.treatment);
    if (have === undefined) times.set(entry.data.treatment, [entry]);
    else have.push(entry);
  }
  return times;
};

const listingsOf = (entries: readonly EntryOf<'medicine-listed'>[]): Farm['listings'] => {
  const listings = new Map<string, Listing[]>();
  for (const entry of entries) {
    const key = medicineKey(entry.data.name);
    const listing = { id: entry.id, at: entry.at, data: entry.data };
    const have = listings.get(key);
    if (have === undefined) listings.set(key, [listing]);
    else have.push(listing);
  }
  return listings;
};
