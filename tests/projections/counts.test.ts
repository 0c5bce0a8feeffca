/** Head counts, worked by hand; who came and who went is told against really issued sheets. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type AFarm, aFarm } from '../api/a-farm.ts';
import { about, CUPBOARD, dryCow, evening, farm, farmWide, milker, type Saying } from './evening.ts';

const AT = '2026-03-14/afternoon';
const book = (...more: readonly Saying[]) => evening([farm(), ...CUPBOARD, ...more]);
const row = (each: ReturnType<typeof book>, group: string, milking = AT) =>
  each.at(milking).sheets.counts.groups.find((one) => one.group === group);
const counted = (time: string, count: number, group = 'Cows', id = `count-${time}`): Saying => ({
  ...farmWide('head-count', time, { group, count }),
  id,
});

describe('head, in milk, held', () => {
  test('R-70 R-24 held are those on the milk-hold list: a dry cow after her dry-cow product is a head and no more', () => {
    const each = book(
      dryCow('1', { driedOffWith: 'Dry-cow tube' }),
      milker('2'),
      about('2', 'milk-hold', '2026-03-14T09:00:00Z', { reason: 'clots' }),
    );
    expect(row(each, 'Dry')).toMatchObject({ head: 1, inMilk: 0, held: 0 });
    expect(row(each, 'Cows')).toMatchObject({ head: 1, inMilk: 1, held: 1 });
    expect(each.at(AT).sheets.counts.total).toEqual({ head: 2, inMilk: 1, held: 1 });
  });

  test('R-70 R-24 a dry cow in a milked group is on the milk-hold list, so she is one of the held there', () => {
    const each = book(dryCow('1', { group: 'Cows' }), milker('2'));
    expect(row(each, 'Cows')).toMatchObject({ head: 2, inMilk: 1, held: 1 });
    expect(each.at(AT).sheets.counts.total).toEqual({ head: 2, inMilk: 1, held: 1 });
    // She is none of the cows that the plan makes turns for.
    expect(each.at(AT).sheets['milking-plan'].groups.find(({ group }) => group === 'Cows')?.cows).toBe(1);
    // Where her group is not milked at this milking she is on no list.
    const once = evening([
      farm({ groups: [{ name: 'Cows', kind: 'milking', milkedAt: ['morning'] }] }),
      dryCow('1', { group: 'Cows' }),
    ]);
    expect([row(once, 'Cows', '2026-03-14/morning')?.held, row(once, 'Cows')?.held]).toEqual([1, 0]);
  });

  test('R-70 R-24 a cow that calved inside the milking is on the list, so she is held, though not in milk at its start', () => {
    const calves = [{ sex: 'male' as const, alive: true }];
    const each = book(dryCow('1'), about('1', 'calving', '2026-03-14T16:40:00Z', { calves, group: 'Fresh' }));
    expect(row(each, 'Dry')).toMatchObject({ head: 1, inMilk: 0, held: 1 });
    expect(each.at(AT).sheets['milk-hold'].held.map(({ cow, group }) => [cow, group])).toEqual([['1', 'Dry']]);
  });
});

describe('a count by hand', () => {
  const differs = (each: ReturnType<typeof book>) =>
    each.doubts(AT, 'doubt.head-count').map(({ because }) => because.values);
  const two = [milker('1'), milker('2')];
  const left = about('2', 'cow-left', '2026-03-14T08:00:00Z', { reason: 'died' });

  test('R-70 it is held against the book at the time of the count, not at the milking', () => {
    const each = book(...two, counted('2026-03-14T06:00:00Z', 2), left);
    expect(row(each, 'Cows')).toMatchObject({ head: 1, lastCount: 2, countedDifference: 0 });
    expect(differs(each)).toEqual([]);
  });

  test('R-70 news of the time before the count makes it wrong after all', () => {
    const each = book(...two, counted('2026-03-14T09:00:00Z', 2), left);
    expect(differs(each)).toEqual([{ group: 'Cows', count: 2, book: 1, at: '2026-03-14T09:00:00Z' }]);
    expect(row(each, 'Cows')).toMatchObject({ countedDifference: 1, lastCountAt: '2026-03-14T09:00:00Z' });
  });

  test('R-70 a later count that differs too takes the place of the first; one that agrees ends it', () => {
    const first = counted('2026-03-13T09:00:00Z', 1);
    const second = counted('2026-03-14T09:00:00Z', 3);
    expect(differs(book(...two, first, second))).toEqual([
      { group: 'Cows', count: 3, book: 2, at: '2026-03-14T09:00:00Z' },
    ]);
    expect(differs(book(...two, first, second, counted('2026-03-14T10:00:00Z', 2)))).toEqual([]);
  });

  test('R-70 a count of one group says nothing of another', () => {
    const other = counted('2026-03-14T09:00:00Z', 0, 'Hospital');
    expect(differs(book(...two, counted('2026-03-13T09:00:00Z', 1), other))).toHaveLength(1);
  });

  test('R-70 a count that is still to come bears on no milking before it', () => {
    const each = book(...two, counted('2026-03-14T20:00:00Z', 1));
    expect(row(each, 'Cows')).toMatchObject({ lastCount: null, lastCountAt: null, countedDifference: null });
    expect(differs(each)).toEqual([]);
  });

  test('R-70 settled, the doubt is over; the figures stay on the sheet', () => {
    const settled = farmWide('settled', '2026-03-14T10:00:00Z', {
      about: 'head-count:count-2026-03-14T09:00:00Z',
      how: 'two were in the crush',
    });
    const each = book(...two, counted('2026-03-14T09:00:00Z', 1), settled);
    expect(differs(each)).toEqual([]);
    expect(row(each, 'Cows')).toMatchObject({ countedDifference: -1 });
  });
});

describe('in and out', () => {
  let windmill: AFarm;
  beforeEach(() => {
    windmill = aFarm();
  });
  afterEach(() => windmill.close());

  /** Group, who came, who went; groups where nothing changed left out. */
  const changes = () =>
    windmill
      .print()
      .sheets.counts.groups.filter((group) => group.in.length + group.out.length > 0)
      .map((group) => [group.group, group.in, group.out]);
  const say = (type: string, time: string, subject: string, data: unknown) =>
    expect(windmill.say(type, time, subject, data).outcome).toBe('recorded');

  test('R-70 before any sheet was issued nobody came and nobody went', () => {
    say('group-move', '2026-03-01T11:00:00Z', '101', { to: 'Fresh' });
    expect(changes()).toEqual([]);
  });

  test('R-70 moved, left, come and renumbered since the last issued sheet', async () => {
    await windmill.issue();
    windmill.at('2026-03-02T02:00:00Z');
    say('group-move', '2026-03-01T20:00:00Z', '101', { to: 'Fresh' });
    say('cow-left', '2026-03-01T20:00:00Z', '102', { reason: 'sold-for-milking' });
    say('cow-entered', '2026-03-01T20:00:00Z', '110', { group: 'Dry', lactation: 1 });
    say('number-changed', '2026-03-01T20:00:00Z', '103', { to: '203' });
    expect(changes()).toEqual([
      ['Milkers', [], ['101', '102']],
      ['Fresh', ['101'], []],
      ['Dry', ['110'], []],
    ]);
  });

  test('R-70 moved and back is no change; after the next issue the count starts anew', async () => {
    await windmill.issue();
    windmill.at('2026-03-02T02:00:00Z');
    say('group-move', '2026-03-01T20:00:00Z', '101', { to: 'Fresh' });
    expect(changes()).toHaveLength(2);
    await windmill.issue();
    windmill.at('2026-03-02T14:00:00Z');
    expect(changes()).toEqual([]);
    say('group-move', '2026-03-02T09:00:00Z', '104', { to: 'Fresh' });
    say('group-move', '2026-03-02T10:00:00Z', '104', { to: 'Milkers' });
    expect(changes()).toEqual([]);
  });
});
