/** Points in time: what is read, what is refused, and the arithmetic in hours. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  HOUR,
  type Instant,
  instantText,
  later,
  parseInstant,
  plusHours,
  plusMilliseconds,
} from '../../shared/instant.ts';
import { mustBe } from '../../shared/refusal.ts';

const at = (text: string): Instant => mustBe(parseInstant(text));

describe('reading a time', () => {
  test('every point in time from 1900 on, written in UTC, is read as itself', () => {
    const whole = { min: Date.UTC(1900, 0, 1), max: Date.UTC(9999, 11, 31) };
    fc.assert(
      fc.property(fc.integer(whole), (milliseconds) => {
        const text = new Date(milliseconds).toISOString();
        expect(at(text)).toBe(milliseconds);
        expect(at(`${text.slice(0, 19)}Z`)).toBe(Math.floor(milliseconds / 1_000) * 1_000);
      }),
      { numRuns: 5_000, seed: 20260314 },
    );
  });

  test('a time with any one character changed is read as the calendar reads it, or not at all', () => {
    const chars = fc.constantFrom(...'0123456789:-.TZ /+x'.split(''));
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 23 }), chars, (place, char) => {
        const text = '2026-10-28T12:34:56.789Z';
        const changed = `${text.slice(0, place)}${char}${text.slice(place + 1)}`;
        const read = parseInstant(changed);
        if (read.ok) expect(new Date(changed).getTime()).toBe(read.value);
        else if (changed >= '1900') expect(new Date(changed).toJSON()).not.toBe(changed);
      }),
      { numRuns: 3_000, seed: 20260314 },
    );
  });

  test.each([
    ['2026-03-14T16:40:00Z', Date.UTC(2026, 2, 14, 16, 40)],
    ['2026-03-14T16:40:00+01:00', Date.UTC(2026, 2, 14, 15, 40)],
    ['2026-03-14T16:40:00-04:30', Date.UTC(2026, 2, 14, 21, 10)],
    ['2026-03-14t16:40:00z', Date.UTC(2026, 2, 14, 16, 40)],
    ['2026-03-14T16:40:00.5Z', Date.UTC(2026, 2, 14, 16, 40, 0, 500)],
    ['2026-03-14T16:40:00.123Z', Date.UTC(2026, 2, 14, 16, 40, 0, 123)],
    ['2024-02-29T23:59:59+00:00', Date.UTC(2024, 1, 29, 23, 59, 59)],
    ['1969-12-31T23:00:00-02:00', Date.UTC(1970, 0, 1, 1)],
  ])('%s is one point in time', (text, expected) => {
    expect(at(text)).toBe(expected);
  });

  test.each([
    ['2026-03-14T16:40:00', 'does not say which zone'],
    ['2026-03-14T16:40:00.1234Z', 'finer than milliseconds'],
    ['2026-02-29T16:40:00Z', 'not a date that exists'],
    ['2026-04-31T16:40:00Z', 'not a date that exists'],
    ['2026-13-01T16:40:00Z', 'not a date that exists'],
    ['2026-00-10T16:40:00Z', 'not a date that exists'],
    ['0026-03-14T16:40:00Z', 'not a date that exists'],
    ['2026-03-14T24:00:00Z', 'not a time that exists'],
    ['2026-03-14T16:60:00Z', 'not a time that exists'],
    ['2026-03-14T16:40:60Z', 'not a time that exists'],
    ['2026-03-14T16:40:00+24:00', 'not a time that exists'],
    ['2026-03-14T16:40Z', 'write it like'],
    ['2026-03-14 16:40:00Z', 'write it like'],
    ['14/03/2026 16:40', 'write it like'],
    ['2026-03-14T16:40:00 Z', 'write it like'],
    ['2026-03-14T16:40:00Z\n', 'write it like'],
    ['2026-03-14T16:40:00+0100', 'write it like'],
    ['٢٠٢٦-03-14T16:40:00Z', 'write it like'],
    ['', 'write it like'],
    ['yesterday', 'write it like'],
  ])('"%s" is refused and never guessed: %s', (text, sentence) => {
    expect(parseInstant(text)).toMatchObject({ ok: false, problem: expect.stringContaining(sentence) });
  });

  test('a refusal quotes no more than a glance of a very long text', () => {
    const result = parseInstant('9'.repeat(100_000));
    expect(result.ok ? '' : result.problem.length).toBeLessThan(200);
  });
});

describe('writing and counting', () => {
  test('a time is written in UTC, with its fraction only where it has one, and reads back the same', () => {
    expect(instantText(at('2026-03-14T16:40:00+01:00'))).toBe('2026-03-14T15:40:00Z');
    expect(instantText(at('2026-03-14T16:40:00.120Z'))).toBe('2026-03-14T16:40:00.120Z');
    expect(at(instantText(at('1969-12-31T23:59:59.999Z')))).toBe(-1);
  });
  test('hours may be broken; the result is whole milliseconds', () => {
    const dose = at('2026-03-14T16:40:00Z');
    expect(instantText(plusHours(dose, 60))).toBe('2026-03-17T04:40:00Z');
    expect(instantText(plusHours(dose, 1.5))).toBe('2026-03-14T18:10:00Z');
    expect(Number.isInteger(plusHours(dose, 1 / 3))).toBe(true);
    expect(plusMilliseconds(dose, HOUR)).toBe(plusHours(dose, 1));
  });
  test('the later of two is the same whichever comes first', () => {
    const [early, late] = [at('2026-03-14T16:40:00Z'), at('2026-03-14T16:41:00Z')];
    expect(later(early, late)).toBe(late);
    expect(later(late, early)).toBe(late);
  });
});
