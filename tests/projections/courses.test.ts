/** Courses of several doses: the plan, the treat list, doses missed. Milkings start 05:00 and 16:30. */
import { describe, expect, test } from 'vitest';
import { about, CUPBOARD, dose, evening, farm, farmWide, keysOf, medicine, milker, type Saying } from './evening.ts';

const DOSE = '2026-03-14T16:40:00Z';
const NEXT = '2026-03-15/morning';
const with412 = (...more: readonly Saying[]) => evening([farm(), ...CUPBOARD, milker('412'), ...more]);

interface Plan {
  readonly of?: number;
  readonly everyHours?: number;
  readonly id?: string;
  readonly medicine?: string;
}
const course = (number: number, time: string, { of = 3, everyHours = 12, id = 'c1', ...more }: Plan = {}) =>
  dose('412', time, { course: { id, dose: number, of, everyHours }, ...more });
const ended = (time: string, id = 'c1') => about('412', 'course-ended', time, { course: id, reason: 'well again' });

const treat = (book: ReturnType<typeof evening>, milking: string, asOf?: string) =>
  book.at(milking, asOf).sheets['milk-hold'].treat.map((row) => [row.cow, row.dose, row.overdue]);

describe('the plan', () => {
  test('R-17 the last given dose and the remaining ones at their interval, then the label', () => {
    // Dose 2 at 15 March 05:10, one more twelve hours on: 17:10; and sixty hours is 18 March 05:10.
    const row = with412(course(1, DOSE), course(2, '2026-03-15T05:10:00Z')).held('412', '2026-03-15/afternoon');
    expect([row?.until, row?.tankFrom]).toEqual(['2026-03-18T05:10:00Z', '2026-03-18/afternoon']);
    expect(keysOf(row)).toEqual(['hold.hours', 'hold.course-running']);
  });

  test('R-17 all doses given: the label from the last of them, and nothing more to treat', () => {
    const book = with412(
      course(1, '2026-03-13T16:40:00Z'),
      course(2, '2026-03-14T05:10:00Z'),
      course(3, '2026-03-14T16:35:00Z'),
    );
    const row = book.held('412', NEXT);
    expect([row?.until, keysOf(row)]).toEqual(['2026-03-17T04:35:00Z', ['hold.hours']]);
    expect(treat(book, NEXT)).toEqual([]);
  });

  test('R-17 R-12 a label in milkings is counted from the planned last dose', () => {
    // Planned last: 15 March 16:40. Five milkings after it: 16 and 17 both, 18 morning.
    const book = with412(course(1, DOSE, { medicine: 'Five milkings' }));
    expect(book.held('412', NEXT)?.until).toBe('2026-03-18T05:00:00Z');
  });

  test('R-17 a dose that says more doses lengthens the plan, one that says fewer does not shorten it', () => {
    const longer = with412(course(1, DOSE), course(2, '2026-03-15T05:10:00Z', { of: 5 }));
    // Three more after dose 2: 16 March 17:10, and sixty hours.
    expect(longer.held('412', '2026-03-15/afternoon')?.until).toBe('2026-03-19T05:10:00Z');
    const fewer = with412(course(1, DOSE), course(2, '2026-03-15T05:10:00Z', { of: 2 }));
    expect(fewer.held('412', '2026-03-15/afternoon')?.until).toBe('2026-03-18T05:10:00Z');
  });

  test('R-17 a dose that says a shorter interval does not shorten the plan', () => {
    const book = with412(course(1, '2026-03-13T16:40:00Z', { everyHours: 24 }), course(2, DOSE, { everyHours: 12 }));
    // One more, a day after dose 2: 15 March 16:40, and sixty hours.
    expect(book.held('412', NEXT)?.until).toBe('2026-03-18T04:40:00Z');
  });

  test('R-17 the end of the course leaves the label from the last given dose, and takes her off the treat list', () => {
    const book = with412(course(1, DOSE), ended('2026-03-14T20:00:00Z'));
    expect([book.held('412', NEXT)?.until, treat(book, NEXT)]).toEqual(['2026-03-17T04:40:00Z', []]);
  });

  test('R-17 a dose given after the course was ended begins its plan again', () => {
    const book = with412(course(1, '2026-03-13T16:40:00Z'), ended('2026-03-14T08:00:00Z'), course(2, DOSE));
    // One more planned: 15 March 04:40, and sixty hours.
    expect(book.held('412', NEXT)?.until).toBe('2026-03-17T16:40:00Z');
    expect(treat(book, NEXT)).toEqual([['412', 3, false]]);
  });

  test("R-17 the end of one course leaves another one's plan, and another cow's course of the same name", () => {
    const other = about('7', 'treatment', DOSE, {
      medicine: 'Sixty hours',
      course: { id: 'c1', dose: 1, of: 3, everyHours: 12 },
    });
    const book = with412(milker('7'), course(1, DOSE, { id: 'c2' }), other, ended('2026-03-14T20:00:00Z', 'c1'));
    expect([book.held('412', NEXT)?.until, book.held('7', NEXT)?.until]).toEqual([
      '2026-03-18T04:40:00Z',
      '2026-03-18T04:40:00Z',
    ]);
  });

  test('R-17 another medicine under the same course is a plan of its own, and ends nothing', () => {
    const book = with412(course(1, DOSE), course(1, '2026-03-14T17:00:00Z', { medicine: 'Both' }));
    expect(treat(book, NEXT)).toEqual([
      ['412', 2, false],
      ['412', 2, false],
    ]);
    expect(book.doubts(NEXT, 'doubt.both-still-wanted')).toHaveLength(1);
  });

  test('R-17 a sealant or a vaccine beside a course raises no doubt', () => {
    const vaccine = medicine('A vaccine', { kind: 'vaccine', milkHold: 'none', meatDays: 0 });
    const book = with412(vaccine, course(1, DOSE), dose('412', '2026-03-14T18:00:00Z', { medicine: 'A vaccine' }));
    expect(book.doubts(NEXT, 'doubt.both-still-wanted')).toEqual([]);
  });
});

