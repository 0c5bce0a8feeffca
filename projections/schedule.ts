/** The farm's milkings as instants, and the set-up in force on a date. */
import type { EntryOf } from '../events/entry.ts';
import type { FarmSetUp } from '../events/kinds/farm-set-up.ts';
import type { Instant } from '../shared/instant.ts';
import { addDays, type LocalDay } from '../shared/local-day.ts';
import { dayOfMilking, type MilkingId, milkingId, nameOfMilking } from '../shared/milking-id.ts';
import { mustBe } from '../shared/refusal.ts';
import { parseZone, type Zone } from '../shared/zone.ts';
import { remembered } from './remembered.ts';

export interface Milking {
  readonly id: MilkingId;
  readonly day: LocalDay;
  readonly name: string;
  readonly start: Instant;
}

export interface SetUp {
  readonly id: string;
  readonly at: Instant;
  readonly from: LocalDay;
  readonly zone: Zone;
  readonly data: FarmSetUp;
}

export interface Schedule {
  readonly setUps: readonly SetUp[];
  /** The set-up in force on a date. */
  readonly inForceOn: (day: LocalDay) => SetUp;
  readonly inForceAt: (instant: Instant) => SetUp;
  readonly dayOf: (instant: Instant) => LocalDay;
  /** The milkings of a date, by start. */
  readonly on: (day: LocalDay) => readonly Milking[];
  /** A milking by its id; `undefined` where the schedule has none of that name on that date. */
  readonly find: (id: string) => Milking | undefined;
  /** The same; where a later set-up calls that date's milkings otherwise, as the last one that had one of that name. */
  readonly findEver: (id: string) => Milking | undefined;
  /** Milkings that start strictly after the instant, without end. */
  readonly after: (instant: Instant) => Iterable<Milking>;
  /** The last milking that starts at or before the instant. */
  readonly startedBy: (instant: Instant) => Milking | undefined;
  /** The milking whose start is nearest; a tie goes to the earlier. */
  readonly nearest: (instant: Instant) => Milking | undefined;
}

/** A date is looked for this far on before a schedule counts as empty (a zone can lose a day). */
const HORIZON_DAYS = 800;

export const scheduleOf = (entries: readonly EntryOf<'farm-set-up'>[]): Schedule | undefined => {
  const setUps = entries.map((entry): SetUp => {
    const zone = mustBe(parseZone(entry.data.timeZone));
    const from = (entry.data.from as LocalDay | undefined) ?? addDays(zone.dayOf(entry.at), 1);
    return { id: entry.id, at: entry.at, from, zone, data: entry.data };
  });
  const first = setUps[0];
  return first === undefined ? undefined : makeSchedule(setUps, first);
};

const makeSchedule = (setUps: readonly SetUp[], first: SetUp): Schedule => {
  const days = new Map<LocalDay, readonly Milking[]>();

  const inForceOn = (day: LocalDay): SetUp => setUps.findLast((each) => each.from <= day) ?? first;

  // The zone may change with the set-up; the farm's date at an instant is that of the zone in force on it.
  const dayOf = (instant: Instant): LocalDay => {
    const guess = first.zone.dayOf(instant);
    return setUps.length === 1 ? guess : inForceOn(guess).zone.dayOf(instant);
  };

  const on = (day: LocalDay): readonly Milking[] => {
    const have = days.get(day);
    if (have !== undefined) return have;
    const found = milkingsBy(inForceOn(day), day);
    days.set(day, found);
    return found;
  };

  const find = (id: string): Milking | undefined => named(on(dayOfMilking(id as MilkingId)), id);

  const gone = new Map<string, Milking | undefined>();
  const findEver = (id: string): Milking | undefined => {
    const now = find(id);
    if (now !== undefined || gone.has(id)) return now ?? gone.get(id);
    const day = dayOfMilking(id as MilkingId);
    const once = setUps.toReversed().flatMap((setUp) => named(milkingsBy(setUp, day), id) ?? [])[0];
    gone.set(id, once);
    return once;
  };

  function* after(instant: Instant): Iterable<Milking> {
    let day = addDays(dayOf(instant), -1);
    for (let ahead = 0; ahead < HORIZON_DAYS; ahead += 1, day = addDays(day, 1)) {
      for (const milking of on(day)) if (milking.start > instant) yield milking;
    }
  }

  const startedBy = (instant: Instant): Milking | undefined => {
    const today = dayOf(instant);
    for (let back = -1; back <= 8; back += 1) {
      const found = on(addDays(today, -back)).findLast((milking) => milking.start <= instant);
      if (found !== undefined) return found;
    }
    return undefined;
  };

  return {
    setUps,
    inForceOn,
    inForceAt: (instant) => inForceOn(dayOf(instant)),
    dayOf,
    on,
    find,
    findEver,
    after,
    startedBy,
    nearest: (instant) => {
      const before = startedBy(instant);
      const next = firstOf(after(instant));
      if (before === undefined || next === undefined) return before ?? next;
      return instant - before.start <= next.start - instant ? before : next;
    },
  };
};

/** A set-up and those made at one and the same time with it, for the same date on; the last of them is in force. */
export const setUpsTogether = (schedule: Schedule, setUp: SetUp): readonly SetUp[] =>
  togetherBy(schedule).get(setUp) ?? [setUp];

const togetherBy = remembered(
  ({ setUps }: Schedule): ReadonlyMap<SetUp, readonly SetUp[]> =>
    new Map(setUps.map((one) => [one, setUps.filter((each) => each.at === one.at && each.from === one.from)])),
);

/** A date's milkings as a set-up has them, by start. */
const milkingsBy = ({ data, zone }: SetUp, day: LocalDay): readonly Milking[] =>
  data.milkings
    .flatMap(({ name, start }): Milking[] => {
      const instant = zone.at(day, minutesOf(start));
      return instant === undefined ? [] : [{ id: milkingId(day, name), day, name, start: instant }];
    })
    .sort((a, b) => a.start - b.start);

const named = (milkings: readonly Milking[], id: string): Milking | undefined =>
  milkings.find((milking) => milking.name === nameOfMilking(id as MilkingId));

/** `HH:MM` as minutes after midnight. */
export const minutesOf = (wall: string): number => Number(wall.slice(0, 2)) * 60 + Number(wall.slice(3));

export const firstOf = <T>(items: Iterable<T>): T | undefined => {
  for (const item of items) return item;
  return undefined;
};

/** The first instant after the last one of a farm-local date: what is known only by its date counts from then. */
export const endOfDay = (zone: Zone, day: LocalDay): Instant => zone.startOfDay(addDays(day, 1));
