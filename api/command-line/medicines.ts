/** `medicines`: the register of treatments and the stock, for the record keeper and the inspector. */
import fs from 'node:fs';
import { Command, Option } from 'commander';
import type { Book } from '../../events/book.ts';
import { registerPaper } from '../../print/register.ts';
import { formatFor } from '../../print/words/format.ts';
import { wordsFor } from '../../print/words.ts';
import { know } from '../../projections/know.ts';
import { liveEntries } from '../../projections/live.ts';
import { medicineStock } from '../../projections/medicine-stock.ts';
import { medicineRegister } from '../../projections/medicines.ts';
import { dosesWithoutAmount } from '../../projections/no-amount.ts';
import { struckRecords } from '../../projections/struck-records.ts';
import { momentOf } from '../../projections/views-at.ts';
import { mayBeOf, wholeRegister } from '../../projections/whole-register.ts';
import type { Instant } from '../../shared/instant.ts';
import { addDays, parseLocalDay } from '../../shared/local-day.ts';
import { UserProblem } from '../../shared/refusal.ts';
import type { Zone } from '../../shared/zone.ts';
import { milkingAsked } from '../tonight.ts';
import { sayAlerts } from './alerts.ts';
import { registerCsv, stockCsv } from './medicines-csv.ts';
import { sayRegister, sayStock, type Times } from './medicines-said.ts';
import { LANGUAGE_OPTION, type PaperOptions, PDF_OPTION, writePaper } from './paper-file.ts';
import { out, outJson, withBook } from './settings.ts';

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
    else {
      sayAlerts(book);
      sayStock(stock, dosesWithoutAmount(liveEntries(known.strikes.live)).length);
    }
    return;
  }
  const period = { from: bound('--from', options.from, zone, 0), to: bound('--to', options.to, zone, 1) };
  const register = medicineRegister(known, moment, period);
  if (options.pdf !== undefined) {
    const made = wholeRegister(known, moment, { ...period, fromDay: options.from, toDay: options.to });
    await writePaper(book, { known, asOf, position, root }, { ...options, pdf: options.pdf }, (voice) =>
      registerPaper(made, voice),
    );
  }
  if (options.json === true) outJson(register);
  else if (options.format === 'csv' || options.out !== undefined)
    write(registerCsv(register.rows, struckRecords(known, period).doses, times, mayBeOf(known)), options.out);
  else {
    sayAlerts(book);
    if (options.pdf === undefined) sayRegister(register, times, mayBeOf(known));
    else out(`Written to ${options.pdf}.`);
  }
};

/** The first instant of a date, or of the one after it less a millisecond. */
const bound = (option: string, text: string | undefined, zone: Zone, days: 0 | 1): Instant | undefined => {
  if (text === undefined) return undefined;
  const day = parseLocalDay(text);
  if (!day.ok) throw new UserProblem(`${option}: ${day.problem}`, 2);
  return (zone.startOfDay(addDays(day.value, days)) - days) as Instant;
};

/** Every date with its year: the register is read years later. */
const timesIn = (zone: Zone): Times => {
  const format = formatFor(wordsFor('en'), { zone });
  return (instant) => (instant === null ? 'without end' : format.time(instant));
};

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
