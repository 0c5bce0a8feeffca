/** One at a time: two people who press the button together, or a person and the clock, make one set and not two. */
import type { Book } from '../../events/book.ts';
import { type Issued, issue } from '../issue.ts';
import type { Tonight } from '../tonight.ts';

export interface Issuing {
  /** Reads the book when its turn comes, and issues what is known then. */
  readonly issue: (milking: string) => Promise<{ issued: Issued; answer: Tonight }>;
  /** Resolves when nothing is being issued. */
  readonly settled: () => Promise<void>;
}

export const issuingOf = (book: Book): Issuing => {
  let last: Promise<unknown> = Promise.resolve();
  return {
    issue: (milking) => {
      const turn = last.then(async () => {
        // The book's name goes on the paper.
        book.claim();
        return issue(book, { milking });
      });
      last = turn.catch(() => undefined);
      return turn;
    },
    settled: async () => {
      await last;
    },
  };
};
