/** One at a time: two people who press the button together, or a person and the clock, make one set and not two. */
import type { Book } from '../../events/book.ts';
import { type Issued, issue } from '../issue.ts';
import type { Tonight } from '../tonight.ts';
import { type PaperTroubles, paperTroubles } from './paper-troubles.ts';

export interface Issuing {
  /** Reads the book when its turn comes, and issues what is known then. */
  readonly issue: (milking: string) => Promise<{ issued: Issued; answer: Tonight }>;
  /** Resolves when nothing is being issued. */
  readonly settled: () => Promise<void>;
  /** Of the sets that the clock issues. */
  readonly troubles: PaperTroubles;
}

export const issuingOf = (book: Book): Issuing => {
  const troubles = paperTroubles();
  let last: Promise<unknown> = Promise.resolve();
  return {
    issue: (milking) => {
      const turn = last.then(async () => {
        // The book's name goes on the paper.
        book.claim();
        const made = await issue(book, { milking });
        troubles.worked('issuing');
        return made;
      });
      last = turn.catch(() => undefined);
      return turn;
    },
    settled: async () => {
      await last;
    },
    troubles,
  };
};
