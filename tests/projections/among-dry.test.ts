/** A cow in milk by the book that was put among the dry ones: asked about, and not called in to be milked. */
import { describe, expect, test } from 'vitest';
import type { DataOf } from '../../events/kinds.ts';
import { about, evening, farm, farmWide, keysOf, milker, type Saying } from './evening.ts';

const AT = '2026-03-14/morning';
const GROUPS: DataOf<'farm-set-up'>['groups'] = [
  { name: 'Cows', kind: 'milking' },
  { name: 'Late', kind: 'milking' },
  { name: 'Fresh', kind: 'fresh' },
  { name: 'Dry', kind: 'dry' },
  { name: 'Close-up', kind: 'close-up' },
];
const book = (...more: readonly Saying[]) => evening([farm({ groups: GROUPS }), ...more]);
const moved = (to: string, time: string) => about('1', 'group-move', time, { to });
const springer = milker('1', {
  group: 'Close-up',
  calvedOn: '2025-02-01',
  driedOffOn: '2026-01-08',
  driedOffWith: 'none',
});
const calving = (time: string, group?: string) =>
  about('1', 'calving', time, {
    calves: [{ sex: 'female', alive: true }],
    ...(group === undefined ? {} : { group }),
  });
/** What is asked about her, and whether she is called into the fresh pen. */
const said = (each: ReturnType<typeof book>, milking = AT) => ({
  asked: each.doubts(milking, 'doubt.among-dry').map(({ because }) => because.values),
  in: each.at(milking).sheets['fresh-moves'].in.map(({ because }) => because.key),
});
const LEFT_THERE = { asked: [], in: ['fresh.in-calved'] };
const since = (group: string, day: string) => ({ asked: [{ cow: '1', group, since: day }], in: [] });

describe('moved among the dry cows', () => {
  test('R-06 R-50 a cow in milk with no dry-off is asked about for as long as it is so, and not called in', () => {
    const each = book(milker('1'), moved('Dry', '2026-03-10T09:00:00Z'));
    expect(said(each, '2026-03-10/morning')).toEqual({ asked: [], in: [] });
    for (const milking of ['2026-03-10/afternoon', AT, '2026-06-01/morning'])
      expect(said(each, milking)).toEqual(since('Dry', '2026-03-10'));
    const dried = about('1', 'dry-off', '2026-03-10T08:00:00Z', { product: 'none' });
    expect(said(book(milker('1'), dried, moved('Dry', '2026-03-10T09:00:00Z')))).toEqual({ asked: [], in: [] });
    const back = book(milker('1'), moved('Dry', '2026-03-10T09:00:00Z'), moved('Cows', '2026-03-11T09:00:00Z'));
    expect(said(back)).toEqual({ asked: [], in: [] });
  });

  test('R-50 R-07 one that calved in the close-up pen is called in, and so is one moved there in the five days after', () => {
    expect(said(book(springer, calving('2026-03-01T06:00:00Z')))).toEqual(LEFT_THERE);
    const calved = calving('2026-03-05T06:00:00Z', 'Fresh');
    expect(said(book(springer, calved, moved('Close-up', '2026-03-10T06:00:00Z')))).toEqual(LEFT_THERE);
    const later = book(springer, calved, moved('Close-up', '2026-03-10T06:01:00Z'));
    expect(said(later)).toEqual(since('Close-up', '2026-03-10'));
    // From the close-up pen she calved in to the dry cows, by name, days later.
    const put = book(springer, calving('2026-03-01T06:00:00Z'), moved('Dry', '2026-03-10T06:00:00Z'));
    expect(said(put)).toEqual(since('Dry', '2026-03-10'));
  });

  test('R-50 of twins the later calf counts, and a calving known by its date counts from the end of it', () => {
    const twins = [calving('2026-03-01T06:00:00Z', 'Fresh'), calving('2026-03-04T06:00:00Z', 'Fresh')];
    expect(said(book(springer, ...twins, moved('Dry', '2026-03-08T06:00:00Z')))).toEqual(LEFT_THERE);
    const came = { ...milker('1', { group: 'Fresh', calvedOn: '2026-03-03' }), time: '2026-03-04T06:00:00Z' };
    expect(said(book(came, moved('Dry', '2026-03-09T00:00:00Z')))).toEqual(LEFT_THERE);
    expect(said(book(came, moved('Dry', '2026-03-09T00:01:00Z')))).toEqual(since('Dry', '2026-03-09'));
  });

  test('R-50 one near to calving again is called in for that', () => {
    const near = book(
      milker('1', { calvedOn: '2025-02-01', dueOn: '2026-03-16' }),
      moved('Dry', '2026-03-10T09:00:00Z'),
    );
    expect(said(near)).toEqual({ ...since('Dry', '2026-03-10'), in: ['fresh.in-due'] });
  });

  test('R-19 R-06 back among the milked ones the doubt is over and her milk is held', () => {
    const each = book(milker('1'), moved('Dry', '2026-03-01T09:00:00Z'), moved('Cows', '2026-03-10T09:00:00Z'));
    expect([said(each), keysOf(each.held('1', AT))]).toEqual([{ asked: [], in: [] }, ['hold.back-from-dry']]);
  });
});

describe('a group made one of dry cows', () => {
  const again = (late: Partial<(typeof GROUPS)[number]>, time = '2026-03-10T09:00:00Z'): Saying =>
    farmWide('farm-set-up', time, {
      ...(farm().data as DataOf<'farm-set-up'>),
      from: '2026-03-11',
      groups: GROUPS.map((group) => (group.name === 'Late' ? { ...group, ...late } : group)),
    });
  const late = milker('1', { group: 'Late' });

  test('R-06 R-50 its cows in milk are asked about from that day on, and not called in', () => {
    const each = book(late, again({ kind: 'dry' }));
    expect(said(each, '2026-03-10/afternoon')).toEqual({ asked: [], in: [] });
    expect(said(each)).toEqual(since('Late', '2026-03-11'));
    const renamed = book(late, again({ kind: 'dry', name: 'Old ones', was: ['Late'] }));
    expect(said(renamed)).toEqual(since('Old ones', '2026-03-11'));
  });

  test('R-50 one that calved in it and was put nowhere since is called in as before', () => {
    const before = milker('1', { group: 'Late', calvedOn: '2025-02-01' });
    expect(said(book(before, calving('2026-03-09T06:00:00Z'), again({ kind: 'dry' })))).toEqual(LEFT_THERE);
  });

  test('R-06 R-03 where the farm milks its dry group before they are dried off, nobody is asked', () => {
    expect(said(book(late, again({ kind: 'dry', milkedAt: ['morning'] })))).toEqual({ asked: [], in: [] });
  });
});
