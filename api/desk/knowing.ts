/** What the book says now, kept between requests until the book changes: a page must not read ten years for one row. */
import type { Book } from '../../events/book.ts';
import { MINUTE } from '../../shared/instant.ts';
import { type Knowledge, knowledgeOf, type Tonight, tonightFrom } from '../tonight.ts';

export interface Knowing {
  readonly now: () => Knowledge;
  /** As `tonight`, of what is known now; worked out again each minute. */
  readonly tonight: (milking?: string) => Tonight;
}

const MOST_KEPT = 6;

export const knowingOf = (book: Book): Knowing => {
  let kept: { changes: string; knowledge: Knowledge; answers: Map<string, Tonight> } | undefined;
  const current = () => {
    const changes = book.changes();
    if (kept?.changes !== changes) kept = { changes, knowledge: knowledgeOf(book), answers: new Map() };
    return kept;
  };
  return {
    now: () => current().knowledge,
    tonight: (milking = 'next') => {
      const { knowledge, answers } = current();
      const now = book.clock.now();
      const key = `${milking} ${Math.floor(now / MINUTE)}`;
      const found = answers.get(key);
      if (found !== undefined) return found;
      const answer = tonightFrom(knowledge, { milking }, now);
      if (answers.size >= MOST_KEPT) answers.clear();
      answers.set(key, answer);
      return answer;
    },
  };
};
