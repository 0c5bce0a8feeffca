/** A calving that stands only as the date in an entry ends what was known of a pregnancy before it. */
import { describe, expect, test } from 'vitest';
import { about, evening, farm, keysOf, milker, type Saying } from './evening.ts';

const AT = '2026-03-14/afternoon';
const OFFICIAL = '372000000000011';
const DRY_OFF = { days: 60, minimumDays: 45, lookAheadDays: 365, longMilkingDays: 305 };
const book = (...more: readonly Saying[]) =>
  evening([farm({ dryOff: DRY_OFF, freshHold: { milkings: 4, daysBeforeDue: 10 } }), ...more]);
const sheet = (each: ReturnType<typeof book>, milking = AT) => each.at(milking).sheets['dry-off'];
const dueOf = (each: ReturnType<typeof book>, milking = AT) =>
  sheet(each, milking).due.map(({ cow, calvingDue }) => [cow, calvingDue]);
const undecidedOf = (each: ReturnType<typeof book>, milking = AT) =>
  sheet(each, milking).undecided.map(({ cow, because }) => [cow, because.key]);
const entered = (time: string, more: Parameters<typeof milker>[1]): Saying => ({
  ...milker('21', { officialId: OFFICIAL, ...more }),
  time,
});
const checked = (time: string, more = {}) => about('21', 'pregnancy-check', time, { result: 'pregnant', ...more });

/** Served on 25 July 2025, in calf, due 4 May 2026; sold, and away until the next word. */
const inCalf = [
  entered('2025-02-01T00:00:00Z', { calvedOn: '2024-12-20' }),
  about('21', 'service', '2025-07-25T10:00:00Z', { how: 'insemination' }),
  checked('2025-08-25T10:00:00Z'),
];
const left = about('21', 'cow-left', '2025-09-01T00:00:00Z', { reason: 'sold-for-milking' });

describe('a cow that comes back having calved elsewhere', () => {
  const calved = (day: string, more: Parameters<typeof milker>[1] = {}) =>
    book(...inCalf, left, entered('2026-02-20T00:00:00Z', { lactation: 4, calvedOn: day, ...more }));

  test('R-42 R-44 is in calf no more: not due for dry-off, on no sort list, and undecided once milked long', () => {
    const back = calved('2026-02-10');
    expect(dueOf(back)).toEqual([]);
    expect(back.at('2026-05-01/morning').sheets.sort.cows).toEqual([]);
    expect(undecidedOf(back, '2026-12-12/morning')).toEqual([]);
    expect(undecidedOf(back, '2026-12-13/morning')).toEqual([['21', 'dry-off.not-confirmed']]);
  });

  test('R-46 calved 83 days before she was due: early, whichever way it is told', () => {
    expect(calved('2026-02-10').doubts(AT, 'doubt.calved-early')).toMatchObject([
      { because: { values: { cow: '21', due: '2026-05-04', days: 83 } } },
    ]);
    expect(calved('2026-04-13').doubts(AT, 'doubt.calved-early')).toEqual([]);
  });

  test('R-46 an early calving is asked about until an entry tells of one before it', () => {
    const calving = about('21', 'calving', '2026-01-20T10:00:00Z', { calves: [{ sex: 'male', alive: true }] });
    const each = book(...inCalf, calving, entered('2026-02-20T00:00:00Z', { calvedOn: '2025-08-10' }));
    expect(each.doubts('2026-02-01/morning', 'doubt.calved-early')).toHaveLength(1);
    expect(each.doubts(AT, 'doubt.calved-early')).toEqual([]);
  });

  test('R-42 stays in calf where the calving told of lies before that service, or is a day still to come', () => {
    expect(dueOf(calved('2024-12-20'))).toEqual([['21', '2026-05-04']]);
    expect(dueOf(calved('2025-07-24'))).toEqual([['21', '2026-05-04']]);
    expect(dueOf(calved('2026-02-21'))).toEqual([['21', '2026-05-04']]);
  });

  test('R-42 a service and a check after that calving count, written down before the entry or after it', () => {
    const again = [
      about('21', 'service', '2026-04-20T10:00:00Z', { how: 'insemination' }),
      checked('2026-05-20T10:00:00Z'),
    ];
    const late = entered('2026-06-01T00:00:00Z', { lactation: 4, calvedOn: '2026-02-10' });
    const soon = entered('2026-02-20T00:00:00Z', { lactation: 4, calvedOn: '2026-02-10' });
    for (const entry of [late, soon])
      expect(dueOf(book(...inCalf, ...again, entry), '2026-07-01/morning')).toEqual([['21', '2027-01-28']]);
  });

  test('R-20 R-42 the hold close to due goes with the due date, and the fresh hold of that calving is hers', () => {
    const back = calved('2026-04-28');
    const stayed = book(...inCalf);
    expect(keysOf(stayed.held('21', '2026-04-29/morning'))).toEqual(['hold.before-due']);
    const told = book(...inCalf, entered('2026-04-29T00:00:00Z', { lactation: 4, calvedOn: '2026-04-28' }));
    expect(keysOf(told.held('21', '2026-04-29/morning'))).toEqual(['hold.fresh']);
    expect(told.held('21', '2026-05-02/morning')).toBeUndefined();
    // A day still to come ends nothing.
    expect(keysOf(back.held('21', '2026-04-29/morning'))).toContain('hold.before-due');
  });
});

describe('what one entry says of before and after her calving', () => {
  const came = (more: Parameters<typeof milker>[1], ...rest: readonly Saying[]) =>
    book(entered('2025-12-20T00:00:00Z', { calvedOn: '2025-12-10', ...more }), ...rest);

  test('R-42 a service on or before it is of the pregnancy that ended: a later check cannot confirm it', () => {
    const check = checked('2026-02-25T10:00:00Z');
    expect(undecidedOf(came({ servedOn: '2025-12-10' }, check))).toEqual([['21', 'dry-off.no-due-date']]);
    expect(dueOf(came({ servedOn: '2025-03-01' }, check))).toEqual([]);
    expect(dueOf(came({ servedOn: '2025-12-11' }, check))).toEqual([['21', '2026-09-20']]);
  });

  test('R-42 R-46 a due date up to 21 days after it is over with it; a later one stands', () => {
    for (const dueOn of ['2025-12-08', '2025-12-10', '2025-12-31']) {
      const each = came({ dueOn });
      expect([dueOf(each), each.doubts(AT, 'doubt.past-due')]).toEqual([[], []]);
      expect(each.at(AT).sheets['fresh-moves'].in).toEqual([]);
    }
    expect(dueOf(came({ dueOn: '2026-01-01' }))).toEqual([['21', '2026-01-01']]);
  });

  test('R-42 an entry that tells only of the service or the due date is read by the calving on the book', () => {
    const calving = about('21', 'calving', '2026-02-10T10:00:00Z', { calves: [{ sex: 'male', alive: true }] });
    const again = (more: Parameters<typeof milker>[1]) => {
      const { calvedOn: _, ...data } = entered('2026-02-20T00:00:00Z', more).data as Record<string, unknown>;
      return { ...entered('2026-02-20T00:00:00Z', {}), data } as Saying;
    };
    const of = (more: Parameters<typeof milker>[1]) =>
      dueOf(book(entered('2025-02-01T00:00:00Z', { calvedOn: '2024-12-20' }), calving, again(more)));
    expect(of({ dueOn: '2026-02-14' })).toEqual([]);
    expect(of({ dueOn: '2026-11-30' })).toEqual([['21', '2026-11-30']]);
  });
});
