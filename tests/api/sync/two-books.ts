/** Two books of one farm: the office's behind a real server, a laptop's in a file of its own, and what both then hold. */
import { expect } from 'vitest';
import type { Patience } from '../../../api/sync/ask.ts';
import { otherBookAt } from '../../../api/sync/other-book.ts';
import { type Synced, sync, type Wishes } from '../../../api/sync/sync.ts';
import type { Book } from '../../../events/book.ts';
import { know } from '../../../projections/know.ts';
import type { Views } from '../../../projections/views.ts';
import { viewsAt } from '../../../projections/views-at.ts';
import { canonicalJson } from '../../../shared/fingerprint.ts';
import { handClock, newPath, opened } from '../../events/a-book.ts';
import { type AServer, doseOf, START, tell } from '../server/a-server.ts';

/** As a person's, but in a hurry. */
export const HURRY: Patience = { tries: 4, firstWait: 2, longestWait: 2, silence: 5_000 };

export interface Laptop {
  readonly book: Book;
  readonly clock: ReturnType<typeof handClock>;
}

/** A new book with nothing in it, not even a farm. */
export const aLaptop = (file = newPath()): Laptop => {
  const clock = handClock(START);
  return { book: opened(file, { clock }), clock };
};

export interface Reaching extends Wishes {
  readonly url?: string;
  readonly token?: string;
  readonly patience?: Patience;
}

export const syncWith = (book: Book, server: AServer, reaching: Reaching = {}): Promise<Synced> => {
  const { url = server.url, token = server.tokens.book, patience = HURRY, ...wishes } = reaching;
  return sync(book, otherBookAt(url, token, patience), wishes);
};

/** Why a sync ended without being done. */
export const refusalOf = async (syncing: Promise<unknown>): Promise<string> => {
  try {
    await syncing;
  } catch (thrown) {
    if (thrown instanceof Error && thrown.name !== 'Error' && thrown.name !== 'TypeError') return thrown.message;
    throw thrown;
  }
  throw new Error('That sync was done');
};

/** Doses said in this book, one a cow, with ids that nobody else uses. */
export const sayDoses = (book: Book, prefix: string, count: number): void => {
  const doses = Array.from({ length: count }, (_, index) => doseOf(String(101 + (index % 6)), `${prefix}-${index}`));
  const receipts = tell(book, START, doses);
  expect(receipts.filter(({ outcome }) => outcome !== 'recorded')).toEqual([]);
};

/** What the writers said, without what each book adds: sorted, one line an entry. */
export const setOf = (book: Book): string[] =>
  book
    .rows(0, 1_000_000)
    .map(({ entry }) => {
      const { sequence: _, recordedtime: __, via: ___, ...said } = JSON.parse(entry) as Record<string, unknown>;
      return canonicalJson(said);
    })
    .sort();

/** What goes on paper for one milking, whatever the order of this book is. */
export const viewsOf = (book: Book, id = '2026-03-14/afternoon'): Views => {
  const { entries, asides } = book.read();
  const known = know(entries, asides);
  const milking = known.farm.schedule?.find(id);
  if (milking === undefined) throw new Error(`${id} is not on the schedule`);
  return viewsAt(known, { milking, asOf: milking.start, position: 0 });
};

/** Same entries, same paper, and both logs whole. */
export const expectSame = (...books: readonly Book[]): void => {
  const [first, ...others] = books;
  if (first === undefined) return;
  const [set, views] = [setOf(first), canonicalJson(viewsOf(first))];
  for (const other of others) {
    expect(setOf(other)).toEqual(set);
    expect(canonicalJson(viewsOf(other))).toBe(views);
  }
  for (const book of books) expect(book.verify()).toMatchObject({ ok: true, problems: [] });
};
