/** How long a label holds, cow by cow, each end worked out by hand. Milkings start 05:00 and 16:30. */
import { describe, expect, test } from 'vitest';
import { about, CUPBOARD, dose, evening, farm, farmWide, keysOf, medicine, milker, type Saying } from './evening.ts';

const NEXT = '2026-03-15/morning';
const DOSE = '2026-03-14T16:40:00Z';
const with412 = (...more: readonly Saying[]) => evening([farm(), ...CUPBOARD, milker('412'), ...more]);

/** Milkings of some March days at which she is held. */
const heldAt = (book: ReturnType<typeof evening>, cow: string, days: readonly number[], names: readonly string[]) =>
  days.flatMap((day) =>
    names.map((name) => `2026-03-${String(day).padStart(2, '0')}/${name}`).filter((id) => book.held(cow, id)),
  );

describe('the end of a hold', () => {
  test('R-10 a hold that ends a minute before the start leaves that milking free, a minute after keeps it out', () => {
    // 12 March 16:59 and 60 hours is 15 March 04:59; 17:01 is 05:01.
    expect(with412(dose('412', '2026-03-12T16:59:00Z')).held('412', NEXT)).toBeUndefined();
    expect(with412(dose('412', '2026-03-12T17:01:00Z')).held('412', NEXT)).toMatchObject({
      until: '2026-03-15T05:01:00Z',
      tankFrom: '2026-03-15/afternoon',
    });
  });

  test('R-10 her milk goes in the tank at the first milking of her own group, not of another', () => {
    const groups = [
      { name: 'Cows', kind: 'milking' as const, milkedAt: ['morning'] },
      { name: 'Heifers', kind: 'milking' as const },
    ];
    const book = evening([farm({ groups }), ...CUPBOARD, milker('412'), dose('412', '2026-03-12T16:40:00Z')]);
    // Ends 15 March 04:40: free at once in the morning. At 05:01 she waits for the next morning, not the afternoon.
    expect(book.held('412', NEXT)).toBeUndefined();
    const later = evening([farm({ groups }), ...CUPBOARD, milker('412'), dose('412', '2026-03-12T17:01:00Z')]);
    expect(later.held('412', NEXT)?.tankFrom).toBe('2026-03-16/morning');
  });

  test('R-11 a minute is a minute: the clocks going back in the night lengthen no hold', () => {
    const book = evening([
      farm({ timeZone: 'America/Toronto' }),
      ...CUPBOARD,
      milker('412'),
      dose('412', '2026-10-30T18:00:00-04:00'),
    ]);
    // 60 hours from 30 October 18:00 (22:00 UTC) are over on 2 November 10:00 UTC, 05:00 by the new clock, the start.
    expect(book.held('412', '2026-11-02/morning')?.until).toBe('2026-11-02T10:00:00Z');
    expect(book.held('412', '2026-11-02/afternoon')).toBeUndefined();
  });

  test('R-11 two doses outside a course hold from the later of them, also where it was written down first', () => {
    const book = with412(dose('412', DOSE), dose('412', '2026-03-13T16:40:00Z'), dose('412', '2026-03-14T04:40:00Z'));
    expect(book.held('412', NEXT)?.until).toBe('2026-03-17T04:40:00Z');
  });
});

