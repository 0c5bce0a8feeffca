/** The register of medicines and the stock. */

import { describe, expect, test } from 'vitest';
import { entryLike } from '../../events/stored-entry.ts';
import { know } from '../../projections/know.ts';
import { medicineStock } from '../../projections/medicine-stock.ts';
import { medicineRegister } from '../../projections/medicines.ts';
import { momentOf } from '../../projections/views-at.ts';
import { mustBeInstant } from '../../shared/instant.ts';
import { about, CUPBOARD, dose, evening, farm, farmWide, medicine, milker, type Saying } from './evening.ts';

const LISTED = medicine('Listed', {
  active: 'penicillin G procaine',
  route: 'udder',
  milkHold: { hours: 60 },
  meatDays: 3,
});
const RECEIVED = farmWide('medicine-received', '2026-03-01T09:00:00Z', {
  medicine: 'Listed',
  quantity: { value: 24, unit: 'tube' },
  batch: 'B-1',
  expires: '2027-01-31',
  supplier: 'A wholesaler',
  supplierAddress: '1 Harbour Road',
  proof: 'invoice 7',
});

const register = (sayings: readonly Saying[], at = '2026-03-20/morning', period = {}) => {
  const { entries } = evening(sayings);
  const known = know(entries, []);
  const milking = known.farm.schedule?.find(at);
  const moment = milking && momentOf(known, { milking, asOf: milking.start, position: 0 });
  if (moment === undefined) throw new Error('no such milking');
  return medicineRegister(known, moment, period);
};

const course = (number: number, time: string) =>
  dose('1', time, {
    medicine: 'Listed',
    amount: { value: 1, unit: 'tube' },
    route: 'udder',
    batch: 'B-1',
    reason: 'mastitis',
    givenBy: 'Marta',
    prescribedBy: 'Dr Vane',
    course: { id: 'c', dose: number, of: 2, everyHours: 12 },
  });

