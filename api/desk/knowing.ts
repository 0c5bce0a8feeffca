/** What the book says now, kept between requests until the book changes: a page must not read ten years for one row. */
import type { Book } from '../../events/book.ts';
import { MINUTE } from '../../shared/instant.ts';
import { keepSheets } from '../kept-sheets.ts';
import { type Knowledge, knowledgeOf, type Tonight, tonightFrom } from '../tonight.ts';

export interface Knowing {
  readonly now: () => Knowledge;
  /** As `tonight`, of what is known now; worked out again each minute. */
  readonly tonight: (milking?: string) => Tonight;
}

const MOST_KEPT = 6;
/** Milliseconds of quiet before the sheets are kept in a file. */
const KEPT_AFTER = 2_000;

export const knowingOf = (book: Book): Knowing => {
  let kept: { changes: string; knowledge: Knowledge; answers: Map<string, Tonight> } | undefined;
  const current = () => {
    const changes = book.changes();
    if (kept?.changes !== changes) kept = { changes, knowledge: knowledgeOf(book), answers: new Map() };
    return kept;
  };
  /** For commands, and for the server when it starts again; when there is time. */
  let soon: NodeJS.Timeout | undefined;
  const keepSoon = (answer: Tonight): void => {
    clearTimeout(soon);
    soon = setTimeout(() => keepSheets(book, answer), KEPT_AFTER).unref();
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
      if (milking === 'next') keepSoon(answer);
      if (answers.size >= MOST_KEPT) answers.clear();
      answers.set(key, answer);
      return answer;
    },
  };
};
