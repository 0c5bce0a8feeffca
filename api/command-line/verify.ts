/** `verify`: recomputes everything the book holds from its rows, and says what does not agree. */
import process from 'node:process';
import { Command } from 'commander';
import type { Book, VerifyReport } from '../../events/book.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { issuedChecks } from '../replay.ts';
import { heldAgainstCheckpoint, heldAgainstPaper, type Witnessed } from '../witnesses.ts';
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
      withBook(command, { readOnly: true }, (book) => {
        const report = verified(book, options);
        if (!report.ok) process.exitCode = 1;
        if (options.json === true) outJson(report);
        else say(report);
      }),
    );

const verified = (book: Book, { deep, paper, checkpoint }: Options): VerifyReport => {
  const kept = checkpoint === undefined ? undefined : textOf(checkpoint);
  const report = deep === true ? withDepth(book, book.verify()) : book.verify();
  return [
    ...(paper === undefined ? [] : [heldAgainstPaper(book, paper)]),
    ...(kept === undefined ? [] : [heldAgainstCheckpoint(book, kept)]),
  ].reduce(withWitness, report);
};

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

const withWitness = (report: VerifyReport, witness: Witnessed): VerifyReport =>
  witness.agrees
    ? { ...report, notes: [...report.notes, witness.says] }
    : {
        ...report,
        ok: false,
        problems: [...report.problems, { position: witness.position, problem: witness.says }],
      };

/** Every issued set, its rows worked out again. */
const withDepth = (book: Book, report: VerifyReport): VerifyReport => {
  let checks: ReturnType<typeof issuedChecks>;
  try {
    checks = issuedChecks(book);
  } catch (error) {
    if (!(error instanceof UserProblem) && report.ok) throw error;
    // A log that is damaged may not be fit to be worked out again; what is wrong with it is told already.
    const problem = `the issued sets can't be worked out again (${error instanceof Error ? error.message : 'unknown'})`;
    return { ...report, ok: false, problems: [...report.problems, { position: null, problem }] };
  }
  const wrong = checks.filter((check) => check.agrees === false);
  const elsewhere = checks.filter((check) => check.agrees === null);
  const says = (check: (typeof checks)[number]): string => `set ${check.ref}: ${check.why ?? ''}`;
  return {
    ...report,
    ok: report.ok && wrong.length === 0,
    problems: [...report.problems, ...wrong.map((check) => ({ position: check.position, problem: says(check) }))],
    notes: [
      ...report.notes,
      `${plural(checks.length - elsewhere.length, 'issued set')} worked out again from the log.`,
      ...elsewhere.map(says),
    ],
  };
};
