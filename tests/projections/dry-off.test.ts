/** Due dates and dry-off at their edges, worked by hand from the rules. */
import { describe, expect, test } from 'vitest';
import { about, CUPBOARD, evening, farm, milker, type Saying } from './evening.ts';

const AT = '2026-03-14/afternoon';
const book = (...more: readonly Saying[]) => evening([farm(), ...CUPBOARD, ...more]);
const sheet = (each: ReturnType<typeof book>, milking = AT) => each.at(milking).sheets['dry-off'];
const served = (cow: string, time: string) => about(cow, 'service', time, { how: 'insemination' });
const checked = (cow: string, time: string, more = {}) =>
  about(cow, 'pregnancy-check', time, { result: 'pregnant', ...more });
/** Calved on 1 June 2025 and in the book from the day after, so that services and checks come later. */
const daisy = (more = {}): Saying => ({
  ...milker('1', { calvedOn: '2025-06-01', ...more }),
  time: '2025-06-02T12:00:00Z',
});
const calving = (time: string, group: string) =>
  about('1', 'calving', time, { calves: [{ sex: 'female', alive: true }], group });

/** Dry-off rules of the common sort, with a wish. */
const rules = (wish = {}) =>
  farm({
    dryOff: { days: 60, minimumDays: 45, lookAheadDays: 40, longMilkingDays: 305, product: 'Dry-cow tube', ...wish },
  });

describe('when she is due', () => {
  const due = (gestationDays: number) =>
    sheet(
      evening([
        farm({ gestationDays }),
        daisy(),
        served('1', '2025-08-10T10:00:00Z'),
        checked('1', '2025-09-20T10:00:00Z'),
      ]),
    ).due[0]?.calvingDue;

  test("R-42 due is the service and the farm's own gestation days: 10 August and 283 is 20 May, 279 is 16 May", () => {
    expect([due(283), due(279)]).toEqual(['2026-05-20', '2026-05-16']);
  });

  test('R-42 R-29 gestation days that the farm sets later are not those of a service before', () => {
    const before = [farm(), daisy(), served('1', '2025-08-10T10:00:00Z'), checked('1', '2025-09-20T10:00:00Z')];
    const changed = { ...farm({ gestationDays: 290, from: '2026-03-01' }, 'changed'), time: '2026-02-28T09:00:00Z' };
    expect(sheet(evening([...before, changed])).due[0]?.calvingDue).toBe('2026-05-20');
  });

  test('R-42 25 days before the check is long enough, 24 is not: in calf then, but nobody knows since when', () => {
    const checkedOn = (day: string) =>
      sheet(book(daisy(), served('1', '2025-08-10T10:00:00Z'), checked('1', `${day}T10:00:00Z`)));
    expect(checkedOn('2025-09-04').due.map((row) => row.calvingDue)).toEqual(['2026-05-20']);
    const tooSoon = checkedOn('2025-09-03');
    expect(tooSoon.due).toEqual([]);
    expect(tooSoon.undecided.map(({ cow, because }) => [cow, because.key])).toEqual([['1', 'dry-off.no-due-date']]);
  });

  test('R-42 the 25 days are dates on the farm, not hours', () => {
    const late = book(daisy(), served('1', '2025-08-10T23:30:00Z'), checked('1', '2025-09-04T06:00:00Z'));
    expect(sheet(late).due.map((row) => row.calvingDue)).toEqual(['2026-05-20']);
  });

  test('R-42 she came with a service alone: not in calf until a check says so, and then by that service', () => {
    const came = daisy({ servedOn: '2025-08-10' });
    expect(sheet(book(came)).due).toEqual([]);
    expect(sheet(book(came, checked('1', '2025-09-20T10:00:00Z'))).due.map((row) => row.calvingDue)).toEqual([
      '2026-05-20',
    ]);
  });

  test('R-42 the due date she came with stands when a later check gives only a service date', () => {
    const came = daisy({ dueOn: '2026-05-20' });
    const again = checked('1', '2025-09-20T10:00:00Z', { servedOn: '2025-08-01' });
    expect(sheet(book(came, again)).due.map((row) => row.calvingDue)).toEqual(['2026-05-20']);
  });

  test('R-42 after an empty check a new service and its check confirm again, from the new service', () => {
    const again = book(
      daisy(),
      served('1', '2025-07-01T10:00:00Z'),
      about('1', 'pregnancy-check', '2025-08-05T10:00:00Z', { result: 'empty' }),
      served('1', '2025-08-10T10:00:00Z'),
      checked('1', '2025-09-20T10:00:00Z'),
    );
    expect(sheet(again).due.map((row) => row.calvingDue)).toEqual(['2026-05-20']);
  });

  test('R-42 calving ends the pregnancy: she is neither due for dry-off nor past due', () => {
    const calved = book(daisy({ dueOn: '2026-03-01' }), calving('2026-03-02T08:00:00Z', 'Fresh'));
    expect(sheet(calved).due).toEqual([]);
    expect(calved.doubts('2026-03-20/morning', 'doubt.past-due')).toEqual([]);
  });

  test('R-40 R-07 twins born three days apart are one calving and one lactation more', () => {
    const each = book(
      {
        ...daisy({ lactation: 0, group: 'Close-up' }),
        data: { group: 'Close-up', lactation: 0, milkHoldUntil: 'none', meatHoldUntil: 'none' },
      },
      calving('2026-03-09T04:00:00Z', 'Fresh'),
      calving('2026-03-12T03:00:00Z', 'Fresh'),
    );
    const moves = each.at('2026-03-15/morning').sheets['fresh-moves'];
    expect(moves.out.map(({ cow, to }) => [cow, to])).toEqual([['1', 'Heifers']]);
  });
});

