/** The register of medicines and the stock. */
import { describe, expect, test } from 'vitest';
import { know } from '../../projections/know.ts';
import { medicineRegister, medicineStock } from '../../projections/medicines.ts';
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

  test('R-95 a period takes the treatments with a dose in it', () => {
    const doses = ['2026-03-01', '2026-03-05', '2026-03-09'].map((day) => dose('1', `${day}T05:00:00Z`));
    const { rows } = register([farm(), ...CUPBOARD, milker('1'), ...doses], '2026-03-20/morning', {
      from: mustBeInstant('2026-03-02T00:00:00Z'),
      to: mustBeInstant('2026-03-08T00:00:00Z'),
    });
    expect(rows.map(({ firstDose }) => firstDose)).toEqual(['2026-03-05T05:00:00Z']);
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
});
