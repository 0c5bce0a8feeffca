/**
 * Keeps what is due up to date without reading the whole book at every look: it is read again when it has changed, and
 * decided again when it was read, when a milking's time comes, when the clock went back, and now and then.
 */
import type { Book } from '../../events/book.ts';
import { steadyMilliseconds } from '../../shared/clock.ts';
import type { Instant } from '../../shared/instant.ts';
import { keptPapers } from '../issue.ts';
import { type Knowledge, knowledgeOf } from '../tonight.ts';
import { type Due, dueNow, NOTHING_DUE } from './issue-before-due.ts';

export interface Reading {
  readonly due: Due;
  /** Milliseconds since something was last seen to have come in. */
  readonly sinceNews: number;
  /** Milliseconds that changed rows of a milking have waited. */
  readonly sinceWrong: (milking: string) => number;
}

/** `readEvery`: milliseconds; so seldom is a changed book read while no milking is in play. */
export const readingOf = (book: Book, before: number, readEvery: number): (() => Reading) => {
  let knowledge: Knowledge | undefined;
  let due: Due = NOTHING_DUE;
  let changes = '';
  let readAt = 0;
  let decidedAt = 0;
  let decidedFor: Instant | undefined;
  const wrongSince = new Map<string, number>();
  return () => {
    const steady = steadyMilliseconds();
    const now = book.clock.now();
    const isTime = due.opens !== null && now >= due.opens;
    const isBusy = due.inPlay.length > 0;
    const current = book.changes();
    let isDecided = decidedFor !== undefined && now >= decidedFor && !isTime && steady - decidedAt < readEvery;
    const mayRead = knowledge === undefined || isBusy || isTime || steady - readAt >= readEvery;
    if (knowledge === undefined || (current !== changes && mayRead)) {
      knowledge = knowledgeOf(book);
      changes = current;
      readAt = steady;
      isDecided = false;
    }
    if (!isDecided || due.inPlay.some(({ why }) => why !== null)) {
      due = dueNow(knowledge, now, before, (set) => keptPapers(book, set) !== undefined);
      decidedAt = steady;
      decidedFor = now;
    }
    const wrong = new Set<string>(due.inPlay.filter(({ why }) => why === 'rows').map(({ milking }) => milking.id));
    for (const id of [...wrongSince.keys()]) if (!wrong.has(id)) wrongSince.delete(id);
    for (const id of wrong) if (!wrongSince.has(id)) wrongSince.set(id, steady);
    return {
      due,
      sinceNews: steady - readAt,
      sinceWrong: (milking) => steady - (wrongSince.get(milking) ?? steady),
    };
  };
};