describe('the dry-off day', () => {
  test.each([
    ['saturday', '2026-03-21'],
    ['sunday', '2026-03-22'],
    ['monday', '2026-03-23'],
    ['tuesday', '2026-03-24'],
    ['wednesday', '2026-03-18'],
    ['thursday', '2026-03-19'],
    ['friday', '2026-03-20'],
  ] as const)('R-43 due 20 May, 60 days dry: the target is Saturday 21 March, the nearest %s is %s', (weekday, day) => {
    expect(sheet(evening([rules({ weekday }), milker('1', { dueOn: '2026-05-20' })])).due[0]?.dryOffOn).toBe(day);
  });

  test('R-43 a weekday that would leave less than the minimum is passed over for the one before', () => {
    // At most 31 March leaves 50 days; Tuesday the 24th does, with 58 wanted only the 17th.
    const tuesday = (minimumDays: number) =>
      sheet(evening([rules({ weekday: 'tuesday', minimumDays }), milker('1', { dueOn: '2026-05-20' })])).due[0]
        ?.dryOffOn;
    expect([tuesday(50), tuesday(57), tuesday(58)]).toEqual(['2026-03-24', '2026-03-24', '2026-03-17']);
  });

  test('R-43 where the farm dries for less than its own minimum, a weekday still leaves the minimum', () => {
    // 40 days before 20 May is 10 April; 45 days is Sunday 5 April; the last Monday by then is 30 March.
    const monday = evening([rules({ days: 40, weekday: 'monday' }), milker('1', { dueOn: '2026-05-20' })]);
    expect(sheet(monday).due[0]?.dryOffOn).toBe('2026-03-30');
  });
});

describe('the list', () => {
  test('R-44 a cow moved among the dry ones without a dry-off is in milk still, and due', () => {
    const moved = about('1', 'group-move', '2026-03-10T09:00:00Z', { to: 'Dry' });
    const rows = sheet(book(milker('1', { dueOn: '2026-05-13' }), moved)).due;
    expect(rows.map(({ cow, group }) => [cow, group])).toEqual([['1', 'Dry']]);
  });

  test('R-44 a cow dried off, one that left and a heifer in calf are not on it', () => {
    const each = book(
      milker('1', { dueOn: '2026-05-13' }),
      about('1', 'dry-off', '2026-03-14T08:00:00Z', { product: 'none', group: 'Dry' }),
      milker('2', { dueOn: '2026-05-13' }),
      about('2', 'cow-left', '2026-03-14T08:00:00Z', { reason: 'sold-for-beef' }),
      about('3', 'cow-entered', '2026-01-10T12:00:00Z', {
        group: 'Close-up',
        lactation: 0,
        dueOn: '2026-05-13',
        milkHoldUntil: 'none',
        meatHoldUntil: 'none',
      }),
    );
    expect(sheet(each)).toEqual({ due: [], undecided: [] });
  });

  test('R-44 the look-ahead counts its last day', () => {
    const ahead = (dueOn: string) => sheet(book(milker('1', { dueOn }))).due.length;
    expect([ahead('2026-05-20'), ahead('2026-05-21')]).toEqual([1, 0]);
  });

  test('R-44 at the long-milking days exactly nobody need decide; served, or checked and unsure, is not in calf', () => {
    // 13 May 2025 is 305 days before 14 March 2026.
    expect(sheet(book(daisy({ calvedOn: '2025-05-13' }))).undecided).toEqual([]);
    const unsure = about('1', 'pregnancy-check', '2025-09-20T10:00:00Z', { result: 'unsure' });
    const each = book(daisy({ calvedOn: '2025-05-12' }), served('1', '2025-08-10T10:00:00Z'), unsure);
    expect(sheet(each).undecided.map(({ cow, daysInMilk }) => [cow, daysInMilk])).toEqual([['1', 306]]);
  });
});

