/** What a cow came into the book as, and what is held where nobody says what she was dried off with. */
import { describe, expect, test } from 'vitest';
import type { DataOf } from '../../events/kinds.ts';
import { about, CUPBOARD, dose, evening, farm, farmWide, keysOf, type Saying } from './evening.ts';

type Row = Partial<DataOf<'cow-entered'>>;
const came = (row: Row) =>
  about('601', 'cow-entered', '2026-02-01T00:00:00Z', {
    group: 'Dry',
    lactation: 3,
    milkHoldUntil: 'none',
    meatHoldUntil: 'none',
    ...row,
  });
const calving = about('601', 'calving', '2026-03-08T12:00:00Z', {
  calves: [{ sex: 'female', alive: true }],
  group: 'Fresh',
});
const book = (row: Row, ...more: readonly Saying[]) => evening([farm(), ...CUPBOARD, came(row), ...more]);
const AFTER = '2026-03-11/afternoon';
const inMilk = (each: ReturnType<typeof evening>, milking: string) => each.at(milking).sheets.counts.total.inMilk;
const meat = (each: ReturnType<typeof evening>, milking = AFTER) => each.at(milking).sheets['beef-hold'].cows[0]?.until;

describe('a cow that came in a dry or close-up group', () => {
  test.each(['Dry', 'Close-up'])('R-06 R-19 is dry whatever her last calving: %s', (group) => {
    const each = book({ group, calvedOn: '2025-02-22' }, calving);
    expect([inMilk(each, '2026-03-01/morning'), inMilk(each, AFTER)]).toEqual([0, 1]);
    expect([each.held('601', AFTER)?.until, keysOf(each.held('601', AFTER))]).toEqual([
      null,
      ['hold.dry-cow-not-stated'],
    ]);
    expect(meat(each)).toBeNull();
    expect(each.at(AFTER).sheets['fresh-moves'].out).toEqual([]);
    expect(each.doubts(AFTER, 'doubt.calved-in-milk')).toEqual([]);
  });

  test('R-06 R-20 five days after calving she may have been left there: in milk, on her fresh hold', () => {
    const fresh = book({ group: 'Close-up', calvedOn: '2026-01-31' });
    expect([inMilk(fresh, '2026-02-01/morning'), keysOf(fresh.held('601', '2026-02-01/morning'))]).toEqual([
      1,
      ['hold.fresh'],
    ]);
    // Five days to the minute before she came began 27 January.
    expect(inMilk(book({ calvedOn: '2026-01-27' }), '2026-02-03/morning')).toBe(1);
    expect(inMilk(book({ calvedOn: '2026-01-26' }), '2026-02-03/morning')).toBe(0);
  });

  test('R-06 R-19 one left there and never moved is held after her next calving all the same', () => {
    expect(book({ calvedOn: '2026-01-31' }, calving).held('601', AFTER)?.until).toBeNull();
  });

  test('R-06 a heifer is not asked for her product', () => {
    const each = book({ group: 'Close-up', lactation: 0 }, calving);
    expect(keysOf(each.held('601', '2026-03-09/morning'))).toEqual(['hold.fresh']);
    expect(each.held('601', AFTER)).toBeUndefined();
  });

  test('R-19 "none" is a statement, with or without its date', () => {
    const none = { calvedOn: '2025-02-22', driedOffWith: 'none' };
    expect(book(none, calving).held('601', AFTER)).toBeUndefined();
    expect(book({ ...none, driedOffOn: '2026-01-08' }, calving).held('601', AFTER)).toBeUndefined();
    expect(meat(book(none, calving))).toBeUndefined();
  });

  test('R-19 a dry-off that names it, written down in that dry period, states it; one of the next dry period does not', () => {
    const dried = (time: string, product?: string) =>
      about('601', 'dry-off', time, { group: 'Dry', ...(product === undefined ? {} : { product }) });
    const untold = { calvedOn: '2025-02-22' };
    expect(book(untold, dried('2026-02-02T09:00:00Z', 'none'), calving).held('601', AFTER)).toBeUndefined();
    expect(meat(book(untold, dried('2026-02-02T09:00:00Z', 'none'), calving))).toBeUndefined();
    expect(book(untold, dried('2026-02-02T09:00:00Z'), calving).held('601', AFTER)?.until).toBeNull();
    const later = book(untold, calving, dried('2026-03-20T09:00:00Z', 'none'));
    expect(later.held('601', AFTER)?.until).toBeNull();
  });
});

