/**
 * What a book remembers of the books it has synced with: how much of each one's log it has read, and the compact range of
 * exactly that. A peer that later shows another log under the same name is found out by it.
 */
import { z } from 'zod';
import type { CompactRange } from './merkle.ts';
import { type Connection, first, run, sqlFor } from './tables.ts';

export interface Peer {
  readonly book: string;
  /** In the text form of C2SP signed-note. */
  readonly verifierKey: string;
  readonly read: CompactRange;
  /** Own position up to which everything was sent. */
  readonly sent: number;
  /** Own position up to which even what came from this peer is sent again, since it may have lost it. */
  readonly resend: number;
}

export interface Peers {
  readonly of: (book: string) => Peer | undefined;
  /** The book that answered at an address the last time. */
  readonly at: (address: string) => string | undefined;
  readonly remember: (peer: Peer) => void;
  readonly rememberAddress: (address: string, book: string) => void;
}

const peaks = z.array(z.string());

export const peersOf = (db: Connection): Peers => ({
  of: (book) => {
    const row = first(db, sqlFor.selectFrom('peers').selectAll().where('book', '=', book));
    if (row === undefined) return undefined;
    const { key: verifierKey, size, sent, resend } = row;
    return { book, verifierKey, read: { size, peaks: peaks.parse(JSON.parse(row.peaks)) }, sent, resend };
  },
  at: (address) => first(db, sqlFor.selectFrom('peer_addresses').select('book').where('address', '=', address))?.book,
  remember: ({ book, verifierKey: key, read, sent, resend }) => {
    const values = { key, size: read.size, peaks: JSON.stringify(read.peaks), sent, resend };
    run(
      db,
      sqlFor
        .insertInto('peers')
        .values({ book, ...values })
        .onConflict((conflict) => conflict.column('book').doUpdateSet(values)),
    );
  },
  rememberAddress: (address, book) =>
    run(
      db,
      sqlFor
        .insertInto('peer_addresses')
        .values({ address, book })
        .onConflict((conflict) => conflict.column('address').doUpdateSet({ book })),
    ),
});
