/** Which label counts, what makes a use off-label, and how long that holds. */
import { describe, expect, test } from 'vitest';
import { about, CUPBOARD, dose, evening, farm, medicine, milker, type Saying } from './evening.ts';

const DOSE = '2026-03-14T16:40:00Z';
const NEXT = '2026-03-15/morning';
type Label = Parameters<typeof medicine>[1];

const causesOf = (book: ReturnType<typeof evening>, milking = NEXT): readonly string[] =>
  book
    .held('412', milking)
    ?.reasons.flatMap((reason) => (reason.key === 'hold.off-label-no-vet' ? reason.values.causes : [])) ?? [];

describe('off-label without being ticked', () => {
  const strict = (label: Partial<Label>) => medicine('Strict', { milkHold: { hours: 24 }, meatDays: 3, ...label });
  const book = (label: Partial<Label>, ...doses: readonly Saying[]) =>
    evening([farm(), strict(label), milker('412', { born: '2022-05-31' }), ...doses]);
  const given = (time: string, more = {}) => dose('412', time, { medicine: 'Strict', ...more });

  test('R-29 a route is the same whatever its capitals; one not said is not another', () => {
    expect(causesOf(book({ route: 'udder' }, given(DOSE, { route: ' Udder' })))).toEqual([]);
    expect(causesOf(book({ route: 'udder' }, given(DOSE)))).toEqual([]);
    expect(causesOf(book({ route: 'udder' }, given(DOSE, { route: 'vein' })))).toEqual(['route']);
  });

  test('R-29 doses a day apart count together also when each is a little late: the fourth of three is off-label', () => {
    const doses = ['2026-03-11T08:00:00Z', '2026-03-12T08:30:00Z', '2026-03-13T09:00:00Z', '2026-03-14T09:30:00Z'];
    const none: Partial<Label> = { milkHold: 'none', maxDoses: 3, minIntervalHours: 24 };
    expect(causesOf(book(none, ...doses.slice(0, 3).map((time) => given(time))))).toEqual([]);
    expect(causesOf(book(none, ...doses.map((time) => given(time))))).toEqual(['doses']);
  });

  test('R-29 a course planned beyond what the label allows is off-label from its first dose', () => {
    const planned = (of: number) => given(DOSE, { course: { id: 'c1', dose: 1, of, everyHours: 24 } });
    expect(causesOf(book({ maxDoses: 3 }, planned(3)))).toEqual([]);
    expect(causesOf(book({ maxDoses: 3 }, planned(4)))).toEqual(['doses']);
  });

  test('R-29 doses given before the course began count with it', () => {
    const before = given('2026-03-13T16:40:00Z');
    const course = given(DOSE, { course: { id: 'c1', dose: 1, of: 3, everyHours: 24 } });
    expect(causesOf(book({ maxDoses: 3 }, before, course))).toEqual(['doses']);
  });

  test('R-29 an interval longer than the hold is watched as well: 30 hours are fewer than 72', () => {
    const slow: Partial<Label> = { milkHold: { hours: 24 }, minIntervalHours: 72 };
    expect(causesOf(book(slow, given('2026-03-13T10:40:00Z'), given(DOSE)))).toEqual(['interval']);
    expect(causesOf(book(slow, given('2026-03-11T16:40:00Z'), given(DOSE)))).toEqual([]);
  });

  test('R-29 a course planned at a shorter interval than the label allows is off-label from its first dose', () => {
    const course = given(DOSE, { course: { id: 'c1', dose: 1, of: 2, everyHours: 12 } });
    expect(causesOf(book({ minIntervalHours: 24 }, course))).toEqual(['interval']);
  });

  test('R-29 the limit of age is reached on its day, and on the last day of a shorter month', () => {
    // Born 31 May 2022; 45 months later is the last day of February 2026.
    const old = (time: string) => causesOf(book({ notFromAgeMonths: 45 }, given(time)), '2026-03-01/morning');
    expect(old('2026-02-27T16:40:00Z')).toEqual([]);
    expect(old('2026-02-28T16:40:00Z')).toEqual(['age']);
  });

  test('R-29 a label for dry cows or young stock is off-label in a cow in milk, one for milking cows in a dry one', () => {
    expect(causesOf(book({ for: ['dry', 'young'] }, given(DOSE)))).toEqual(['class']);
    expect(causesOf(book({ for: ['milking'] }, given(DOSE)))).toEqual([]);
    const dried = about('412', 'dry-off', '2026-03-13T08:00:00Z', { product: 'none' });
    expect(causesOf(book({ for: ['milking'] }, dried, given(DOSE)))).toEqual(['class']);
  });

  test('R-29 what is for dry cows and given at drying off, or in the two days before, is within its class', () => {
    const sealed = (time: string, label: Partial<Label> = { for: ['dry'], milkHold: 'none' }) =>
      causesOf(
        book(
          label,
          about('412', 'dry-off', '2026-02-02T12:00:00Z', { product: 'none', group: 'Dry' }),
          given(time),
          about('412', 'calving', '2026-03-13T12:00:00Z', { calves: [], group: 'Fresh' }),
        ),
      );
    expect([sealed('2026-02-02T12:00:00Z'), sealed('2026-01-31T12:00:00Z'), sealed('2026-02-03T12:00:00Z')]).toEqual([
      [],
      [],
      [],
    ]);
    expect(sealed('2026-01-31T11:59:00Z')).toEqual(['class']);
    expect(sealed('2026-02-02T12:00:00Z', { for: ['young'], milkHold: 'none' })).toEqual(['class']);
    // Before the dry-off she is still milked.
    const never: Partial<Label> = { milkHold: 'none', authorisedForMilkAnimals: false };
    expect(sealed('2026-02-02T11:00:00Z', never)).toEqual(['class']);
  });

  test('R-29 R-19 the sealant that a dry-off names is within its class', () => {
    const off = about('412', 'dry-off', '2026-02-02T12:00:00Z', { product: 'Strict', group: 'Dry' });
    const back = about('412', 'calving', '2026-03-13T12:00:00Z', { calves: [], group: 'Fresh' });
    const sealed = book({ for: ['dry'], milkHold: 'none', meatDays: 0 }, off, back);
    expect([causesOf(sealed), sealed.at(NEXT).sheets['beef-hold'].cows]).toEqual([[], []]);
  });

  test('R-29 R-15 what is not authorised for animals milked for people is off-label in a cow in milk, hold of zero or not', () => {
    const never: Partial<Label> = { milkHold: 'none', authorisedForMilkAnimals: false };
    expect(causesOf(book(never, given(DOSE)))).toEqual(['class']);
    expect(causesOf(book({ ...never, for: ['milking'] }, given(DOSE)))).toEqual(['class']);
    const byVet = given(DOSE, { milkHoldHours: 168, prescribedBy: 'Dr Vane' });
    expect(book(never, byVet).held('412', NEXT)?.until).toBe('2026-03-21T16:40:00Z');
    const dried = about('412', 'dry-off', '2026-03-13T08:00:00Z', { product: 'none' });
    expect(causesOf(book(never, dried, given(DOSE)))).toEqual([]);
  });

  test('R-29 several causes are all named', () => {
    expect(causesOf(book({ route: 'udder', for: ['dry'] }, given(DOSE, { route: 'vein', offLabel: true })))).toEqual([
      'said',
      'route',
      'class',
    ]);
  });
});

