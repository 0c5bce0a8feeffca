/** One look: what is due is issued, and what was issued is laid into the folder and sent to the printer, each set once. */
import { steadyMilliseconds } from '../../shared/clock.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { keptPapers, type Paper } from '../issue.ts';
import { toPrinterMeanwhile } from '../to-printer.ts';
import { attemptsOf } from './issue-before-attempts.ts';
import type { InPlay } from './issue-before-due.ts';
import { putPapers, rememberSent, wasSent } from './issue-before-folder.ts';
import { type Reading, readingOf } from './issue-before-reading.ts';
import type { IssueBeforeSettings, Paces } from './issue-before-settings.ts';

/** From this many sets for one milking on, the next wait longer. */
const MANY_SETS = 10;

/** What the timer calls. `signal`: the server is stopping. */
export const roundsOf = (settings: IssueBeforeSettings, paces: Paces, signal: AbortSignal): (() => Promise<void>) => {
  const { book, issuing, log, before, folder, printer, wake = () => {} } = settings;
  const read = readingOf(book, before, paces.readEvery);
  const attempts = attemptsOf(paces.again, paces.longest);
  const issuedAt = new Map<string, { at: number; sets: number }>();
  const delivered = new Set<string>();
  const waiting = new Map<string, string>();
  let missedSaid = '';

  const mayIssue = ({ milking, why }: InPlay, { sinceNews, sinceWrong }: Reading): boolean => {
    if (why === null) return false;
    const last = issuedAt.get(milking.id);
    const between = last !== undefined && last.sets >= MANY_SETS ? 10 * paces.between : paces.between;
    if (last !== undefined && steadyMilliseconds() - last.at < between) return false;
    return why !== 'rows' || sinceNews >= paces.quiet || sinceWrong(milking.id) >= 5 * paces.quiet;
  };

  const issueSet = ({ milking, why }: InPlay): Promise<boolean> =>
    attempts.run(
      `set ${milking.id}`,
      async () => {
        const { issued } = await issuing.issue(milking.id);
        issuedAt.set(milking.id, { at: steadyMilliseconds(), sets: (issuedAt.get(milking.id)?.sets ?? 0) + 1 });
        const { ref, isNew, replaces } = issued;
        log.info({ ref, milking: milking.id, isNew, replaces, why }, 'issued by the clock');
        if (isNew) wake();
        await deliver(ref, milking.id, issued.papers);
      },
      (error) => {
        const [why, at] = [sentence(error), book.clock.now()];
        issuing.troubles.failed('issuing', { what: 'set', milking: milking.id, where: book.path, at, why });
        log.error({ milking: milking.id, ...grounds(error) }, `No set was issued; it is tried again. ${why}`);
      },
    );

  const deliver = (ref: string, milking: string, papers: readonly Paper[]): Promise<boolean> => {
    let goesTo: { what: 'folder' | 'printer'; where: string } = { what: 'folder', where: folder };
    return attempts.run(
      `papers ${ref}`,
      async () => {
        waiting.set(ref, milking);
        const files = putPapers(folder, milking, papers);
        log.info({ ref, milking, folder }, 'the papers lie in the folder');
        if (printer !== undefined && !wasSent(folder, ref, printer)) {
          goesTo = { what: 'printer', where: printer };
          const job = await toPrinterMeanwhile(printer, files, signal);
          delivered.add(ref);
          issuing.troubles.worked('delivering');
          log.info({ ref, milking, printer, job }, 'sent to the printer');
          rememberSent(folder, ref, printer);
        }
        delivered.add(ref);
        waiting.delete(ref);
        issuing.troubles.worked('delivering');
      },
      (error) => {
        if (signal.aborted) return;
        const [why, at] = [sentence(error), book.clock.now()];
        // It was printed all the same: only that is not remembered.
        if (delivered.has(ref)) waiting.delete(ref);
        else issuing.troubles.failed('delivering', { ...goesTo, milking, ref, at, why });
        log.error({ ref, milking, ...grounds(error) }, why);
      },
    );
  };

  /** What never got there is said once more when its milking is over. */
  const giveUp = ({ due }: Reading): void => {
    const inPlay = new Set(due.inPlay.map(({ milking }) => milking.id as string));
    for (const [ref, milking] of waiting) {
      if (inPlay.has(milking)) continue;
      waiting.delete(ref);
      log.error(
        { ref, milking },
        'The milking is over, and its set was never printed here; the book keeps it under its ref',
      );
    }
    const { missed } = due;
    if (missed === null || missed.id === missedSaid) return;
    missedSaid = missed.id;
    log.warn({ milking: missed.id }, 'This milking is over and no sheets were issued for it');
  };

  return async () => {
    const reading = read();
    giveUp(reading);
    for (const play of reading.due.inPlay) {
      if (signal.aborted) return;
      const { milking, set } = play;
      if (mayIssue(play, reading)) await issueSet(play);
      else if (set !== undefined && !delivered.has(set.data.ref)) {
        await deliver(set.data.ref, milking.id, keptPapers(book, set) ?? []);
      }
    }
  };
};

/** Our own sentences are for people; of anything else the log has the whole error. */
const sentence = (error: unknown): string =>
  error instanceof UserProblem ? error.message : 'Something went wrong that the program was not made for';

const grounds = (error: unknown): { readonly err?: unknown } => (error instanceof UserProblem ? {} : { err: error });
