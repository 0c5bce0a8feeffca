/** Fresh moves, sort, counts and the plan. */
import { describe, expect, test } from 'vitest';
import { about, CUPBOARD, dose, dryCow, evening, farm, farmWide, milker, type Saying } from './evening.ts';

const AT = '2026-03-14/afternoon';
const book = (...more: readonly Saying[]) => evening([farm(), ...CUPBOARD, ...more]);
const calved = (cow: string, time: string, group?: string) =>
  about(cow, 'calving', time, { calves: [{ sex: 'female', alive: true }], ...(group === undefined ? {} : { group }) });
const springer = (cow: string, more = {}) =>
  milker(cow, { group: 'Close-up', calvedOn: '2025-02-01', driedOffOn: '2026-01-08', driedOffWith: 'none', ...more });

describe('fresh moves', () => {
  test('R-50 out: calved the fresh-pen hours ago and on no hold, to the group that takes her lactation', () => {
    const moves = book(springer('1'), calved('1', '2026-03-11T06:00:00Z', 'Fresh')).at(AT).sheets['fresh-moves'];
    expect(moves.out.map(({ cow, to }) => [cow, to])).toEqual([['1', 'Cows']]);
  });

  test('R-50 stays: on her fresh hold, unless the farm moves cows on it; too few hours, whatever else', () => {
    const cow = [springer('1'), calved('1', '2026-03-13T04:00:00Z', 'Fresh')];
    expect(
      book(...cow)
        .at(AT)
        .sheets['fresh-moves'].stay.map(({ because }) => because.key),
    ).toEqual(['fresh.stay-on-hold']);
    const moving = evening([farm({ freshHoldMayMove: true }), ...cow]);
    expect(moving.at(AT).sheets['fresh-moves'].out.map(({ cow: number }) => number)).toEqual(['1']);
    expect(moving.at('2026-03-14/morning').sheets['fresh-moves'].stay.map(({ because }) => because.key)).toEqual([
      'fresh.stay-hours',
    ]);
  });

  test('R-50 a farm that moves cows on their fresh hold still keeps one on any other hold', () => {
    const moving = evening([
      farm({ freshHoldMayMove: true }),
      ...CUPBOARD,
      springer('1'),
      calved('1', '2026-03-11T06:00:00Z', 'Fresh'),
      dose('1', '2026-03-14T06:00:00Z'),
    ]);
    expect(moving.at(AT).sheets['fresh-moves'].stay.map(({ because }) => because.key)).toEqual(['fresh.stay-on-hold']);
  });

  test('R-50 in: calved and still elsewhere, or within a week of due and not close up', () => {
    const moves = book(
      springer('1'),
      calved('1', '2026-03-14T06:00:00Z'),
      dryCow('2', { dueOn: '2026-03-21' }),
      dryCow('3', { dueOn: '2026-03-22' }),
      springer('4', { dueOn: '2026-03-16' }),
    ).at(AT).sheets['fresh-moves'];
    expect(moves.in.map(({ cow, because }) => [cow, because.key])).toEqual([
      ['2', 'fresh.in-due'],
      ['1', 'fresh.in-calved'],
    ]);
  });

  test('R-51 a destination at capacity is said', () => {
    const groups = [
      { name: 'Cows', kind: 'milking' as const, capacity: 1 },
      { name: 'Fresh', kind: 'fresh' as const },
      { name: 'Close-up', kind: 'close-up' as const },
    ];
    const moves = evening([
      farm({ groups }),
      milker('9'),
      springer('1'),
      calved('1', '2026-03-11T06:00:00Z', 'Fresh'),
    ]).at(AT).sheets['fresh-moves'];
    expect(moves.out[0]?.warnings.map(({ key, values }) => [key, values])).toEqual([
      ['fresh.at-capacity', { group: 'Cows', head: 2, capacity: 1 }],
    ]);
  });
});