describe('which label', () => {
  const listed = (hours: number | 'unknown' | 'none', time: string) =>
    medicine('Changed', { milkHold: typeof hours === 'number' ? { hours } : hours, meatDays: 3 }, time);
  const book = (...more: readonly Saying[]) => evening([farm(), ...CUPBOARD, milker('412'), ...more]);
  const given = (time = DOSE, more = {}) => dose('412', time, { medicine: 'Changed', ...more });

  test('R-29 a listing at the very minute of the dose is in force at it', () => {
    expect(book(listed(24, '2026-01-01T09:00:00Z'), listed(72, DOSE), given()).held('412', NEXT)?.until).toBe(
      '2026-03-17T16:40:00Z',
    );
  });

  test('R-29 a later listing that is unknown opens a hold that still runs', () => {
    expect(
      book(listed(60, '2026-01-01T09:00:00Z'), given(), listed('unknown', '2026-03-16T09:00:00Z')).held('412', NEXT)
        ?.until,
    ).toBeNull();
  });

  test('R-29 a known listing after an unknown one is shorter than no end, and does not shorten it', () => {
    expect(
      book(listed('unknown', '2026-01-01T09:00:00Z'), given(), listed(60, '2026-03-14T20:00:00Z')).held('412', NEXT)
        ?.until,
    ).toBeNull();
  });

  test('R-29 of two listings after the dose the first counts, and a longer second one extends', () => {
    expect(
      book(given(), listed(60, '2026-03-14T18:00:00Z'), listed(24, '2026-03-14T20:00:00Z')).held('412', NEXT)?.until,
    ).toBe('2026-03-17T04:40:00Z');
    expect(
      book(given(), listed(24, '2026-03-14T18:00:00Z'), listed(60, '2026-03-14T20:00:00Z')).held('412', NEXT)?.until,
    ).toBe('2026-03-17T04:40:00Z');
  });

  test('R-29 within a course each dose has the label of its own day: a shorter one later does not shorten the first', () => {
    const course = (number: number, time: string) =>
      given(time, { course: { id: 'c1', dose: number, of: 2, everyHours: 12 } });
    const row = book(
      listed(96, '2026-01-01T09:00:00Z'),
      course(1, '2026-03-14T04:40:00Z'),
      listed(24, '2026-03-14T10:00:00Z'),
      course(2, DOSE),
    ).held('412', NEXT);
    // Dose 1, 96 hours: 18 March 04:40. Dose 2, 24 hours: 15 March 16:40.
    expect(row?.until).toBe('2026-03-18T04:40:00Z');
  });

  test('R-29 so it is for meat: the days of the label at the first dose stand', () => {
    const meat = (days: number, time: string) => medicine('Changed', { milkHold: { hours: 24 }, meatDays: days }, time);
    const course = (number: number, time: string) =>
      given(time, { course: { id: 'c1', dose: number, of: 2, everyHours: 12 } });
    const [row] = book(
      meat(20, '2026-01-01T09:00:00Z'),
      course(1, '2026-03-14T04:40:00Z'),
      meat(3, '2026-03-14T10:00:00Z'),
      course(2, DOSE),
    ).at(NEXT).sheets['beef-hold'].cows;
    expect(row?.until).toBe('2026-04-03T04:40:00Z');
  });

  test('R-29 the off-label law is the one in force at the dose; a stricter one that comes while the hold runs extends it', () => {
    const eu = (from: string) => ({
      ...farm({ from, offLabel: 'eu-2019-6' }, 'second'),
      time: '2026-03-01T09:00:00Z',
    });
    const off = dose('412', DOSE, { offLabel: true, milkHoldHours: 72, prescribedBy: 'Dr Vane' });
    expect(book(off, eu('2026-03-19')).held('412', NEXT)?.until).toBe('2026-03-17T16:40:00Z');
    expect(book(off, eu('2026-03-16')).held('412', NEXT)?.until).toBe('2026-03-18T16:40:00Z');
    expect(book(off, eu('2026-03-10')).held('412', NEXT)?.until).toBe('2026-03-18T16:40:00Z');
  });
});

