/** Dry-cow products and dry cows in milked groups. */
import { describe, expect, test } from 'vitest';
import { about, CUPBOARD, dose, dryCow, evening, farm, farmWide, keysOf, milker, type Saying } from './evening.ts';

const calved = (time: string) =>
  about('1', 'calving', time, { calves: [{ sex: 'female', alive: true }], group: 'Fresh' });
const dried = (time: string, more = {}) => about('1', 'dry-off', time, { group: 'Dry', ...more });
const book = (...more: readonly Saying[]) =>
  evening([farm({ freshHold: { milkings: 1 } }), ...CUPBOARD, milker('1'), ...more]);

describe('dry-cow products', () => {
  test('R-19 the product of the dry-off holds until calving and its label after it', () => {
    const after = book(dried('2026-02-01T06:00:00Z', { product: 'Dry-cow tube' }), calved('2026-03-20T10:00:00Z')).held(
      '1',
      '2026-03-21/morning',
    );
    expect([after?.until, after?.tankFrom]).toEqual(['2026-03-24T10:00:00Z', '2026-03-24/afternoon']);
    expect(keysOf(after)).toContain('hold.dry-cow-after-calving');
  });

  test("R-19 a product given by treatment holds the same, and states the dry-off's within two days", () => {
    const tubes = dose('1', '2026-02-02T06:00:00Z', { medicine: 'Dry-cow tube' });
    const row = book(dried('2026-02-01T06:00:00Z'), tubes, calved('2026-03-20T10:00:00Z')).held(
      '1',
      '2026-03-21/morning',
    );
    expect(row?.until).toBe('2026-03-24T10:00:00Z');
  });

  test('R-19 a product given three days after states nothing about the dry-off', () => {
    const tubes = dose('1', '2026-02-04T07:00:00Z', { medicine: 'Dry-cow tube' });
    const row = book(dried('2026-02-01T06:00:00Z'), tubes, calved('2026-03-20T10:00:00Z')).held(
      '1',
      '2026-03-21/morning',
    );
    expect([row?.until, keysOf(row)[0]]).toEqual([null, 'hold.dry-cow-not-stated']);
  });

  test('R-19 a dry-off that does not state its product holds her after calving; "none" is a statement', () => {
    const at = '2026-03-22/morning';
    expect(book(dried('2026-02-01T06:00:00Z'), calved('2026-03-20T10:00:00Z')).held('1', at)?.until).toBeNull();
    expect(
      book(dried('2026-02-01T06:00:00Z', { product: 'none' }), calved('2026-03-20T10:00:00Z')).held('1', at),
    ).toBeUndefined();
  });

  test('R-19 calved inside the minimum: until minimum and hold where the label says so, with the warning', () => {
    const row = book(dried('2026-03-01T10:00:00Z', { product: 'Dry-cow tube' }), calved('2026-03-20T10:00:00Z')).held(
      '1',
      '2026-03-21/morning',
    );
    // 1 March 10:00 and 42 days is 12 April 10:00, and 96 hours.
    expect(row?.until).toBe('2026-04-16T10:00:00Z');
    expect(keysOf(row)).toContain('hold.dry-cow-early');
  });

  test('R-19 calved at the very end of the minimum is not early', () => {
    const row = book(dried('2026-02-01T10:00:00Z', { product: 'Ask-vet tube' }), calved('2026-03-15T10:00:00Z')).held(
      '1',
      '2026-03-15/afternoon',
    );
    expect(row?.until).toBe('2026-03-16T10:00:00Z');
  });

  const early = [dried('2026-03-01T10:00:00Z', { product: 'Ask-vet tube' }), calved('2026-03-20T10:00:00Z')];

  test('R-19 calved inside the minimum where the label asks the vet is held without end', () => {
    expect(book(...early).held('1', '2026-03-23/morning')?.until).toBeNull();
  });

  test("R-19 R-22 a clear test of milk sampled after calving, or the vet's time, ends it", () => {
    const clear = about('1', 'residue-test', '2026-03-22T12:00:00Z', {
      result: 'clear',
      of: 'cow',
      sampledAt: '2026-03-22T05:00:00Z',
    });
    expect(book(...early, clear).held('1', '2026-03-22/afternoon')).toBeUndefined();
    const sampledBefore = about('1', 'residue-test', '2026-03-22T12:00:00Z', {
      result: 'clear',
      of: 'cow',
      sampledAt: '2026-03-19T05:00:00Z',
    });
    expect(book(...early, sampledBefore).held('1', '2026-03-22/afternoon')?.until).toBeNull();
    const given = { ...dose('1', '2026-03-01T10:00:00Z', { medicine: 'Ask-vet tube' }), id: 'tubes' };
    const vet = about('1', 'vet-hold-time', '2026-03-21T12:00:00Z', {
      treatment: 'tubes',
      milkHours: 120,
      prescribedBy: 'Dr Vane',
    });
    const row = book(dried('2026-03-01T10:00:00Z'), given, calved('2026-03-20T10:00:00Z'), vet).held(
      '1',
      '2026-03-22/morning',
    );
    expect(row?.until).toBe('2026-03-25T10:00:00Z');
  });

  test('R-19 a cow given a dry-cow product and milked on is held without end, until the vet gives a time', () => {
    const tubes = { ...dose('1', '2026-03-01T10:00:00Z', { medicine: 'Dry-cow tube' }), id: 'tubes' };
    const row = book(tubes).held('1', '2026-03-10/morning');
    expect([row?.until, keysOf(row)]).toEqual([null, ['hold.dry-cow-milked-again']]);
    const vet = about('1', 'vet-hold-time', '2026-03-10T12:00:00Z', {
      treatment: 'tubes',
      milkHours: 48,
      prescribedBy: 'Dr Vane',
    });
    expect(book(tubes, vet).held('1', '2026-03-10/afternoon')?.until).toBe('2026-03-12T12:00:00Z');
  });

  test('R-19 a cow that came dry and whose product nobody stated is held after calving', () => {
    const came = (driedOffWith?: string) => {
      const { driedOffWith: _, ...data } = dryCow('1').data as { driedOffWith?: string };
      return evening([
        farm({ freshHold: { milkings: 1 } }),
        ...CUPBOARD,
        { ...dryCow('1'), data: { ...data, ...(driedOffWith === undefined ? {} : { driedOffWith }) } },
        calved('2026-03-20T10:00:00Z'),
      ]);
    };
    expect(came().held('1', '2026-03-22/morning')?.until).toBeNull();
    expect(came('none').held('1', '2026-03-22/morning')).toBeUndefined();
    expect(came('Dry-cow tube').held('1', '2026-03-22/morning')?.until).toBe('2026-03-24T10:00:00Z');
  });

  test('R-19 a calving known only by its date counts from the end of that day for the hold', () => {
    const cow = milker('1', {
      group: 'Fresh',
      calvedOn: '2026-03-20',
      driedOffOn: '2026-01-20',
      driedOffWith: 'Dry-cow tube',
      lactation: 3,
    });
    const row = evening([
      farm({ freshHold: { milkings: 1 } }),
      ...CUPBOARD,
      { ...cow, time: '2026-03-21T12:00:00Z' },
    ]).held('1', '2026-03-21/afternoon');
    expect(row?.until).toBe('2026-03-25T00:00:00Z');
  });
});