describe('sort', () => {
  const asked = (cow: string, more = {}, id = `asked-${cow}`) =>
    about(cow, 'sort-request', '2026-03-13T09:00:00Z', { reason: 'lame', ...more }, id);
  const sorted = (each: ReturnType<typeof book>, milking = AT) =>
    each.at(milking).sheets.sort.cows.map(({ cow, to }) => [cow, to]);

  test('R-60 a cow a row, all reasons, and all places she is wanted, with a doubt when they differ', () => {
    const twice = book(
      milker('1'),
      asked('1', { to: 'Crush', forWhom: 'the vet' }),
      asked('1', { to: 'Hospital' }, 'again'),
    );
    expect(sorted(twice)).toEqual([['1', ['Hospital', 'Crush']]]);
    expect(twice.at(AT).sheets.sort.cows[0]?.reasons).toHaveLength(2);
    expect(twice.doubts(AT, 'doubt.sort-several-places')).toHaveLength(1);
  });

  test('R-60 it begins at its milking and ends when done, past its end, struck, or she left', () => {
    expect(sorted(book(milker('1'), asked('1', { from: AT })), '2026-03-14/morning')).toEqual([]);
    expect(sorted(book(milker('1'), asked('1', { from: AT })))).toHaveLength(1);
    expect(sorted(book(milker('1'), asked('1', { until: '2026-03-14/morning' })))).toEqual([]);
    expect(sorted(book(milker('1'), asked('1', { until: '2026-03-14' })))).toHaveLength(1);
    expect(
      sorted(book(milker('1'), asked('1'), about('1', 'sort-done', '2026-03-14T09:00:00Z', { request: 'asked-1' }))),
    ).toEqual([]);
    expect(
      sorted(
        book(
          milker('1'),
          asked('1'),
          farmWide('entry-struck', '2026-03-14T09:00:00Z', { entry: 'asked-1', reason: 'better' }),
        ),
      ),
    ).toEqual([]);
    const left = book(milker('1'), asked('1'), about('1', 'cow-left', '2026-03-14T09:00:00Z', { reason: 'died' })).at(
      AT,
    ).sheets.sort;
    expect([left.cows, left.cannot]).toEqual([[], []]);
  });

  test("R-60 today's dry-offs, fresh moves out and doses that want her caught stand on it by themselves", () => {
    const course = (cow: string, route: string) =>
      dose(cow, '2026-03-14T05:00:00Z', {
        medicine: 'Nothing held',
        route,
        course: { id: `c${cow}`, dose: 1, of: 3, everyHours: 12 },
      });
    const rows = book(
      milker('1', { dueOn: '2026-05-13' }),
      milker('2', { dueOn: '2026-05-14' }),
      springer('3'),
      calved('3', '2026-03-11T06:00:00Z', 'Fresh'),
      milker('4'),
      course('4', 'muscle'),
      milker('5'),
      course('5', 'udder'),
    ).at(AT).sheets.sort.cows;
    expect(rows.map(({ cow, reasons }) => [cow, reasons.map(({ key }) => key)])).toEqual([
      ['1', ['sort.dry-off']],
      ['4', ['sort.dose']],
      ['3', ['sort.fresh-move']],
    ]);
  });

  test('R-61 a cow on it who will not come through stands apart, with why', () => {
    const groups = [
      { name: 'Cows', kind: 'milking' as const },
      { name: 'Once', kind: 'milking' as const, milkedAt: ['morning'] },
      { name: 'Dry', kind: 'dry' as const },
    ];
    const each = evening([
      farm({ groups }),
      dryCow('1'),
      asked('1'),
      milker('2', { group: 'Once' }),
      asked('2'),
      asked('3'),
      milker('4'),
      about('4', 'cow-left', '2026-03-12T09:00:00Z', { reason: 'died' }),
      asked('4'),
    ]);
    expect(each.at(AT).sheets.sort.cannot.map(({ cow, because }) => [cow, because.key])).toEqual([
      ['1', 'sort.cannot-dry'],
      ['2', 'sort.cannot-not-milked'],
      ['3', 'sort.cannot-unknown'],
      ['4', 'sort.cannot-left'],
    ]);
  });
});

