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
  readonly refused: RefusedSeen;
}

/** How far what was refused went to and fro. Nobody signs it: where the peer's chain is another one, all goes again. */
export interface RefusedSeen {
  /** How much of what the peer keeps aside was read, and its chain value there. */
  readonly read: number;
  readonly chain: string;
  /** Own number up to which everything was sent. */
  readonly sent: number;
}

export const NOTHING_SEEN: RefusedSeen = { read: 0, chain: '', sent: 0 };

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
    const refused = { read: row.refused_read, chain: row.refused_chain, sent: row.refused_sent };
    return { book, verifierKey, read: { size, peaks: peaks.parse(JSON.parse(row.peaks)) }, sent, resend, refused };
  },
  at: (address) => first(db, sqlFor.selectFrom('peer_addresses').select('book').where('address', '=', address))?.book,
  remember: ({ book, verifierKey: key, read, sent, resend, refused }) => {
    const values = {
      key,
      size: read.size,
      peaks: JSON.stringify(read.peaks),
      sent,
      resend,
      refused_read: refused.read,
      refused_chain: refused.chain,
      refused_sent: refused.sent,
    };
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
