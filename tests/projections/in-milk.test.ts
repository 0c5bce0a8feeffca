/** Who is in milk, and the fresh hold that comes with it. Milkings start 05:00 and 16:30. */
import { describe, expect, test } from 'vitest';
import { about, CUPBOARD, evening, farm, keysOf, milker, type Saying } from './evening.ts';

const calved = (cow: string, time: string, where: { group?: string } = { group: 'Fresh' }) =>
  about(cow, 'calving', time, { calves: [{ sex: 'female', alive: true }], ...where });
const closeUp = (cow: string) =>
  milker(cow, { group: 'Close-up', calvedOn: '2025-01-05', driedOffOn: '2026-01-08', driedOffWith: 'none' });
const book = (...more: readonly Saying[]) => evening([farm(), ...CUPBOARD, ...more]);
const inMilk = (each: ReturnType<typeof evening>, milking: string) => each.at(milking).sheets.counts.total.inMilk;

describe('in milk', () => {
  test('R-06 the very minute of the dry-off still counts as in milk', () => {
    const each = book(milker('31'), about('31', 'dry-off', '2026-03-10T05:00:00Z', { product: 'none', group: 'Dry' }));
    expect([inMilk(each, '2026-03-10/morning'), inMilk(each, '2026-03-10/afternoon')]).toEqual([1, 0]);
  });

  test('R-06 a calving known only by its date counts for holds from the end of that day by the clock of the farm', () => {
    const entered = about('31', 'cow-entered', '2026-03-14T12:00:00Z', {
      group: 'Fresh',
      lactation: 3,
      calvedOn: '2026-03-13',
      milkHoldUntil: 'none',
      meatHoldUntil: 'none',
    });
    // From 14 March 00:00, four milkings: 14 morning and afternoon, 15 morning and afternoon.
    expect(book(entered).held('31', '2026-03-14/afternoon')?.until).toBe('2026-03-15T16:30:00Z');
    const auckland = evening([farm({ timeZone: 'Pacific/Auckland' }), entered]);
    // In Auckland the 13th ends 13 March 11:00 UTC; the 14th's milkings start 13 March 16:00 and 14 March 03:30 UTC.
    expect(auckland.held('31', '2026-03-15/morning')?.until).toBe('2026-03-15T03:30:00Z');
  });

  test('R-06 a group that the farm does not have counts as milked: with a lactation she is in milk', () => {
    const entered = about('31', 'cow-entered', '2026-03-01T12:00:00Z', {
      group: 'Barn 9',
      lactation: 2,
      milkHoldUntil: 'none',
      meatHoldUntil: 'none',
    });
    expect(inMilk(book(entered), '2026-03-10/morning')).toBe(1);
    expect(book(entered).doubts('2026-03-10/morning', 'doubt.milk-not-stated')).toHaveLength(1);
  });

  test('R-06 a cow that left is not in milk, and one that came back is', () => {
    const left = about('31', 'cow-left', '2026-03-09T12:00:00Z', { reason: 'other' });
    const back = { ...milker('31', { officialId: '999000000000031' }), time: '2026-03-10T12:00:00Z' };
    const each = book(milker('31', { officialId: '999000000000031' }), left, back);
    expect([
      inMilk(each, '2026-03-09/morning'),
      inMilk(each, '2026-03-10/morning'),
      inMilk(each, '2026-03-10/afternoon'),
    ]).toEqual([1, 0, 1]);
  });
});

test('R-06 R-70 a cow that comes in milk inside a milking was not in milk at its start: she is counted a head, and not planned', () => {
  const { counts, 'milking-plan': plan } = book(milker('412'), { ...milker('31'), time: '2026-03-14T16:45:00Z' }).at(
    '2026-03-14/afternoon',
  ).sheets;
  expect([counts.total, plan.groups.find(({ group }) => group === 'Cows')?.cows]).toEqual([
    { head: 2, inMilk: 1, held: 0 },
    1,
  ]);
});

describe('twins', () => {
  test('R-07 between the first calf and the second she is in milk and on her fresh hold', () => {
    const each = book(closeUp('31'), calved('31', '2026-03-10T08:00:00Z'), calved('31', '2026-03-13T09:00:00Z'));
    expect(keysOf(each.held('31', '2026-03-10/afternoon'))).toEqual(['hold.fresh']);
    // Four milkings after the second calf: 13 afternoon, 14 morning and afternoon, 15 morning.
    expect(each.held('31', '2026-03-10/afternoon')?.until).toBe('2026-03-15T05:00:00Z');
  });

  test('R-07 five days to the minute are one calving, a minute more are two', () => {
    const lactation = (second: string) =>
      book(closeUp('31'), calved('31', '2026-03-10T08:00:00Z'), calved('31', second)).doubts(
        '2026-03-17/morning',
        'doubt.calved-in-milk',
      ).length;
    expect([lactation('2026-03-15T08:00:00Z'), lactation('2026-03-15T08:01:00Z')]).toEqual([0, 1]);
  });

  test('R-07 one calving at the later time: a dry-off put between the two calves does not dry her', () => {
    const each = book(
      closeUp('31'),
      calved('31', '2026-03-10T08:00:00Z'),
      about('31', 'dry-off', '2026-03-11T08:00:00Z', { product: 'none' }),
      calved('31', '2026-03-12T08:00:00Z'),
    );
    expect(each.held('31', '2026-03-12/afternoon')).toMatchObject({
      dryInMilkedGroup: false,
      until: '2026-03-14T05:00:00Z',
    });
  });

  test('R-07 R-40 an abortion that is milked counts a lactation, and its fresh hold runs from it', () => {
    const aborted = about('31', 'abortion', '2026-03-10T08:00:00Z', { milked: true, group: 'Fresh' });
    expect(book(closeUp('31'), aborted).held('31', '2026-03-10/afternoon')?.until).toBe('2026-03-12T05:00:00Z');
  });
});

