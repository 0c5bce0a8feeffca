/**
 * The head of a book: how many entries it has, the root they give, and the latest recorded time. It is read again
 * inside every immediate transaction and moved in it, so two programs on one book never fork it.
 */
import type { Instant } from '../../shared/instant.ts';
import { checkpointText, noteIsSignedBy, parseCheckpoint, signNote } from './note.ts';
import type { SigningKey } from './signing-key.ts';
import { all, type Connection, first, prepared, sqlFor } from './tables.ts';

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

/** Read and written with every append: the SQL of both is made out once. */
const READ = sqlFor.selectFrom('head').selectAll().compile();
const WRITE = `update head set size = @size, peaks = @peaks, root = @root, recorded = @recorded, chain = @chain,
  checkpoint = @checkpoint, farm = @farm, rehearsal = @rehearsal`;

export const readHead = (db: Connection): Head => {
  const row = first(db, { compile: () => READ });
  if (row === undefined) throw new Error('The book has no head row');
  const peaks: unknown = JSON.parse(row.peaks);
  return {
    ...row,
    peaks: Array.isArray(peaks) ? peaks.map(String) : [],
    recorded: row.recorded as Instant,
    rehearsal: row.rehearsal as Instant | null,
  };
};

export const writeHead = (db: Connection, head: Head): void => {
  prepared(db, WRITE).run({ ...head, peaks: JSON.stringify(head.peaks) });
};

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
