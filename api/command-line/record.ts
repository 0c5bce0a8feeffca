/** `record`: entries from a file or standard input into the book. The good ones are recorded whatever the others are. */
import fs from 'node:fs';
import process from 'node:process';
import { SingleBar } from 'cli-progress';
import { Command } from 'commander';
import type { Book, Receipt } from '../../events/book.ts';
import { readLine } from '../../events/door.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { saidTexts } from '../said-lines.ts';
import { type ReadAs, textOfBytes } from '../text-of-bytes.ts';
import { sayAlerts } from './alerts.ts';
import { exampleLine, KINDS_SAID } from './example-lines.ts';
import { globalsOf, note, out, plural, withBook } from './settings.ts';

interface Options {
  readonly json?: boolean;
  readonly author: string;
  readonly source: string;
  readonly kinds?: true;
  readonly example?: string;
}

const BATCH = 1_000;
const SHOWN = 40;

export const recordCommand = (): Command =>
  new Command('record')
    .description('record entries: JSON Lines or a JSON array, from a file or from standard input (-)')
    .argument('[file]', 'the file, or - for standard input', '-')
    .option('--json', 'print [{id, outcome, position, problem}] and nothing else')
    .option('--author <name>', 'who says it, where a line does not say', 'not stated')
    .option('--source <name>', 'the device or place it comes from, where a line does not say', 'command-line')
    .option('--kinds', 'list the kinds of entry, and when each is recorded')
    .option('--example <kind>', 'print a whole line of that kind')
    .action(async (file: string, options: Options, command: Command) => {
      if (options.kinds === true) return out(KINDS_SAID);
      if (options.example !== undefined) return out(exampleLine(options.example));
      // A file that is not there makes no book.
      const input = openInput(file);
      await withBook(command, { create: true }, (book) => record(book, input, options, globalsOf(command).book));
    });

interface Input {
  readonly name: string;
  readonly size: number | undefined;
  readonly pieces: AsyncIterable<Uint8Array>;
}

const openInput = (file: string): Input => {
  if (file === '-') {
    return { name: 'standard input', size: undefined, pieces: process.stdin as AsyncIterable<Uint8Array> };
  }
  let stats: fs.Stats;
  try {
    stats = fs.statSync(file);
    fs.accessSync(file, fs.constants.R_OK);
  } catch {
    throw new UserProblem(`There is no file ${file} that can be read; check the name, or use - for standard input`, 2);
  }
  if (stats.isDirectory()) throw new UserProblem(`${file} is a folder; name the file with the entries`, 2);
  return { name: file, size: stats.size, pieces: fs.createReadStream(file) as AsyncIterable<Uint8Array> };
};

interface Tally {
  recorded: number;
  known: number;
  refused: number;
  struck: number;
  first: number | undefined;
  last: number | undefined;
  readonly shown: string[];
}

const record = async (book: Book, input: Input, options: Options, path: string): Promise<void> => {
  const tally: Tally = { recorded: 0, known: 0, refused: 0, struck: 0, first: undefined, last: undefined, shown: [] };
  const bar = progressBar(input.size);
  let batch: { text: string; line: number; cut: boolean }[] = [];
  let comma = '';
  let begun = false;
  const flush = (): void => {
    if (!begun) refuseOtherFile(input, batch);
    begun = true;
    const settings = { source: options.source, author: options.author, now: book.clock.now() };
    const receipts = book.record(batch.map(({ text }) => readLine(text, settings)));
    receipts.forEach((receipt, index) => {
      count(tally, receipt, batch[index]);
      if (options.json === true) {
        process.stdout.write(`${comma}${JSON.stringify({ ...plain(receipt), line: batch[index]?.line })}`);
        comma = ',\n ';
      }
    });
    batch = [];
  };
  if (options.json === true) process.stdout.write('[');
  let read = 0;
  let readAs: ReadAs = 'UTF-8';
  let unclosed = false;
  const chunks = textOfBytes(input.pieces, (encoding) => {
    readAs = encoding;
  });
  const noBracket = (): void => {
    unclosed = true;
  };
  try {
    for await (const said of saidTexts(chunks, noBracket)) {
      batch.push(said);
      read += said.text.length + 1;
      if (batch.length >= BATCH) {
        flush();
        bar?.update(read);
      }
    }
    flush();
  } catch (error) {
    if (options.json === true) process.stdout.write(']\n');
    if (error instanceof UserProblem && tally.recorded > 0) {
      throw new UserProblem(
        `${error.message}\n${plural(tally.recorded, 'entry', 'entries')} were recorded before that and are safe; record the same file again and only the rest is added`,
        error.exitCode,
      );
    }
    throw error;
  } finally {
    bar?.stop();
  }
  if (options.json === true) process.stdout.write(']\n');
  else {
    sayAlerts(book);
    say(tally, input.name, path);
  }
  if (readAs !== 'UTF-8')
    note(
      `${input.name} is not in UTF-8 and was read as ${readAs}; check the letters with accents, or save it in UTF-8`,
    );
  if (unclosed)
    note(
      `${input.name} begins with [ and ends without ]: it may be cut off. What could be read is recorded; get the whole of it and record it again`,
    );
  if (tally.refused > 0 || unclosed) process.exitCode = 1;
};

