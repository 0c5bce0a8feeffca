/** Dates on the wall calendar: what is read, what is refused, and the arithmetic in days. */
import { describe, expect, test } from 'vitest';
import { addDays, dayFromNumber, dayNumber, daysBetween, parseLocalDay, weekdayOf } from '../../shared/local-day.ts';
import { mustBe } from '../../shared/refusal.ts';

const day = (text: string) => mustBe(parseLocalDay(text));

describe('reading a date', () => {
  test.each(['2026-03-14', '2024-02-29', '2000-02-29', '1900-01-01'])('%s is a date', (text) => {
    expect(day(text)).toBe(text);
  });
  test.each([
    ['2026-02-29', 'not a date that exists'],
    ['1900-02-29', 'not a date that exists'],
    ['2026-02-30', 'not a date that exists'],
    ['2026-13-01', 'not a date that exists'],
    ['2026-00-01', 'not a date that exists'],
    ['2026-01-00', 'not a date that exists'],
    ['0099-01-01', 'not a date that exists'],
    ['14/03/2026', 'write it like'],
    ['2026-3-14', 'write it like'],
    ['20260314', 'write it like'],
    ['2026-03-14T00:00:00Z', 'write it like'],
    [' 2026-03-14', 'write it like'],
    ['', 'write it like'],
  ])('"%s" is refused: %s', (text, sentence) => {
    expect(parseLocalDay(text)).toMatchObject({ ok: false, problem: expect.stringContaining(sentence) });
  });
});

describe('counting days', () => {
  test('a day has a number, and the number gives the day back, before 1970 too', () => {
    expect(dayNumber(day('1970-01-01'))).toBe(0);
    expect(dayNumber(day('1969-12-31'))).toBe(-1);
    for (const number of [-25_000, -1, 0, 59, 20_526]) expect(dayNumber(dayFromNumber(number))).toBe(number);
  });
  test('days are added over month ends, leap days and year ends', () => {
    expect(addDays(day('2024-02-28'), 1)).toBe('2024-02-29');
    expect(addDays(day('2026-02-28'), 1)).toBe('2026-03-01');
    expect(addDays(day('2026-12-31'), 1)).toBe('2027-01-01');
    expect(addDays(day('2026-01-01'), -1)).toBe('2025-12-31');
  });
  test('days between are negative when the second is earlier', () => {
    expect(daysBetween(day('2026-03-14'), day('2026-03-17'))).toBe(3);
    expect(daysBetween(day('2026-03-17'), day('2026-03-14'))).toBe(-3);
  });
  test('weekdays: 1 January 1970 was a Thursday, the day before a Wednesday, 14 March 2026 a Saturday', () => {
    expect(weekdayOf(day('1970-01-01'))).toBe('thursday');
    expect(weekdayOf(day('1969-12-31'))).toBe('wednesday');
    expect(weekdayOf(day('2026-03-14'))).toBe('saturday');
    expect(weekdayOf(day('1900-01-01'))).toBe('monday');
  });
});
