/**
 * What was refused in either book goes to the other, so that its cows are held in both. It stands in no signed log:
 * the chain value that the other shows tells whether it is what was read before. Where it is another one, or there is less
 * than there was, all is read again and all is sent again; what is known adds nothing.
 */
import { type Book, NOTHING_SEEN, type Peer } from '../../events/book.ts';
import type { Refusal } from '../../events/refusal.ts';
import { readRefusal } from '../../events/refused-elsewhere.ts';
import { byCowNumber } from '../../shared/cow-number.ts';
import { Hitch } from './hitch.ts';
import type { CarriedSaid, OtherBook, RefusedSaid } from './other-book.ts';

/** What is new on the receiving side, and the cows that can be read in it. */
interface RefusedTally {
  came: number;
  readonly cameCows: Set<string>;
  went: number;
  readonly wentCows: Set<string>;
}

export interface RefusedExchanged {
  /** False where the other book is of a version that knows of no such thing: nothing came and nothing went. */
  readonly travels: boolean;
  readonly came: number;
  readonly cameCows: readonly string[];
  readonly went: number;
  readonly wentCows: readonly string[];
}

interface Exchanging {
  readonly book: Book;
  readonly other: OtherBook;
  readonly tally: RefusedTally;
}

/** Years of an honest farm. Of one that shows more in one sync a person should know before it fills the disk. */
const MOST_A_SYNC = 50_000;
const LARGEST_BATCH = 500;
const LONGEST_BATCH = 2 * 1024 * 1024;

/** Both ways; gives what is remembered of the peer then. */
export const exchangeRefused = async (
  book: Book,
  other: OtherBook,
  from: Peer,
): Promise<{ peer: Peer; refused: RefusedExchanged }> => {
  const tally: RefusedTally = { came: 0, cameCows: new Set(), went: 0, wentCows: new Set() };
  const peer = await exchange({ book, other, tally }, from);
  const inOrder = (cows: ReadonlySet<string>): string[] => [...cows].sort(byCowNumber);
  const cows = { cameCows: inOrder(tally.cameCows), wentCows: inOrder(tally.wentCows) };
  return { peer: peer ?? from, refused: { travels: peer !== undefined, ...tally, ...cows } };
};

/** Undefined where the other book is of an older version. */
const exchange = async (exchanging: Exchanging, from: Peer): Promise<Peer | undefined> => {
  // What came from that book just now, as it stands there, need not go back to it.
  const theirs = new Set<number>();
  const read = await readRefused(exchanging, from, theirs);
  if (read === undefined) return undefined;
  const { peer: sent, isBehind } = await sendRefused(exchanging, read, theirs);
  return isBehind ? ((await readRefused(exchanging, sent, theirs)) ?? sent) : sent;
};

/** Reads to the end of what the other book shows; undefined where it shows no such thing. */
const readRefused = async (exchanging: Exchanging, from: Peer, theirs: Set<number>): Promise<Peer | undefined> => {
  const { book, other } = exchanging;
  let peer = from;
  let until: number | undefined;
  let isAnew = false;
  for (let lines = 0; until === undefined || peer.refused.read < until; ) {
    if (lines >= MOST_A_SYNC) throw tooMany(other, lines);
    const page = await other.refused(peer.refused.read);
    if (page === 'older') return undefined;
    if (page !== 'beyond' && page.book !== peer.book)
      throw new Hitch('Another book answers than a moment ago; nothing of that was kept, sync again');
    if (page === 'beyond' || page.before !== peer.refused.chain) {
      if (isAnew || peer.refused.read === 0) throw broken(other);
      isAnew = true;
      peer = { ...peer, refused: NOTHING_SEEN };
      book.peers.remember(peer);
      until = undefined;
      continue;
    }
    until ??= page.last;
    const { read } = peer.refused;
    if (page.number !== read + page.refused.length || (page.refused.length === 0 && read < until)) throw broken(other);
    if (page.refused.length === 0) break;
    take(exchanging, peer, page, theirs);
    lines += page.refused.length;
    peer = { ...peer, refused: { ...peer.refused, read: page.number, chain: page.chain } };
    book.peers.remember(peer);
  }
  return peer;
};