describe('warnings', () => {
  const warnings = (first: Saying, ...more: readonly Saying[]) =>
    sheet(evening([first, ...CUPBOARD, ...more])).due.flatMap((row) =>
      row.warnings.map(({ key, values }) => [key, values] as const),
    );
  const due = (dueOn: string) => milker('1', { dueOn, servedOn: '2025-07-10' });

  test('R-45 exactly the minimum left is enough, a day less is not', () => {
    expect(warnings(rules(), due('2026-04-28'))).toEqual([]);
    expect(warnings(rules(), due('2026-04-27'))).toEqual([['dry-off.under-minimum', { daysLeft: 44, minimum: 45 }]]);
  });

  test('R-45 the days left are those from the day she is to be dried off, not from today', () => {
    // Dried off on 10 April she has 40 days: the product wants 42.
    const short = rules({ days: 40, minimumDays: 30 });
    expect(warnings(short, due('2026-05-20'))).toEqual([
      ['dry-off.product-minimum', { product: 'Dry-cow tube', minimum: 42, daysLeft: 40 }],
    ]);
  });

  test("R-45 the product's own minimum is met on its very day", () => {
    const short = rules({ minimumDays: 30 });
    expect(warnings(short, due('2026-04-25'))).toEqual([]);
    expect(warnings(short, due('2026-04-24')).map(([key]) => key)).toEqual(['dry-off.product-minimum']);
  });

  test("R-45 a check's own service date stands behind the due date; a due date out of nowhere does not", () => {
    const check = (more: object) => checked('1', '2026-02-01T10:00:00Z', more);
    expect(warnings(rules(), milker('1'), check({ servedOn: '2025-08-10' }))).toEqual([]);
    expect(warnings(rules(), milker('1'), check({ dueOn: '2026-05-20' })).map(([key]) => key)).toEqual([
      'dry-off.no-service',
    ]);
  });
});

describe('past due', () => {
  test('R-46 a dry cow is past due like any other, and no more once she has calved', () => {
    const dry = milker('1', {
      group: 'Dry',
      calvedOn: '2025-02-01',
      driedOffOn: '2026-01-08',
      driedOffWith: 'none',
      dueOn: '2026-03-07',
    });
    expect(book(dry).doubts(AT, 'doubt.past-due')).toHaveLength(1);
    expect(book(dry, calving('2026-03-14T10:00:00Z', 'Fresh')).doubts(AT, 'doubt.past-due')).toEqual([]);
  });

  test('R-46 an early calving is judged by the due date that stood when she calved', () => {
    const came = milker('1', {
      group: 'Close-up',
      calvedOn: '2025-02-01',
      driedOffOn: '2026-01-08',
      driedOffWith: 'none',
      dueOn: '2026-03-20',
    });
    const recheck = about('1', 'pregnancy-check', '2026-02-01T10:00:00Z', { result: 'pregnant', dueOn: '2026-04-05' });
    const each = book(came, recheck, calving('2026-03-10T08:00:00Z', 'Fresh'));
    expect(each.doubts(AT, 'doubt.calved-early').map(({ because }) => because.values)).toEqual([
      { cow: '1', due: '2026-04-05', days: 26 },
    ]);
  });
});
