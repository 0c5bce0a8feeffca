/** Holds counted in hours and in milkings. */
import { DAY, HOUR, type Instant, later, plusHours } from '../shared/instant.ts';
import type { Milking, Schedule } from './schedule.ts';

/** Which milkings count for a cow: those her group is milked at while she is in milk. */
export type CountsFor = (milking: Milking) => boolean;

/** The start of the nth milking that counts and starts strictly after an instant; null where she has no such milking ahead. */
export type NthMilking = (after: Instant, n: number) => Instant | null;

/**
 * `now`: the milking the sheet is for. Milkings from it on are judged as she stands then; if n of them do not come within
 * n days (two for luck) of the later of it and the dose, she is not milked, and the count never ends.
 */
export const nthMilkingFor =
  (schedule: Schedule, now: Instant, counts: CountsFor): NthMilking =>
  (after, n) => {
    const limit = later(now, after) + (n + 2) * DAY;
    let left = n;
    for (const milking of schedule.after(after)) {
      if (milking.start > limit) return null;
      if (counts(milking)) left -= 1;
      if (left === 0) return milking.start;
    }
    return null;
  };

export interface HoldLength {
  readonly hours?: number | undefined;
  readonly milkings?: number | undefined;
}

export interface HoldEnd {
  readonly end: Instant | null;
  readonly governs: 'hours' | 'milkings';
  /** Twelve hours a milking, where that governs a hold given in milkings alone. */
  readonly floorHours: number | null;
}

/**
 * When a hold ends. Hours run as elapsed time. Milkings end at the start of the nth. Both: the later.
 * `label`: a label in milkings alone assumes two a day, so it is never less than twelve hours each; a farm's own
 * count of milkings (its fresh hold) is meant as it says.
 */
export const holdEnd = (length: HoldLength, from: Instant, nth: NthMilking, label: boolean): HoldEnd => {
  const byHours = length.hours === undefined ? undefined : plusHours(from, length.hours);
  if (length.milkings === undefined) return { end: byHours ?? from, governs: 'hours', floorHours: null };
  const byMilkings = nth(from, length.milkings);
  if (byMilkings === null) return { end: null, governs: 'milkings', floorHours: null };
  if (byHours !== undefined) {
    return { end: later(byHours, byMilkings), governs: byHours > byMilkings ? 'hours' : 'milkings', floorHours: null };
  }
  const floor = plusHours(from, length.milkings * 12);
  return label && floor > byMilkings
    ? { end: floor, governs: 'milkings', floorHours: (floor - from) / HOUR }
    : { end: byMilkings, governs: 'milkings', floorHours: null };
};
