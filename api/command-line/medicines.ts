/** `medicines`: the register of treatments and the stock, for the record keeper and the inspector (R-95). */
import fs from 'node:fs';
import { Command, Option } from 'commander';
import { stringify } from 'csv-stringify/sync';
import type { Book } from '../../events/book.ts';
import type { Entry } from '../../events/entry.ts';
import { registerPaper } from '../../print/register.ts';
import { formatFor } from '../../print/words/format.ts';
import { wordsFor } from '../../print/words.ts';
import { type Known, know } from '../../projections/know.ts';
import type { HoldOnRegister, RegisterRow } from '../../projections/medicine-row.ts';
import { medicineStock, type Quantity, type StockRow } from '../../projections/medicine-stock.ts';
import { medicineRegister, type Register } from '../../projections/medicines.ts';
import { struckRecords } from '../../projections/struck-records.ts';
import { momentOf } from '../../projections/views-at.ts';
import { type Instant, instantText } from '../../shared/instant.ts';
import { addDays, parseLocalDay } from '../../shared/local-day.ts';
import { UserProblem } from '../../shared/refusal.ts';
import type { Zone } from '../../shared/zone.ts';
import { milkingAsked } from '../tonight.ts';
import { LANGUAGE_OPTION, type PaperOptions, PDF_OPTION, writePaper } from './paper-file.ts';
import { out, outJson, plural, withBook } from './settings.ts';

interface Options extends PaperOptions {
  readonly from?: string;
  readonly to?: string;
  readonly format: 'text' | 'csv';
  readonly out?: string;
  readonly stock?: boolean;
  readonly json?: boolean;
}

export const medicinesCommand = (): Command =>
  new Command('medicines')
    .description('the register of treatments, holds even when zero, corrections struck through; or the stock by batch')
    .option('--from <date>', 'treatments with a dose on or after this date')
    .option('--to <date>', 'treatments with a dose on or before this date')
    .addOption(new Option('--format <format>', 'how to print it').choices(['text', 'csv']).default('text'))
    .option('--out <file>', 'write the CSV there')
    .option('--stock', 'the stock by medicine and batch instead')
    .option(...PDF_OPTION)
    .option(...LANGUAGE_OPTION)
    .option('--json', 'print the rows as JSON and nothing else')
    .action(async (options: Options, command: Command) =>
      withBook(command, { readOnly: true }, (book) => run(book, options)),
    );

const run = async (book: Book, options: Options): Promise<void> => {
  if (options.stock === true && options.pdf !== undefined)
    throw new UserProblem('--pdf prints the register with the stock behind it; leave --stock out', 2);
  const { entries, asides, position, root } = book.read();
  const known = know(entries, asides);
  const asOf = book.clock.now();
  const milking = milkingAsked(known, 'next', asOf, asides.length);
  const moment = momentOf(known, { milking, asOf, position });
  if (moment === undefined) throw new UserProblem('This book has no farm yet; record a farm-set-up first');
  const zone = moment.schedule.inForceAt(asOf).zone;
  const times = timesIn(zone);
  if (options.stock === true) {
    const stock = medicineStock(known);
    if (options.json === true) outJson(stock);
    else if (options.format === 'csv' || options.out !== undefined) write(stockCsv(stock), options.out);
    else sayStock(stock);
    return;
  }
  const period = { from: bound('--from', options.from, zone, 0), to: bound('--to', options.to, zone, 1) };
  const register = medicineRegister(known, moment, period);
  if (options.pdf !== undefined) {
    const made = {
      rows: register.rows,
      struck: struckRecords(known, period),
      stock: medicineStock(known),
      dosesWithoutQuantity: known.strikes.live.filter(hasNoQuantity).length,
      mayBeOf: mayBeOf(known),
      setAside: known.asides.length,
      from: options.from ?? null,
      to: options.to ?? null,
      asOf: instantText(asOf),
    };
    await writePaper(book, { known, asOf, position, root }, { ...options, pdf: options.pdf }, (voice) =>
      registerPaper(made, voice),
    );
  }
  if (options.json === true) outJson(register);
  else if (options.format === 'csv' || options.out !== undefined) write(registerCsv(register, times), options.out);
  else if (options.pdf === undefined) sayRegister(register, times);
  else out(`Written to ${options.pdf}.`);
};

/** For entries whose number meant several cows: which, by official number where they have one. */
const mayBeOf = (known: Known): Record<string, readonly string[]> =>
  Object.fromEntries(
    known.herd.ambiguous.map(({ entry, animals }) => [
      entry.id,
      animals.map((animal) => animal.officialId ?? animal.spans.at(-1)?.number ?? ''),
    ]),
  );

/** A dose that the stock cannot count: of a treatment, or given at a dry-off. */
const hasNoQuantity = (entry: Entry): boolean =>
  (entry.type === 'treatment' && entry.data.amount === undefined) ||
  (entry.type === 'dry-off' && entry.data.product !== undefined && entry.data.product !== 'none');

