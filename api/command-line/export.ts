/** `export`: the book in a form that other programs read: the log itself, a table, or the open exchange standard. */
import fs from 'node:fs';
import path from 'node:path';
import process from 'node:process';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { Command, Option } from 'commander';
import type { Book } from '../../events/book.ts';
import { momentOf } from '../../projections/views-at.ts';
import { UserProblem } from '../../shared/refusal.ts';
import type { CannotCarry } from '../ade/cannot-carry.ts';
import { exportAde } from '../ade/export-ade.ts';
import { csvRows, csvText } from '../export/csv.ts';
import { jsonLines, storedRows } from '../export/rows.ts';
import { tonight } from '../tonight.ts';
import { sayAlerts } from './alerts.ts';
import { putAway } from './archive.ts';
import { note, out, outJson, plural, withBook } from './settings.ts';

interface Options {
  readonly format: 'jsonl' | 'csv' | 'ade';
  readonly out?: string;
  readonly archive?: string;
  readonly json?: boolean;
}

interface Summary {
  readonly format: Options['format'];
  readonly file: string | null;
  /** Entries of the log that it was made from. */
  readonly entries: number;
  readonly resources?: number;
  readonly cannotCarry?: readonly CannotCarry[];
}

export const exportCommand = (): Command =>
  new Command('export')
    .description(
      'the whole log as JSON Lines or CSV, or what the ICAR Animal Data Exchange JSON standard has a place for',
    )
    .addOption(new Option('--format <format>', 'how to write it').choices(['jsonl', 'csv', 'ade']).default('jsonl'))
    .option('--out <file>', 'write it there (else to standard output)')
    .option('--archive <file>', 'the whole book as one file, papers and refusals too; "import archive" brings it back')
    .option('--json', 'print what was written as JSON and nothing else; wants --out')
    .action(async (options: Options, command: Command) => {
      if (options.archive !== undefined) {
        await putAway(options.archive, command, options.json === true);
        return;
      }
      if (options.json === true && options.out === undefined)
        throw new UserProblem('--json prints the summary alone, so the export needs a file: add --out FILE', 2);
      await withBook(command, { readOnly: true }, async (book) => {
        const summary = await write(book, options);
        if (options.json === true) outJson(summary);
        else {
          sayAlerts(book, note);
          say(summary);
        }
      });
    });

const write = async (book: Book, { format, out: file }: Options): Promise<Summary> => {
  const { position } = book.head();
  const entries = { format, file: file ?? null, entries: position };
  if (format === 'ade') {
    const { known, milking, asOf, entries: all, position: upTo } = tonight(book);
    const moment = momentOf(known, { milking, asOf, position: upTo });
    if (moment === undefined) throw new UserProblem('This book has no farm yet; record a farm-set-up first');
    const made = exportAde({ known, moment, entries: all(), farm: book.farmId ?? book.bookId });
    await writeTo(book, file, [Readable.from([`${JSON.stringify(made.collections, null, 1)}\n`])]);
    return { ...entries, entries: upTo, resources: made.resources, cannotCarry: made.cannotCarry };
  }
  const rows = storedRows(book, position);
  await writeTo(
    book,
    file,
    format === 'jsonl' ? [Readable.from(jsonLines(rows))] : [Readable.from(csvRows(rows)), csvText()],
  );
  return entries;
};

/** A file gets its name only when all of it is there. */
const writeTo = async (
  book: Book,
  file: string | undefined,
  from: readonly [NodeJS.ReadableStream, ...NodeJS.ReadWriteStream[]],
): Promise<void> => {
  if (file === undefined) {
    await pipeline([...from, process.stdout], { end: false });
    return;
  }
  if (path.resolve(file) === path.resolve(book.path))
    throw new UserProblem(`${file} is the book itself; name another file with --out`, 2);
  const unfinished = `${file}.unfinished`;
  try {
    await pipeline([...from, fs.createWriteStream(unfinished)]);
    fs.renameSync(unfinished, file);
  } catch (error) {
    fs.rmSync(unfinished, { force: true });
    if (error instanceof Error && 'syscall' in error)
      throw new UserProblem(`${file} cannot be written; name another file with --out, or make room there`);
    throw error;
  }
};

const say = ({ file, format, entries, resources, cannotCarry }: Summary): void => {
  // With the export itself on standard output, words go beside it.
  const line = file === null ? note : out;
  const what = resources === undefined ? '' : ` as ${plural(resources, 'resource')}`;
  line(`${plural(entries, 'entry', 'entries')}${what}${file === null ? '' : ` written to ${file}`} (${format}).`);
  if (cannotCarry === undefined || cannotCarry.length === 0) return;
  line('Not carried, because the standard has no place for it:');
  for (const { what: kind, count, why } of cannotCarry) line(`  ${kind} (${count}): ${why}`);
};