/**
 * A file of which nothing looks like an entry was not meant for the book: hundreds of lines kept aside would hide what is.
 * It is still there to be read again. What comes by standard input may be nowhere else, and is always kept.
 */
const refuseOtherFile = ({ name, size }: Input, said: readonly { readonly text: string }[]): void => {
  if (size === undefined || said.length < 2 || said.some(({ text }) => text.trimStart().startsWith('{'))) return;
  throw new UserProblem(
    `None of the ${said.length === BATCH ? 'first ' : ''}${plural(said.length, 'line')} of ${name} is an entry (each is a JSON object that begins with {), so nothing of it was recorded or kept aside. Is it another file? A herd list goes in with "import herd"`,
  );
};

const plain = ({ id, outcome, position, problem, pointer, struck, key }: Receipt) => ({
  id,
  outcome,
  ...(position === undefined ? {} : { position }),
  ...(problem === undefined ? {} : { problem }),
  ...(pointer === undefined ? {} : { pointer }),
  ...(struck === undefined ? {} : { struck }),
  ...(key === undefined ? {} : { key }),
});

const count = (tally: Tally, receipt: Receipt, said: { line: number; cut: boolean } | undefined): void => {
  if (receipt.outcome === 'recorded') {
    tally.recorded += 1;
    tally.first ??= receipt.position;
    tally.last = receipt.position;
    return;
  }
  if (receipt.outcome === 'already-known') {
    tally.known += 1;
    if (receipt.struck === true) tally.struck += 1;
    return;
  }
  tally.refused += 1;
  if (tally.shown.length < SHOWN) {
    const cut = said?.cut === true ? ' (only the first 16 MiB of it could be kept aside; the file has the whole)' : '';
    tally.shown.push(`  line ${said?.line}: ${receipt.problem}${cut}\n    set aside as ${receipt.key}`);
  }
};

const say = (tally: Tally, name: string, path: string): void => {
  if (tally.recorded + tally.known + tally.refused === 0) {
    out(`${name} holds no entries; nothing was recorded.`);
    return;
  }
  const where = tally.first === undefined ? '' : ` (positions ${tally.first} to ${tally.last})`;
  out(`${plural(tally.recorded, 'entry', 'entries')} recorded in ${path}${where}.`);
  if (tally.known > 0) {
    const struck = tally.struck === 0 ? '' : `, ${tally.struck} of them struck since`;
    out(`${plural(tally.known, 'entry was', 'entries were')} already known${struck}.`);
  }
  if (tally.refused === 0) return;
  out(
    `${plural(tally.refused, 'entry was', 'entries were')} refused. Each is kept aside and holds the cow it may concern until a settled entry names its key:`,
  );
  for (const line of tally.shown) out(line);
  if (tally.refused > tally.shown.length)
    note(`  … and ${tally.refused - tally.shown.length} more; print lists every one under doubts`);
};

/** Only on a terminal, and only where the size is known and worth it. */
const progressBar = (size: number | undefined): SingleBar | undefined => {
  if (size === undefined || size < 2_000_000 || process.stderr.isTTY !== true) return undefined;
  const bar = new SingleBar({
    format: 'recording {bar} {percentage} %, {eta_formatted} left',
    clearOnComplete: true,
    stream: process.stderr,
  });
  bar.start(size, 0);
  return bar;
};
