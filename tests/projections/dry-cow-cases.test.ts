/** Dry-cow products, the harder cases (R-19, with ). Milkings start 05:00 and 16:30; the fresh hold is one milking. */
import { describe, expect, test } from 'vitest';
import { know } from '../../projections/know.ts';
import { medicineRegister } from '../../projections/medicines.ts';
import { momentOf } from '../../projections/views-at.ts';
import { about, CUPBOARD, dose, dryCow, evening, farm, keysOf, medicine, milker, type Saying } from './evening.ts';

const calved = (time: string, cow = '31') =>
  about(cow, 'calving', time, { calves: [{ sex: 'female', alive: true }], group: 'Fresh' });
const dried = (time: string, more = {}) => about('31', 'dry-off', time, { group: 'Dry', ...more }, 'dry-31');
const vet = (time: string, hours: number, treatment = 'dry-31') =>
  about('31', 'vet-hold-time', time, { treatment, milkHours: hours, prescribedBy: 'Dr Vane' });
const sayings = (...more: readonly Saying[]) => [
  farm({ freshHold: { milkings: 1 } }),
  ...CUPBOARD,
  milker('31'),
  ...more,
];
const book = (...more: readonly Saying[]) => evening(sayings(...more));

const TUBE = { product: 'Dry-cow tube' };
const ASK = { product: 'Ask-vet tube' };

describe('after calving', () => {
  test('R-19 a label in milkings after calving counts them from calving, twelve hours each at least', () => {
    const tube = medicine('Six milkings tube', {
      milkHold: 'not-for-milking-cows',
      meatDays: 30,
      dryCow: { milkHoldAfterCalving: { milkings: 6 } },
    });
    // Calved 20 March 10:00. Sixth after it: 20 afternoon, 21, 22 both, 23 morning, 05:00; six times twelve: 23 March 10:00.
    const row = book(
      tube,
      dried('2026-02-01T06:00:00Z', { product: 'Six milkings tube' }),
      calved('2026-03-20T10:00:00Z'),
    ).held('31', '2026-03-21/morning');
    expect([row?.until, row?.tankFrom]).toEqual(['2026-03-23T10:00:00Z', '2026-03-23/afternoon']);
  });

  test('R-19 a product that asks for nothing after calving holds until calving, and her fresh hold is left', () => {
    const tube = medicine('Nothing after', {
      milkHold: 'not-for-milking-cows',
      meatDays: 30,
      dryCow: { minimumDryDays: 30, milkHoldAfterCalving: 'none' },
    });
    const each = book(
      tube,
      dried('2026-02-01T06:00:00Z', { product: 'Nothing after' }),
      calved('2026-03-20T10:00:00Z'),
    );
    expect(keysOf(each.held('31', '2026-03-20/afternoon'))).toEqual(['hold.fresh']);
    expect(each.held('31', '2026-03-21/morning')).toBeUndefined();
  });

  test('R-19 of two products given the one that holds longer governs', () => {
    const row = book(
      dried('2026-02-01T06:00:00Z', ASK),
      dose('31', '2026-02-01T06:00:00Z', { medicine: 'Dry-cow tube' }),
      calved('2026-03-20T10:00:00Z'),
    ).held('31', '2026-03-21/morning');
    expect([row?.until, row?.reasons.map((reason) => reason.medicine)]).toEqual([
      '2026-03-24T10:00:00Z',
      ['Dry-cow tube', 'Ask-vet tube'],
    ]);
  });

  test('R-19 it holds a heifer as it does a cow', () => {
    const heifer = about('31', 'cow-entered', '2026-01-10T12:00:00Z', {
      group: 'Close-up',
      lactation: 0,
      milkHoldUntil: 'none',
      meatHoldUntil: 'none',
    });
    const row = evening([
      farm({ freshHold: { milkings: 1 } }),
      ...CUPBOARD,
      heifer,
      dose('31', '2026-02-01T06:00:00Z', { medicine: 'Dry-cow tube' }),
      calved('2026-03-20T10:00:00Z'),
    ]).held('31', '2026-03-21/morning');
    expect(row?.until).toBe('2026-03-24T10:00:00Z');
  });

  test('R-19 R-14 a product that is not on the list holds after calving without end', () => {
    const row = book(dried('2026-02-01T06:00:00Z', { product: 'Some tube' }), calved('2026-03-20T10:00:00Z')).held(
      '31',
      '2026-03-25/morning',
    );
    expect([row?.until, keysOf(row)]).toEqual([null, ['hold.not-listed']]);
  });

  test("R-19 R-15 a vet's longer time after calving lengthens the label's, a shorter one does not shorten it", () => {
    const at = (hours: number) =>
      book(
        dried('2026-02-01T06:00:00Z', TUBE),
        calved('2026-03-20T10:00:00Z'),
        vet('2026-03-20T12:00:00Z', hours),
      ).held('31', '2026-03-21/morning')?.until;
    expect([at(240), at(24)]).toEqual(['2026-03-30T10:00:00Z', '2026-03-24T10:00:00Z']);
  });
});