describe('the treat list', () => {
  test('R-17 a daily dose is due at the milking a day on, not at the one between', () => {
    const book = with412(course(1, DOSE, { everyHours: 24 }));
    expect([treat(book, NEXT), treat(book, '2026-03-15/afternoon')]).toEqual([[], [['412', 2, false]]]);
  });

  test('R-17 half way between two milkings the earlier has it, a minute later the later', () => {
    // 05:00 and 16:30 have 10:45 between them; ten hours before that is 00:45.
    const at = (time: string) => with412(course(1, time, { everyHours: 10 }));
    expect(treat(at('2026-03-15T00:45:00Z'), NEXT)).toEqual([['412', 2, false]]);
    expect(treat(at('2026-03-15T00:46:00Z'), NEXT)).toEqual([]);
    expect(treat(at('2026-03-15T00:46:00Z'), '2026-03-15/afternoon')).toEqual([['412', 2, false]]);
  });

  test('R-17 the row carries what to give: medicine, amount, route and quarters of the last dose', () => {
    const given = dose('412', DOSE, {
      course: { id: 'c1', dose: 1, of: 3, everyHours: 12 },
      amount: { value: 1, unit: 'tube' },
      route: 'udder',
      quarters: ['left-front'],
    });
    expect(with412(given).at(NEXT).sheets['milk-hold'].treat).toEqual([
      expect.objectContaining({
        medicine: 'Sixty hours',
        amount: { value: 1, unit: 'tube' },
        route: 'udder',
        quarters: ['left-front'],
        because: expect.objectContaining({
          rule: 'R-17',
          key: 'treat.due',
          values: { planned: '2026-03-15T04:40:00Z', lastGiven: DOSE, everyHours: 12 },
        }),
      }),
    ]);
  });

  test('R-17 a dose given late moves the next one: planned is the last given and the interval', () => {
    const book = with412(course(1, DOSE), course(2, '2026-03-15T09:00:00Z'));
    // 15 March 21:00 is four and a half hours after 16:30 and eight before 05:00.
    expect(treat(book, '2026-03-15/afternoon')).toEqual([['412', 3, false]]);
  });

  test('R-17 a dry cow in a course stands on the list too: she still wants her dose', () => {
    const dried = about('412', 'dry-off', '2026-03-14T17:00:00Z', { product: 'none', group: 'Dry' });
    expect(treat(with412(course(1, DOSE), dried), NEXT)).toEqual([['412', 2, false]]);
  });
});