describe('counts', () => {
  test('R-70 head, in milk and held, by group in milking order', () => {
    const counts = book(
      milker('1'),
      milker('2', { group: 'Hospital' }),
      dose('2', '2026-03-14T09:00:00Z'),
      dryCow('3'),
    ).at(AT).sheets.counts;
    expect(counts.groups.map(({ group, head, inMilk, held }) => [group, head, inMilk, held])).toEqual([
      ['Cows', 1, 1, 0],
      ['Heifers', 0, 0, 0],
      ['Fresh', 0, 0, 0],
      ['Hospital', 1, 1, 1],
      ['Dry', 1, 0, 0],
      ['Close-up', 0, 0, 0],
    ]);
    expect(counts.total).toEqual({ head: 3, inMilk: 2, held: 1 });
  });

  test('R-70 a count that differs from the book at that time stays until a later one agrees', () => {
    const counted = (time: string, count: number) => farmWide('head-count', time, { group: 'Cows', count });
    const cows = (each: ReturnType<typeof book>) => each.at(AT).sheets.counts.groups[0];
    const differs = book(milker('1'), milker('2'), counted('2026-03-13T18:00:00Z', 1));
    expect(cows(differs)).toMatchObject({ lastCount: 1, countedDifference: -1 });
    expect(differs.doubts(AT, 'doubt.head-count')).toHaveLength(1);
    const agrees = book(
      milker('1'),
      milker('2'),
      counted('2026-03-13T18:00:00Z', 1),
      counted('2026-03-14T06:00:00Z', 2),
    );
    expect(cows(agrees)).toMatchObject({ lastCount: 2, countedDifference: 0 });
    expect(agrees.doubts(AT, 'doubt.head-count')).toEqual([]);
  });

  test('R-70 a cow put in a group that the farm does not have is counted there, as milked, with a doubt', () => {
    const moved = about('1', 'group-move', '2026-03-13T18:00:00Z', { to: 'Orchard' });
    const each = book(milker('1'), moved);
    expect(each.at(AT).sheets.counts.groups.find(({ head }) => head > 0)).toMatchObject({
      group: 'Orchard',
      head: 1,
      inMilk: 1,
      milked: true,
    });
    expect(each.doubts(AT, 'doubt.unknown-group')).toHaveLength(1);
  });

  test('R-70 two groups at one time: both moves stay, fold order decides, and it is a doubt', () => {
    const moved = (to: string, id: string) => about('1', 'group-move', '2026-03-13T18:00:00Z', { to }, id);
    const either = [
      book(milker('1'), moved('Fresh', 'a'), moved('Hospital', 'b')),
      book(milker('1'), moved('Hospital', 'b'), moved('Fresh', 'a')),
    ];
    for (const each of either) {
      expect(
        each
          .at(AT)
          .sheets.counts.groups.filter(({ head }) => head > 0)
          .map(({ group }) => group),
      ).toEqual(['Hospital']);
      expect(each.doubts(AT, 'doubt.two-groups')).toHaveLength(1);
    }
  });
});

describe('the plan', () => {
  test("R-80 turns by stalls, minutes by turns, the farm's order with hospital last, each after the one before", () => {
    const cows = Array.from({ length: 21 }, (_, index) => milker(String(index + 1)));
    const plan = book(...cows, milker('50', { group: 'Hospital' }), milker('60', { group: 'Heifers' })).at(AT).sheets[
      'milking-plan'
    ];
    expect(
      plan.groups.map(({ group, cows: head, turns, start, minutes }) => [group, head, turns, start, minutes]),
    ).toEqual([
      ['Cows', 21, 3, '2026-03-14T16:30:00Z', 30],
      ['Heifers', 1, 1, '2026-03-14T17:00:00Z', 10],
      ['Fresh', 0, 0, '2026-03-14T17:10:00Z', 0],
      ['Hospital', 1, 1, '2026-03-14T17:10:00Z', 10],
    ]);
    expect([plan.minutes, plan.ends]).toEqual([50, '2026-03-14T17:20:00Z']);
  });

  const record = (cow: string, day: number, minutes: number) =>
    about(cow, 'milk-record', `2026-03-${String(day).padStart(2, '0')}T06:00:00Z`, {
      milking: `2026-03-${String(day).padStart(2, '0')}/morning`,
      kg: 15,
      minutes,
    });

  test('R-81 slow is a median of her last ten records at or over the limit; up to one a turn costs extra', () => {
    const slow = (cow: string, minutes: readonly number[]) =>
      minutes.map((each, index) => record(cow, index + 1, each));
    const plan = book(
      milker('1'),
      ...slow('1', [10, 9, 11]),
      milker('2'),
      ...slow('2', [9.9, 9.9]),
      milker('3'),
      ...slow('3', [12, 12]),
    ).at(AT).sheets['milking-plan'];
    expect(plan.slow).toEqual(['1', '3']);
    expect(plan.groups[0]).toMatchObject({ turns: 1, minutes: 14 });
  });

  test('R-81 only the last ten records count', () => {
    const minutes = [20, 20, 20, ...Array.from({ length: 10 }, () => 6)];
    const plan = book(milker('1'), ...minutes.map((each, index) => record('1', index + 1, each))).at(AT).sheets[
      'milking-plan'
    ];
    expect(plan.slow).toEqual([]);
  });
});
