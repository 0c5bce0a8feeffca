/** Lactation, days in milk, due dates, dry-off. */
import { describe, expect, test } from 'vitest';
import { about, CUPBOARD, dose, evening, farm, milker, type Saying } from './evening.ts';

const book = (...more: readonly Saying[]) => evening([farm(), ...CUPBOARD, ...more]);
const AT = '2026-03-14/afternoon';
const due = (each: ReturnType<typeof book>, milking = AT) => each.at(milking).sheets['dry-off'].due;
const service = (cow: string, day: string) => about(cow, 'service', `${day}T10:00:00Z`, { how: 'insemination' });
const check = (cow: string, day: string, result: 'pregnant' | 'twins' | 'empty' | 'unsure', more = {}) =>
  about(cow, 'pregnancy-check', `${day}T11:00:00Z`, { result, ...more });
/** In milk since 1 June 2025, long enough to be served and checked. */
const old = (cow: string, more = {}) => ({
  ...milker(cow, { calvedOn: '2025-06-01', ...more }),
  time: '2025-06-02T12:00:00Z',
});

describe('lactation', () => {
  test("R-40 a heifer's first calving makes her lactation 1, each further one adds one", () => {
    const heifer = about('5', 'cow-entered', '2026-01-10T12:00:00Z', {
      group: 'Close-up',
      lactation: 0,
      milkHoldUntil: 'none',
      meatHoldUntil: 'none',
    });
    const calved = (cow: string, group: string) =>
      about(cow, 'calving', '2026-03-10T08:00:00Z', { calves: [{ sex: 'male', alive: true }], group });
    const moves = book(heifer, calved('5', 'Fresh')).at('2026-03-14/morning').sheets['fresh-moves'];
    expect(moves.out).toEqual([expect.objectContaining({ cow: '5', to: 'Heifers' })]);
    const cow = milker('6', {
      group: 'Close-up',
      lactation: 1,
      calvedOn: '2025-02-01',
      driedOffOn: '2026-01-08',
      driedOffWith: 'none',
    });
    expect(book(cow, calved('6', 'Fresh')).at('2026-03-14/morning').sheets['fresh-moves'].out).toEqual([
      expect.objectContaining({ cow: '6', to: 'Cows' }),
    ]);
  });

  test('R-41 days in milk are farm-local dates since calving; the calving day is 0', () => {
    // Past 305 days and not in calf: 306 on 1 April of 2026 for a calving of 30 May 2025.
    const undecided = (day: string) =>
      book({ ...old('1'), data: { ...(old('1').data as object), calvedOn: '2025-05-30' } }).at(`${day}/morning`).sheets[
        'dry-off'
      ].undecided;
    expect(undecided('2026-03-31')).toEqual([]);
    expect(undecided('2026-04-01')).toEqual([expect.objectContaining({ cow: '1', daysInMilk: 306 })]);
  });
});

describe('due dates', () => {
  test('R-42 a positive check confirms the last service at least 25 days before it', () => {
    const cow = book(
      old('1'),
      service('1', '2025-07-20'),
      service('1', '2025-08-20'),
      check('1', '2025-09-10', 'pregnant'),
    );
    // 20 July and 283 days: 29 April; the service of 20 August is only 21 days before the check.
    expect(due(cow, '2026-02-25/morning')).toEqual([
      expect.objectContaining({ calvingDue: '2026-04-29', dryOffOn: '2026-02-28' }),
    ]);
  });

  test("R-42 the check's own service date, or its own due date, wins", () => {
    const served = book(
      old('1'),
      service('1', '2025-07-20'),
      check('1', '2025-09-10', 'pregnant', { servedOn: '2025-07-18' }),
    );
    expect(due(served, '2026-02-25/morning')[0]?.calvingDue).toBe('2026-04-27');
    const stated = book(
      old('1'),
      service('1', '2025-07-20'),
      check('1', '2025-09-10', 'pregnant', { dueOn: '2026-05-01' }),
    );
    expect(due(stated, '2026-02-25/morning')[0]?.calvingDue).toBe('2026-05-01');
  });

  test('R-42 a later empty check, service or abortion ends the pregnancy; an unsure check does not', () => {
    const confirmed = [old('1'), service('1', '2025-07-20'), check('1', '2025-09-10', 'pregnant')];
    const at = '2026-02-25/morning';
    expect(due(book(...confirmed, check('1', '2025-11-01', 'empty')), at)).toEqual([]);
    expect(due(book(...confirmed, service('1', '2025-11-01')), at)).toEqual([]);
    expect(due(book(...confirmed, about('1', 'abortion', '2025-11-01T10:00:00Z', {})), at)).toEqual([]);
    expect(due(book(...confirmed, check('1', '2025-11-01', 'unsure')), at)).toHaveLength(1);
  });
});

