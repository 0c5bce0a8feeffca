/** `import herd FILE.csv`: the list of cows a farm already has in a spreadsheet. `import ade FILE`: what another program says. */
import fs from 'node:fs';
import process from 'node:process';
import { Command, Option } from 'commander';
import type { Book } from '../../events/book.ts';
import { readValue } from '../../events/door.ts';
import { know } from '../../projections/know.ts';
import { parseInstant } from '../../shared/instant.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { againstHerd } from '../import-herd/against-herd.ts';
import { type HerdImport, readHerdFile } from '../import-herd/import-herd.ts';
import { sayAlerts } from './alerts.ts';
import { importArchiveCommand } from './archive.ts';
import { importAdeCommand } from './import-ade.ts';
import { out, outJson, plural, withBook } from './settings.ts';

interface Options {
  readonly map: readonly string[];
  readonly dates?: string;
  readonly holds?: 'none';
  readonly asOf?: string;
  readonly dryRun?: boolean;
  readonly json?: boolean;
  readonly author: string;
  readonly source: string;
}

export const importCommand = (): Command =>
  new Command('import')
    .description('bring in what the farm already has elsewhere')
    .addCommand(herdCommand())
    .addCommand(importAdeCommand())
    .addCommand(importArchiveCommand());

const herdCommand = (): Command =>
  new Command('herd')
    .description('a herd list saved as CSV: headings in any order, commas, semicolons or tabs')
    .argument('<file>', 'the CSV file')
    .option(
      '--map <field=Heading>',
      'take a heading for a field, as in --map number=Tag (may be repeated)',
      (value: string, before: string[]) => [...before, value],
      [],
    )
    .option('--dates <pattern>', 'how the file writes its dates, such as dd/mm/yyyy; ISO dates need nothing')
    .addOption(new Option('--holds <statement>', 'state that no cow in the list has a running hold').choices(['none']))
    .option('--as-of <time>', 'when the list was true (else the start of today on the farm)')
    .option('--dry-run', 'say what would be recorded, and record nothing')
    .option('--json', 'print the outcome as JSON and nothing else')
    .option('--author <name>', 'who says it', 'not stated')
    .option('--source <name>', 'where the list comes from', 'herd list')
    .action(async (file: string, options: Options, command: Command) => {
      const bytes = readBytes(file);
      await withBook(command, {}, (book) => importHerd(book, file, bytes, options));
    });

const readBytes = (file: string): Uint8Array => {
  try {
    return fs.readFileSync(file);
  } catch {
    throw new UserProblem(`There is no file ${file} that can be read; check the name`, 2);
  }
};

const importHerd = (book: Book, file: string, bytes: Uint8Array, options: Options): void => {
  const { entries, asides } = book.read();
  const { farm, herd } = know(entries, asides);
  const { schedule } = farm;
  const now = book.clock.now();
  if (schedule === undefined)
    throw new UserProblem('This book has no farm yet; record its farm-set-up first, then import the herd');
  const setUp = schedule.inForceAt(now);
  const asOf = options.asOf === undefined ? undefined : parseInstant(options.asOf);
  if (asOf?.ok === false) throw new UserProblem(`--as-of: ${asOf.problem}`, 2);
  const result = readHerdFile(bytes, {
    map: mapOf(options.map),
    dates: options.dates,
    holds: options.holds,
    asOf: asOf?.value ?? setUp.zone.startOfDay(schedule.dayOf(now)),
    zone: setUp.zone.name,
    groups: setUp.data.groups,
    source: options.source,
    author: options.author,
  });
  if (result.problem !== undefined) {
    if (options.json !== true) sayMapping(result);
    throw new UserProblem(`${file}: ${result.problem}`);
  }
  const { fresh, known, already } = againstHerd(result, herd, (id) => book.find(id).length > 0);
  const settings = { source: options.source, author: options.author, now };
  const arrivals = fresh.map(({ value }) => readValue(value, settings));
  const receipts = options.dryRun === true ? [] : book.record(arrivals);
  const refusedAtDoor = arrivals.flatMap((arrival, index) =>
    arrival.outcome === 'refused'
      ? [{ line: fresh[index]?.line ?? 0, column: null, problem: arrival.problem, text: '' }]
      : [],
  );
  const refusals = [...result.refusals, ...already, ...refusedAtDoor];
  const recorded =
    options.dryRun === true
      ? fresh.length - refusedAtDoor.length
      : receipts.filter((receipt) => receipt.outcome === 'recorded').length;
  if (refusals.length > 0) process.exitCode = 1;
  if (options.json === true) {
    outJson({
      mapping: result.mapping,
      recorded,
      alreadyKnown: known,
      refusals,
      notes: result.notes,
      dryRun: options.dryRun === true,
    });
    return;
  }
  sayAlerts(book);
  sayMapping(result);
  for (const remark of result.notes) out(`  ${remark}`);
  out(
    `${plural(recorded, 'cow')} ${options.dryRun === true ? 'would be recorded (dry run: nothing was)' : 'recorded'}${known > 0 ? `, ${known} already known` : ''}.`,
  );
  if (refusals.length === 0) return;
  out(
    `${plural(new Set(refusals.map((refusal) => refusal.line)).size, 'row')} refused; mend the file and import it again, only these rows will be added:`,
  );
  for (const { line, column, problem } of refusals)
    out(`  line ${line}${column === null ? '' : `, column "${column}"`}: ${problem}`);
};

const sayMapping = (result: HerdImport): void => {
  if (result.mapping.length === 0) return;
  out('Headings as understood:');
  for (const { heading, field } of result.mapping) out(`  ${heading} → ${field ?? 'not used'}`);
};

const mapOf = (pairs: readonly string[]): Record<string, string> =>
  Object.fromEntries(
    pairs.map((pair) => {
      const at = pair.indexOf('=');
      if (at < 1) throw new UserProblem(`--map ${pair}: write it as field=Heading, such as --map number=Tag`, 2);
      return [pair.slice(0, at).trim(), pair.slice(at + 1).trim()];
    }),
  );
