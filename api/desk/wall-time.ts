/** A date and a time as a person reads them off the farm's clock, to and from an instant. Never guesses. */
import { type Instant, MINUTE } from '../../shared/instant.ts';
import { type LocalDay, parseLocalDay } from '../../shared/local-day.ts';
import { accepted, type Result, refused } from '../../shared/refusal.ts';
import type { Zone } from '../../shared/zone.ts';
import { say } from './say.tsx';

/** What a browser sends of a field for date and time; seconds and a space for the T are taken too. */
const WALL = /^(\d{4}-\d{2}-\d{2})[T ]([01]\d|2[0-3]):([0-5]\d)(?::00)?$/;

/** Clocks are put back by an hour nearly everywhere, by half of one in a few places. */
const PUT_BACK = [30, 60, 120];

export const readWall = (zone: Zone, text: string): Result<Instant> => {
  const [, date = '', hour = '', minute = ''] = WALL.exec(text) ?? [];
  if (date === '')
    return refused(
      say('"{text}" is not a date and a time; write it like 2026-03-14 16:40', { text: text.slice(0, 40) }),
    );
  const day = parseLocalDay(date);
  if (!day.ok) return day;
  const minutes = Number(hour) * 60 + Number(minute);
  const time = `${date} ${hour}:${minute}`;
  const [first, again] = wallInstants(zone, day.value, minutes);
  if (first === undefined)
    return refused(
      say('{time} never was: the clocks of {zone} skipped it; give a time before or after', { time, zone: zone.name }),
    );
  return again === undefined
    ? accepted(first)
    : refused(
        say('{time} came twice when the clocks of {zone} were put back; give a time before or after that hour', {
          time,
          zone: zone.name,
        }),
      );
};

/** Each instant at which a clock on the wall showed that time of that day: none where it was skipped, two where it came again. */
export const wallInstants = (zone: Zone, day: LocalDay, minutes: number): readonly Instant[] => {
  const first = zone.at(day, minutes);
  if (first === undefined || zone.skips(day, minutes)) return [];
  const again = PUT_BACK.map((later) => (first + later * MINUTE) as Instant).filter(
    (other) => zone.dayOf(other) === day && zone.wallMinutes(other) === minutes,
  );
  return [first, ...again];
};

/** As a field for date and time wants it. */
export const wallText = (zone: Zone, instant: Instant): string => `${zone.dayOf(instant)}T${clockText(zone, instant)}`;

export const clockText = (zone: Zone, instant: Instant): string => {
  const minutes = Math.floor(zone.wallMinutes(instant));
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
};

const two = (value: number): string => String(value).padStart(2, '0');