/** The first instant of a date, or of the one after it less a millisecond. */
const bound = (option: string, text: string | undefined, zone: Zone, days: 0 | 1): Instant | undefined => {
  if (text === undefined) return undefined;
  const day = parseLocalDay(text);
  if (!day.ok) throw new UserProblem(`${option}: ${day.problem}`, 2);
  return (zone.startOfDay(addDays(day.value, days)) - days) as Instant;
};

/** Every date with its year: the register is read years later. */
const timesIn = (zone: Zone): ((instant: string | null) => string) => {
  const format = formatFor(wordsFor('en'), { zone });
  return (instant) => (instant === null ? 'without end' : format.time(instant));
};

const amounts = (quantities: readonly Quantity[]): string =>
  quantities.map(({ value, unit }) => `${value} ${unit}`).join(' + ');

/** Zero is written as zero (GB VMR 2013; US milk ordinance 15r; EU 2019/6 Article 108). */
const holdText = (hold: HoldOnRegister, times: (instant: string | null) => string): string =>
  hold.zero ? '0 (none)' : `${times(hold.until)}${hold.ended ? ' (over)' : ''}`;

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

const registerCsv = (register: Register, times: (instant: string | null) => string): string => {
  const rows = register.rows.map((row) => [
    row.placed ? row.cow : `${row.cow} (no such cow)`,
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
  const struck = register.corrections.map((row) => [
    row.cow,
    '',
    row.medicine,
    '',
    times(row.given),
    times(row.given),
    ...Array.from({ length: 13 }, () => ''),
    times(row.writtenDown),
    '',
    row.entry,
    row.struckBy,
    times(row.struckAt),
    row.reason,
    row.instead ?? '',
  ]);
  return csv(HEADINGS, [...rows, ...struck]);
};

const stockCsv = (stock: readonly StockRow[]): string =>
  csv(
    ['medicine', 'batch', 'unit', 'received', 'used', 'disposed', 'left', 'expires'],
    stock.map((row) => [
      row.medicine,
      row.batch ?? '',
      row.unit,
      String(row.received),
      String(row.used),
      String(row.disposed),
      String(row.left),
      row.expires ?? '',
    ]),
  );

/** A cell that a spreadsheet would take for a formula is written as text. */
const csv = (headings: readonly string[], rows: readonly (readonly string[])[]): string =>
  stringify([[...headings], ...rows.map((row) => [...row])], { escape_formulas: true, bom: true });

const write = (text: string, file: string | undefined): void => {
  if (file === undefined) {
    process.stdout.write(text);
    return;
  }
  try {
    fs.writeFileSync(file, text);
  } catch {
    throw new UserProblem(`${file} cannot be written; name another file with --out, or make room there`);
  }
  out(`Written to ${file}.`);
};

const useOf = (row: RegisterRow): string =>
  row.offLabel.length === 0 ? 'label' : `off-label (${row.offLabel.join(', ')})`;

const sayRegister = (register: Register, times: (instant: string | null) => string): void => {
  out(`${plural(register.rows.length, 'treatment')}, ${plural(register.corrections.length, 'struck treatment')}`);
  for (const row of register.rows) {
    out('');
    out(
      `${row.cow}${row.officialId === null ? '' : ` (${row.officialId})`}${row.placed ? '' : ' (no such cow in the herd)'}: ${row.medicine}${row.active === null ? '' : `, ${row.active}`}`,
    );
    out(
      `  ${plural(row.doses, 'dose')}, ${times(row.firstDose)}${row.doses > 1 ? ` to ${times(row.lastDose)}` : ''}; ${amounts(row.quantities) || 'quantity not written down'}; ${row.routes.join(', ') || 'route not written down'}; batch ${row.batches.join(', ') || 'not written down'}`,
    );
    out(
      `  for ${row.reasons.join('; ') || 'a reason not written down'}; given by ${row.givenBy.join(', ') || 'not written down'}; prescribed by ${row.prescribedBy.join(', ') || 'not written down'}; ${useOf(row)}`,
    );
    out(
      `  milk hold until ${holdText(row.milkHold, times)}; meat hold until ${holdText(row.meatHold, times)}; written down ${times(row.writtenDown)}`,
    );
    if (row.missing.length > 0) out(`  not filled in: ${row.missing.join(', ')}`);
  }
  for (const row of register.corrections) {
    out('');
    out(`STRUCK ${row.cow}: ${row.medicine}, ${times(row.given)}, written down ${times(row.writtenDown)}`);
    out(`  struck by ${row.struckBy}, ${times(row.struckAt)}: ${row.reason}; instead ${row.instead ?? 'not said'}`);
  }
};

const sayStock = (stock: readonly StockRow[]): void => {
  if (stock.length === 0) out('Nothing was received, used or disposed of with a quantity.');
  for (const row of stock) {
    out(
      `${row.medicine}, batch ${row.batch ?? 'not written down'}: ${row.left} ${row.unit} left (received ${row.received}, used ${row.used}, disposed ${row.disposed})${row.expires === null ? '' : `, expires ${row.expires}`}${row.left < 0 ? '  ! more went out than came in' : ''}`,
    );
  }
};
