/** Everything a book holds, recomputed, and held against what somebody outside kept; one report of it all. */
import type { Book, VerifyReport } from '../events/book.ts';
import { UserProblem } from '../shared/refusal.ts';
import { plural } from './command-line/settings.ts';
import { type IssuedThen, issuedChecks } from './replay.ts';
import { heldAgainstCheckpoint, heldAgainstPaper, type Witnessed } from './witnesses.ts';

export interface Witnesses {
  /** `POSITION:DIGITS` from the foot of a sheet. */
  readonly paper?: string | undefined;
  /** The text of a signed checkpoint. */
  readonly checkpoint?: string | undefined;
  /** Also work out every issued set again. */
  readonly deep?: boolean | undefined;
}

/** Rejects with a `UserProblem` where the paper or the checkpoint is none. */
export const verified = async (book: Book, { deep, paper, checkpoint }: Witnesses): Promise<VerifyReport> => {
  const itself = await book.verifyApart();
  const report = deep === true ? await withDepth(book, itself) : itself;
  return [
    ...(paper === undefined ? [] : [heldAgainstPaper(book, paper)]),
    ...(checkpoint === undefined ? [] : [heldAgainstCheckpoint(book, checkpoint)]),
  ].reduce(withWitness, report);
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
const withDepth = async (book: Book, report: VerifyReport): Promise<VerifyReport> => {
  let checks: readonly IssuedThen[];
  try {
    checks = await issuedChecks(book);
  } catch (error) {
    if (!(error instanceof UserProblem) && report.ok) throw error;
    // A log that is damaged may not be fit to be worked out again; what is wrong with it is told already.
    const problem = `the issued sets can't be worked out again (${error instanceof Error ? error.message : 'unknown'})`;
    return { ...report, ok: false, problems: [...report.problems, { position: null, problem }] };
  }
  const wrong = checks.filter((check) => check.agrees === false);
  const elsewhere = checks.filter((check) => check.agrees === null);
  const says = (check: IssuedThen): string => `set ${check.ref}: ${check.why ?? ''}`;
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
