/** The fold for the farm: set-ups, labels, counts, milkings finished, tank, issued sheets, settled keys. One pass, fold order. */
import type { Entry, EntryOf } from '../events/entry.ts';
import type { MedicineListed } from '../events/kinds/medicine-listed.ts';
import type { Instant } from '../shared/instant.ts';
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
  /** Keys of doubts, alerts and things set aside that a person has settled. */
  readonly settled: ReadonlySet<string>;
}

/** Names of medicines match without regard to case and spacing; nothing looser. */
export const medicineKey = (name: string): string => name.normalize('NFC').trim().replace(/\s+/g, ' ').toLowerCase();

type FarmKind =
  | 'farm-set-up'
  | 'medicine-listed'
  | 'medicine-received'
  | 'medicine-disposed'
  | 'head-count'
  | 'milking-finished'
  | 'tank-collection'
  | 'residue-test'
  | 'sheet-issued'
  | 'sheet-returned'
  | 'sort-done'
  | 'settled';

/** `entries`: live ones (not struck) in fold order. */
export const foldFarm = (entries: readonly Entry[]): Farm => {
  const kinds = byKind(entries);
  const only = <T extends FarmKind>(type: T) => (kinds.get(type) ?? []) as unknown as EntryOf<T>[];
  const listings = new Map<string, Listing[]>();
  for (const entry of only('medicine-listed')) {
    const key = medicineKey(entry.data.name);
    const listing = { id: entry.id, at: entry.at, data: entry.data };
    const have = listings.get(key);
    if (have === undefined) listings.set(key, [listing]);
    else have.push(listing);
  }
  return {
    schedule: scheduleOf(only('farm-set-up')),
    listings,
    headCounts: only('head-count'),
    finished: new Map(only('milking-finished').map((entry) => [entry.data.milking, entry.at])),
    collections: only('tank-collection'),
    tankTests: only('residue-test').filter((entry) => entry.data.of === 'tank'),
    issued: only('sheet-issued'),
    returned: new Set(only('sheet-returned').map((entry) => entry.data.ref)),
    received: only('medicine-received'),
    disposed: only('medicine-disposed'),
    sorted: new Map(
      only('sort-done')
        .map((entry) => [entry.data.request, entry.at] as const)
        .reverse(),
    ),
    settled: new Set(only('settled').map((entry) => entry.data.about)),
  };
};

/** Entries by kind, each kind in the order given. */
const byKind = (entries: readonly Entry[]): ReadonlyMap<Entry['type'], readonly Entry[]> => {
  const kinds = new Map<Entry['type'], Entry[]>();
  for (const entry of entries) {
    const have = kinds.get(entry.type);
    if (have === undefined) kinds.set(entry.type, [entry]);
    else have.push(entry);
  }
  return kinds;
};
