/**
 * Sends what the other book has not been sent: everything recorded here since, but for what came from it. A batch counts
 * as sent only once it has come back in the other's own proven log: a server that acknowledges and then loses it is found
 * out, since what is remembered of its log covers what was sent to it.
 */
import type { Book, Peer } from '../../events/book.ts';
import { timeIn } from '../../events/log-page.ts';
import { mustBeInstant } from '../../shared/instant.ts';
import { checkpointIn } from './checkpoint.ts';
import { Hitch } from './hitch.ts';
import type { OtherBook, ReceiptsSaid } from './other-book.ts';
import { type Pulling, pullTo } from './pull.ts';
import { addReceipts, type Tally } from './tally.ts';

export interface Pushing extends Pick<Pulling, 'book' | 'other'> {
  readonly pushed: Tally;
  readonly pulled: Tally;
  readonly tell: (done: number, of: number) => void;
}

const LARGEST_BATCH = 500;
const LONGEST_BATCH = 2 * 1024 * 1024;

/** Sends up to the end of this book as it stands now; gives what is remembered of the peer then. */
export const pushAll = async ({ book, other, pushed, pulled, tell }: Pushing, from: Peer): Promise<Peer> => {
  let peer = from;
  let most = LARGEST_BATCH;
  const until = book.head().position;
  while (peer.sent < until) {
    const { texts, upTo } = batchBehind(book, peer, Math.min(most, LARGEST_BATCH), until);
    if (texts.length > 0) {
      let answer: ReceiptsSaid;
      try {
        answer = await other.push(texts, book);
      } catch (thrown) {
        if (!(thrown instanceof Hitch) || thrown.status !== 413 || texts.length === 1) throw thrown;
        most = Math.floor(texts.length / 2);
        continue;
      }
      addReceipts(
        pushed,
        answer.receipts,
        (index) => timeIn({ value: jsonOf(texts[index] ?? '{}') }),
        mustBeInstant(answer.time),
      );
      peer = await seenThere({ book, other, pulled }, peer, answer);
    }
    peer = { ...peer, sent: upTo };
    book.peers.remember(peer);
    tell(Math.max(0, upTo - from.sent), until - from.sent);
  }
  return peer;
};

/** Reads the other's log up to where it says it put what was sent. */
const seenThere = async (
  { book, other, pulled }: { book: Book; other: OtherBook; pulled: Tally },
  from: Peer,
  { receipts, book: answering }: ReceiptsSaid,
): Promise<Peer> => {
  const said = await other.standing();
  const last = receipts.reduce((most, { position = 0 }) => Math.max(most, position), 0);
  const shown = checkpointIn(said);
  if (said.book !== from.book || answering !== from.book || shown.size < last) {
    throw new Hitch(
      `The other book acknowledged what was sent and does not have it any more; what was sent is safe here and goes again. Sync again, and ask whoever keeps that book`,
    );
  }
  return pullTo({ book, other, tally: pulled, tell: () => undefined }, from, shown);
};

/** The next stored entries to send, as stored, and the position they reach to. */
const batchBehind = (book: Book, peer: Peer, most: number, until: number): { texts: string[]; upTo: number } => {
  const texts: string[] = [];
  let length = 0;
  let upTo = peer.sent >= peer.resend ? beforeOwn(book, peer, until) : peer.sent;
  for (const row of book.rows(upTo, LARGEST_BATCH)) {
    if (row.position > until) break;
    const isTheirs = row.position > peer.resend && viaOf(row.entry) === peer.book;
    if (!isTheirs) {
      length += row.entry.length;
      if (texts.length >= most || (texts.length > 0 && length > LONGEST_BATCH)) break;
      texts.push(row.entry);
    }
    upTo = row.position;
  }
  return { texts, upTo };
};

/** The last position up to which everything that was not sent came from that book, whatever number of entries that is. */
const beforeOwn = (book: Book, peer: Peer, until: number): number =>
  Math.min((book.firstNotVia(peer.sent, peer.book) ?? until + 1) - 1, until);

const viaOf = (text: string): unknown => {
  const value = jsonOf(text);
  return typeof value === 'object' && value !== null && 'via' in value ? value.via : undefined;
};

const jsonOf = (text: string): unknown => JSON.parse(text);
