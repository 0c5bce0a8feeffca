/** `verify`: recomputes everything the book holds from its rows, and says what does not agree. */
import process from 'node:process';
import { Command } from 'commander';
import { out, outJson, plural, withBook } from './settings.ts';

export const verifyCommand = (): Command =>
  new Command('verify')
    .description('recompute the whole book from its rows: entries, tree, signature, issued papers')
    .option('--json', 'print the report as JSON and nothing else')
    .action(async (options: { json?: boolean }, command: Command) =>
      withBook(command, { readOnly: true }, (book) => {
        const report = book.verify();
        if (!report.ok) process.exitCode = 1;
        if (options.json === true) {
          outJson(report);
          return;
        }
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
      }),
    );
