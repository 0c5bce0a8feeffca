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
  /** Numbers here of what came from that book just now, as it stands there: it need not go back to it. */
  readonly theirs: Set<number>;
  /** How many lines were read, and how many characters of them were new. */
  lines: number;
  characters: number;
  /** True once the other's list was found to be another than the one that was read: that happens once at most. */
  isAnew: boolean;
}

/** Years of an honest farm. Of one that shows more in one sync a person should know before it fills the disk. */
const MOST_A_SYNC = 50_000;
const MOST_CHARACTERS_A_SYNC = 256 * 1024 * 1024;
const LARGEST_BATCH = 500;
const LONGEST_BATCH = 2 * 1024 * 1024;

/** Both ways; gives what is remembered of the peer then. */
export const exchangeRefused = async (
  book: Book,
  other: OtherBook,
  from: Peer,
): Promise<{ peer: Peer; refused: RefusedExchanged }> => {
  const tally: RefusedTally = { came: 0, cameCows: new Set(), went: 0, wentCows: new Set() };
  const exchanging = { book, other, tally, theirs: new Set<number>(), lines: 0, characters: 0, isAnew: false };
  const read = await readRefused(exchanging, from);
  // Whatever is wrong with that book's list, what was refused here is sent: its cows are to be held there.
  const sent = read === 'older' ? undefined : await sendRefused(exchanging, read);
  const trouble = sent?.trouble;
  if (trouble !== undefined) throw trouble;
  const inOrder = (cows: ReadonlySet<string>): string[] => [...cows].sort(byCowNumber);
  const cows = { cameCows: inOrder(tally.cameCows), wentCows: inOrder(tally.wentCows) };
  return { peer: sent?.peer ?? from, refused: { travels: sent !== undefined, ...tally, ...cows } };
};

interface SoFar {
  readonly peer: Peer;
  /** Why reading ended before the end. */
  readonly trouble?: Hitch;
}

/** Reads to the end of what the other book shows. `older`: it shows no such thing. */
const readRefused = async (exchanging: Exchanging, from: Peer): Promise<SoFar | 'older'> => {
  const { book, other } = exchanging;
  let peer = from;
  let until: number | undefined;
  while (until === undefined || peer.refused.read < until) {
    if (exchanging.lines >= MOST_A_SYNC || exchanging.characters >= MOST_CHARACTERS_A_SYNC)
      return { peer, trouble: tooMany(other, exchanging.lines) };
    const { read } = peer.refused;
    const page = await other.refused(read);
    if (page === 'older') return page;
    if (page !== 'beyond' && page.book !== peer.book)
      throw new Hitch('Another book answers than a moment ago; nothing of that was kept, sync again');
    if (page === 'beyond' || page.before !== peer.refused.chain) {
      if (exchanging.isAnew || read === 0) return { peer, trouble: broken(other) };
      exchanging.isAnew = true;
      peer = { ...peer, refused: NOTHING_SEEN };
      book.peers.remember(peer);
      until = undefined;
      continue;
    }
    until ??= page.last;
    if (page.number !== read + page.refused.length || (page.refused.length === 0 && read < until))
      return { peer, trouble: broken(other) };
    if (page.refused.length === 0) break;
    take(exchanging, peer, page);
    peer = { ...peer, refused: { ...peer.refused, read: page.number, chain: page.chain } };
    book.peers.remember(peer);
  }
  return { peer };
};

const take = (exchanging: Exchanging, peer: Peer, page: RefusedSaid): void => {
  const { book, tally, theirs } = exchanging;
  const refusals = page.refused.map(readRefusal);
  exchanging.lines += refusals.length;
  for (const [index, { number }] of book.carry(refusals, peer.book).entries()) {
    const refusal = refusals[index];
    if (number === undefined || refusal === undefined) continue;
    tally.came += 1;
    exchanging.characters += JSON.stringify(refusal).length;
    for (const cow of refusal.cows) tally.cameCows.add(cow);
    if (isAsSaid(refusal, page.refused[index])) theirs.add(number);
  }
};

/** Sends what stands behind what was sent, up to the end of this book. */
const sendRefused = async (exchanging: Exchanging, from: SoFar): Promise<SoFar> => {
  const { book, other, tally, theirs } = exchanging;
  let { peer, trouble } = from;
  let most = LARGEST_BATCH;
  while (peer.refused.sent < book.lastRefused().number) {
    const { sent } = peer.refused;
    const page = book.refusedBehind(sent, { rows: most, characters: LONGEST_BATCH });
    if (page === undefined || page.refused.length === 0) break;
    const refusals = page.refused.filter((_, index) => !theirs.has(sent + 1 + index));
    if (refusals.length > 0) {
      let answer: CarriedSaid;
      try {
        answer = await other.carry(refusals, book);
      } catch (thrown) {
        if (!(thrown instanceof Hitch) || thrown.status !== 413 || page.refused.length === 1) throw thrown;
        most = Math.max(1, Math.floor(page.refused.length / 2));
        continue;
      }
      for (const [index, { cows }] of refusals.entries()) {
        if (answer.receipts[index]?.outcome !== 'set-aside') continue;
        tally.went += 1;
        for (const cow of cows) tally.wentCows.add(cow);
      }
      peer = { ...peer, refused: seenAfter(peer, answer) };
      // It counts as sent once it is among what was read: then it is found out if that book loses it.
      if (trouble === undefined && peer.refused.read !== answer.number) {
        const read = await readRefused(exchanging, peer);
        if (read !== 'older') ({ peer, trouble } = { trouble: undefined, ...read });
        if (peer.refused.sent < sent) continue;
      }
    }
    peer = { ...peer, refused: { ...peer.refused, sent: page.number } };
    book.peers.remember(peer);
  }
  return { peer, ...(trouble === undefined ? {} : { trouble }) };
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
    `${address} does not tell in order what was refused there, so not all of that came; what was refused here was sent, and the entries are exchanged. Run verify there, then sync again`,
  );

const tooMany = ({ address }: OtherBook, lines: number): Hitch =>
  new Hitch(
    `${address} passed on ${lines.toLocaleString('en')} refused lines and has more. Those are kept here, what was refused here was sent, and the entries are exchanged; see what that book refuses, then sync again, and it goes on from there`,
  );