describe('the register', () => {
  test('R-95 a course is one line with all that the law asks for', () => {
    const cow = milker('1', { officialId: '999000000000001' });
    const { rows } = register([
      farm(),
      LISTED,
      RECEIVED,
      cow,
      course(1, '2026-03-10T05:00:00Z'),
      course(2, '2026-03-10T17:00:00Z'),
    ]);
    expect(rows).toHaveLength(1);
    expect(rows[0]).toMatchObject({
      medicine: 'Listed',
      active: 'penicillin G procaine',
      firstDose: '2026-03-10T05:00:00Z',
      lastDose: '2026-03-10T17:00:00Z',
      doses: 2,
      quantities: [{ value: 2, unit: 'tube' }],
      routes: ['udder'],
      batches: ['B-1'],
      cow: '1',
      officialId: '999000000000001',
      reasons: ['mastitis'],
      givenBy: ['Marta'],
      prescribedBy: ['Dr Vane'],
      offLabel: [],
      supplier: 'A wholesaler',
      proof: 'invoice 7',
      writtenDown: '2026-03-10T17:00:00Z',
      missing: [],
    });
    expect(rows[0]?.milkHold).toMatchObject({ until: '2026-03-13T05:00:00Z', zero: false, ended: true });
    expect(rows[0]?.meatHold).toMatchObject({ until: '2026-03-13T17:00:00Z', zero: false, ended: true });
  });

  test('R-16 R-95 a hold of zero is written all the same', () => {
    const { rows } = register([
      farm(),
      ...CUPBOARD,
      milker('1'),
      dose('1', '2026-03-10T05:00:00Z', { medicine: 'Nothing held' }),
    ]);
    expect([rows[0]?.milkHold.zero, rows[0]?.milkHold.until, rows[0]?.meatHold.zero]).toEqual([
      true,
      '2026-03-10T05:00:00Z',
      true,
    ]);
  });

  test('R-95 an open hold has no end, and what the farm has not filled in is named', () => {
    const { rows } = register([farm(), milker('1'), dose('1', '2026-03-10T05:00:00Z', { medicine: 'Not listed' })]);
    expect(rows[0]?.milkHold).toMatchObject({ until: null, zero: false, ended: false });
    expect(rows[0]?.missing).toEqual([
      'amount',
      'route',
      'batch',
      'reason',
      'prescribed-by',
      'official-number',
      'supplier',
      'proof',
      'active',
    ]);
  });

  test('R-95 a dose for no known cow, and the product of a dry-off, stand in it too', () => {
    const dried = about('1', 'dry-off', '2026-03-09T06:00:00Z', { product: 'Dry-cow tube', group: 'Dry' });
    const { rows } = register([farm(), ...CUPBOARD, milker('1'), dried, dose('999', '2026-03-10T05:00:00Z')]);
    expect(rows.map(({ cow, medicine: name, placed }) => [cow, name, placed])).toEqual([
      ['1', 'Dry-cow tube', true],
      ['999', 'Sixty hours', false],
    ]);
  });

  test('R-23 R-95 a treatment struck stands among the corrections: who, when, why, and what instead', () => {
    const strike = {
      ...farmWide('entry-struck', '2026-03-11T09:00:00Z', { entry: 'wrong', reason: 'wrong cow', instead: 'right' }),
    };
    const { rows, corrections } = register([
      farm(),
      ...CUPBOARD,
      milker('1'),
      milker('2'),
      dose('1', '2026-03-10T05:00:00Z', {}, 'wrong'),
      dose('2', '2026-03-10T05:00:00Z', {}, 'right'),
      strike,
    ]);
    expect(rows.map(({ cow }) => cow)).toEqual(['2']);
    expect(corrections).toEqual([
      expect.objectContaining({ entry: 'wrong', cow: '1', struckBy: 'Marta', reason: 'wrong cow', instead: 'right' }),
    ]);
  });

  const given = (number: number, time: string, more = {}) =>
    ({ ...course(number, time), data: { ...(course(number, time).data as object), ...more } }) satisfies Saying;
  const delivered = (batch: string | undefined, supplier: string, proof: string, time = '2026-03-01T09:00:00Z') =>
    farmWide('medicine-received', time, {
      medicine: 'Listed',
      quantity: { value: 24, unit: 'tube' },
      ...(batch === undefined ? {} : { batch }),
      supplier,
      supplierAddress: 'Harbour Road',
      proof,
    });

  test('R-95 each dose stands in it with its amount; a dose without one leaves the quantity not filled in', () => {
    const { amount: _, ...bare } = course(2, '2026-03-10T17:00:00Z').data as Record<string, unknown>;
    const second = { ...course(2, '2026-03-10T17:00:00Z'), data: bare };
    const { rows } = register([farm(), LISTED, RECEIVED, milker('1'), course(1, '2026-03-10T05:00:00Z'), second]);
    expect(rows[0]?.given.map(({ at, amount }) => [at, amount])).toEqual([
      ['2026-03-10T05:00:00Z', { value: 1, unit: 'tube' }],
      ['2026-03-10T17:00:00Z', null],
    ]);
    expect(rows[0]?.quantities).toEqual([{ value: 1, unit: 'tube' }]);
    expect(rows[0]?.missing).toEqual(['amount', 'official-number']);
  });

  test('R-95 quantities of different units stand side by side', () => {
    const second = given(2, '2026-03-10T17:00:00Z', { amount: { value: 10, unit: 'ml' } });
    const { rows } = register([farm(), LISTED, RECEIVED, milker('1'), course(1, '2026-03-10T05:00:00Z'), second]);
    expect(rows[0]?.quantities).toEqual([
      { value: 1, unit: 'tube' },
      { value: 10, unit: 'ml' },
    ]);
  });

  test('R-95 two batches in one course: the supplier and the proof of each', () => {
    const second = given(2, '2026-03-10T17:00:00Z', { batch: 'B-2' });
    const doses = [course(1, '2026-03-10T05:00:00Z'), second];
    const both = register([
      farm(),
      LISTED,
      delivered('B-1', 'North', 'invoice 1'),
      delivered('B-2', 'South', 'invoice 2'),
      milker('1'),
      ...doses,
    ]).rows[0];
    expect([both?.supplier, both?.supplierAddress, both?.proof]).toEqual([
      'North; South',
      'Harbour Road',
      'invoice 1; invoice 2',
    ]);
    expect(both?.missing).toEqual(['official-number']);
    const one = register([farm(), LISTED, delivered('B-1', 'North', 'invoice 1'), milker('1'), ...doses]).rows[0];
    expect([one?.supplier, one?.missing]).toEqual(['North', ['official-number', 'supplier', 'proof']]);
  });

  test('R-95 a dose without a batch has a proof of purchase only where nothing else can have been used', () => {
    const bare = dose('1', '2026-03-10T05:00:00Z', { medicine: 'Listed' });
    const from = (...deliveries: readonly Saying[]) => {
      const row = register([farm(), LISTED, ...deliveries, milker('1'), bare]).rows[0];
      return [row?.supplier, row?.proof];
    };
    const first = delivered('B-1', 'North', 'invoice 1');
    expect(from(first)).toEqual(['North', 'invoice 1']);
    expect(from(first, delivered('B-2', 'North', 'invoice 2'))).toEqual(['North', null]);
    expect(from(first, delivered(undefined, 'South', 'invoice 3'))).toEqual([null, null]);
    expect(from(first, delivered('B-9', 'South', 'invoice 9', '2026-03-11T09:00:00Z'))).toEqual(['North', 'invoice 1']);
  });

  test('R-95 the cow is named by the number she bore then', () => {
    const renumbered = about('1', 'number-changed', '2026-03-12T09:00:00Z', { to: '77' });
    const { rows } = register([farm(), LISTED, milker('1'), dose('1', '2026-03-10T05:00:00Z'), renumbered]);
    expect(rows.map(({ cow, placed }) => [cow, placed])).toEqual([['1', true]]);
  });

  test('R-95 a hold is over once its very minute has passed, not before', () => {
    // Sixty hours from 11 March 17:00 end with the morning milking of the 14th.
    const ended = (milking: string) =>
      register([farm(), ...CUPBOARD, milker('1'), dose('1', '2026-03-11T17:00:00Z')], milking).rows[0]?.milkHold;
    expect(ended('2026-03-14/morning')).toMatchObject({ until: '2026-03-14T05:00:00Z', ended: false });
    expect(ended('2026-03-14/afternoon')).toMatchObject({ until: '2026-03-14T05:00:00Z', ended: true });
  });

  test('R-95 R-29 off-label use is said with its causes, and off the label of a medicine not listed as it was said', () => {
    const off = dose('1', '2026-03-10T05:00:00Z', { medicine: 'Listed', route: 'muscle', offLabel: true });
    const unlisted = dose('1', '2026-03-11T05:00:00Z', { medicine: 'Not listed', offLabel: true });
    const { rows } = register([farm(), LISTED, milker('1'), off, unlisted]);
    expect(rows.map(({ offLabel }) => [...offLabel].sort())).toEqual([['route', 'said'], ['said']]);
  });

  test('R-95 R-15 the vet who gave a time later stands as the prescriber, and the time as the hold', () => {
    const vet = about('1', 'vet-hold-time', '2026-03-10T09:00:00Z', {
      treatment: 'the-dose',
      milkHours: 96,
      meatDays: 10,
      prescribedBy: 'Dr Vane',
    });
    const { rows } = register([
      farm(),
      LISTED,
      milker('1'),
      dose('1', '2026-03-10T05:00:00Z', { medicine: 'Listed' }, 'the-dose'),
      vet,
    ]);
    expect(rows[0]).toMatchObject({ prescribedBy: ['Dr Vane'] });
    expect([rows[0]?.milkHold.until, rows[0]?.meatHold.until]).toEqual([
      '2026-03-14T05:00:00Z',
      '2026-03-20T05:00:00Z',
    ]);
  });

  test('R-95 what was given at a dry-off was written down with it, by who wrote it; what she came with, by nobody', () => {
    const dried = about('1', 'dry-off', '2026-03-09T06:00:00Z', { product: 'Dry-cow tube', group: 'Dry' });
    const came = milker('2', {
      group: 'Dry',
      calvedOn: '2025-02-01',
      driedOffOn: '2026-01-08',
      driedOffWith: 'Dry-cow tube',
    });
    const { entries } = evening([farm(), ...CUPBOARD, milker('1'), came, dried]);
    const writtenLater = entries.map((entry) =>
      entry.type === 'dry-off' ? entryLike(entry, { recordedAt: mustBeInstant('2026-03-09T18:30:00Z') }) : entry,
    );
    const known = know(writtenLater, []);
    const milking = known.farm.schedule?.find('2026-03-20/morning');
    const moment = milking && momentOf(known, { milking, asOf: milking.start, position: 0 });
    if (moment === undefined) throw new Error('no such milking');
    expect(
      medicineRegister(known, moment).rows.map(({ cow, givenBy, writtenDown }) => [cow, givenBy, writtenDown]),
    ).toEqual([
      ['2', [], '2026-01-10T12:00:00Z'],
      ['1', ['Marta'], '2026-03-09T18:30:00Z'],
    ]);
  });

  test('R-95 R-25 the product of a dry-off that is for no known cow stands in it, unplaced', () => {
    const lost = about('999', 'dry-off', '2026-03-09T06:00:00Z', { product: 'Dry-cow tube' });
    const nothing = about('998', 'dry-off', '2026-03-09T06:00:00Z', { product: 'none' });
    const { rows } = register([farm(), ...CUPBOARD, milker('1'), lost, nothing]);
    expect(rows.map(({ cow, medicine: name, placed }) => [cow, name, placed])).toEqual([
      ['999', 'Dry-cow tube', false],
    ]);
  });

  test('R-95 R-25 a dose for a number that two cows bear was given once, and stands once', () => {
    const twins = ['999000000000001', '999000000000002'].map((officialId) => milker('1', { officialId }));
    const { rows } = register([farm(), LISTED, ...twins, dose('1', '2026-03-10T05:00:00Z')]);
    expect(rows.map(({ cow, placed, officialId }) => [cow, placed, officialId])).toEqual([['1', false, null]]);
  });

  test('R-23 R-95 a dry-off that is struck is a correction where it gave something', () => {
    const dried = (product: string, id: string) => ({
      ...about('1', 'dry-off', '2026-03-09T06:00:00Z', { product }),
      id,
    });
    const strike = (entry: string) => farmWide('entry-struck', '2026-03-11T09:00:00Z', { entry, reason: 'wrong cow' });
    const { rows, corrections } = register([
      farm(),
      ...CUPBOARD,
      milker('1'),
      dried('Dry-cow tube', 'with'),
      strike('with'),
      dried('none', 'without'),
      strike('without'),
    ]);
    expect([rows, corrections.map(({ entry, medicine: name, instead }) => [entry, name, instead])]).toEqual([
      [],
      [['with', 'Dry-cow tube', null]],
    ]);
  });

  test('R-95 a period takes the treatments with a dose in it', () => {
    const doses = ['2026-03-01', '2026-03-05', '2026-03-09'].map((day) => dose('1', `${day}T05:00:00Z`));
    const { rows } = register([farm(), ...CUPBOARD, milker('1'), ...doses], '2026-03-20/morning', {
      from: mustBeInstant('2026-03-02T00:00:00Z'),
      to: mustBeInstant('2026-03-08T00:00:00Z'),
    });
    expect(rows.map(({ firstDose }) => firstDose)).toEqual(['2026-03-05T05:00:00Z']);
  });

  test('R-95 a cow renumbered since stands under both numbers, unless her official one says who she is', () => {
    const renumbered = about('1', 'number-changed', '2026-03-12T09:00:00Z', { to: '77' });
    const numbers = (cow: Saying, ...more: readonly Saying[]) =>
      register([farm(), ...CUPBOARD, cow, dose('1', '2026-03-10T05:00:00Z'), ...more]).rows.map(
        ({ cow: then, cowNow }) => [then, cowNow],
      );
    expect(numbers(milker('1'), renumbered)).toEqual([['1', '77']]);
    expect(numbers(milker('1'))).toEqual([['1', null]]);
    expect(numbers(milker('1', { officialId: '999000000000101' }), renumbered)).toEqual([['1', null]]);
  });
});