describe('calved early', () => {
  // Given 1 March 10:00; the minimum of 42 days is over 12 April 10:00.
  test('R-19 the later of calving and hold and of minimum and hold: both are 96 hours, the minimum is later', () => {
    const until = (time: string) =>
      book(dried('2026-03-01T10:00:00Z', TUBE), calved(time)).held('31', '2026-04-13/morning')?.until;
    expect(until('2026-04-12T09:59:00Z')).toBe('2026-04-16T10:00:00Z');
    expect(until('2026-04-12T10:00:00Z')).toBe('2026-04-16T10:00:00Z');
    expect(until('2026-04-12T10:01:00Z')).toBe('2026-04-16T10:01:00Z');
  });

  test('R-19 R-90 given by treatment and named by the dry-off after it, the minimum and the days of meat count from the later', () => {
    const each = (time: string) =>
      book(
        dose('31', time, { medicine: 'Dry-cow tube' }),
        dried('2026-03-01T10:00:00Z', TUBE),
        calved('2026-04-12T09:00:00Z'),
      );
    const row = each('2026-02-27T11:00:00Z').held('31', '2026-04-13/morning');
    expect([row?.until, keysOf(row)]).toEqual(['2026-04-16T10:00:00Z', ['hold.dry-cow-early']]);
    expect(each('2026-03-02T11:00:00Z').held('31', '2026-04-13/morning')?.until).toBe('2026-04-17T11:00:00Z');
    // 1 March 10:00 and 30 days.
    const meat = each('2026-02-27T11:00:00Z').at('2026-03-20/morning').sheets['beef-hold'].cows;
    expect(meat.map(({ until }) => until)).toEqual(['2026-03-31T10:00:00Z']);
  });

  test('R-19 the warning is said with the days of the minimum', () => {
    const row = book(dried('2026-03-01T10:00:00Z', TUBE), calved('2026-03-20T10:00:00Z')).held(
      '31',
      '2026-03-21/morning',
    );
    expect(row?.reasons[0]).toMatchObject({ rule: 'R-19', key: 'hold.dry-cow-early', values: { minimumDays: 42 } });
  });

  test('R-19 where the label says nothing of calving early it stays open, as where it says to ask', () => {
    const tube = medicine('Says nothing', {
      milkHold: 'not-for-milking-cows',
      meatDays: 30,
      dryCow: { minimumDryDays: 42, milkHoldAfterCalving: { hours: 24 } },
    });
    const row = book(tube, dried('2026-03-01T10:00:00Z', { product: 'Says nothing' }), calved('2026-03-20T10:00:00Z'));
    expect(row.held('31', '2026-04-13/morning')?.until).toBeNull();
  });

  test("R-19 the vet's time that ends it is one said after the early calving; one given at dry-off is not about it", () => {
    const given = dose(
      '31',
      '2026-03-01T10:00:00Z',
      { medicine: 'Ask-vet tube', milkHoldHours: 48, prescribedBy: 'Dr Vane' },
      'tubes',
    );
    const early = [dried('2026-03-01T10:00:00Z'), given, calved('2026-03-20T10:00:00Z')];
    expect(book(...early).held('31', '2026-03-23/morning')?.until).toBeNull();
    expect(book(...early, vet('2026-03-05T10:00:00Z', 48, 'tubes')).held('31', '2026-03-23/morning')?.until).toBeNull();
    expect(book(...early, vet('2026-03-20T18:00:00Z', 120, 'tubes')).held('31', '2026-03-23/morning')?.until).toBe(
      '2026-03-25T10:00:00Z',
    );
  });

  test("R-19 neither the vet's time nor a clear test ends it before the label's own time after calving", () => {
    const early = [dried('2026-03-01T10:00:00Z', ASK), calved('2026-03-20T10:00:00Z')];
    expect(book(...early, vet('2026-03-20T12:00:00Z', 6)).held('31', '2026-03-21/morning')?.until).toBe(
      '2026-03-21T10:00:00Z',
    );
    const clear = about('31', 'residue-test', '2026-03-20T20:00:00Z', {
      result: 'clear',
      of: 'cow',
      sampledAt: '2026-03-20T16:30:00Z',
    });
    expect(book(...early, clear).held('31', '2026-03-21/morning')?.until).toBe('2026-03-21T10:00:00Z');
  });

  test('R-19 R-22 a clear test of milk held by minimum and hold shortens nothing', () => {
    const clear = about('31', 'residue-test', '2026-03-24T12:00:00Z', { result: 'clear', of: 'cow' });
    const row = book(dried('2026-03-01T10:00:00Z', TUBE), calved('2026-03-20T10:00:00Z'), clear);
    expect(row.held('31', '2026-03-25/morning')?.until).toBe('2026-04-16T10:00:00Z');
  });

  test('R-19 R-07 a milked abortion inside the minimum is held as an early calving is', () => {
    const aborted = about('31', 'abortion', '2026-03-20T10:00:00Z', { milked: true, group: 'Fresh' });
    const row = book(dried('2026-03-01T10:00:00Z', TUBE), aborted).held('31', '2026-03-21/morning');
    expect([row?.until, keysOf(row)[0]]).toEqual(['2026-04-16T10:00:00Z', 'hold.dry-cow-early']);
  });
});

