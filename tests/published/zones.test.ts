/**
 * `shared/zone.ts` against an independent implementation: the Temporal polyfill, which follows the ECMAScript Temporal
 * proposal and reads the same IANA data by other means. Zones with odd clocks, thousands of cases from a fixed seed,
 * half of them within three days of a clock change.
 */
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import type { Instant } from '../../shared/instant.ts';
import { DAY, MINUTE } from '../../shared/instant.ts';
import { type LocalDay, parseLocalDay } from '../../shared/local-day.ts';
import { mustBe } from '../../shared/refusal.ts';
import { parseZone } from '../../shared/zone.ts';

const ZONES = [
  'Australia/Lord_Howe', // half an hour of daylight saving
  'Europe/Dublin', // winter time stored as negative daylight saving
  'America/Toronto',
  'America/St_Johns', // changes at one minute past midnight until 2011: a midnight that comes twice
  'Pacific/Apia', // 2011-12-30 never was
  'Africa/Casablanca', // two changes around Ramadan
  'America/Sao_Paulo', // midnight itself skipped until 2018
  'UTC',
];
const SEED = 19_121_007;
const CASES = 3_000;
const FROM = Date.UTC(1970, 0, 1);
const TO = Date.UTC(2037, 11, 31);

const theirs = (instant: number, zone: string): Temporal.ZonedDateTime =>
  Temporal.Instant.fromEpochMilliseconds(instant).toZonedDateTimeISO(zone);

const changesOf = (zone: string): number[] => {
  const found: number[] = [];
  let at: Temporal.ZonedDateTime | null = theirs(FROM, zone).getTimeZoneTransition('next');
  while (at !== null && at.epochMilliseconds < TO) {
    found.push(at.epochMilliseconds);
    at = at.getTimeZoneTransition('next');
  }
  return found;
};

/** Instants over the whole range, half of them close to a change of the zone's clocks, some at the very minute. */
const instants = (zone: string): fc.Arbitrary<number> => {
  const anywhere = fc.integer({ min: FROM, max: TO });
  const changes = changesOf(zone);
  if (changes.length === 0) return anywhere;
  const near = fc
    .tuple(fc.constantFrom(...changes), fc.integer({ min: -3 * DAY, max: 3 * DAY }))
    .map(([change, away]) => change + away);
  const veryNear = fc
    .tuple(fc.constantFrom(...changes), fc.integer({ min: -130, max: 130 }))
    .map(([change, away]) => change + away * MINUTE);
  return fc.oneof(anywhere, near, veryNear);
};

/** What R-01 says, in Temporal's words: the first of two, else the first instant after the gap, else nothing. */
const wanted = (day: string, minutes: number, zone: string): number | undefined => {
  const date = Temporal.PlainDate.from(day);
  if (!date.toZonedDateTime({ timeZone: zone }).toPlainDate().equals(date)) return undefined;
  const wall = date.toPlainDateTime({ hour: Math.floor(minutes / 60), minute: minutes % 60 });
  const earlier = wall.toZonedDateTime(zone, { disambiguation: 'earlier' });
  if (earlier.toPlainDateTime().equals(wall)) return earlier.epochMilliseconds;
  return earlier.getTimeZoneTransition('next')?.epochMilliseconds;
};

const zoneOf = (name: string) => mustBe(parseZone(name));
const run = (zone: string, property: (instant: number) => void) =>
  fc.assert(fc.property(instants(zone), property), { seed: SEED, numRuns: CASES });

