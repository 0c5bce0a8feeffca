/**
 * A small farm for checks against outside sources: what is said goes in by the door that people use and comes back by
 * the log's way out; what is looked at are the views that the sheets are made of.
 */
import { type DoorSettings, readValue } from '../../events/door.ts';
import type { Entry } from '../../events/entry.ts';
import type { DataOf, EntryType } from '../../events/kinds.ts';
import { readStored } from '../../events/stored.ts';
import { entryPage } from '../../events/stored-entry.ts';
import { know } from '../../projections/know.ts';
import type { HeldRow, Views } from '../../projections/views.ts';
import { viewsAt } from '../../projections/views-at.ts';
import { canonicalJson } from '../../shared/fingerprint.ts';
import { instantText, parseInstant } from '../../shared/instant.ts';
import { mustBe } from '../../shared/refusal.ts';

export interface Saying {
  readonly type: EntryType;
  readonly time: string;
  readonly subject?: string;
  readonly id?: string;
  readonly data: unknown;
}

const DOOR: DoorSettings = { source: 'office', author: 'Marta', now: mustBe(parseInstant('2040-01-01T00:00:00Z')) };

/** One thing said about a cow. */
export const about = <T extends EntryType>(
  cow: string,
  type: T,
  time: string,
  data: DataOf<T>,
  id?: string,
): Saying => ({
  type,
  time,
  subject: cow,
  data,
  ...(id === undefined ? {} : { id }),
});

/** One thing said about the farm. */
export const farmWide = <T extends EntryType>(type: T, time: string, data: DataOf<T>): Saying => ({ type, time, data });

/** Through the door and out of the log, in the order said; a refusal fails the test. */
export const entriesOf = (sayings: readonly Saying[]): readonly Entry[] => {
  // As a whole log holds them.
  const page = entryPage(1, sayings.length);
  return sayings.map((saying, index) => {
    const passed = readValue(saying, DOOR);
    if (passed.outcome === 'refused') throw new Error(`${saying.type}: ${passed.problem}`);
    const stored = {
      ...passed.said,
      sequence: String(index + 1).padStart(10, '0'),
      recordedtime: instantText(passed.at),
    };
    const read = readStored({ position: index + 1, entry: canonicalJson(stored), content: passed.content }, page);
    if (!read.ok) throw new Error(`${saying.type}: ${read.unusable.problem}`);
    return read.entry;
  });
};

/** What is known from these sayings, ready to be asked for one milking after another, each at its start. */
export const bookOf = (sayings: readonly Saying[]): ((milking: string) => Views) => {
  const known = know(entriesOf(sayings), []);
  return (id) => {
    const milking = known.farm.schedule?.find(id);
    if (milking === undefined) throw new Error(`${id} is not on the schedule`);
    return viewsAt(known, { milking, asOf: milking.start, position: sayings.length });
  };
};

export const heldRow = (views: Views, cow: string): HeldRow | undefined =>
  views.sheets['milk-hold'].held.find((row) => row.cow === cow);

/** Ids of the milkings at which she is held, of those asked about. */
export const heldAt = (book: (milking: string) => Views, cow: string, milkings: readonly string[]): readonly string[] =>
  milkings.filter((milking) => heldRow(book(milking), cow) !== undefined);

/** Every milking of some dates in March 2026, in order. */
export const march = (days: readonly [from: number, to: number], names: readonly string[]): readonly string[] =>
  Array.from({ length: days[1] - days[0] + 1 }, (_, index) => days[0] + index).flatMap((day) =>
    names.map((name) => `2026-03-${String(day).padStart(2, '0')}/${name}`),
  );

export interface FarmWish {
  readonly zone?: string;
  readonly milkings?: DataOf<'farm-set-up'>['milkings'];
  readonly parlour?: DataOf<'farm-set-up'>['parlour'];
  readonly offLabel?: 'vet' | 'eu-2019-6';
  readonly gestationDays?: number;
  readonly longMilkingDays?: number;
  /** Milkings that the cows' group is milked at; all where it is left out. */
  readonly milkedAt?: readonly string[];
}

/** A farm milked at 05:00 and 17:00 UTC where nothing else is wished for. */
export const setUp = (wish: FarmWish = {}): Saying =>
  farmWide('farm-set-up', '2020-01-01T00:00:00Z', {
    name: 'Willow End',
    timeZone: wish.zone ?? 'UTC',
    from: '2020-01-01',
    milkings: wish.milkings ?? [
      { name: 'morning', start: '05:00' },
      { name: 'afternoon', start: '17:00' },
    ],
    parlour: wish.parlour ?? { stalls: 24, turnMinutes: 12 },
    groups: [
      { name: 'Cows', kind: 'milking', ...(wish.milkedAt === undefined ? {} : { milkedAt: [...wish.milkedAt] }) },
      { name: 'Dry', kind: 'dry' },
    ],
    freshHold: { milkings: 1 },
    dryOff: { days: 60, minimumDays: 45, lookAheadDays: 365, longMilkingDays: wish.longMilkingDays ?? 305 },
    offLabel: wish.offLabel ?? 'vet',
    ...(wish.gestationDays === undefined ? {} : { gestationDays: wish.gestationDays }),
  });

/** A cow in milk for weeks, free of every hold, in the herd since February 2026. */
export const cowInMilk = (cow: string, more: Partial<DataOf<'cow-entered'>> = {}): Saying =>
  about(cow, 'cow-entered', '2026-02-01T12:00:00Z', {
    group: 'Cows',
    lactation: 2,
    calvedOn: '2026-01-05',
    milkHoldUntil: 'none',
    meatHoldUntil: 'none',
    ...more,
  });
