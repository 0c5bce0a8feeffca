/**
 * The head of a book: how many entries it has, the root they give, and the latest recorded time. It is read again
 * inside every immediate transaction and moved in it, so two programs on one book never fork it.
 */
import type { Instant } from '../../shared/instant.ts';
import { checkpointText, noteIsSignedBy, parseCheckpoint, signNote } from './note.ts';
import type { SigningKey } from './signing-key.ts';
import { all, type Connection, first, run, sqlFor } from './tables.ts';

export interface Head {
  readonly size: number;
  readonly peaks: readonly string[];
  readonly root: string;
  readonly recorded: Instant;
  readonly chain: string;
  readonly checkpoint: string;
  readonly farm: string | null;
  /** The rehearsal's clock; null in a real book. */
  readonly rehearsal: Instant | null;
}

export const readHead = (db: Connection): Head => {
  const row = first(db, sqlFor.selectFrom('head').selectAll());
  if (row === undefined) throw new Error('The book has no head row');
  const peaks: unknown = JSON.parse(row.peaks);
  return {
    ...row,
    peaks: Array.isArray(peaks) ? peaks.map(String) : [],
    recorded: row.recorded as Instant,
    rehearsal: row.rehearsal as Instant | null,
  };
};

export const writeHead = (db: Connection, { peaks, ...head }: Head): void =>
  run(db, sqlFor.updateTable('head').set({ ...head, peaks: JSON.stringify(peaks) }));

/** The name this file goes by now, and its public key. */
export const currentBook = (db: Connection): { book: string; key: string } => {
  const row = all(db, sqlFor.selectFrom('books').select(['book', 'key']).orderBy('number', 'desc').limit(1))[0];
  if (row === undefined) throw new Error('The book has no name');
  return row;
};

export const originOf = (bookId: string): string => `byrebook/${bookId}`;

export const signedCheckpoint = (bookId: string, size: number, root: string, key: SigningKey): string => {
  const origin = originOf(bookId);
  return signNote(checkpointText({ origin, size, root }), origin, key.privateKey, Buffer.from(key.publicKey, 'hex'));
};

/** The signed checkpoint of this very head; where there is none, the same three lines with `unsigned` beneath. */
export const checkpointOf = (head: Head, book: { book: string; key: string }): string => {
  const origin = originOf(book.book);
  const signed = parseCheckpoint(head.checkpoint);
  const holds =
    signed?.size === head.size &&
    signed.root === head.root &&
    noteIsSignedBy(head.checkpoint, origin, Buffer.from(book.key, 'hex'));
  return holds ? head.checkpoint : `${checkpointText({ origin, size: head.size, root: head.root })}\nunsigned\n`;
};
