/** `print`: the sheets for a milking, as PDF files or as JSON; `--issue` puts them on the wall and keeps them in the book. */
import fs from 'node:fs';
import path from 'node:path';
import { Command, Option } from 'commander';
import type { Book } from '../../events/book.ts';
import { printedJson } from '../../print/json.ts';
import { PRINTED_NAMES, type PrintedName, renderWall } from '../../print/sheets.ts';
import { parseInstant } from '../../shared/instant.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { drawAll, type Issued, issue, marksOf } from '../issue.ts';
import { type SheetsTonight, sheetsTonight } from '../kept-sheets.ts';
import { toPrinter } from '../to-printer.ts';
import { noticeLines, sheetLines } from './readable.ts';
import { out, outJson, withBook } from './settings.ts';
import { makeFolder, orSay } from './sheet-folder.ts';

interface Options {
  readonly milking: string;
  readonly sheet: PrintedName | 'all' | 'wall';
  readonly to?: string;
  readonly out?: string;
  readonly json?: boolean;
  readonly issue?: boolean;
  readonly knownAt?: string;
}

export const printCommand = (): Command =>
  new Command('print')
    .description('print the sheets for a milking: all that is known now, unless --known-at says otherwise')
    .option('--milking <id>', 'next, or a milking such as 2026-03-14/afternoon', 'next')
    .addOption(
      new Option('--sheet <name>', 'one sheet, or wall: what hangs in the parlour, in one document')
        .choices(['all', 'wall', ...PRINTED_NAMES])
        .default('all'),
    )
    .option('--out <folder>', 'where the PDF files go (else a folder "sheets" here)')
    .option('--to <printer>', 'send the PDF files to a printer, through lp')
    .option('--json', 'print the rows as JSON and nothing else; PDF files only with --out')
    .option('--issue', 'issue the sheets: they go to the wall, and the book keeps them')
    .option('--known-at <time>', 'as this book knew it at that time')
    .action(async (options: Options, command: Command) => {
      if (options.issue === true && options.knownAt !== undefined) {
        throw new UserProblem('--issue and --known-at do not go together: only what is known now goes to the wall', 2);
      }
      if (options.issue === true && options.sheet !== 'all') {
        throw new UserProblem(
          '--issue takes the whole set; leave --sheet out, or print the one sheet without --issue',
          2,
        );
      }
      await withBook(command, options.issue === true ? {} : { readOnly: 'where-must' }, (book) => print(book, options));
    });

const print = async (book: Book, options: Options): Promise<void> => {
  const knownAt = options.knownAt === undefined ? undefined : parseInstant(options.knownAt);
  if (knownAt?.ok === false) throw new UserProblem(`--known-at: ${knownAt.problem}`, 2);
  // The book's name goes on the paper.
  if (options.issue === true) book.claim();
  const question = { milking: options.milking, knownAt: knownAt?.value };
  const folder = options.out ?? (options.json === true && options.to === undefined ? undefined : 'sheets');
  // A set that counts as hanging must be there to be hung.
  if (options.issue === true && folder !== undefined) makeFolder(folder);
  const whole = options.issue === true ? await issue(book, question) : undefined;
  const issued = whole?.issued;
  const answer = whole?.answer ?? sheetsTonight(book, question);
  const papers = folder === undefined ? [] : (issued?.papers ?? (await drawn(book, answer, options.sheet)));
  const files = folder === undefined ? [] : hung(issued, () => writePapers(folder, answer, papers));
  const sent = options.to === undefined ? [] : toPrinter(options.to, files);
  if (options.json === true) outJson(jsonOf(answer, options.sheet, issued, files));
  else {
    for (const line of noticeLines(answer.views)) out(line);
    for (const line of sheetLines(answer.views)) out(line);
    out('');
    if (issued !== undefined) out(issuedLine(issued));
    for (const file of files) out(`  ${file}`);
    for (const job of sent) out(job);
  }
};

const drawn = async (book: Book, answer: SheetsTonight, sheet: Options['sheet']): Promise<WrittenPaper[]> => {
  const marks = marksOf(book, answer, null);
  if (sheet === 'wall') return [{ sheet, bytes: await renderWall(answer.views, marks) }];
  return drawAll(answer.views, marks, sheet === 'all' ? PRINTED_NAMES : [sheet]);
};

interface WrittenPaper {
  readonly sheet: PrintedName | 'wall';
  readonly bytes: Uint8Array;
}

export const issuedLine = (issued: Issued): string => {
  if (!issued.isNew)
    return `Already issued as ${issued.ref}, and nothing on it has changed since; the same paper again:`;
  const replaces = issued.replaces === null ? '' : `; it replaces ${issued.replaces}: take that one down`;
  return `Issued as ${issued.ref}, kept in the book at position ${issued.position}${replaces}:`;
};

/** Writes each paper under a name that says milking and sheet; gives the names. */
export const writePapers = (folder: string, answer: SheetsTonight, papers: readonly WrittenPaper[]): string[] => {
  const stem = answer.milking.id.replace(/[^0-9A-Za-z\u00c0-\uffff-]+/g, '-');
  makeFolder(folder);
  return papers.map(({ sheet, bytes }) => {
    const file = path.join(folder, `${stem}-${sheet}.pdf`);
    orSay(folder, () => fs.writeFileSync(file, bytes));
    return file;
  });
};

/** A disk may be full when it comes to writing: the set is in the book by then, and says so. */
const hung = <T>(issued: Issued | undefined, work: () => T): T => {
  try {
    return work();
  } catch (error) {
    if (issued === undefined || !(error instanceof UserProblem)) throw error;
    throw new UserProblem(
      `${error.message}. The set counts as issued, as ${issued.ref}: print --issue again gives the same paper`,
      error.exitCode,
    );
  }
};

const jsonOf = (
  answer: SheetsTonight,
  sheet: Options['sheet'],
  issued: Issued | undefined,
  files: readonly string[],
): unknown => {
  const whole = printedJson(answer.views) as { sheets: Record<string, unknown> };
  return {
    ...whole,
    sheets: sheet === 'all' || sheet === 'office' || sheet === 'wall' ? whole.sheets : { [sheet]: whole.sheets[sheet] },
    ...(issued === undefined
      ? {}
      : { issued: { ref: issued.ref, position: issued.position, isNew: issued.isNew, replaces: issued.replaces } }),
    ...(files.length === 0 ? {} : { files }),
  };
};