describe('milkings counted', () => {
  const THREE = [
    { name: 'morning', start: '05:00' },
    { name: 'noon', start: '13:00' },
    { name: 'night', start: '21:00' },
  ];
  const threeTimes = (...more: readonly Saying[]) =>
    evening([farm({ milkings: THREE }), ...CUPBOARD, milker('412'), ...more]);
  const names = THREE.map(({ name }) => name);

  test('R-12 sixty hours are seven milkings in a herd milked three times, not five', () => {
    const book = threeTimes(dose('412', '2026-03-10T05:00:00Z'));
    // After the dose: 10th 13 and 21, 11th 05, 13, 21, 12th 05, 13. It ends 12 March 17:00.
    expect(heldAt(book, '412', [10, 11, 12, 13], names).slice(1)).toEqual([
      '2026-03-10/noon',
      '2026-03-10/night',
      '2026-03-11/morning',
      '2026-03-11/noon',
      '2026-03-11/night',
      '2026-03-12/morning',
      '2026-03-12/noon',
    ]);
  });

  test('R-12 five milkings in a herd milked three times are sixty hours all the same', () => {
    const row = threeTimes(dose('412', '2026-03-10T05:00:00Z', { medicine: 'Five milkings' })).held(
      '412',
      '2026-03-11/noon',
    );
    expect([row?.until, row?.tankFrom]).toEqual(['2026-03-12T17:00:00Z', '2026-03-12/night']);
    expect(row?.reasons[0]?.values).toMatchObject({ milkings: 5, floorHours: 60 });
  });

  test('R-12 where a label gives both, milkings or hours, whichever ends later, governs', () => {
    const short = medicine('Day or five', { milkHold: { hours: 24, milkings: 5 }, meatDays: 3 });
    // Five milkings after 14 March 16:40: 15 morning and afternoon, 16 morning and afternoon, 17 morning, 05:00.
    expect(with412(short, dose('412', DOSE, { medicine: 'Day or five' })).held('412', NEXT)).toMatchObject({
      until: '2026-03-17T05:00:00Z',
      tankFrom: '2026-03-17/afternoon',
    });
    const long = medicine('Long or two', { milkHold: { hours: 96, milkings: 2 }, meatDays: 3 });
    expect(with412(long, dose('412', DOSE, { medicine: 'Long or two' })).held('412', NEXT)?.until).toBe(
      '2026-03-18T16:40:00Z',
    );
  });

  test('R-12 milkings count only while she is in milk: those of her dry days are none', () => {
    const book = evening([
      farm({ freshHold: { milkings: 1 } }),
      ...CUPBOARD,
      milker('412', { group: 'Close-up', calvedOn: '2025-01-05', driedOffOn: '2026-01-08', driedOffWith: 'none' }),
      dose('412', '2026-03-10T09:00:00Z', { medicine: 'Five milkings' }),
      about('412', 'calving', '2026-03-14T06:00:00Z', { calves: [{ sex: 'male', alive: true }], group: 'Fresh' }),
    ]);
    // From calving on: 14 afternoon, 15 morning and afternoon, 16 morning and afternoon.
    expect(book.held('412', NEXT)).toMatchObject({ until: '2026-03-16T16:30:00Z', tankFrom: '2026-03-17/morning' });
  });

  test('R-12 a cow moved to a group that is milked more often counts the milkings she had', () => {
    const groups = [
      { name: 'Once', kind: 'milking' as const, milkedAt: ['morning'] },
      { name: 'Cows', kind: 'milking' as const },
    ];
    const book = evening([
      farm({ groups }),
      ...CUPBOARD,
      milker('412', { group: 'Once' }),
      dose('412', DOSE, { medicine: 'Five milkings' }),
      about('412', 'group-move', '2026-03-16T08:00:00Z', { to: 'Cows' }),
    ]);
    // 15 morning, 16 morning, moved, 16 afternoon, 17 morning, 17 afternoon.
    expect(book.held('412', '2026-03-16/afternoon')?.until).toBe('2026-03-17T16:30:00Z');
  });

  test("R-12 R-20 the farm's own fresh hold in milkings is no label: it counts milkings and no twelve hours", () => {
    const book = threeTimes(
      milker('31', { group: 'Close-up', calvedOn: '2025-01-05', driedOffOn: '2026-01-08', driedOffWith: 'none' }),
      about('31', 'calving', '2026-03-14T06:00:00Z', { calves: [{ sex: 'male', alive: true }], group: 'Fresh' }),
    );
    // 14 noon and night, 15 morning and noon.
    expect(book.held('31', '2026-03-14/noon')?.until).toBe('2026-03-15T13:00:00Z');
  });
});

describe('inside a running milking', () => {
  // One cow, one turn of ten minutes: the afternoon of the 14th is planned to end 16:40 and runs until 17:40.
  test('R-04 a dose at the last minute of a running milking reaches back into it, one a minute later does not', () => {
    expect(with412(dose('412', '2026-03-14T17:40:00Z')).held('412', '2026-03-14/afternoon')?.ask).toBe(true);
    expect(with412(dose('412', '2026-03-14T17:41:00Z')).held('412', '2026-03-14/afternoon')).toBeUndefined();
  });

  test('R-04 once the milking is finished a dose comes after it', () => {
    const finished = farmWide('milking-finished', '2026-03-14T16:50:00Z', { milking: '2026-03-14/afternoon' });
    const book = with412(finished, dose('412', '2026-03-14T16:51:00Z'));
    expect(book.held('412', '2026-03-14/afternoon')).toBeUndefined();
    expect(with412(finished, dose('412', '2026-03-14T16:50:00Z')).held('412', '2026-03-14/afternoon')?.ask).toBe(true);
  });

  test('R-04 a milking that is said to be finished before it begins is another one: nothing comes of it', () => {
    const wrong = farmWide('milking-finished', '2026-03-14T07:40:00Z', { milking: '2026-03-14/afternoon' });
    const book = with412(wrong, dose('412', '2026-03-14T17:40:00Z'));
    expect(book.held('412', '2026-03-14/afternoon')?.ask).toBe(true);
    const atStart = farmWide('milking-finished', '2026-03-14T16:30:00Z', { milking: '2026-03-14/afternoon' });
    expect(with412(atStart, dose('412', '2026-03-14T16:31:00Z')).held('412', '2026-03-14/afternoon')).toBeUndefined();
  });

  test('R-04 a milking never runs past the next start: a dose at that minute may belong to either', () => {
    const slow = farm({
      milkings: [
        { name: 'early', start: '05:00' },
        { name: 'late', start: '05:30' },
      ],
    });
    const book = (time: string) => evening([slow, ...CUPBOARD, milker('412'), dose('412', time)]);
    expect(book('2026-03-14T05:30:00Z').held('412', '2026-03-14/early')).toBeDefined();
    expect(book('2026-03-14T05:31:00Z').held('412', '2026-03-14/early')).toBeUndefined();
  });

  test('R-04 R-21 a hold lifted inside a milking still covers it, and is over at the next', () => {
    const book = with412(
      about('412', 'milk-hold', '2026-03-13T09:00:00Z', { reason: 'clots' }),
      about('412', 'milk-hold-lifted', '2026-03-14T16:35:00Z', { reason: 'clean' }),
    );
    expect(book.held('412', '2026-03-14/afternoon')?.tankFrom).toBe('2026-03-15/morning');
    expect(book.held('412', NEXT)).toBeUndefined();
  });

  test('R-04 R-20 a cow that calves inside a milking is held at it', () => {
    const book = with412(
      milker('31', { group: 'Close-up', calvedOn: '2025-01-05', driedOffOn: '2026-01-08', driedOffWith: 'none' }),
      about('31', 'calving', '2026-03-14T16:45:00Z', { calves: [{ sex: 'male', alive: true }], group: 'Fresh' }),
    );
    expect(book.held('31', '2026-03-14/afternoon')).toMatchObject({ ask: true, dryInMilkedGroup: false });
  });

  test('R-04 a free cow that leaves inside a milking was in milk at it, and on no hold', () => {
    const book = with412(about('412', 'cow-left', '2026-03-14T16:45:00Z', { reason: 'sold-for-milking' }));
    expect(book.held('412', '2026-03-14/afternoon')).toBeUndefined();
    expect(book.at('2026-03-14/afternoon').sheets.counts.total).toEqual({ head: 1, inMilk: 1, held: 0 });
  });

  test('R-04 a held cow that leaves inside a milking is on its list as the cow in milk she was', () => {
    const book = with412(
      dose('412', '2026-03-13T16:40:00Z'),
      about('412', 'cow-left', '2026-03-14T16:45:00Z', { reason: 'died' }),
    );
    const row = book.held('412', '2026-03-14/afternoon');
    expect([row?.dryInMilkedGroup, keysOf(row)]).toEqual([false, ['hold.hours']]);
  });
});