describe('off-label by Regulation (EU) 2019/6', () => {
  const row = (label: Label, more = {}) =>
    evening([
      farm({ offLabel: 'eu-2019-6' }),
      medicine('Its label', label),
      milker('412'),
      dose('412', DOSE, { medicine: 'Its label', prescribedBy: 'Dr Vane', ...more }),
    ]).held('412', NEXT);
  const off = (label: Label, more = {}) => row(label, { offLabel: true, ...more })?.until;

  test('R-18 one and a half times goes up to whole days of 24 hours, and a whole number of days stays', () => {
    // 32 h: 48 h, two days. 36 h: 54, three days. 60 h: 90, four. 72 h: 108, five. 96 h: 144, six.
    const days = (hours: number) => off({ milkHold: { hours }, meatDays: 3 });
    expect([32, 36, 60, 72, 96].map(days)).toEqual([
      '2026-03-16T16:40:00Z',
      '2026-03-17T16:40:00Z',
      '2026-03-18T16:40:00Z',
      '2026-03-19T16:40:00Z',
      '2026-03-20T16:40:00Z',
    ]);
  });

  test('R-18 use by the label is not multiplied', () => {
    expect(row({ milkHold: { hours: 36 }, meatDays: 3 })?.until).toBe('2026-03-16T04:40:00Z');
  });

  test('R-18 never below the label: its milkings, where they end later than its hours and a half, and its hours over seven days', () => {
    // Eight milkings after 14 March 16:40 end 18 March 16:30; 24 hours and a half are 48.
    expect(off({ milkHold: { hours: 24, milkings: 8 }, meatDays: 3 })).toBe('2026-03-18T16:30:00Z');
    expect(off({ milkHold: { hours: 240 }, meatDays: 3, authorisedForMilkAnimals: false })).toBe(
      '2026-03-24T16:40:00Z',
    );
  });

  test("R-18 a vet's time under the regulation's leaves the regulation's", () => {
    expect(off({ milkHold: { hours: 60 }, meatDays: 3 }, { milkHoldHours: 72 })).toBe('2026-03-18T16:40:00Z');
    expect(off({ milkHold: 'none', meatDays: 3 }, { milkHoldHours: 12 })).toBe('2026-03-15T16:40:00Z');
    expect(off({ milkHold: 'not-for-milking-cows', meatDays: 3 }, { milkHoldHours: 72 })).toBe('2026-03-21T16:40:00Z');
  });

  test('R-18 R-14 one not for milking cows that is not ticked off-label stays without end, and takes the vet to end', () => {
    expect(row({ milkHold: 'not-for-milking-cows', meatDays: 3 })?.until).toBeNull();
    expect(row({ milkHold: 'not-for-milking-cows', meatDays: 3 }, { milkHoldHours: 240 })?.until).toBe(
      '2026-03-24T16:40:00Z',
    );
  });

  test('R-18 a use that is off-label by its facts alone is multiplied too', () => {
    expect(row({ route: 'udder', milkHold: { hours: 60 }, meatDays: 3 }, { route: 'muscle' })?.until).toBe(
      '2026-03-18T16:40:00Z',
    );
  });

  test('R-18 R-29 seven days for what is not authorised for animals milked for people, ticked or not', () => {
    const never: Label = { milkHold: 'none', meatDays: 0, authorisedForMilkAnimals: false };
    expect(row(never)?.until).toBe('2026-03-21T16:40:00Z');
    expect(row(never, { prescribedBy: undefined })?.until).toBeNull();
  });

  test('R-18 it is set by the vet: without a name it is open, whatever the label', () => {
    for (const milkHold of [{ hours: 60 }, 'none', 'not-for-milking-cows'] as const) {
      expect(off({ milkHold, meatDays: 3 }, { prescribedBy: undefined })).toBeNull();
    }
  });

  test('R-18 R-17 it runs from the planned last dose of a course', () => {
    // Dose 2 planned 15 March 16:40, and four days.
    expect(
      off({ milkHold: { hours: 60 }, meatDays: 3 }, { course: { id: 'c1', dose: 1, of: 2, everyHours: 24 } }),
    ).toBe('2026-03-19T16:40:00Z');
  });

  test('R-18 R-14 a label whose time is unknown has nothing to multiply', () => {
    expect(off({ milkHold: 'unknown', meatDays: 3 })).toBeNull();
  });
});

describe('off-label by the vet', () => {
  const row = (more: Parameters<typeof dose>[2], ...sayings: readonly Saying[]) =>
    evening([farm(), ...CUPBOARD, milker('412'), dose('412', DOSE, more, 'd1'), ...sayings]).held('412', NEXT);

  test('R-15 the name without the hours, or the hours without the name, leave it open', () => {
    expect(row({ offLabel: true, prescribedBy: 'Dr Vane' })?.until).toBeNull();
    expect(row({ offLabel: true, milkHoldHours: 96 })?.until).toBeNull();
  });

  test("R-15 off-label, a vet's time under the label's leaves the label's", () => {
    expect(row({ offLabel: true, milkHoldHours: 24, prescribedBy: 'Dr Vane' })?.until).toBe('2026-03-17T04:40:00Z');
  });

  test('R-15 a later vet-hold-time carries the name with it', () => {
    const vet = about('412', 'vet-hold-time', '2026-03-14T20:00:00Z', {
      treatment: 'd1',
      milkHours: 96,
      prescribedBy: 'Dr Vane',
    });
    expect(row({ offLabel: true }, vet)?.until).toBe('2026-03-18T16:40:00Z');
  });
});