describe('milked again, not stated, not certain', () => {
  test('R-19 tubes in a cow that is milked on are held from that milking', () => {
    const row = book(dose('31', '2026-03-01T10:00:00Z', { medicine: 'Dry-cow tube' })).held(
      '31',
      '2026-03-01/afternoon',
    );
    expect(row?.until).toBeNull();
  });

  test("R-19 milked again without calving: hours written with the tubes end nothing, the vet's time said after does", () => {
    const tubes = dose(
      '31',
      '2026-03-01T10:00:00Z',
      { medicine: 'Dry-cow tube', milkHoldHours: 96, prescribedBy: 'Dr Vane' },
      'tubes',
    );
    expect(book(tubes).held('31', '2026-03-10/morning')?.until).toBeNull();
    expect(book(tubes, vet('2026-03-09T12:00:00Z', 96, 'tubes')).held('31', '2026-03-10/morning')?.until).toBe(
      '2026-03-13T12:00:00Z',
    );
  });

  test('R-19 the product of a dry-off not stated is stated by a dry-cow product two days before or after it, not by another medicine', () => {
    const until = (time: string, name: string) =>
      book(dried('2026-02-03T06:00:00Z'), dose('31', time, { medicine: name }), calved('2026-03-20T10:00:00Z')).held(
        '31',
        '2026-03-21/morning',
      )?.until;
    expect(until('2026-02-01T06:00:00Z', 'Dry-cow tube')).toBe('2026-03-24T10:00:00Z');
    expect(until('2026-02-05T06:00:00Z', 'Dry-cow tube')).toBe('2026-03-24T10:00:00Z');
    expect(until('2026-02-05T06:01:00Z', 'Dry-cow tube')).toBeNull();
    expect(until('2026-02-03T06:00:00Z', 'Sixty hours')).toBeNull();
  });

  test('R-19 a sealant by name is a statement: nothing is held after calving for it', () => {
    const sealant = medicine('A sealant', { kind: 'sealant', milkHold: 'none', meatDays: 0 });
    const row = book(sealant, dried('2026-02-01T06:00:00Z', { product: 'A sealant' }), calved('2026-03-20T10:00:00Z'));
    expect(row.held('31', '2026-03-21/afternoon')).toBeUndefined();
  });

  test('R-19 R-07 a dry-off between the calvings of twins that names no product holds from the later calving', () => {
    const twins = [calved('2026-03-16T10:00:00Z'), calved('2026-03-19T10:00:00Z')];
    const row = (more: object, milking: string) =>
      book(...twins, dried('2026-03-17T12:00:00Z', more)).held('31', milking);
    expect(keysOf(row({}, '2026-03-25/morning'))).toEqual(['hold.dry-cow-not-stated']);
    expect(row({ product: 'none' }, '2026-03-25/morning')).toBeUndefined();
    // Before the dry-off nothing was to be stated.
    expect(keysOf(row({}, '2026-03-17/morning'))).toEqual(['hold.fresh']);
  });

  test('R-19 R-25 a calving that may be of another cow of that number ends no dry-cow hold of hers', () => {
    const one = dryCow('31', { officialId: '999000000000031', driedOffOn: '2026-01-20', driedOffWith: 'Dry-cow tube' });
    const other = dryCow('31', { officialId: '999000000000032', driedOffOn: '2026-01-20', driedOffWith: 'none' });
    const each = evening([
      farm({ freshHold: { milkings: 1 } }),
      ...CUPBOARD,
      one,
      other,
      calved('2026-03-10T10:00:00Z'),
      calved('2026-03-20T10:00:00Z', '999000000000031'),
    ]);
    const rows = each.at('2026-03-21/morning').sheets['milk-hold'].held;
    expect(rows.map(({ until }) => until)).toContain('2026-03-24T10:00:00Z');
  });

  test('R-19 R-14 R-25 tubes at a dry-off whose number means two cows hold both, milk and meat; "none" holds neither', () => {
    const cows = [
      milker('412', { officialId: '999000000000001' }),
      milker('412', { officialId: '999000000000002', lactation: 3 }),
    ];
    const each = (more: { product?: string }) =>
      evening([
        farm(),
        ...CUPBOARD,
        ...cows,
        about('412', 'dry-off', '2026-03-14T18:00:00Z', { group: 'Dry', ...more }),
      ]).at('2026-03-15/morning').sheets;
    expect(each(TUBE)['milk-hold'].held.map((row) => [row.until, keysOf(row)])).toEqual([
      [null, ['hold.dry-cow-until-calving', 'hold.may-be-her']],
      [null, ['hold.dry-cow-until-calving', 'hold.may-be-her']],
    ]);
    expect(each({})['milk-hold'].held.map(({ until }) => until)).toEqual([null, null]);
    expect(each({ product: 'none' })['milk-hold'].held).toEqual([]);
    expect(each({})['beef-hold'].cows.map(({ until }) => until)).toEqual([null, null]);
    expect(each({ product: 'none' })['beef-hold'].cows).toEqual([]);
    expect(each(TUBE).counts.total.inMilk).toBe(2);
  });

  test('R-19 R-25 tubes at a dry-off of nobody in the herd head the sheet; without its zeros it holds that cow too', () => {
    const stray = (number: string, product: string) =>
      book(about(number, 'dry-off', '2026-03-14T18:00:00Z', { product })).at('2026-03-15/morning').sheets['milk-hold'];
    expect(stray('999', 'Dry-cow tube').unplaced.map(({ number }) => number)).toEqual(['999']);
    expect(stray('999', 'none').unplaced).toEqual([]);
    expect(stray('031', 'Dry-cow tube').unplaced.map(({ number }) => number)).toEqual(['031']);
    expect(stray('031', 'Dry-cow tube').held.map(({ cow }) => cow)).toEqual(['31']);
  });
});

test('R-95 R-19 the register gives a dry-cow product the milk hold that the sheets give it', () => {
  const rows = (...more: readonly Saying[]) => {
    const { entries } = book(...more);
    const known = know(entries, []);
    const milking = known.farm.schedule?.find('2026-03-21/morning');
    if (milking === undefined) throw new Error('no such milking');
    const moment = momentOf(known, { milking, asOf: milking.start, position: entries.length });
    if (moment === undefined) throw new Error('no farm');
    return medicineRegister(known, moment).rows.map(({ milkHold }) => [milkHold.until, milkHold.zero, milkHold.ended]);
  };
  expect(rows(dried('2026-02-01T06:00:00Z', TUBE))).toEqual([[null, false, false]]);
  expect(rows(dried('2026-02-01T06:00:00Z', TUBE), calved('2026-03-20T10:00:00Z'))).toEqual([
    ['2026-03-24T10:00:00Z', false, false],
  ]);
});