describe('stock', () => {
  const stock = (...sayings: readonly Saying[]) =>
    medicineStock(know(evening([farm(), LISTED, milker('1'), ...sayings]).entries, []));

  test('R-95 stock is what was received, less what was used, less what was disposed of, by batch', () => {
    const disposed = farmWide('medicine-disposed', '2026-03-12T09:00:00Z', {
      medicine: 'Listed',
      batch: 'B-1',
      quantity: { value: 2, unit: 'tube' },
      how: 'expired',
    });
    expect(stock(RECEIVED, course(1, '2026-03-10T05:00:00Z'), course(2, '2026-03-10T17:00:00Z'), disposed)).toEqual([
      expect.objectContaining({
        medicine: 'Listed',
        batch: 'B-1',
        unit: 'tube',
        received: 24,
        used: 2,
        disposed: 2,
        left: 20,
        expires: '2027-01-31',
      }),
    ]);
  });

  test('R-95 units are never mixed, and a struck treatment used nothing', () => {
    const millilitres = dose(
      '1',
      '2026-03-10T05:00:00Z',
      { medicine: 'Listed', batch: 'B-1', amount: { value: 0.1, unit: 'ml' } },
      'struck',
    );
    const more = dose('1', '2026-03-10T06:00:00Z', {
      medicine: 'Listed',
      batch: 'B-1',
      amount: { value: 0.2, unit: 'ml' },
    });
    const strike = farmWide('entry-struck', '2026-03-11T09:00:00Z', {
      entry: 'struck',
      reason: 'never given',
      instead: 'nothing',
    });
    expect(stock(RECEIVED, millilitres, more).map(({ unit, left }) => [unit, left])).toEqual([
      ['ml', -0.3],
      ['tube', 24],
    ]);
    expect(stock(RECEIVED, millilitres, more, strike).map(({ unit, left }) => [unit, left])).toEqual([
      ['ml', -0.2],
      ['tube', 24],
    ]);
  });

  const without = (day: number, more: Parameters<typeof dose>[2] = {}) =>
    dose('1', `2026-03-${day}T05:00:00Z`, { medicine: 'Listed', ...more });
  const missing = (...sayings: readonly Saying[]) =>
    stock(RECEIVED, ...sayings).map(({ batch, unit, left, dosesWithoutAmount }) => [
      batch,
      unit,
      left,
      dosesWithoutAmount,
    ]);

  test('R-95 a dose with no amount takes nothing off, and the row of its batch says so; with no batch every row does', () => {
    const other = without(10, { batch: 'B-2', amount: { value: 1, unit: 'tube' } });
    expect(missing(other)).toEqual([
      ['B-1', 'tube', 24, 0],
      ['B-2', 'tube', -1, 0],
    ]);
    expect(missing(other, without(11, { batch: 'B-1' }), without(12))).toEqual([
      ['B-1', 'tube', 24, 2],
      ['B-2', 'tube', -1, 1],
    ]);
  });

  test('R-95 R-19 what a dry-off names is such a dose, unless a treatment tells of the same', () => {
    const dried = about('1', 'dry-off', '2026-03-10T09:00:00Z', { product: 'Listed' });
    expect(missing(dried)).toEqual([['B-1', 'tube', 24, 1]]);
    const told = without(10, { batch: 'B-1', amount: { value: 4, unit: 'tube' } });
    expect(missing(dried, told)).toEqual([['B-1', 'tube', 20, 0]]);
  });

  test('R-95 a medicine spelt otherwise is the same one, under the name of its listing', () => {
    const spelt = without(10, { medicine: ' LISTED', batch: 'B-1', amount: { value: 1, unit: 'tube' } });
    const inMl = without(11, { medicine: 'listed', batch: 'B-1', amount: { value: 2, unit: 'ml' } });
    expect(stock(spelt, inMl, RECEIVED).map(({ medicine, unit, left }) => [medicine, unit, left])).toEqual([
      ['Listed', 'ml', -2],
      ['Listed', 'tube', 23],
    ]);
    const unlisted = ['Herb', 'HERB'].map((medicine, day) =>
      without(10 + day, { medicine, batch: 'H', amount: { value: 1, unit: day === 0 ? 'g' : 'ml' } }),
    );
    expect(stock(...unlisted).map(({ medicine, unit }) => [medicine, unit])).toEqual([
      ['Herb', 'g'],
      ['Herb', 'ml'],
    ]);
  });
});