describe('doses missed', () => {
  // One cow, ten minutes, and an hour: the morning of the 15th is over after 06:10.
  test('R-17 while the milking it is due at goes on, a dose is not missed; once that has ended, it is', () => {
    const book = with412(course(1, DOSE));
    expect(book.held('412', '2026-03-15/afternoon', '2026-03-15T06:10:00Z')?.until).toBe('2026-03-18T04:40:00Z');
    const row = book.held('412', '2026-03-15/afternoon', '2026-03-15T06:11:00Z');
    expect([row?.until, row?.reasons.map(({ key }) => key)[0]]).toEqual([null, 'hold.dose-not-recorded']);
  });

  test('R-17 a milking that is recorded as finished has ended', () => {
    const finished = farmWide('milking-finished', '2026-03-15T05:30:00Z', { milking: NEXT });
    expect(with412(course(1, DOSE), finished).held('412', '2026-03-15/afternoon', '2026-03-15T05:31:00Z')?.until).toBe(
      null,
    );
  });

  test('R-17 an overdue dose stands on every list until it is settled, and the hold until it is recorded or the course ended', () => {
    const late = ['2026-03-15/afternoon', '2026-03-16/morning', '2026-03-19/morning'];
    const book = with412(course(1, DOSE));
    for (const milking of late) {
      expect(treat(book, milking)).toEqual([['412', 2, true]]);
      expect(book.held('412', milking)?.until).toBeNull();
    }
    const stopped = with412(course(1, DOSE), ended('2026-03-15T12:00:00Z'));
    expect(stopped.held('412', '2026-03-17/afternoon')).toBeUndefined();
  });

  test('R-17 the dose recorded late with its own time gives the hold its end by that time', () => {
    const two = { of: 2 };
    const book = with412(course(1, DOSE, two), course(2, '2026-03-15T12:00:00Z', two));
    expect(book.held('412', '2026-03-15/afternoon')?.until).toBe('2026-03-18T00:00:00Z');
  });

  test('R-17 every missing dose wants its own record: the third leaves the second asked for', () => {
    const book = with412(course(1, '2026-03-13T16:40:00Z'), course(3, DOSE));
    expect(keysOf(book.held('412', NEXT))).toEqual(['hold.dose-not-recorded', 'hold.hours']);
    const all = with412(course(1, '2026-03-13T16:40:00Z'), course(2, '2026-03-14T05:00:00Z'), course(3, DOSE));
    expect(all.held('412', NEXT)?.until).toBe('2026-03-17T04:40:00Z');
  });

  test('R-17 R-16 a missed dose holds her even where the label asks for nothing: what she had is not known', () => {
    const row = with412(course(1, DOSE, { medicine: 'Nothing held' })).held('412', '2026-03-15/afternoon');
    expect([row?.until, keysOf(row)]).toEqual([null, ['hold.dose-not-recorded']]);
  });

  test('R-17 R-23 a dose struck is a dose not given: its milking over, she is held without end', () => {
    const second = { ...course(2, '2026-03-15T05:10:00Z'), id: 'second' };
    const strike = farmWide('entry-struck', '2026-03-15T12:00:00Z', {
      entry: 'second',
      reason: 'not given',
      instead: 'nothing',
    });
    expect(with412(course(1, DOSE), second, strike).held('412', '2026-03-15/afternoon')?.until).toBeNull();
  });
});

describe('the name of a course used again', () => {
  const FEBRUARY = [
    course(1, '2026-02-10T05:10:00Z'),
    course(2, '2026-02-10T17:10:00Z'),
    course(3, '2026-02-11T05:10:00Z'),
  ];
  const MARCH = course(1, '2026-03-13T05:10:00Z');

  test.each([
    ['all doses given', []],
    ['ended by a word', [ended('2026-02-12T08:00:00Z')]],
  ])('R-17 a month later it is a plan of its own, the one before %s', (_, more) => {
    const book = with412(...FEBRUARY, ...more, MARCH);
    // Two more planned: 14 March 05:10, and sixty hours.
    expect(book.held('412', '2026-03-13/afternoon')?.until).toBe('2026-03-16T17:10:00Z');
    expect(treat(book, '2026-03-13/afternoon')).toEqual([['412', 2, false]]);
    expect(book.held('412', NEXT)?.until).toBeNull();
    expect(treat(book, NEXT)).toEqual([['412', 2, true]]);
  });

  test('R-17 a dose passed over the second time is missing, though the first time had it', () => {
    const book = with412(...FEBRUARY, MARCH, course(3, '2026-03-14T05:10:00Z'));
    expect(book.held('412', NEXT)?.until).toBeNull();
    expect(keysOf(book.held('412', NEXT))).toContain('hold.dose-not-recorded');
  });

  test('R-17 a dose passed over the first time is still missing, unless that course was ended', () => {
    const [one, , three] = FEBRUARY;
    const first = [one, three].flatMap((each) => each ?? []);
    const again = [course(1, '2026-03-01T05:10:00Z'), ended('2026-03-01T12:00:00Z')];
    expect(with412(...first, ...again).held('412', NEXT)?.until).toBeUndefined();
    const open = with412(...first, course(1, '2026-03-01T05:10:00Z', { of: 1 }));
    expect(open.held('412', NEXT)?.until).toBeNull();
    const ended12 = with412(...first, ended('2026-02-12T08:00:00Z'), course(1, '2026-03-01T05:10:00Z', { of: 1 }));
    expect(ended12.held('412', NEXT)).toBeUndefined();
  });

  test('R-17 a dose number that goes back means what was given last: the rest of the plan is waited for', () => {
    // Dose 3 is written down for the 1st: it can't have been given before dose 1.
    const book = with412(
      course(1, '2026-03-08T05:10:00Z'),
      course(2, '2026-03-08T17:10:00Z'),
      course(3, '2026-03-01T05:10:00Z'),
    );
    expect(book.held('412', '2026-03-10/afternoon')?.until).toBeNull();
    expect(treat(book, '2026-03-10/afternoon')).toEqual([['412', 3, true]]);
  });

  test('R-17 one dose written down twice within half the interval is one dose', () => {
    const twice = with412(
      course(1, '2026-03-13T16:40:00Z'),
      course(2, '2026-03-14T05:10:00Z'),
      course(2, '2026-03-14T05:40:00Z'),
      course(3, '2026-03-14T16:35:00Z'),
    );
    expect(twice.held('412', NEXT)?.until).toBe('2026-03-17T04:35:00Z');
    const oneAgain = with412(
      course(1, '2026-03-13T16:40:00Z'),
      course(2, '2026-03-14T05:10:00Z'),
      course(1, '2026-03-14T05:20:00Z'),
    );
    expect(treat(oneAgain, '2026-03-14/afternoon')).toEqual([['412', 3, false]]);
  });

  test('R-17 two cows on courses of one name are asked about apart, and settled apart', () => {
    const plan = { course: { id: 'c1', dose: 1, of: 3, everyHours: 12 } };
    const both = [milker('413'), dose('412', '2026-03-13T05:10:00Z', plan), dose('413', '2026-03-13T05:10:00Z', plan)];
    const asked = with412(...both).doubts(NEXT, 'doubt.dose-not-recorded');
    expect(asked.map(({ because }) => 'cow' in because.values && because.values.cow)).toEqual(['412', '413']);
    const settled = with412(
      ...both,
      farmWide('settled', '2026-03-14T08:00:00Z', { about: asked[0]?.key ?? '', how: 'x' }),
    );
    expect(treat(settled, NEXT)).toEqual([['413', 2, true]]);
    expect(settled.held('412', NEXT)?.until).toBeNull();
  });
});

