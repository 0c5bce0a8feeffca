/**
 * Days counted on the calendar, against worked examples printed by others and against the Temporal polyfill.
 * Sources beside each: Clemson Extension's worked examples for dairy records; the 283-day gestation table, worked
 * from the calendar; ICAR Section 2's test-interval example, its inputs from memory.
 */
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { addDays, daysBetween, type LocalDay, parseLocalDay, weekdayOf } from '../../shared/local-day.ts';
import { mustBe } from '../../shared/refusal.ts';

const day = (text: string): LocalDay => mustBe(parseLocalDay(text));

describe('Clemson Extension, worked examples', () => {
  test('R-42 a service on 10 February 1995 is due 283 days on, 20 November 1995', () => {
    expect(addDays(day('1995-02-10'), 283)).toBe('1995-11-20');
  });
  test('R-42 a calving on 5 March 1996 comes of a service 283 days before, 27 May 1995', () => {
    expect(addDays(day('1996-03-05'), -283)).toBe('1995-05-27');
  });
  test('a calving interval from 25 January 1995 to 5 March 1996 is 405 days', () => {
    expect(daysBetween(day('1995-01-25'), day('1996-03-05'))).toBe(405);
  });
});

describe('Gestation table, 283 days', () => {
  test.each([
    ['2025-01-01', '2025-10-11', '2024-01-01', '2024-10-10'],
    ['2025-02-01', '2025-11-11', '2024-02-01', '2024-11-10'],
    ['2025-07-01', '2026-04-10', '2027-07-01', '2028-04-09'],
    ['2025-12-01', '2026-09-10', '2027-12-01', '2028-09-09'],
  ])(
    'R-42 served %s is due %s; served %s, with 29 February inside, a date earlier: %s',
    (served, due, leap, earlier) => {
      expect(addDays(day(served), 283)).toBe(due);
      expect(addDays(day(leap), 283)).toBe(earlier);
    },
  );
});

describe('ICAR Section 2, test-interval example (inputs from memory)', () => {
  test('R-41 calved 25 March, tested 8 April: 14 days in milk, the calving day being day 0', () => {
    expect(daysBetween(day('2025-03-25'), day('2025-04-08'))).toBe(14);
    expect(daysBetween(day('2025-03-25'), day('2025-03-25'))).toBe(0);
  });
  test('R-41 calved 25 March, lactation ended 3 January: 284 days', () => {
    expect(daysBetween(day('2025-03-25'), day('2026-01-03'))).toBe(284);
  });
});

describe('the Temporal polyfill', () => {
  const days = fc
    .integer({ min: -25_000, max: 50_000 })
    .map((number) => Temporal.PlainDate.from('1970-01-01').add({ days: number }));

  test('days added, days between and weekdays agree over thousands of dates', () => {
    fc.assert(
      fc.property(days, days, fc.integer({ min: -1_000, max: 1_000 }), (from, to, step) => {
        const ours = day(from.toString());
        expect(addDays(ours, step)).toBe(from.add({ days: step }).toString());
        expect(daysBetween(ours, day(to.toString()))).toBe(from.until(to, { largestUnit: 'days' }).days);
        expect(weekdayOf(ours)).toBe(from.toLocaleString('en', { weekday: 'long' }).toLowerCase());
      }),
      { seed: 283, numRuns: 3_000 },
    );
  });
});
