/**
 * Hours on a label are hours that pass, whatever the clocks on the wall do. Worked cases: the source's own hours
 * added by hand over the clock changes of 2026 (Toronto 8 March and 1 November, Dublin 29 March); then the same
 * arithmetic against the Temporal polyfill.
 */
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { type Instant, plusHours } from '../../shared/instant.ts';
import { parseLocalDay } from '../../shared/local-day.ts';
import { mustBe } from '../../shared/refusal.ts';
import { parseZone } from '../../shared/zone.ts';

const clockOf = (zoneName: string, instant: Instant): string => {
  const zone = mustBe(parseZone(zoneName));
  const minutes = zone.wallMinutes(instant);
  const two = (value: number) => String(value).padStart(2, '0');
  return `${zone.dayOf(instant)} ${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
};

const instantOf = (zoneName: string, text: string): Instant => {
  const [day = '', time = ''] = text.split(' ');
  const [hour = '', minute = ''] = time.split(':');
  const at = mustBe(parseZone(zoneName)).at(mustBe(parseLocalDay(day)), Number(hour) * 60 + Number(minute));
  if (at === undefined) throw new Error(`${text} never was in ${zoneName}`);
  return at;
};

describe('R-11 a clock change never shortens or lengthens a hold', () => {
  test.each([
    ['America/Toronto', '2026-03-07 18:00', 72, '2026-03-10 19:00', 'an hour skipped inside it'],
    ['Europe/Dublin', '2026-03-28 07:00', 60, '2026-03-30 20:00', 'an hour skipped, winter stored as negative'],
    ['America/Toronto', '2026-10-30 18:00', 72, '2026-11-02 17:00', 'an hour repeated inside it'],
  ])('R-11 %s, last dose %s + %i h ends %s by the clock: %s', (zone, dose, hours, ends) => {
    expect(clockOf(zone, plusHours(instantOf(zone, dose), hours))).toBe(ends);
  });

  test('R-11 any number of hours after any dose is the hour that the Temporal polyfill gives, in every zone', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('America/Toronto', 'Europe/Dublin', 'Australia/Lord_Howe', 'Pacific/Apia', 'Africa/Casablanca'),
        fc.integer({ min: Date.UTC(1990, 0, 1) / 60_000, max: Date.UTC(2036, 0, 1) / 60_000 }),
        fc.integer({ min: 1, max: 1_000 }),
        (zone, minute, hours) => {
          const dose = Temporal.Instant.fromEpochMilliseconds(minute * 60_000).toZonedDateTimeISO(zone);
          const ends = dose.add({ hours });
          const ours = plusHours((minute * 60_000) as Instant, hours);
          expect(ours).toBe(ends.epochMilliseconds);
          expect(clockOf(zone, ours)).toBe(ends.toPlainDateTime().toString().slice(0, 16).replace('T', ' '));
        },
      ),
      { seed: 11, numRuns: 4_000 },
    );
  });
});