describe('the last dose in a reason', () => {
  const vet = { meatHoldDays: 20, milkHoldHours: 200, prescribedBy: 'Dr Vane' };
  const label = { milkHold: { hours: 60 }, meatDays: 3 };
  const cases = [
    ['hours', label, {}, 'hold.hours', 'meat.days'],
    ['milkings', { ...label, milkHold: { milkings: 5 } }, {}, 'hold.milkings', 'meat.days'],
    ['both', { ...label, milkHold: { hours: 60, milkings: 5 } }, {}, 'hold.hours-and-milkings', 'meat.days'],
    ['vet', label, vet, 'hold.vet', 'meat.vet'],
    ['law', label, { offLabel: true, prescribedBy: 'Dr Vane' }, 'hold.off-label-eu', 'meat.off-label-eu'],
  ] as const;

  test.each(cases)(
    'R-17 R-90 is planned until it is given or the course is ended, for milk and meat: %s',
    (...each) => {
      const [, listed, more, milkKey, meatKey] = each;
      const given = (number: number, time: string) =>
        dose('412', time, { medicine: 'Q', ...more, course: { id: 'c1', dose: number, of: 2, everyHours: 24 } });
      const said = (...sayings: readonly Saying[]) => {
        const book = evening([farm({ offLabel: 'eu-2019-6' }), medicine('Q', listed), milker('412'), ...sayings]);
        const { sheets } = book.at('2026-03-14/afternoon');
        const reasons = [...sheets['milk-hold'].held, ...sheets['beef-hold'].cows].flatMap((row) => row.reasons);
        return reasons
          .filter(({ values }) => 'lastDose' in values)
          .map(({ key, values }) => [key, values as unknown as { lastDose: string; planned: boolean }] as const);
      };
      const first = given(1, '2026-03-14T06:00:00Z');
      const plannedFor = (lastDose: string, planned: boolean) =>
        [milkKey, meatKey].map((key) => [key, expect.objectContaining({ lastDose, planned })]);
      expect(said(first)).toEqual(plannedFor('2026-03-15T06:00:00Z', true));
      const ended = about('412', 'course-ended', '2026-03-14T07:00:00Z', { course: 'c1', reason: 'healed' });
      expect(said(first, ended)).toEqual(plannedFor('2026-03-14T06:00:00Z', false));
      const started = given(1, '2026-03-13T06:00:00Z');
      expect(said(started, given(2, '2026-03-14T06:00:00Z'))).toEqual(plannedFor('2026-03-14T06:00:00Z', false));
    },
  );
});
