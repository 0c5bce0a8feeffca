/** Every stored row of a book up to where it stood when the export began, a page at a time: memory stays the same however long the log is. */
import type { Book } from '../../events/book.ts';
import type { StoredRow } from '../../events/stored.ts';

const PAGE = 1_000;

/** In position order. What is recorded while the export runs is left for the next one. */
export function* storedRows(book: Book, upTo: number = book.head().position): Iterable<StoredRow> {
  for (let after = 0; after < upTo; ) {
    const page = book.rows(after, Math.min(PAGE, upTo - after));
    const last = page.at(-1);
    if (last === undefined) return;
    yield* page;
    after = last.position;
  }
}

/** JSON Lines: each stored entry as it stands in the log, its sequence and recorded time in it. */
export function* jsonLines(rows: Iterable<StoredRow>): Iterable<string> {
  for (const row of rows) yield `${row.entry}\n`;
}