describe.each(ZONES)('%s, against the Temporal polyfill', (name) => {
  const zone = zoneOf(name);

  test('an instant has the same local date and wall time in both', () => {
    run(name, (instant) => {
      const there = theirs(instant, name);
      expect(zone.dayOf(instant as Instant)).toBe(there.toPlainDate().toString());
      const seconds = there.hour * 3600 + there.minute * 60 + there.second + there.millisecond / 1000;
      expect(zone.wallMinutes(instant as Instant)).toBeCloseTo(seconds / 60, 6);
    });
  });

  test('R-01 a wall time is the first of two where clocks repeat it, and the first instant after the gap where they skip it', () => {
    run(name, (instant) => {
      const there = theirs(instant, name);
      const day = there.toPlainDate().toString();
      for (const minutes of [there.hour * 60 + there.minute, (there.hour * 60 + there.minute + 45) % 1440]) {
        expect(zone.at(day as LocalDay, minutes), `${day} ${minutes}`).toBe(wanted(day, minutes, name));
      }
    });
  });

  test('a wall time is called skipped exactly when no instant shows it', () => {
    run(name, (instant) => {
      const there = theirs(instant, name);
      const wall = there.toPlainDateTime().round('minute');
      const earlier = wall.toZonedDateTime(name, { disambiguation: 'earlier' });
      const skipped = !earlier.toPlainDateTime().equals(wall);
      const asked = wall.toPlainDate().toString() as LocalDay;
      expect(zone.skips(asked, wall.hour * 60 + wall.minute)).toBe(skipped);
      for (const minutes of [0, 30, 60, 90, 120, 150, 180]) {
        const other = wall.toPlainDate().toPlainDateTime({ hour: Math.floor(minutes / 60), minute: minutes % 60 });
        const back = other.toZonedDateTime(name, { disambiguation: 'earlier' }).toPlainDateTime();
        expect(zone.skips(asked, minutes)).toBe(!back.equals(other));
      }
    });
  });

  test('a day begins at its first instant', () => {
    run(name, (instant) => {
      const day = theirs(instant, name).toPlainDate();
      expect(zone.startOfDay(mustBe(parseLocalDay(day.toString())))).toBe(
        day.toZonedDateTime({ timeZone: name }).epochMilliseconds,
      );
    });
  });
});

describe('named cases', () => {
  const at = (zone: string, day: string, hour: number, minute = 0) => {
    const instant = zoneOf(zone).at(mustBe(parseLocalDay(day)), hour * 60 + minute);
    return instant === undefined ? undefined : new Date(instant).toISOString();
  };

  test('R-01 the day that Apia skipped has no wall time at all, and its neighbours have all of theirs', () => {
    for (let hour = 0; hour < 24; hour += 1) expect(at('Pacific/Apia', '2011-12-30', hour)).toBeUndefined();
    expect(at('Pacific/Apia', '2011-12-29', 23, 59)).toBe('2011-12-30T09:59:00.000Z');
    expect(at('Pacific/Apia', '2011-12-31', 0)).toBe('2011-12-30T10:00:00.000Z');
  });

  test('R-01 a 02:30 milking skipped in Toronto starts at 03:00, not at 03:30', () => {
    expect(at('America/Toronto', '2026-03-08', 2, 30)).toBe('2026-03-08T07:00:00.000Z');
    expect(zoneOf('America/Toronto').skips(mustBe(parseLocalDay('2026-03-08')), 150)).toBe(true);
  });

  test('R-01 a 01:30 milking repeated in Toronto starts at the first 01:30', () => {
    expect(at('America/Toronto', '2026-11-01', 1, 30)).toBe('2026-11-01T05:30:00.000Z');
  });

  test('R-01 Lord Howe skips half an hour: 02:10 starts at 02:30 by the clock, 02:40 is an ordinary time', () => {
    expect(at('Australia/Lord_Howe', '2026-10-04', 2, 10)).toBe('2026-10-03T15:30:00.000Z');
    expect(at('Australia/Lord_Howe', '2026-10-04', 2, 40)).toBe('2026-10-03T15:40:00.000Z');
  });

  test('R-01 Sao Paulo skipped midnight itself: the day and a midnight milking begin at 01:00', () => {
    expect(at('America/Sao_Paulo', '2018-11-04', 0)).toBe('2018-11-04T03:00:00.000Z');
    expect(zoneOf('America/Sao_Paulo').startOfDay(mustBe(parseLocalDay('2018-11-04')))).toBe(Date.UTC(2018, 10, 4, 3));
  });

  test('a farm may have dates before standard time came: Dublin kept 25 minutes and 21 seconds until 1916', () => {
    const there = Temporal.ZonedDateTime.from('1910-05-01T05:00[Europe/Dublin]');
    const zone = zoneOf('Europe/Dublin');
    expect(zone.at(mustBe(parseLocalDay('1910-05-01')), 300)).toBe(there.epochMilliseconds);
    expect(zone.dayOf(there.epochMilliseconds as Instant)).toBe('1910-05-01');
  });
});