describe('a product without a date that can be', () => {
  test('R-19 given when is not known: her entering is the latest, and the minimum counts from it', () => {
    const row = book({ calvedOn: '2025-02-22', driedOffWith: 'Dry-cow tube' }, calving).held('601', AFTER);
    // 1 February and 42 days is 15 March, and 96 hours.
    expect([row?.until, keysOf(row)]).toEqual(['2026-03-19T00:00:00Z', ['hold.dry-cow-early']]);
    const ask = book({ calvedOn: '2025-02-22', driedOffWith: 'Ask-vet tube' }, calving).held('601', AFTER);
    expect([ask?.until, keysOf(ask)]).toEqual([null, ['hold.dry-cow-early']]);
  });

  test('R-19 a dry-off dated after the entry that tells of it is not known either, and is a doubt', () => {
    const ahead = { driedOffOn: '2026-12-20', driedOffWith: 'Dry-cow tube' };
    const each = book(ahead, calving);
    expect(each.held('601', AFTER)?.until).toBe('2026-03-19T00:00:00Z');
    expect(each.doubts(AFTER, 'doubt.date-ahead')).toHaveLength(1);
    expect(inMilk(book(ahead), '2026-03-01/morning')).toBe(0);
    expect(book({ driedOffOn: '2026-12-20' }, calving).held('601', AFTER)?.until).toBeNull();
  });

  test('R-06 R-24 so it is of one in a milked group: dry, and at the head of the list', () => {
    const row = book({ group: 'Cows', calvedOn: '2025-02-22', driedOffOn: '2026-12-20' }).held('601', AFTER);
    expect([row?.dryInMilkedGroup, row?.until]).toEqual([true, null]);
  });

  test('R-06 R-19 calved on the day of the dry-off: dry; calved after it and in a milked group: in milk, on its hold', () => {
    const tube = { driedOffOn: '2025-12-20', driedOffWith: 'Dry-cow tube' };
    const row = (calvedOn: string, group: string) =>
      book({ ...tube, calvedOn, group }).held('601', '2026-02-01/morning');
    expect(row('2025-12-20', 'Cows')).toMatchObject({ dryInMilkedGroup: true, until: null });
    // 21 December, the end of the day, and 42 days and 96 hours.
    expect(row('2026-01-30', 'Cows')).toMatchObject({ dryInMilkedGroup: false, until: '2026-02-05T00:00:00Z' });
  });

  test('R-06 R-19 calved after it long ago and with the dry cows again: what she was dried off with this time is not stated', () => {
    const tube = { driedOffOn: '2024-12-20', driedOffWith: 'Dry-cow tube', calvedOn: '2025-02-22' };
    expect(keysOf(book(tube, calving).held('601', AFTER))[0]).toBe('hold.dry-cow-not-stated');
  });
});

