/** `verify`: recomputes everything the book holds from its rows, and says what does not agree. */
import process from 'node:process';
import { Command } from 'commander';
import type { VerifyReport } from '../../events/book.ts';
import { verified } from '../verified.ts';
import { sayAlerts } from './alerts.ts';
import { textOf } from './check-proof.ts';
import { out, outJson, plural, withBook } from './settings.ts';

interface Options {
  readonly json?: boolean;
  readonly deep?: boolean;
  readonly paper?: string;
  readonly checkpoint?: string;
}

export const verifyCommand = (): Command =>
  new Command('verify')
    .description('recompute the whole book from its rows: entries, tree, signature, issued papers')
    .option('--paper <position:digits>', 'compare with the position and root digits printed at the foot of a sheet')
    .option('--checkpoint <file>', 'compare with a signed checkpoint that somebody else kept')
    .option('--deep', 'also work out every issued set again from the log at its position')
    .option('--json', 'print the report as JSON and nothing else')
    .action(async (options: Options, command: Command) =>
      withBook(command, { readOnly: true }, async (book) => {
        const { deep, paper, checkpoint } = options;
        const kept = checkpoint === undefined ? undefined : textOf(checkpoint);
        const report = await verified(book, { deep, paper, checkpoint: kept });
        if (!report.ok) process.exitCode = 1;
        if (options.json === true) outJson(report);
        else {
          sayAlerts(book);
          say(report);
        }
      }),
    );

const say = (report: VerifyReport): void => {
  out(`${plural(report.position, 'entry', 'entries')}, root ${report.root}`);
  out(
    `${plural(report.papers, 'paper')} kept, ${plural(report.setAside, 'entry', 'entries')} set aside, checkpoint ${report.signed ? 'signed' : 'not signed'}`,
  );
  for (const remark of report.notes) out(`  ${remark}`);
  if (report.ok) {
    out('Everything agrees.');
    return;
  }
  out(`${plural(report.problems.length, 'thing does', 'things do')} NOT agree:`);
  for (const { position, problem } of report.problems)
    out(`  ${position === null ? '' : `position ${position}: `}${problem}`);
};
