/**
 * Two books of one farm, both ways: meet, pull, push, and look again until both hold the same. May be cut off at any
 * point and begun again; every step is safe to repeat, and what was done before counts.
 */
import type { Book } from '../../events/book.ts';
import { type Instant, MINUTE, mustBeInstant } from '../../shared/instant.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { checkpointIn } from './checkpoint.ts';
import { meet } from './meet.ts';
import type { OtherBook } from './other-book.ts';
import { pullTo } from './pull.ts';
import { pushAll } from './push.ts';
import { exchangeRefused, type RefusedExchanged } from './refused.ts';
import { noTally, type Tally } from './tally.ts';

export interface Synced {
  /** The other book's id. */
  readonly other: string;
  readonly farm: string;
  /** True where this book took its farm by this sync. */
  readonly adopted: boolean;
  readonly pulled: Readonly<Tally>;
  readonly pushed: Readonly<Tally>;
  /** What was refused in one of them and is set aside in both now. */
  readonly refused: RefusedExchanged;
  /** How many entries this book has, and how many of the other's were read. */
  readonly position: number;
  readonly otherPosition: number;
  /** True when both hold the same set; false where somebody recorded in the meantime, or something was kept aside. */
  readonly same: boolean;
  /** How far this computer's clock is ahead of the other's; negative where it is behind. */
  readonly skewSeconds: number;
  readonly otherTime: Instant;
  readonly otherSigned: boolean;
}

export interface Wishes {
  /** The word a person gave to go on with a replaced book. */
  readonly otherBook?: string | undefined;
  readonly tell?: (what: 'pull' | 'push', done: number, of: number) => void;
}

/** Clocks that are closer than this count as the same. */
export const CLOCK_OFF = 5 * MINUTE;

const ROUNDS = 3;

/** Throws a `UserProblem`; what was exchanged before that is kept, and said. */
export const sync = async (
  book: Book,
  other: OtherBook,
  { otherBook, tell = () => undefined }: Wishes = {},
): Promise<Synced> => {
  const [pulled, pushed] = [noTally(), noTally()];
  try {
    book.claim();
    const { peer: met, shown: first, adopted } = await meet(book, other, otherBook);
    let [peer, shown] = [met, first];
    for (let round = 0; round < ROUNDS; round += 1) {
      const pulling = { book, other, tally: pulled, tell: tell.bind(undefined, 'pull') };
      peer = await pullTo(pulling, peer, shown);
      peer = await pushAll({ book, other, pushed, pulled, tell: tell.bind(undefined, 'push') }, peer);
      if (book.head().position === peer.read.size) break;
      shown = checkpointIn(await other.standing());
      if (shown.size === peer.read.size) break;
    }
    // The entries come first: most often the one that settles a refusal is among them.
    const { refused } = await exchangeRefused(book, other, peer);
    const said = await other.standing();
    const here = book.clock.now();
    const otherTime = mustBeInstant(said.time);
    const { position } = book.head();
    return {
      other: peer.book,
      farm: book.farmId ?? '',
      adopted,
      pulled,
      pushed,
      refused,
      position,
      otherPosition: peer.read.size,
      same: position === peer.read.size && peer.read.size === said.position,
      skewSeconds: Math.round((here - otherTime) / 1_000),
      otherTime,
      otherSigned: shown.signed,
    };
  } catch (thrown) {
    const before = pulled.recorded + pushed.recorded;
    if (!(thrown instanceof UserProblem) || before === 0) throw thrown;
    throw new UserProblem(
      `${thrown.message}\nBefore that, ${pulled.recorded} came and ${pushed.recorded} went, and those are safe; sync again and it goes on from there`,
      thrown.exitCode,
    );
  }
};