describe('a group that the farm does not have', () => {
  const strange = { group: 'dry' };

  test('R-14 R-19 with no date at all she may be dry: held before her calving and after it, with the doubts', () => {
    const each = book(strange, calving);
    expect(keysOf(book(strange).held('601', '2026-03-05/morning'))).toEqual(['hold.no-dry-off']);
    expect([each.held('601', AFTER)?.until, keysOf(each.held('601', AFTER))]).toEqual([null, ['hold.no-dry-off']]);
    expect([meat(book(strange), '2026-03-05/morning'), meat(each)]).toEqual([null, null]);
    expect(each.doubts('2026-03-05/morning', 'doubt.unknown-group')).toHaveLength(1);
  });

  test('R-06 until somebody puts her in a group of the farm: among the milked ones she is taken to be in milk', () => {
    const moved = about('601', 'group-move', '2026-02-02T09:00:00Z', { to: 'Cows' });
    const each = book(strange, moved);
    expect(each.held('601', '2026-02-02/morning')?.until).toBe('2026-02-02T09:00:00Z');
    expect(each.held('601', '2026-02-03/morning')).toBeUndefined();
  });

  test('R-19 a dry-off that names its product ends it', () => {
    const dried = about('601', 'dry-off', '2026-02-02T09:00:00Z', { product: 'none', group: 'Dry' });
    expect(book(strange, dried, calving).held('601', AFTER)).toBeUndefined();
  });

  test('R-06 with a date of calving she is in milk, and is held after the next calving with no dry-off before it', () => {
    const each = book({ ...strange, calvedOn: '2025-02-22' }, calving);
    expect(each.held('601', '2026-03-05/morning')).toBeUndefined();
    expect(each.held('601', AFTER)?.until).toBeNull();
  });
});

