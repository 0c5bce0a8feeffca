/**
 * Takes what the other book has and this one has not seen. The root is worked out from the entries that came, never taken
 * from the server: a page is recorded only when what was read before and the page together give a root that leads to the
 * signed one. What has been recorded stays when the line breaks; the next sync goes on behind it.
 */
import type { Book, Peer } from '../../events/book.ts';
import { type CompactRange, extend, rootOf } from '../../events/log/merkle.ts';
import { leafIn, type PageEntry, relayedIn, timeIn } from '../../events/log-page.ts';
import type { Shown } from './checkpoint.ts';
import { Hitch } from './hitch.ts';
import { leadsTo } from './meet.ts';
import type { OtherBook } from './other-book.ts';
import { addReceipts, type Tally } from './tally.ts';

export interface Pulling {
  readonly book: Book;
  readonly other: OtherBook;
  readonly tally: Tally;
  readonly tell: (done: number, of: number) => void;
}

/** A proof is a request of its own, and the server's first one a walk over its log: a long log is proved by several pages. */
const ENTRIES_A_PAGE_MORE = 20_000;
/** Characters held at most before they are proved and recorded, page for page. */
const MOST_HELD = 2 * 1024 * 1024;

/** Pulls up to the checkpoint that was shown; gives what is remembered of the peer then. */
export const pullTo = async ({ book, other, tally, tell }: Pulling, from: Peer, shown: Shown): Promise<Peer> => {
  let peer = from;
  const begin = peer.read.size;
  let damaged = false;
  while (peer.read.size < shown.size) {
    const entries = await gathered(other, peer, shown);
    const read = rangeWith(peer.read, entries);
    const holds = read !== undefined && (await proved(other, read, shown));
    if (!holds && damaged) {
      throw new Hitch(
        `What came from ${other.address} behind position ${peer.read.size} does not give the root that book signs, twice over; nothing of it was recorded. Something on the way changes it, or that book is damaged: run verify there`,
      );
    }
    damaged = !holds;
    if (read === undefined || damaged) continue;
    const receipts = book.relay(entries.map(relayedIn), peer.book);
    addReceipts(tally, receipts, (index) => timeIn(entries[index] ?? NOTHING), book.clock.now());
    peer = { ...peer, read };
    book.peers.remember(peer);
    tell(peer.read.size - begin, shown.size - begin);
  }
  return peer;
};

const NOTHING: PageEntry = { value: undefined };

const gathered = async (other: OtherBook, peer: Peer, shown: Shown): Promise<PageEntry[]> => {
  const all: PageEntry[] = [];
  let held = 0;
  const pages = 1 + Math.floor(shown.size / ENTRIES_A_PAGE_MORE);
  for (let page = 0; page < pages && held < MOST_HELD; page += 1) {
    const after = peer.read.size + all.length;
    if (after >= shown.size) break;
    const { book, entries, length } = await other.page(after);
    if (book !== peer.book)
      throw new Hitch('Another book answers than a moment ago; nothing of that was recorded, sync again');
    if (entries.length === 0) {
      throw new Hitch(`The other book shows ${shown.size} entries but gives none behind ${after}; sync again`);
    }
    // What was recorded there since is left for the next look.
    all.push(...entries.slice(0, shown.size - after));
    held += length;
  }
  return all;
};

/** What was read and these entries behind it; undefined where one of them can't be what a book stored. */
const rangeWith = (read: CompactRange, entries: readonly PageEntry[]): CompactRange | undefined => {
  const leaves: string[] = [];
  for (const entry of entries) {
    const leaf = leafIn(entry);
    if (leaf === undefined) return undefined;
    leaves.push(leaf);
  }
  return extend(read, leaves);
};

const proved = async (other: OtherBook, read: CompactRange, shown: Shown): Promise<boolean> =>
  read.size === shown.size ? rootOf(read) === shown.root : leadsTo(other, read.size, rootOf(read), shown);