const take = ({ book, tally }: Exchanging, peer: Peer, page: RefusedSaid, theirs: Set<number>): void => {
  const refusals = page.refused.map(readRefusal);
  for (const [index, { number }] of book.carry(refusals, peer.book).entries()) {
    const refusal = refusals[index];
    if (number === undefined || refusal === undefined) continue;
    tally.came += 1;
    for (const cow of refusal.cows) tally.cameCows.add(cow);
    if (isAsSaid(refusal, page.refused[index])) theirs.add(number);
  }
};

/** Sends what stands behind what was sent, up to the end of this book as it is now. `isBehind`: more was added there. */
const sendRefused = async (
  { book, other, tally }: Exchanging,
  from: Peer,
  theirs: ReadonlySet<number>,
): Promise<{ peer: Peer; isBehind: boolean }> => {
  let peer = from;
  let isBehind = false;
  let most = LARGEST_BATCH;
  const until = book.lastRefused().number;
  while (peer.refused.sent < until) {
    const page = book.refusedBehind(peer.refused.sent, { rows: most, characters: LONGEST_BATCH });
    if (page === undefined || page.refused.length === 0) break;
    const begin = peer.refused.sent + 1;
    const refusals = page.refused.filter((_, index) => !theirs.has(begin + index));
    if (refusals.length > 0) {
      let answer: CarriedSaid;
      try {
        answer = await other.carry(refusals, book);
      } catch (thrown) {
        if (!(thrown instanceof Hitch) || thrown.status !== 413 || page.refused.length === 1) throw thrown;
        most = Math.max(1, Math.floor(page.refused.length / 2));
        continue;
      }
      peer = { ...peer, refused: seenAfter(peer, answer) };
      isBehind = peer.refused.read !== answer.number;
      for (const [index, { cows }] of refusals.entries()) {
        if (answer.receipts[index]?.outcome !== 'set-aside') continue;
        tally.went += 1;
        for (const cow of cows) tally.wentCows.add(cow);
      }
    }
    peer = { ...peer, refused: { ...peer.refused, sent: page.number } };
    book.peers.remember(peer);
  }
  return { peer, isBehind };
};

/** Where nothing was added there but what was sent, it is as good as read; else it is read on from where it was. */
const seenAfter = ({ refused }: Peer, { number, chain, receipts }: CarriedSaid): Peer['refused'] => {
  const added = receipts.filter(({ outcome }) => outcome === 'set-aside').length;
  return number === refused.read + added ? { ...refused, read: number, chain } : refused;
};

/** Whether it is kept here in the very words in which it came. */
const isAsSaid = (refusal: Refusal, said: unknown): boolean => {
  const { text, problem, pointer, id, cows, mentions } = refusal;
  const given: Partial<Refusal> = typeof said === 'object' && said !== null ? said : {};
  const wordsOf = (each: Partial<Refusal>) =>
    JSON.stringify([each.text, each.problem, each.pointer ?? null, each.id ?? null, each.cows, each.mentions]);
  return wordsOf({ text, problem, pointer, id, cows, mentions }) === wordsOf(given);
};

const broken = ({ address }: OtherBook): Hitch =>
  new Hitch(
    `${address} does not tell in order what was refused there; the entries are exchanged, what was refused is not. Run verify there, then sync again`,
  );

const tooMany = ({ address }: OtherBook, lines: number): Hitch =>
  new Hitch(
    `${address} passed on ${lines.toLocaleString('en')} refused lines and has more. Those are kept here, and all entries are exchanged; see what that book refuses, then sync again, and it goes on from there`,
  );
