/** The demo's fixed clock and its sixty days: a farm in Dublin's zone, across the change of clocks on 29 March 2026. */
import { type Instant, plusHours } from '../shared/instant.ts';
import { addDays, dayNumber, type LocalDay, parseLocalDay, type Weekday, weekdayOf } from '../shared/local-day.ts';
import { type MilkingId, milkingId } from '../shared/milking-id.ts';
import { mustBe } from '../shared/refusal.ts';
import { parseZone } from '../shared/zone.ts';

export const DEMO_ZONE = 'Europe/Dublin';
export const DEMO_MILKINGS = [
  { name: 'morning', start: '04:50' },
  { name: 'afternoon', start: '15:20' },
];

const zone = mustBe(parseZone(DEMO_ZONE));

export const day = (text: string): LocalDay => mustBe(parseLocalDay(text));

/** The instant of a time of day on the farm's clock. */
export const at = (date: LocalDay | string, time: string): Instant => {
  const [hour = 0, minute = 0] = time.split(':').map(Number);
  const instant = zone.at(day(date), hour * 60 + minute);
  if (instant === undefined) throw new Error(`${date} never was in ${DEMO_ZONE}`);
  return instant;
};

/** The day the demo plays on, a Tuesday. */
export const TODAY = day('2026-03-31');
/** An hour and a half before the afternoon milking. */
export const DEMO_NOW = at(TODAY, '13:50');
/** Half an hour before the morning milking of the same day: the moment its sheets were issued. */
export const DEMO_EARLIER = at(TODAY, '04:20');
/** The day of the herd list; sixty days before `TODAY`. */
export const HERD_DAY = addDays(TODAY, -60);
export const HERD_AS_OF = zone.startOfDay(HERD_DAY);

export interface DemoMilking {
  readonly id: MilkingId;
  readonly name: string;
  readonly day: LocalDay;
  readonly start: Instant;
}

/** Every milking that had started by now, in order. */
export const PAST_MILKINGS: readonly DemoMilking[] = Array.from({ length: 61 }, (_, index) => addDays(HERD_DAY, index))
  .flatMap((date) =>
    DEMO_MILKINGS.map(({ name, start }) => ({ id: milkingId(date, name), name, day: date, start: at(date, start) })),
  )
  .filter(({ start }) => start < DEMO_NOW);

/** How long a milking of the demo takes, from its start to the last cow out. */
export const endOf = (milking: DemoMilking): Instant => plusHours(milking.start, 3.3);

/** The first such weekday on or after a date. */
export const nextWeekday = (from: LocalDay, weekday: Weekday): LocalDay => {
  let date = from;
  while (weekdayOf(date) !== weekday) date = addDays(date, 1);
  return date;
};

/** The Thursday nearest to a date: the farm dries off on Thursdays. */
export const nearestThursday = (date: LocalDay): LocalDay => nextWeekday(addDays(date, -3), 'thursday');

/** Every second Wednesday the vet checks for pregnancy; the first such day on or after a date. */
export const vetDay = (from: LocalDay): LocalDay => {
  const wednesday = nextWeekday(from, 'wednesday');
  return ((dayNumber(wednesday) - dayNumber(day('2026-03-18'))) / 7) % 2 === 0 ? wednesday : addDays(wednesday, 7);
};
