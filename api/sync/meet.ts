/**
 * Whether the book that answers is the one we know. It is known by its id and key, and by its log: today's must continue
 * exactly what was read of it before. One that was replaced or rolled back is never followed unless a person says so, with
 * a word that is good for this one case: a script that keeps saying it follows nothing the next time.
 */
import { type Book, NOTHING_SEEN, type Peer } from '../../events/book.ts';
import { EMPTY_RANGE, provesConsistency, rootOf } from '../../events/log/merkle.ts';
import { canonicalJson, sha256 } from '../../shared/fingerprint.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { checkpointIn, type Shown } from './checkpoint.ts';
import { Hitch } from './hitch.ts';
import type { OtherBook, StandingSaid } from './other-book.ts';

export interface Met {
  /** What is remembered of it: how far it was read, how far it was sent to. */
  readonly peer: Peer;
  readonly shown: Shown;
  /** True where this book has just taken its farm. */
  readonly adopted: boolean;
}

/** `otherBook`: the word a person gave to go on with a book that is not, or not any more, the one we know. */
export const meet = async (book: Book, other: OtherBook, otherBook?: string): Promise<Met> => {
  const said = await other.standing();
  refuseStranger(book, said);
  const shown = checkpointIn(said);
  const prior = book.peers.at(other.address);
  const peer = await knownOr(book, other, { said, shown, prior }, otherBook);
  if (!(await other.takesBooks())) {
    throw new UserProblem(
      `The token is one of a device, not of a book. On the other book, "device add NAME --role book" makes one for syncing; nothing was sent`,
    );
  }
  const adopted = book.farmId === null && said.farm !== null;
  if (said.farm !== null) book.adoptFarm(said.farm);
  book.peers.remember(peer);
  if (prior !== said.book) book.peers.rememberAddress(other.address, said.book);
  return { peer, shown, adopted };
};

const refuseStranger = (book: Book, said: StandingSaid): void => {
  if (said.book === book.bookId) {
    throw new UserProblem(
      'The server there has this very book, or a copy of its file: a book does not sync with itself. On the copy, run new-key first',
    );
  }
  if (said.rehearsal !== book.rehearsal) {
    throw new UserProblem(
      `The other book is ${said.rehearsal ? 'a rehearsal and this one is real' : 'real and this one is a rehearsal'}: they never sync, so that nothing made up gets among what happened`,
    );
  }
  if (said.farm === null && book.farmId === null) {
    throw new UserProblem('Neither book has a farm yet; record the farm-set-up in one of them, then sync');
  }
  if (said.farm !== null && book.farmId !== null && said.farm !== book.farmId) {
    throw new UserProblem(
      `The other book is of another farm (${said.farm}; this one is of ${book.farmId}): nothing was taken or sent. Books of one farm sync: make a new book and let its first sync take the farm, rather than a farm-set-up`,
    );
  }
};

interface Answering {
  readonly said: StandingSaid;
  readonly shown: Shown;
  /** Which book answered here the last time. */
  readonly prior: string | undefined;
}

const knownOr = async (
  book: Book,
  other: OtherBook,
  { said, shown, prior }: Answering,
  otherBook: string | undefined,
): Promise<Peer> => {
  const known = book.peers.of(said.book);
  const before = known ?? (prior === undefined ? undefined : book.peers.of(prior));
  const asNew = { book: said.book, verifierKey: said.verifierKey };
  if (before === undefined) return { ...asNew, read: EMPTY_RANGE, sent: 0, resend: 0, refused: NOTHING_SEEN };
  const goesOn = await continues(other, before, shown);
  const odd = oddity(before, { said, shown, prior }, goesOn);
  if (odd === undefined) return before;
  const word = sha256(
    canonicalJson([prior ?? '', before.book, before.read.size, rootOf(before.read), said.book]),
  ).slice(0, 8);
  if (otherBook === undefined) {
    throw new UserProblem(
      `${odd} Nothing was taken or sent. If you know why (its file was restored from a backup, or replaced on purpose), go on with --other-book ${word}: what it lacks is sent to it again. If not, ask whoever keeps it`,
    );
  }
  if (otherBook !== word) {
    throw new UserProblem(
      `${odd} --other-book ${otherBook} was for another time; this time it is ${word}. Nothing was taken or sent`,
    );
  }
  // What it lost is not known, so everything is sent again, even what once came from it.
  const anew = { read: EMPTY_RANGE, sent: 0, resend: book.head().position, refused: NOTHING_SEEN };
  return { ...before, ...asNew, ...(goesOn ? {} : anew) };
};

/** Why this is not simply the book we know, if so. */
const oddity = (before: Peer, { said, shown, prior }: Answering, goesOn: boolean): string | undefined => {
  const { size } = before.read;
  const lost =
    shown.size < size
      ? `${size} entries of it were read before, and now it has ${shown.size}.`
      : `It does not continue what was read of it before (${size} entries).`;
  if (prior !== undefined && prior !== said.book) {
    const history = goesOn ? `It does hold all that was read there before (${size} entries).` : lost;
    return `At this address was the book ${prior}, and now there is ${said.book}. ${history}`;
  }
  if (before.verifierKey !== said.verifierKey) return `The book ${said.book} shows another key than before.`;
  return goesOn ? undefined : `The book there was replaced or rolled back. ${lost}`;
};

/** True when the log that is shown continues exactly what was read. */
const continues = async (other: OtherBook, { read }: Peer, shown: Shown): Promise<boolean> => {
  if (read.size > shown.size) return false;
  const oldRoot = rootOf(read);
  if (read.size === shown.size) return oldRoot === shown.root;
  if (read.size === 0) return true;
  return leadsTo(other, read.size, oldRoot, shown);
};

/** Asks for the proof that the log whose first entries have this root is the one that is shown. */
export const leadsTo = async (other: OtherBook, size: number, root: string, shown: Shown): Promise<boolean> => {
  const proof = await other.continuation(size, shown.size);
  if (proof === undefined) throw new Hitch('The other book gives no proof of its own log; sync again');
  return provesConsistency(size, shown.size, root, shown.root, proof.path);
};
