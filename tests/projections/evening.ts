/**
 * A farm for the rules: milked 05:00 and 16:30 by UTC clocks, every kind of group, medicines with every kind of label.
 * What is said goes in by the door and comes back by the log's way out (see `tests/published/paper-farm.ts`).
 */
import type { Aside, Entry } from '../../events/entry.ts';
import type { DataOf } from '../../events/kinds.ts';
import { know } from '../../projections/know.ts';
import type { HeldRow, Notice, Views } from '../../projections/views.ts';
import { viewsAt } from '../../projections/views-at.ts';
import { nextMilking } from '../../projections/window.ts';
import { mustBeInstant } from '../../shared/instant.ts';
import { about, entriesOf, farmWide, type Saying } from '../published/paper-farm.ts';

export { about, farmWide, type Saying };

const EARLY = '2026-01-01T09:00:00Z';

/** The farm as set up on 1 January 2026, in force from that day. */
export const farm = (wish: Partial<DataOf<'farm-set-up'>> = {}, id?: string): Saying => ({
  ...farmWide('farm-set-up', EARLY, {
    name: 'Windmill Dairy',
    timeZone: 'UTC',
    from: '2026-01-01',
    milkings: [
      { name: 'morning', start: '05:00' },
      { name: 'afternoon', start: '16:30' },
    ],
    parlour: { stalls: 10, turnMinutes: 10, slowFromMinutes: 10, slowExtraMinutes: 4 },
    groups: [
      { name: 'Heifers', kind: 'milking', takes: 'first-lactation', order: 2 },
      { name: 'Cows', kind: 'milking', takes: 'later-lactations', order: 1 },
      { name: 'Hospital', kind: 'hospital', order: 0 },
      { name: 'Fresh', kind: 'fresh', order: 3 },
      { name: 'Dry', kind: 'dry' },
      { name: 'Close-up', kind: 'close-up' },
    ],
    freshHold: { milkings: 4 },
    freshPenHours: 36,
    dryOff: { days: 60, minimumDays: 45, lookAheadDays: 7, longMilkingDays: 305, product: 'Dry-cow tube' },
    offLabel: 'vet',
    ...wish,
  }),
  ...(id === undefined ? {} : { id }),
});

export const medicine = (
  name: string,
  label: Omit<DataOf<'medicine-listed'>, 'name'>,
  time = EARLY,
  id?: string,
): Saying => ({
  ...farmWide('medicine-listed', time, { name, ...label }),
  ...(id === undefined ? {} : { id }),
});

/** Labels used all over: hours, milkings, both, none, unknown, not for milking cows, dry cow. */
export const CUPBOARD: readonly Saying[] = [
  medicine('Sixty hours', { milkHold: { hours: 60 }, meatDays: 3 }),
  medicine('Five milkings', { milkHold: { milkings: 5 }, meatDays: 10 }),
  medicine('Both', { milkHold: { hours: 60, milkings: 5 }, meatDays: 10 }),
  medicine('Nothing held', { milkHold: 'none', meatDays: 0 }),
  medicine('Not known', { milkHold: 'unknown', meatDays: 'unknown' }),
  medicine('Not for milkers', { milkHold: 'not-for-milking-cows', meatDays: 28 }),
  medicine('Dry-cow tube', {
    milkHold: 'not-for-milking-cows',
    meatDays: 30,
    dryCow: { minimumDryDays: 42, milkHoldAfterCalving: { hours: 96 }, earlyCalving: 'minimum-plus-hold' },
  }),
  medicine('Ask-vet tube', {
    milkHold: 'not-for-milking-cows',
    meatDays: 30,
    dryCow: {
      minimumDryDays: 42,
      milkHoldAfterCalving: { hours: 24 },
      meatHoursAfterCalving: 24,
      earlyCalving: 'ask-vet',
    },
  }),
];

/** In the herd since January, calved 5 January 2026, on no hold. */
export const milker = (cow: string, more: Partial<DataOf<'cow-entered'>> = {}): Saying =>
  about(cow, 'cow-entered', '2026-01-10T12:00:00Z', {
    group: 'Cows',
    lactation: 2,
    calvedOn: '2026-01-05',
    milkHoldUntil: 'none',
    meatHoldUntil: 'none',
    ...more,
  });

/** In the herd since January, dry since the 20th, on no hold. */
export const dryCow = (cow: string, more: Partial<DataOf<'cow-entered'>> = {}): Saying =>
  milker(cow, { group: 'Dry', calvedOn: '2025-02-01', driedOffOn: '2026-01-08', driedOffWith: 'none', ...more });

export const dose = (
  cow: string,
  time: string,
  more: Partial<DataOf<'treatment'>> & { medicine?: string } = {},
  id?: string,
): Saying => about(cow, 'treatment', time, { medicine: 'Sixty hours', ...more }, id);

export interface Evening {
  readonly at: (milking: string, asOf?: string) => Views;
  readonly held: (cow: string, milking: string, asOf?: string) => HeldRow | undefined;
  readonly doubts: (milking: string, key: string) => readonly Notice[];
  readonly next: (now: string) => string | undefined;
  readonly entries: readonly Entry[];
}

/** What is known from all of it; each milking is asked about at its start, unless a time is given. */
export const evening = (sayings: readonly Saying[], asides: readonly Aside[] = []): Evening => {
  const entries = entriesOf(sayings);
  const known = know(entries, asides);
  const { schedule } = known.farm;
  const at: Evening['at'] = (id, asOf) => {
    const milking = schedule?.find(id);
    if (milking === undefined) throw new Error(`${id} is not on the schedule`);
    return viewsAt(known, {
      milking,
      asOf: asOf === undefined ? milking.start : mustBeInstant(asOf),
      position: entries.length,
    });
  };
  return {
    at,
    entries,
    held: (cow, milking, asOf) => at(milking, asOf).sheets['milk-hold'].held.find((row) => row.cow === cow),
    doubts: (milking, key) => at(milking).doubts.filter(({ because }) => because.key === key),
    next: (now) => (schedule === undefined ? undefined : nextMilking(known, schedule, mustBeInstant(now))?.id),
  };
};

export const keysOf = (row: HeldRow | undefined): readonly string[] => (row?.reasons ?? []).map((reason) => reason.key);