describe('a dry-off that was not written down', () => {
  const milking = { group: 'Cows', calvedOn: '2025-02-22' };
  const moved = (to: string, time: string) => about('601', 'group-move', time, { to });

  test('R-19 calved from the dry cows, with no dry-off: held until it is stated, milk and meat, with the doubt', () => {
    const each = book(milking, moved('Dry', '2026-02-10T12:00:00Z'), calving);
    expect([each.held('601', AFTER)?.until, keysOf(each.held('601', AFTER))]).toEqual([null, ['hold.no-dry-off']]);
    expect([meat(each), each.at(AFTER).sheets['fresh-moves'].out]).toEqual([null, []]);
    expect(each.doubts(AFTER, 'doubt.calved-in-milk')).toHaveLength(1);
  });

  test('R-19 the dry-off written down afterwards states it, before or after the move', () => {
    const dried = (time: string, product: string) => about('601', 'dry-off', time, { product });
    const until = (...more: readonly Saying[]) =>
      book(milking, moved('Dry', '2026-02-10T12:00:00Z'), calving, ...more).held('601', AFTER)?.until;
    expect(until(dried('2026-02-10T08:00:00Z', 'none'))).toBeUndefined();
    expect(until(dried('2026-02-12T08:00:00Z', 'none'))).toBeUndefined();
    // 10 February 08:00 and 42 days is 24 March 08:00, and 96 hours.
    expect(until(dried('2026-02-10T08:00:00Z', 'Dry-cow tube'))).toBe('2026-03-28T08:00:00Z');
  });

  test('R-19 tubes by treatment in that time state it', () => {
    const tubes = dose('601', '2026-02-10T08:00:00Z', { medicine: 'Dry-cow tube' });
    const row = book(milking, moved('Dry', '2026-02-10T12:00:00Z'), tubes, calving).held('601', AFTER);
    expect(keysOf(row)).toEqual(['hold.dry-cow-early']);
  });

  test('R-19 it goes by the days among the dry cows: through the calving pen too, not for a day or two and back', () => {
    const held = (...moves: readonly Saying[]) => book(milking, ...moves, calving).held('601', AFTER)?.until;
    expect(held(moved('Dry', '2026-02-10T12:00:00Z'), moved('Fresh', '2026-03-07T12:00:00Z'))).toBeNull();
    expect(held(moved('Dry', '2026-02-10T12:00:00Z'), moved('Cows', '2026-02-12T12:01:00Z'))).toBeNull();
    expect(held(moved('Dry', '2026-02-10T12:00:00Z'), moved('Cows', '2026-02-12T12:00:00Z'))).toBeUndefined();
    expect(held(moved('Close-up', '2026-03-08T06:00:00Z'))).toBeNull();
    expect(held(moved('Hospital', '2026-02-10T12:00:00Z'))).toBeUndefined();
    expect(held(moved('dry', '2026-02-10T12:00:00Z'))).toBeNull();
  });

  test('R-19 among the dry cows for more than two days and milked again: held until a clear test, her meat beyond it', () => {
    const back = (time: string, ...more: readonly Saying[]) =>
      book(milking, moved('Dry', '2026-02-10T12:00:00Z'), moved('Cows', time), ...more);
    const CLEAN = about('601', 'residue-test', '2026-02-21T09:00:00Z', { result: 'clear', of: 'cow' });
    const [WHILE, NEXT] = ['2026-02-14/morning', '2026-02-21/afternoon'];
    expect(back('2026-02-20T12:00:00Z').held('601', WHILE)).toBeUndefined();
    const row = back('2026-02-20T12:00:00Z').held('601', NEXT);
    expect([row?.until, keysOf(row)]).toEqual([null, ['hold.back-from-dry']]);
    expect(back('2026-02-12T12:00:00Z').held('601', NEXT)).toBeUndefined();
    expect(back('2026-02-20T12:00:00Z', CLEAN).held('601', NEXT)).toBeUndefined();
    expect(back('2026-02-22T12:00:00Z', CLEAN).held('601', '2026-02-23/morning')?.until).toBeNull();
    expect(meat(back('2026-02-20T12:00:00Z', CLEAN), NEXT)).toBeNull();
    // Five days after calving she may stand with those that are about to calve.
    const calvedLate = { group: 'Cows', calvedOn: '2026-02-06' };
    const fresh = (time: string) =>
      book(calvedLate, moved('Close-up', time), moved('Cows', '2026-02-20T12:00:00Z')).held('601', NEXT)?.until;
    expect([fresh('2026-02-12T00:00:00Z'), fresh('2026-02-12T00:01:00Z')]).toEqual([undefined, null]);
    // Tubes that are written down are held for what they are; a struck move never was.
    const tubes = dose('601', '2026-02-10T08:00:00Z', { medicine: 'Dry-cow tube' });
    expect(keysOf(back('2026-02-20T12:00:00Z', tubes).held('601', NEXT))).toEqual(['hold.dry-cow-milked-again']);
    const mistaken = { ...moved('Dry', '2026-02-10T12:00:00Z'), id: 'mistaken' };
    const struck = farmWide('entry-struck', '2026-02-20T13:00:00Z', { entry: 'mistaken', reason: 'another cow' });
    expect(book(milking, mistaken, moved('Cows', '2026-02-20T12:00:00Z'), struck).held('601', NEXT)).toBeUndefined();
  });

  test('R-19 a group that the farm does not have is none of dry cows for one that is milked on', () => {
    const each = book(milking, moved('Caws', '2026-02-10T12:00:00Z'), moved('Cows', '2026-02-20T12:00:00Z'));
    expect(each.held('601', '2026-02-21/morning')).toBeUndefined();
  });

  test('R-07 R-19 it is asked once for twins, and holds where she was milked after losing the calf', () => {
    const dry = moved('Dry', '2026-02-10T12:00:00Z');
    const twin = about('601', 'calving', '2026-03-09T12:00:00Z', { calves: [{ sex: 'male', alive: true }] });
    expect(keysOf(book(milking, dry, calving, twin).held('601', '2026-03-20/morning'))).toEqual(['hold.no-dry-off']);
    const aborted = about('601', 'abortion', '2026-03-08T12:00:00Z', { milked: true, group: 'Fresh' });
    expect(book(milking, dry, aborted).held('601', AFTER)?.until).toBeNull();
  });

  test('R-19 a cow that calves where she is milked was milked on: a doubt and no hold', () => {
    const each = book(milking, calving);
    expect(each.held('601', AFTER)).toBeUndefined();
    expect(each.doubts(AFTER, 'doubt.calved-in-milk')).toHaveLength(1);
  });
});
