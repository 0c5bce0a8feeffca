/**
 * A farm's time zone as a small searched table of its offset changes, read year by year from the IANA
 * data through Luxon (which costs tens of microseconds a question; the table costs a fraction of one).
 * Offsets alone are used, never a daylight-saving flag: Dublin's winter time is stored as a negative one.
 */
import { IANAZone } from 'luxon';
import { DAY, type Instant, MINUTE } from './instant.ts';
import { dayFromNumber, dayNumber, type LocalDay } from './local-day.ts';
import { accepted, type Result, refused } from './refusal.ts';

export interface Zone {
  readonly name: string;
  /** The farm's date at an instant. */
  dayOf(instant: Instant): LocalDay;
  /** Minutes since the wall's midnight at an instant (fractions for seconds). */
  wallMinutes(instant: Instant): number;
  /**
   * The instant of a wall time (minutes after midnight) on a date: the first of the two where clocks repeat it,
   * the first instant after the gap where they skip it; `undefined` on a date the zone never had.
   */
  at(day: LocalDay, minutes: number): Instant | undefined;
  /** True where the wall time falls into a gap of the clocks on that date. */
  skips(day: LocalDay, minutes: number): boolean;
  /** The first instant of a date, or of the next date that exists. */
  startOfDay(day: LocalDay): Instant;
}

interface Change {
  readonly at: number;
  /** Minutes east of UTC from `at` on. */
  readonly offset: number;
}

const PROBE = 4 * DAY;
const known = new Map<string, Zone>();

/** Refuses a name that the IANA data does not have. */
export const parseZone = (name: string): Result<Zone> => {
  const have = known.get(name);
  if (have !== undefined) return accepted(have);
  if (!IANAZone.isValidZone(name)) {
    return refused(`"${name.slice(0, 60)}" is not a time zone; use an IANA name such as Europe/Dublin`);
  }
  const zone = makeZone(name);
  known.set(name, zone);
  return accepted(zone);
};

const makeZone = (name: string): Zone => {
  const iana = IANAZone.create(name);
  const years = new Map<number, readonly Change[]>();

  const changesIn = (year: number): readonly Change[] => {
    const have = years.get(year);
    if (have !== undefined) return have;
    const from = Date.UTC(year, 0, 1);
    const to = Date.UTC(year + 1, 0, 1);
    const found: Change[] = [{ at: from, offset: iana.offset(from) }];
    for (let probe = from; probe < to; probe += PROBE) {
      let low = probe;
      const high = Math.min(probe + PROBE, to);
      const before = iana.offset(low);
      if (iana.offset(high) === before) continue;
      let top = high;
      while (top - low > 1) {
        const middle = Math.floor((low + top) / 2);
        if (iana.offset(middle) === before) low = middle;
        else top = middle;
      }
      if (top < to) found.push({ at: top, offset: iana.offset(top) });
    }
    years.set(year, found);
    return found;
  };

  const offsetAt = (instant: number): number => {
    const changes = changesIn(new Date(instant).getUTCFullYear());
    let offset = changes[0]?.offset ?? 0;
    for (const change of changes) {
      if (change.at > instant) break;
      offset = change.offset;
    }
    return offset;
  };

  const localOf = (instant: number): number => instant + offsetAt(instant) * MINUTE;

  const candidates = (local: number): number[] => {
    const offsets = new Set([offsetAt(local - 26 * 60 * MINUTE), offsetAt(local), offsetAt(local + 26 * 60 * MINUTE)]);
    return [...offsets]
      .map((offset) => local - offset * MINUTE)
      .filter((instant) => localOf(instant) === local)
      .sort((a, b) => a - b);
  };

  const gapEnd = (local: number): number => {
    let low = local - 28 * 60 * MINUTE;
    let high = local + 28 * 60 * MINUTE;
    while (high - low > 1) {
      const middle = Math.floor((low + high) / 2);
      if (localOf(middle) < local) low = middle;
      else high = middle;
    }
    return high;
  };

  const dayOf = (instant: Instant): LocalDay => dayFromNumber(Math.floor(localOf(instant) / DAY));
  const exists = (day: LocalDay): boolean => {
    const noon = dayNumber(day) * DAY + DAY / 2;
    return candidates(noon).length > 0 || Math.floor(localOf(gapEnd(noon)) / DAY) === dayNumber(day);
  };

  return {
    name,
    dayOf,
    wallMinutes: (instant) => (((localOf(instant) % DAY) + DAY) % DAY) / MINUTE,
    at: (day, minutes) => {
      const local = dayNumber(day) * DAY + minutes * MINUTE;
      const first = candidates(local)[0];
      if (first !== undefined) return first as Instant;
      return exists(day) ? (gapEnd(local) as Instant) : undefined;
    },
    skips: (day, minutes) => candidates(dayNumber(day) * DAY + minutes * MINUTE).length === 0,
    startOfDay: (day) => {
      const local = dayNumber(day) * DAY;
      return (candidates(local)[0] ?? gapEnd(local)) as Instant;
    },
  };
};
