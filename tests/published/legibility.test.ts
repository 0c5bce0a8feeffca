/**
 * Heights that can be read at a distance: height = 2 × distance × tan(angle ÷ 2), with the 16 arc-minutes that ISO 9241-303 and
 * NUREG-0700 give as the least and the 20 that they prefer, against the sizes that the sheets are set in.
 */
import { describe, expect, test } from 'vitest';
import { CAPITAL, NUMBER_AIM, NUMBER_LEAST, TEXT } from '../../print/sizes.ts';

const height = (metres: number, arcMinutes: number): number =>
  2 * metres * 1_000 * Math.tan(((arcMinutes / 60) * Math.PI) / 180 / 2);
const millimetres = (points: number): number => (points * CAPITAL * 25.4) / 72;
const COPIER = 0.94;

describe('legibility', () => {
  test.each([
    [0.7, 16, 3.26],
    [1, 16, 4.65],
    [1.5, 16, 6.98],
    [2, 16, 9.31],
    [1.5, 20, 8.73],
  ])('at %f m, %i arc-minutes are %f mm (ISO 9241-303, NUREG-0700)', (metres, arcMinutes, expected) => {
    expect(height(metres, arcMinutes)).toBeCloseTo(expected, 2);
  });

  test('cow numbers keep 16 arc-minutes at 1.5 m on a copy shrunk to 94 %, and aim for 20 on the sheet itself', () => {
    expect(millimetres(NUMBER_LEAST) * COPIER).toBeGreaterThanOrEqual(height(1.5, 16));
    expect(millimetres(NUMBER_AIM)).toBeGreaterThanOrEqual(height(1.5, 20));
  });

  test('all else that the crew act on keeps 16 arc-minutes at 0.7 m on a shrunken copy', () => {
    expect(millimetres(TEXT) * COPIER).toBeGreaterThanOrEqual(height(0.7, 16));
  });
});
