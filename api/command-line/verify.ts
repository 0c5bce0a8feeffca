/** `verify`: recomputes everything the book holds from its rows, and says what does not agree. */
import process from 'node:process';
import { Command } from 'commander';
import type { Book, VerifyReport } from '../../events/book.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { issuedChecks } from '../replay.ts';
import { positionOf } from './proof.ts';
import { out, outJson, plural, withBook } from './settings.ts';

interface Options {
  readonly json?: boolean;
  readonly deep?: boolean;
  readonly paper?: string;
}

export const verifyCommand = (): Command =>
  new Command('verify')
    .description('recompute the whole book from its rows: entries, tree, signature, issued papers')
    .option('--paper <position:digits>', 'compare with the position and root digits printed at the foot of a sheet')
    .option('--deep', 'also work out every issued set again from the log at its position')
    .option('--json', 'print the report as JSON and nothing else')
    .action(async (options: Options, command: Command) =>
      withBook(command, { readOnly: true }, (book) => {
        const report = withPaper(book, withDepth(book, book.verify(), options.deep === true), options.paper);
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

const LEAST_DIGITS = 8;

/** Does the log up to that position have the root that stands on the paper? */
const withPaper = (book: Book, report: VerifyReport, paper: string | undefined): VerifyReport => {
  if (paper === undefined) return report;
  const [before = '', digits = ''] = paper.split(':');
  const wanted = digits.replace(/\s/g, '').toLowerCase();
  if (!/^[0-9a-f]+$/.test(wanted) || wanted.length < LEAST_DIGITS || wanted.length > 64) {
    throw new UserProblem(
      `--paper: write it as position:digits with at least ${LEAST_DIGITS} of the digits on the sheet, such as 1841:5dc9da79a70659a9`,
      2,
    );
  }
  const position = positionOf(before, report.position);
  const { root } = book.read({ position });
  return root.startsWith(wanted)
    ? {
        ...report,
        notes: [...report.notes, `The paper agrees: the first ${position} entries have the root that stands on it.`],
      }
    : {
        ...report,
        ok: false,
        problems: [
          ...report.problems,
          {
            position,
            problem: `the paper does NOT agree: the first ${position} entries have the root ${root.slice(0, 32)}, the paper says ${wanted}`,
          },
        ],
      };
};

/** Every issued set, its rows worked out again. */
const withDepth = (book: Book, report: VerifyReport, deep: boolean): VerifyReport => {
  if (!deep) return report;
  const checks = issuedChecks(book);
  const wrong = checks.filter((check) => check.agrees === false);
  const problems = wrong.map((check) => ({
    position: check.position,
    problem: `set ${check.ref}: ${check.why ?? ''}`,
  }));
  const elsewhere = checks
    .filter((check) => check.agrees === null)
    .map((check) => `set ${check.ref}: ${check.why ?? ''}`);
  return {
    ...report,
    ok: report.ok && wrong.length === 0,
    problems: [...report.problems, ...problems],
    notes: [
      ...report.notes,
      `${plural(checks.length - elsewhere.length, 'issued set')} worked out again from the log.`,
      ...elsewhere,
    ],
  };
};