describe('dry cows and the parlour', () => {
  test("R-24 a dry cow's holds are not on the parlour's list while she stands in a group that is not milked", () => {
    const held = evening([farm(), ...CUPBOARD, dryCow('1'), dose('1', '2026-03-14T09:00:00Z')]).at(
      '2026-03-14/afternoon',
    ).sheets['milk-hold'].held;
    expect(held).toEqual([]);
  });

  test('R-24 a dry cow in a milked group heads the list', () => {
    const moved = about('9', 'group-move', '2026-03-14T09:00:00Z', { to: 'Hospital' });
    const held = evening([farm(), ...CUPBOARD, milker('1'), dose('1', '2026-03-14T09:00:00Z'), dryCow('9'), moved]).at(
      '2026-03-14/afternoon',
    ).sheets['milk-hold'].held;
    expect(held.map(({ cow, dryInMilkedGroup }) => [cow, dryInMilkedGroup])).toEqual([
      ['9', true],
      ['1', false],
    ]);
    expect(held[0]?.reasons[0]?.rule).toBe('R-24');
  });

  test('R-24 R-04 a dry cow that is moved among the milked ones inside a milking heads its list, ends included', () => {
    const keys = (time: string, to: string) => {
      const moved = about('9', 'group-move', time, { to });
      const finished = farmWide('milking-finished', '2026-03-14T17:20:00Z', { milking: '2026-03-14/afternoon' });
      return keysOf(
        evening([farm(), ...CUPBOARD, milker('1'), dryCow('9'), moved, finished]).held('9', '2026-03-14/afternoon'),
      );
    };
    expect(keys('2026-03-14T16:30:00Z', 'Cows')).toEqual(['hold.dry-in-milked-group']);
    expect(keys('2026-03-14T17:00:00Z', 'Cows')).toEqual(['hold.dry-in-milked-group']);
    expect(keys('2026-03-14T17:20:00Z', 'Cows')).toEqual(['hold.dry-in-milked-group']);
    expect(keys('2026-03-14T17:20:01Z', 'Cows')).toEqual([]);
    expect(keys('2026-03-14T17:00:00Z', 'Close-up')).toEqual([]);
  });

  test('R-24 R-25 a move among the milked ones that may be hers heads the list, until it is said where she stands', () => {
    const one = dryCow('700', { officialId: '999000000000001' });
    const other = milker('700', { officialId: '999000000000002' });
    const moved = (subject: string, to: string, time: string) => about(subject, 'group-move', time, { to });
    const rows = (...more: readonly Saying[]) =>
      evening([farm(), ...CUPBOARD, one, other, ...more]).at('2026-03-14/afternoon').sheets['milk-hold'].held;
    const in14 = moved('700', 'Cows', '2026-03-14T09:00:00Z');
    expect(rows(in14).map((row) => [row.group, row.dryInMilkedGroup, keysOf(row)])).toEqual([
      ['Dry', true, ['hold.dry-in-milked-group', 'hold.may-be-her']],
    ]);
    // A move out again may be the other's.
    expect(rows(in14, moved('700', 'Dry', '2026-03-14T10:00:00Z'))).toHaveLength(1);
    expect(rows(in14, moved('999000000000001', 'Dry', '2026-03-14T10:00:00Z'))).toEqual([]);
    expect(rows(moved('700', 'Close-up', '2026-03-14T09:00:00Z'))).toEqual([]);
    expect(rows(moved('700', 'Cows', '2026-03-14T20:00:00Z'))).toEqual([]);
  });

  test('R-24 R-25 so it is where the number fits only without its leading zeros', () => {
    const moved = about('09', 'group-move', '2026-03-14T09:00:00Z', { to: 'Cows' });
    const { held, unplaced } = evening([farm(), ...CUPBOARD, dryCow('9'), moved]).at('2026-03-14/afternoon').sheets[
      'milk-hold'
    ];
    expect([held.map(({ cow, dryInMilkedGroup }) => [cow, dryInMilkedGroup]), unplaced]).toEqual([[['9', true]], []]);
  });
});