describe('what is not known, and the vet', () => {
  test('R-13 a reason that has ended is not printed beside one that has not', () => {
    const book = with412(dose('412', '2026-03-11T16:40:00Z'), dose('412', DOSE, { medicine: 'Both' }));
    expect(keysOf(book.held('412', NEXT))).toEqual(['hold.hours-and-milkings']);
  });

  test('R-14 a medicine is known by its whole name, whatever its capitals and spaces; a shorter name is another', () => {
    expect(with412(dose('412', DOSE, { medicine: ' sixty  HOURS ' })).held('412', NEXT)?.until).toBe(
      '2026-03-17T04:40:00Z',
    );
    expect(with412(dose('412', DOSE, { medicine: 'Sixty' })).held('412', NEXT)?.until).toBeNull();
  });

  test('R-14 hours written on an unlisted medicine without the vet give it no end', () => {
    const row = with412(dose('412', DOSE, { medicine: 'Something else', milkHoldHours: 96 })).held('412', NEXT);
    expect([row?.until, keysOf(row)]).toEqual([null, ['hold.not-listed']]);
  });

  test("R-15 of two vet's times for one treatment the longer stands", () => {
    const vet = (hours: number, time: string) =>
      about('412', 'vet-hold-time', time, { treatment: 'd1', milkHours: hours, prescribedBy: 'Dr Vane' });
    const book = with412(dose('412', DOSE, {}, 'd1'), vet(96, '2026-03-14T18:00:00Z'), vet(72, '2026-03-14T20:00:00Z'));
    expect(book.held('412', NEXT)?.until).toBe('2026-03-18T16:40:00Z');
  });

  test("R-15 a vet's time said of another cow's treatment ends nothing, and is a doubt", () => {
    const book = with412(
      milker('7'),
      dose('412', DOSE, { medicine: 'Something else' }, 'd1'),
      about('7', 'vet-hold-time', '2026-03-14T18:00:00Z', {
        treatment: 'd1',
        milkHours: 12,
        prescribedBy: 'Dr Vane',
      }),
    );
    expect(book.held('412', NEXT)?.until).toBeNull();
    expect(book.doubts(NEXT, 'doubt.vet-time-unplaced')).toHaveLength(1);
  });

  test('R-15 hours longer than the label hold longer even where no vet is named', () => {
    expect(with412(dose('412', DOSE, { milkHoldHours: 96 })).held('412', NEXT)?.until).toBe('2026-03-18T16:40:00Z');
  });

  test("R-16 a label of none holds nothing of its own, and takes nothing from a person's hold or a longer vet's time", () => {
    const nothing = dose('412', DOSE, { medicine: 'Nothing held' }, 'd1');
    expect(keysOf(with412(nothing, about('412', 'milk-hold', DOSE, { reason: 'clots' })).held('412', NEXT))).toEqual([
      'hold.set-by-person',
    ]);
    const vet = about('412', 'vet-hold-time', '2026-03-14T18:00:00Z', {
      treatment: 'd1',
      milkHours: 24,
      prescribedBy: 'Dr Vane',
    });
    expect(with412(nothing, vet).held('412', NEXT)?.until).toBe('2026-03-15T16:40:00Z');
  });
});
