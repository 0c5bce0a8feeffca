/**
 * The milking plan against figures that two universities publish for parlours. University of Wisconsin: 1,000 cows in
 * 7 hours is 143 an hour, and at 4.5 turns an hour wants 32 stalls. Cornell: a double-12 at 4 turns milks 96 cows an
 * hour, 696 in 7¼ hours, and 12 minutes a side are 5 turns. The 300 cows are common practice, without a source.
 */
import { describe, expect, test } from 'vitest';
import { about, bookOf, cowInMilk, setUp } from './paper-farm.ts';

const planFor = (cows: number, stalls: number, turnMinutes: number) =>
  bookOf([
    setUp({ parlour: { stalls, turnMinutes } }),
    ...Array.from({ length: cows }, (_, index) => cowInMilk(String(index + 1))),
  ])('2026-03-02/morning').sheets['milking-plan'];

describe('Cornell', () => {
  test('R-80 a double-12 at four turns an hour milks 96 cows in an hour', () => {
    expect(planFor(96, 24, 15)).toMatchObject({ minutes: 60, ends: '2026-03-02T06:00:00Z' });
  });
  test('R-80 696 cows take 7¼ hours in it, and one cow more a whole turn more', () => {
    expect(planFor(696, 24, 15)).toMatchObject({ minutes: 7.25 * 60, ends: '2026-03-02T12:15:00Z' });
    expect(planFor(697, 24, 15).minutes).toBe(7.25 * 60 + 15);
  });
  test('R-80 twelve minutes a side are five turns an hour', () => {
    const plan = planFor(120, 24, 12);
    expect(plan.groups).toMatchObject([{ group: 'Cows', cows: 120, turns: 5, minutes: 60 }]);
  });
});

describe('University of Wisconsin', () => {
  test('R-80 32 stalls at 4.5 turns an hour milk 1,000 cows in 7 hours, but for the last turn, and 31 do not', () => {
    const turn = 60 / 4.5;
    expect(planFor(1_000, 32, turn).minutes).toBeLessThan(7 * 60 + turn);
    expect(planFor(1_000, 31, turn).minutes).toBeGreaterThan(7 * 60 + turn);
  });
});

describe('common practice, without a source', () => {
  test('R-80 about 300 cows through 24 stalls take between two and a half and three hours', () => {
    const { minutes } = planFor(300, 24, 12);
    expect(minutes).toBeGreaterThanOrEqual(150);
    expect(minutes).toBeLessThanOrEqual(180);
  });

  test('R-81 a cow of five to eight minutes is not slow, one of ten to fifteen is, and is named', () => {
    const records = (cow: string, minutes: readonly number[]) =>
      minutes.map((each, index) => {
        const day = `2026-02-${String(index + 10)}`;
        return about(cow, 'milk-record', `${day}T06:00:00Z`, { milking: `${day}/morning`, kg: 18, minutes: each });
      });
    const plan = bookOf([
      setUp({ parlour: { stalls: 24, turnMinutes: 12, slowFromMinutes: 10, slowExtraMinutes: 4 } }),
      cowInMilk('5'),
      cowInMilk('12'),
      ...records('5', [5, 6, 7, 8, 8, 7, 6, 5, 8, 15]),
      ...records('12', [10, 12, 15, 11, 10, 13, 14, 10, 12, 6]),
    ])('2026-03-02/morning').sheets['milking-plan'];
    expect(plan.slow).toEqual(['12']);
    expect(plan.groups).toMatchObject([{ cows: 2, turns: 1, minutes: 16 }]);
  });
});