describe('dry-off', () => {
  test('R-43 the dry-off weekday nearest to the target that leaves the minimum', () => {
    // Due 20 May 2026, 60 days before is Saturday 21 March; the nearest Thursday is the 19th.
    const thursday = evening([
      farm({ dryOff: { days: 60, minimumDays: 45, weekday: 'thursday', lookAheadDays: 7, longMilkingDays: 305 } }),
      milker('1', { dueOn: '2026-05-20' }),
    ]);
    expect(due(thursday)[0]?.dryOffOn).toBe('2026-03-19');
    // With a minimum of 58 days nothing after 23 March will do: of Tuesday 24 and 17 March it is the 17th.
    const tuesday = evening([
      farm({ dryOff: { days: 60, minimumDays: 58, weekday: 'tuesday', lookAheadDays: 7, longMilkingDays: 305 } }),
      milker('1', { dueOn: '2026-05-20' }),
    ]);
    expect(due(tuesday)[0]?.dryOffOn).toBe('2026-03-17');
  });

  test('R-43 without a weekday the target is the day', () => {
    expect(due(book(milker('1', { dueOn: '2026-05-20' })))[0]).toMatchObject({
      dryOffOn: '2026-03-21',
      daysOverdue: 0,
    });
  });

  test('R-44 due are cows in milk, in calf, with the day within the look-ahead; overdue first, and 0 days until the day has passed', () => {
    const sheet = book(
      milker('1', { dueOn: '2026-05-20' }),
      milker('2', { dueOn: '2026-05-21' }),
      milker('3', { dueOn: '2026-05-08' }),
      milker('4', { dueOn: '2026-05-13' }),
      milker('5', {
        group: 'Dry',
        calvedOn: '2025-05-01',
        driedOffOn: '2026-01-08',
        driedOffWith: 'none',
        dueOn: '2026-05-08',
      }),
    ).at(AT).sheets['dry-off'];
    expect(sheet.due.map(({ cow, dryOffOn, daysOverdue }) => [cow, dryOffOn, daysOverdue])).toEqual([
      ['3', '2026-03-09', 5],
      ['4', '2026-03-14', 0],
      ['1', '2026-03-21', 0],
    ]);
  });

  test('R-44 undecided are cows past the long-milking days and not confirmed in calf', () => {
    const sheet = book(
      old('1', { calvedOn: '2025-05-01' }),
      old('2', { calvedOn: '2025-05-01', dueOn: '2026-12-24' }),
    ).at(AT).sheets['dry-off'];
    expect(sheet.undecided.map(({ cow, daysInMilk }) => [cow, daysInMilk])).toEqual([['1', 317]]);
  });

  const warnings = (...more: readonly Saying[]) =>
    due(book(...more)).flatMap((row) => row.warnings.map(({ key }) => key));

  test('R-45 the row warns of too few days left, of a product whose minimum cannot be met, and of no service behind the date', () => {
    expect(warnings(milker('1', { dueOn: '2026-04-27' }))).toEqual(['dry-off.under-minimum', 'dry-off.no-service']);
    expect(warnings(milker('1', { dueOn: '2026-04-24' }))).toEqual([
      'dry-off.under-minimum',
      'dry-off.product-minimum',
      'dry-off.no-service',
    ]);
    expect(warnings(milker('1', { dueOn: '2026-05-20', servedOn: '2025-08-10' }))).toEqual([]);
  });

  test('R-45 the row warns of twins and of a milk hold', () => {
    const twins = [old('1'), service('1', '2025-08-10'), check('1', '2025-09-20', 'twins')];
    expect(warnings(...twins, dose('1', '2026-03-14T10:00:00Z'))).toEqual(['dry-off.twins', 'dry-off.on-hold']);
  });

  test('R-46 seven days past due is a doubt, six are not', () => {
    expect(book(milker('1', { dueOn: '2026-03-08' })).doubts(AT, 'doubt.past-due')).toEqual([]);
    expect(
      book(milker('1', { dueOn: '2026-03-07' }))
        .doubts(AT, 'doubt.past-due')
        .map(({ because }) => because.values),
    ).toEqual([{ cow: '1', due: '2026-03-07', days: 7 }]);
  });

  test('R-46 a calving more than 21 days before due is early', () => {
    const calved = about('1', 'calving', '2026-03-10T08:00:00Z', {
      calves: [{ sex: 'female', alive: true }],
      group: 'Fresh',
    });
    const dry = (dueOn: string) =>
      milker('1', { group: 'Close-up', calvedOn: '2025-02-01', driedOffOn: '2026-01-08', driedOffWith: 'none', dueOn });
    expect(
      book(dry('2026-04-01'), calved)
        .doubts(AT, 'doubt.calved-early')
        .map(({ because }) => because.values),
    ).toEqual([{ cow: '1', due: '2026-04-01', days: 22 }]);
    expect(book(dry('2026-03-31'), calved).doubts(AT, 'doubt.calved-early')).toEqual([]);
  });
});
