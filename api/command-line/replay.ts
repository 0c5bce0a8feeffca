/** `replay`: a milking as it could be known then, beside what was on the wall, beside what is known now. */
import fs from 'node:fs';
import path from 'node:path';
import process from 'node:process';
import { Command } from 'commander';
import type { Book } from '../../events/book.ts';
import { printedJson } from '../../print/json.ts';
import { parseInstant } from '../../shared/instant.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { parseSheetRef } from '../../shared/sheet-ref.ts';
import { type Difference, type Replay, replay } from '../replay.ts';
import { sayAlerts } from './alerts.ts';
import { sheetLines, voiceOf } from './readable.ts';
import { out, outJson, plural, withBook } from './settings.ts';
import { makeFolder, orSay } from './sheet-folder.ts';

interface Options {
  readonly milking?: string;
  readonly knownAt?: string;
  readonly position?: string;
  readonly ref?: string;
  readonly out?: string;
  readonly json?: boolean;
}

export const replayCommand = (): Command =>
  new Command('replay')
    .description('a milking as this book could know it then, beside what was issued, beside what is known now')
    .option('--milking <id>', 'the milking, such as 2026-03-14/afternoon')
    .option('--known-at <time>', 'as known at that time')
    .option('--position <n>', 'as known with the first n entries')
    .option('--ref <ref>', 'as an issued set of sheets was made')
    .option('--out <folder>', 'write the issued PDF files there, byte for byte')
    .option('--json', 'print the same as JSON and nothing else')
    .action(async (options: Options, command: Command) =>
      withBook(command, { readOnly: true }, (book) => run(book, options)),
    );

const run = (book: Book, options: Options): void => {
  const ways = [options.knownAt, options.position, options.ref].filter((each) => each !== undefined);
  if (ways.length !== 1)
    throw new UserProblem('Say which moment with one of --known-at TIME, --position N, --ref REF', 2);
  const knownAt = options.knownAt === undefined ? undefined : parseInstant(options.knownAt);
  if (knownAt?.ok === false) throw new UserProblem(`--known-at: ${knownAt.problem}`, 2);
  const ref = options.ref === undefined ? undefined : parseSheetRef(options.ref);
  if (ref?.ok === false) throw new UserProblem(`--ref: ${ref.problem}`, 2);
  const position = options.position === undefined ? undefined : Number(options.position);
  if (position !== undefined && (!Number.isInteger(position) || position < 0)) {
    throw new UserProblem(
      `--position: "${options.position}" is not a position; give a whole number, as printed on the sheet`,
      2,
    );
  }
  const answer = replay(book, { milking: options.milking, knownAt: knownAt?.value, position, ref: ref?.value });
  const files = options.out === undefined ? [] : writeIssued(book, answer, options.out);
  if (answer.issued.some((issue) => issue.agrees === false)) process.exitCode = 1;
  if (options.json === true) {
    outJson({
      milking: answer.past.views.milking,
      knownThen: printedJson(answer.past.views),
      issued: answer.issued,
      knownNow: printedJson(answer.present.views),
      differences: answer.differences,
      ...(files.length === 0 ? {} : { files }),
    });
    return;
  }
  sayAlerts(book);
  say(answer, files);
};

const say = (answer: Replay, files: readonly string[]): void => {
  const voice = voiceOf(answer.past.views);
  out(
    `As known with ${plural(answer.past.position, 'entry', 'entries')}, asked ${voice.time(answer.past.views.asOf)}:`,
  );
  for (const line of sheetLines(answer.past.views)) out(line);
  out('');
  if (answer.issued.length === 0) out('No sheets were issued for this milking.');
  for (const issue of answer.issued) {
    const verdict =
      issue.agrees === null
        ? issue.why
        : issue.agrees
          ? 'recomputed from the log, every row agrees'
          : `DOES NOT AGREE: ${issue.why}`;
    out(
      `Issued as ${issue.ref}, ${voice.time(issue.issuedAt)}, position ${issue.position}: ${verdict}; ${plural(issue.papers.length, 'paper')} kept`,
    );
  }
  for (const file of files) out(`  ${file}`);
  out('');
  out(
    answer.differences.length === 0
      ? 'Nothing known now would have changed these sheets.'
      : `By what is known now, ${plural(answer.differences.length, 'line')} would be otherwise:`,
  );
  for (const difference of answer.differences) {
    out(`  ${difference.list} ${difference.cow}: ${difference.was ?? 'not on it'} → ${difference.is ?? 'not on it'}`);
    for (const reason of difference.because) out(`      ${sayWhy(reason, voice)}`);
  }
};

const sayWhy = (reason: Difference['because'][number], voice: ReturnType<typeof voiceOf>): string => {
  const known = voice.time(reason.recordedtime);
  if (reason.how === 'struck-since') return `struck ${known} by ${reason.author} (${reason.entry})`;
  if (reason.how === 'set-aside-later') return `an entry was set aside ${known}: ${reason.type} (${reason.entry})`;
  return `${reason.type} of ${voice.time(reason.time)}, known here only from ${known}, by ${reason.author} (${reason.entry})`;
};

const writeIssued = (book: Book, answer: Replay, folder: string): string[] => {
  makeFolder(folder);
  return answer.present.known.farm.issued
    .filter((issue) => issue.data.milking === answer.past.milking.id)
    .flatMap(({ data }) =>
      data.sheets.flatMap(({ sheet, pdfHash }) => {
        const bytes = book.paper(pdfHash);
        if (bytes === undefined) return [];
        const file = path.join(folder, `${data.ref}-${sheet}.pdf`);
        orSay(folder, () => fs.writeFileSync(file, bytes));
        return [file];
      }),
    );
};
