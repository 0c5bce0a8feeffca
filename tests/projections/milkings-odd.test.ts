/** Milkings of odd days and farms. */
import { describe, expect, test } from 'vitest';
import { CUPBOARD, dose, evening, farm, farmWide, milker, type Saying } from './evening.ts';

const said = (setUp: Saying, time: string): Saying => ({ ...setUp, time });
const withoutFrom = (setUp: Saying): Saying => {
  const { from: _, ...data } = setUp.data as { from?: string };
  return { ...setUp, data };
};
const once = (name: string, start: string) => ({ milkings: [{ name, start }] });

describe('the schedule', () => {
  test('R-01 a date that a zone never had has no milkings, and the ones beside it have theirs', () => {
    const book = evening([farm({ timeZone: 'Pacific/Apia' })]);
    expect(() => book.at('2011-12-30/morning')).toThrow();
    expect(book.at('2011-12-29/morning').nextMilking?.id).toBe('2011-12-29/afternoon');
    expect(book.at('2011-12-29/afternoon').nextMilking?.id).toBe('2011-12-31/morning');
  });

  test('R-01 half an hour of daylight saving is half an hour: Lord Howe skips 02:00 to 02:30', () => {
    const book = evening([farm({ timeZone: 'Australia/Lord_Howe', ...once('night', '02:15') })]);
    // 4 October 2026: until then UTC+10:30, from 02:00 (15:30 UTC the day before) UTC+11.
    expect(book.at('2026-10-04/night').milking.start).toBe('2026-10-03T15:30:00Z');
    expect(book.at('2026-10-05/night').milking.start).toBe('2026-10-04T15:15:00Z');
  });

  test('R-02 the first set-up governs the date it was made on, the next one from the day after', () => {
    const first = withoutFrom(said(farm(once('dawn', '03:00')), '2026-02-10T08:00:00Z'));
    const second = withoutFrom(said(farm(once('noon', '12:00'), 'second'), '2026-02-20T23:30:00Z'));
    const book = evening([first, second]);
    expect(book.at('2026-02-10/dawn').milking.id).toBe('2026-02-10/dawn');
    expect(book.at('2026-02-20/dawn').nextMilking?.id).toBe('2026-02-21/noon');
  });

  test('R-02 a set-up without a date counts from the day after its own date in the zone of the farm', () => {
    // 20 February 23:30 UTC is the 21st in Auckland: in force from the 22nd.
    const zone = { timeZone: 'Pacific/Auckland' };
    const first = farm({ ...zone, ...once('dawn', '03:00') });
    const second = withoutFrom(said(farm({ ...zone, ...once('noon', '12:00') }, 'second'), '2026-02-20T23:30:00Z'));
    expect(evening([first, second]).at('2026-02-21/dawn').nextMilking?.id).toBe('2026-02-22/noon');
  });

  test('R-03 one milking a day: holds, the treat list and the next milking go by it', () => {
    const book = evening([
      farm(once('morning', '06:00')),
      ...CUPBOARD,
      milker('412'),
      dose('412', '2026-03-14T06:05:00Z', { course: { id: 'c1', dose: 1, of: 2, everyHours: 24 } }),
    ]);
    const sheet = book.at('2026-03-15/morning').sheets['milk-hold'];
    expect(sheet.treat.map((row) => [row.cow, row.dose])).toEqual([['412', 2]]);
    // Planned last 15 March 06:05 and sixty hours: 17 March 18:05.
    expect(sheet.held[0]).toMatchObject({
      until: '2026-03-17T18:05:00Z',
      tankFrom: '2026-03-18/morning',
      milkingsLeft: 3,
    });
  });

  test('R-03 four milkings a day, unevenly spaced', () => {
    const milkings = [
      { name: 'one', start: '04:00' },
      { name: 'two', start: '09:00' },
      { name: 'three', start: '15:30' },
      { name: 'four', start: '21:00' },
    ];
    const book = evening([farm({ milkings }), ...CUPBOARD, milker('412'), dose('412', '2026-03-14T09:00:00Z')]);
    // Ends 16 March 21:00, the very start of the last milking.
    expect(book.held('412', '2026-03-14/three')).toMatchObject({ tankFrom: '2026-03-17/one', milkingsLeft: 10 });
  });

  test('R-04 the plan says how long a milking runs: more cows, longer', () => {
    // Eleven cows at ten stalls are two turns of ten minutes: 16:50, and an hour.
    const cows = Array.from({ length: 11 }, (_, index) => milker(String(100 + index)));
    const book = evening([farm(), ...cows]);
    expect([book.next('2026-03-14T17:50:00Z'), book.next('2026-03-14T17:51:00Z')]).toEqual([
      '2026-03-14/afternoon',
      '2026-03-15/morning',
    ]);
  });

  test('R-04 a finish written for another milking ends that one only', () => {
    const other = farmWide('milking-finished', '2026-03-14T16:35:00Z', { milking: '2026-03-13/afternoon' });
    expect(evening([farm(), milker('412'), other]).next('2026-03-14T16:40:00Z')).toBe('2026-03-14/afternoon');
  });
});
