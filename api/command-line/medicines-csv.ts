/** The register and the stock for a spreadsheet: zeros written, struck treatments with who, when and why, no cell a formula. */
import { stringify } from 'csv-stringify/sync';
import type { RegisterRow } from '../../projections/medicine-row.ts';
import type { StockRow } from '../../projections/medicine-stock.ts';
import type { StruckDose } from '../../projections/struck-records.ts';
import { amounts, holdText, type MayBe, nowOf, type Times, unsureOf, useOf } from './medicines-said.ts';

const HEADINGS = [
  'cow',
  'official number',
  'medicine',
  'active ingredient',
  'first dose',
  'last dose',
  'doses',
  'quantity',
  'route',
  'batch',
  'reason',
  'given by',
  'prescribed by',
  'use',
  'milk hold until',
  'meat hold until',
  'supplier',
  'supplier address',
  'proof of purchase',
  'written down',
  'not filled in',
  'entries',
  'struck by',
  'struck at',
  'struck because',
  'instead',
];

export const registerCsv = (
  rows: readonly RegisterRow[],
  struck: readonly StruckDose[],
  times: Times,
  mayBe: MayBe,
): string => {
  const treatments = rows.map((row) => [
    `${row.cow}${nowOf(row)}${unsureOf(row, mayBe)}`,
    row.officialId ?? '',
    row.medicine,
    row.active ?? '',
    times(row.firstDose),
    times(row.lastDose),
    String(row.doses),
    amounts(row.quantities),
    row.routes.join(', '),
    row.batches.join(', '),
    row.reasons.join('; '),
    row.givenBy.join(', '),
    row.prescribedBy.join(', '),
    useOf(row),
    holdText(row.milkHold, times),
    holdText(row.meatHold, times),
    row.supplier ?? '',
    row.supplierAddress ?? '',
    row.proof ?? '',
    times(row.writtenDown),
    row.missing.join(', '),
    row.entries.join(' '),
    '',
    '',
    '',
    '',
  ]);
  const doses = struck.map(({ dose, ...row }) => [
    row.cow,
    row.officialId ?? '',
    dose.medicine,
    row.active ?? '',
    times(row.given),
    times(row.given),
    '1',
    dose.amount === undefined ? '' : amounts([dose.amount]),
    dose.route ?? '',
    dose.batch ?? '',
    dose.reason ?? '',
    dose.givenBy ?? row.writtenBy,
    dose.prescribedBy ?? '',
    dose.offLabel === true ? 'off-label (said)' : '',
    ...['', '', '', '', ''],
    times(row.writtenDown),
    '',
    row.entry,
    row.by,
    times(row.at),
    row.reason,
    row.instead ?? '',
  ]);
  return csv(HEADINGS, [...treatments, ...doses]);
};

export const stockCsv = (stock: readonly StockRow[]): string =>
  csv(
    ['medicine', 'batch', 'unit', 'received', 'used', 'disposed', 'left', 'expires', 'doses without an amount'],
    stock.map((row) => [
      row.medicine,
      row.batch ?? '',
      row.unit,
      String(row.received),
      String(row.used),
      String(row.disposed),
      String(row.left),
      row.expires ?? '',
      String(row.dosesWithoutAmount),
    ]),
  );

/** A cell that a spreadsheet would take for a formula is written as text. */
const csv = (headings: readonly string[], rows: readonly (readonly string[])[]): string =>
  stringify([[...headings], ...rows.map((row) => [...row])], { escape_formulas: true, bom: true });
