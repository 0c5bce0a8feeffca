/** Wall times as instants for the second reading: R-01 by trying the zone's offsets one after the other. */
import { DateTime } from 'luxon';

export const MINUTE = 60_000;
export const HOUR = 60 * MINUTE;
export const DAY = 24 * HOUR;

const offset = (zone: string, instant: number): number => DateTime.fromMillis(instant, { zone }).offset * MINUTE;

/** The day a clock on the farm's wall shows. */
export const dayOf = (zone: string, instant: number): string =>
  new Date(instant + offset(zone, instant)).toISOString().slice(0, 10);

export const dayAfter = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + days * DAY).toISOString().slice(0, 10);

const kept = new Map<string, number>();

/** When the wall shows this day and time: the first of two, or the first instant after a gap. */
export const wallTime = (zone: string, day: string, time: string): number => {
  const key = `${zone} ${day} ${time}`;
  const before = kept.get(key);
  if (before !== undefined) return before;
  const found = lookFor(zone, Date.parse(`${day}T${time}:00Z`));
  kept.set(key, found);
  return found;
};

const lookFor = (zone: string, shown: number): number => {
  const candidates = [shown - offset(zone, shown - DAY), shown - offset(zone, shown + DAY)].sort((a, b) => a - b);
  for (const instant of candidates) if (instant + offset(zone, instant) === shown) return instant;
  // A gap: the minute at which the wall's clock jumps past what it should show.
  for (let instant = shown - DAY; ; instant += MINUTE) if (instant + offset(zone, instant) >= shown) return instant;
};

/** Midnight after that day. */
export const endOfDay = (zone: string, day: string): number => wallTime(zone, dayAfter(day, 1), '00:00');