describe('the fresh hold', () => {
  test('R-20 a cow that leaves and comes back takes her fresh hold with her', () => {
    const came = milker('31', {
      officialId: '999000000000031',
      group: 'Close-up',
      calvedOn: '2025-01-05',
      driedOffOn: '2026-01-08',
      driedOffWith: 'none',
    });
    const back = about('31', 'cow-entered', '2026-03-11T12:00:00Z', {
      group: 'Fresh',
      lactation: 3,
      officialId: '999000000000031',
      milkHoldUntil: 'none',
      meatHoldUntil: 'none',
    });
    const each = evening([
      farm({ freshHold: { hours: 120 } }),
      came,
      calved('31', '2026-03-10T08:00:00Z'),
      about('31', 'cow-left', '2026-03-11T09:00:00Z', { reason: 'other' }),
      back,
    ]);
    expect(each.held('31', '2026-03-11/afternoon')?.until).toBe('2026-03-15T08:00:00Z');
  });

  test('R-20 none set: what she came with says nothing of a calving in the herd, but does of one before she came', () => {
    const came = (time: string) =>
      about('31', 'cow-entered', time, {
        group: 'Fresh',
        lactation: 3,
        officialId: '999000000000031',
        calvedOn: '2026-03-10',
        milkHoldUntil: 'none',
        meatHoldUntil: 'none',
      });
    const unset = farm({ freshHold: {} });
    expect(evening([unset, came('2026-03-11T12:00:00Z')]).held('31', '2026-03-12/morning')).toBeUndefined();
    const back = evening([
      unset,
      milker('31', { officialId: '999000000000031' }),
      calved('31', '2026-03-09T08:00:00Z'),
      about('31', 'cow-left', '2026-03-11T09:00:00Z', { reason: 'other' }),
      came('2026-03-11T12:00:00Z'),
    ]);
    expect(keysOf(back.held('31', '2026-03-12/morning'))).toEqual(['hold.fresh-not-set']);
  });

  const changed = (from: string, freshHold: { hours?: number }, id: string) => farm({ from, freshHold }, id);

  test('R-20 R-29 the fresh hold in force at her calving counts; a longer one that comes while it runs extends it', () => {
    const first = farm({ freshHold: { hours: 72 } });
    const at = (second: Saying) =>
      evening([first, { ...second, time: '2026-03-01T09:00:00Z' }, ...cows]).held('31', AT);
    const cows = [closeUp('31'), calved('31', '2026-03-10T08:00:00Z')];
    const AT = '2026-03-11/morning';
    expect(at(changed('2026-03-12', { hours: 96 }, 's2'))?.until).toBe('2026-03-14T08:00:00Z');
    expect(at(changed('2026-03-12', { hours: 24 }, 's2'))?.until).toBe('2026-03-13T08:00:00Z');
    // In force only from the 14th, when the first one is over.
    expect(at(changed('2026-03-14', { hours: 240 }, 's2'))?.until).toBe('2026-03-13T08:00:00Z');
  });

  test('R-20 R-29 a fresh hold set only after her calving gives the open hold its end', () => {
    const each = evening([
      farm({ freshHold: {} }),
      { ...changed('2026-03-12', { hours: 72 }, 's2'), time: '2026-03-11T09:00:00Z' },
      closeUp('31'),
      calved('31', '2026-03-10T08:00:00Z'),
    ]);
    expect(each.held('31', '2026-03-11/morning')?.until).toBe('2026-03-13T08:00:00Z');
  });

  test('R-20 none set: her hold stays open however long ago she calved', () => {
    const each = evening([farm({ freshHold: {} }), closeUp('31'), calved('31', '2026-03-10T08:00:00Z')]);
    expect(each.held('31', '2026-06-10/morning')?.until).toBeNull();
  });

  test('R-20 a cow that calved and was never moved out of the close-up group is held and counted all the same', () => {
    const each = book(closeUp('31'), calved('31', '2026-03-10T08:00:00Z', {}));
    expect(each.held('31', '2026-03-10/afternoon')).toMatchObject({ group: 'Close-up', dryInMilkedGroup: false });
  });
});
