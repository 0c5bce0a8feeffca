/** When a milking is, and how long it goes on. */
import { describe, expect, test } from 'vitest';
import { about, CUPBOARD, dose, evening, farm, farmWide, milker } from './evening.ts';

const start = (sayings: Parameters<typeof evening>[0], id: string) => evening(sayings).at(id).milking.start;

describe('milkings', () => {
  test('R-01 a milking whose wall time the clocks skip starts at the first instant after the gap', () => {
    const setUp = farm({
      timeZone: 'America/Toronto',
      milkings: [
        { name: 'night', start: '02:30' },
        { name: 'noon', start: '12:00' },
      ],
    });
    // 8 March 2026: 02:00 EST becomes 03:00 EDT, which is 07:00 UTC; an hour later would be 07:30.
    expect(start([setUp], '2026-03-08/night')).toBe('2026-03-08T07:00:00Z');
  });

  test('R-01 a milking whose wall time comes twice starts at the first of the two', () => {
    const setUp = farm({
      timeZone: 'America/Toronto',
      milkings: [
        { name: 'night', start: '01:30' },
        { name: 'noon', start: '12:00' },
      ],
    });
    expect(start([setUp], '2026-11-01/night')).toBe('2026-11-01T05:30:00Z');
  });

  test('R-02 a set-up without a "from" is in force from the day after it is said', () => {
    const later = { ...farm({ milkings: [{ name: 'dawn', start: '03:00' }] }), time: '2026-02-10T08:00:00Z' };
    const { from: _, ...data } = later.data as { from?: string };
    const book = evening([farm(), { ...later, data }]);
    expect(book.at('2026-02-10/morning').milking.start).toBe('2026-02-10T05:00:00Z');
    expect(book.at('2026-02-11/dawn').milking.start).toBe('2026-02-11T03:00:00Z');
    expect(() => book.at('2026-02-11/morning')).toThrow();
  });

  test('R-02 a set-up with a "from" waits for it, and the first one governs all earlier dates', () => {
    const later = {
      ...farm({ from: '2026-03-01', milkings: [{ name: 'dawn', start: '03:00' }] }),
      time: '2026-02-10T08:00:00Z',
    };
    const book = evening([farm(), later]);
    expect(book.at('2026-02-28/afternoon').milking.id).toBe('2026-02-28/afternoon');
    expect(book.at('2026-03-01/dawn').milking.id).toBe('2026-03-01/dawn');
    expect(book.at('2025-12-24/morning').milking.start).toBe('2025-12-24T05:00:00Z');
  });

  test('R-03 a group milked at one milking only is not in the plan of the other', () => {
    const groups = [
      { name: 'Cows', kind: 'milking' as const },
      { name: 'Once', kind: 'milking' as const, milkedAt: ['morning'] },
    ];
    const book = evening([farm({ groups }), milker('1'), milker('2', { group: 'Once' })]);
    expect(book.at('2026-03-14/morning').sheets['milking-plan'].groups.map(({ group }) => group)).toEqual([
      'Cows',
      'Once',
    ]);
    expect(book.at('2026-03-14/afternoon').sheets['milking-plan'].groups.map(({ group }) => group)).toEqual(['Cows']);
  });

  test('R-04 the next milking is the running one until its planned end and an hour, then the one after', () => {
    // One cow, one turn of ten minutes: planned end 16:40, running until 17:40, that minute included.
    const book = evening([farm(), milker('1')]);
    expect(book.next('2026-03-14T16:29:00Z')).toBe('2026-03-14/afternoon');
    expect(book.next('2026-03-14T16:30:00Z')).toBe('2026-03-14/afternoon');
    expect(book.next('2026-03-14T17:40:00Z')).toBe('2026-03-14/afternoon');
    expect(book.next('2026-03-14T17:41:00Z')).toBe('2026-03-15/morning');
  });

  test('R-04 a milking that is finished is over, and one that goes on is over when the next starts', () => {
    const finished = farmWide('milking-finished', '2026-03-14T16:50:00Z', { milking: '2026-03-14/afternoon' });
    expect(evening([farm(), milker('1'), finished]).next('2026-03-14T16:51:00Z')).toBe('2026-03-15/morning');
    const endless = farm({ parlour: { stalls: 1, turnMinutes: 240 } });
    const cows = ['1', '2', '3', '4', '5'].map((cow) => milker(cow));
    expect(evening([endless, ...cows]).next('2026-03-15T05:00:00Z')).toBe('2026-03-15/morning');
  });

  test('R-04 a dose inside a running milking holds her at it, and says to ask', () => {
    const book = evening([farm(), ...CUPBOARD, milker('1'), dose('1', '2026-03-14T16:50:00Z')]);
    expect(book.held('1', '2026-03-14/afternoon')?.ask).toBe(true);
    expect(book.held('1', '2026-03-15/morning')?.ask).toBe(false);
  });

  test('R-04 for counting milkings a dose inside a milking comes after it: that milking is not one of the five', () => {
    const book = evening([farm(), ...CUPBOARD, milker('1'), dose('1', '2026-03-14T16:30:00Z', { medicine: 'Both' })]);
    // Five after it: 15 morning and afternoon, 16 morning and afternoon, 17 morning.
    expect(book.held('1', '2026-03-14/afternoon')?.until).toBe('2026-03-17T05:00:00Z');
    expect(book.held('1', '2026-03-14/afternoon')?.milkingsLeft).toBe(6);
  });

  test('R-04 a dose after the window of a milking does not reach back into it', () => {
    const book = evening([farm(), ...CUPBOARD, milker('1'), dose('1', '2026-03-14T17:41:00Z')]);
    expect(book.held('1', '2026-03-14/afternoon')).toBeUndefined();
    expect(book.held('1', '2026-03-15/morning')).toBeDefined();
  });

  test('R-06 a cow is in milk from her calving to her dry-off', () => {
    const book = evening([
      farm(),
      milker('1'),
      about('1', 'dry-off', '2026-03-10T06:00:00Z', { product: 'none', group: 'Dry' }),
    ]);
    const inMilk = (id: string) => book.at(id).sheets.counts.total.inMilk;
    expect([inMilk('2026-03-10/morning'), inMilk('2026-03-10/afternoon')]).toEqual([1, 0]);
  });

  test('R-06 with neither date a cow with a lactation in a milking group is in milk, with a doubt; in a dry group she is not', () => {
    const entered = (cow: string, group: string, lactation: number) =>
      about(cow, 'cow-entered', '2026-01-10T12:00:00Z', {
        group,
        lactation,
        milkHoldUntil: 'none',
        meatHoldUntil: 'none',
      });
    const book = evening([farm(), entered('1', 'Cows', 2), entered('2', 'Dry', 2), entered('3', 'Close-up', 0)]);
    expect(book.at('2026-03-14/morning').sheets.counts.total.inMilk).toBe(1);
    expect(book.doubts('2026-03-14/morning', 'doubt.milk-not-stated').map(({ because }) => because.values)).toEqual([
      { cow: '1', group: 'Cows' },
    ]);
  });

  test('R-07 calvings of one cow within five days are one, at the later time: twins', () => {
    const calving = (time: string) =>
      about('1', 'calving', time, { calves: [{ sex: 'female', alive: true }], group: 'Fresh' });
    const cow = milker('1', {
      group: 'Close-up',
      lactation: 1,
      calvedOn: '2025-01-05',
      driedOffOn: '2026-01-08',
      driedOffWith: 'none',
    });
    const book = evening([farm(), cow, calving('2026-03-10T08:00:00Z'), calving('2026-03-11T09:00:00Z')]);
    // Four milkings after the second calf: 11 afternoon, 12 morning and afternoon, 13 morning.
    expect(book.held('1', '2026-03-12/morning')?.until).toBe('2026-03-13T05:00:00Z');
    expect(book.at('2026-03-14/afternoon').sheets['fresh-moves'].out).toEqual([
      expect.objectContaining({ cow: '1', to: 'Cows' }),
    ]);
  });

  test('R-07 an abortion that is milked begins a lactation as a calving does; one that is not does not', () => {
    const aborted = (milked: boolean) => about('1', 'abortion', '2026-03-10T08:00:00Z', { milked, group: 'Fresh' });
    const cow = milker('1', {
      group: 'Close-up',
      lactation: 1,
      calvedOn: '2025-01-05',
      driedOffOn: '2026-01-08',
      driedOffWith: 'none',
    });
    expect(evening([farm(), cow, aborted(true)]).held('1', '2026-03-11/morning')?.reasons[0]?.rule).toBe('R-20');
    expect(evening([farm(), cow, aborted(false)]).at('2026-03-11/morning').sheets.counts.total.inMilk).toBe(0);
  });
});
