/** A cow that left and came back under her official number: her holds go on where they were. */
import { describe, expect, test } from 'vitest';
import type { DataOf } from '../../events/kinds.ts';
import { about, CUPBOARD, dose, evening, farm, keysOf, milker, type Saying } from './evening.ts';

const officialId = '999000000000412';
const left = about('412', 'cow-left', '2026-03-10T13:00:00Z', { reason: 'other' });
/** She says no hold that runs, and perhaps the calving that the book knows her by. */
const back = (more: Partial<DataOf<'cow-entered'>> = {}): Saying =>
  about('412', 'cow-entered', '2026-03-14T12:00:00Z', {
    group: 'Cows',
    lactation: 2,
    officialId,
    milkHoldUntil: 'none',
    ...more,
  });
const book = (...more: readonly Saying[]) => evening([farm(), ...CUPBOARD, milker('412', { officialId }), ...more]);

describe('came back', () => {
  test('R-12 milkings while she was away do not count for her, whether her calving is said again or not', () => {
    const treated = dose('412', '2026-03-10T12:00:00Z', { medicine: 'Five milkings' });
    for (const calving of [{}, { calvedOn: '2026-01-05' }]) {
      const held = (milking: string) => book(treated, left, back(calving)).held('412', milking)?.until;
      expect(held('2026-03-14/afternoon')).toBe('2026-03-16T16:30:00Z');
      expect(held('2026-03-16/afternoon')).toBe('2026-03-16T16:30:00Z');
      expect(held('2026-03-17/morning')).toBeUndefined();
    }
  });

  test('R-12 the milkings before she left do count, that of the very minute too', () => {
    const treated = dose('412', '2026-03-08T12:00:00Z', { medicine: 'Five milkings' });
    const gone = { ...left, time: '2026-03-10T05:00:00Z' };
    // The 8th in the afternoon, both of the 9th, the 10th in the morning, and one after she came back.
    const row = book(treated, gone, back({ calvedOn: '2026-01-05' })).held('412', '2026-03-14/afternoon');
    expect(row?.until).toBe('2026-03-14T16:30:00Z');
  });

  test('R-11 hours go on while she is away', () => {
    const treated = dose('412', '2026-03-10T12:00:00Z', { medicine: 'Sixty hours' });
    expect(book(treated, left, back({ calvedOn: '2026-01-05' })).held('412', '2026-03-14/afternoon')).toBeUndefined();
  });

  test('R-19 milked again after a dry-off that names no product she is held, though she says the calving before it', () => {
    const dried = about('412', 'dry-off', '2026-03-08T12:00:00Z', { group: 'Dry' });
    for (const calving of [{}, { calvedOn: '2026-01-05' }]) {
      expect(keysOf(book(dried, left, back(calving)).held('412', '2026-03-14/afternoon'))).toEqual([
        'hold.dry-cow-not-stated',
      ]);
    }
    const stated = about('412', 'dry-off', '2026-03-08T12:00:00Z', { group: 'Dry', product: 'none' });
    expect(book(stated, left, back({ calvedOn: '2026-01-05' })).held('412', '2026-03-14/afternoon')).toBeUndefined();
  });
});
