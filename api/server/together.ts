/**
 * Pushes that are there at the same moment go into the book in one commit, so that the disk is waited for once and not by
 * each in turn. Nobody waits for company: what came within one turn of the event loop is taken, and the next turn has its own.
 * Each is answered as if it had come alone, and only when it is on the disk.
 */
import type { Batch, Book, Taken } from '../../events/book.ts';
import type { Passed, TurnedAway } from '../../events/door.ts';

export interface Push extends Batch<Passed | TurnedAway> {
  readonly device: string;
  /** Throws where the device may not go on for now; asked when its turn comes. */
  readonly admit: () => void;
}

/** Entries of one commit: nobody waits long for others, and a big push has one of its own. */
const MOST_TOGETHER = 64;

interface Waiting {
  readonly push: Push;
  readonly resolve: (taken: Taken) => void;
  readonly reject: (thrown: unknown) => void;
}

/** Resolves when the push is on the disk; rejects with what recording it threw. */
export type Together = (push: Push) => Promise<Taken>;

export const togetherOf = (book: Pick<Book, 'recordEach'>): Together => {
  let waiting: readonly Waiting[] = [];
  const turn = (): void => {
    const size = sizeOfNext(waiting.map(({ push }) => push));
    const next = waiting.slice(0, size);
    waiting = waiting.slice(size);
    // What is left waits for the answers to go out, since they may bear on what its devices may still say.
    if (waiting.length > 0) setImmediate(turn);
    const admitted = next.filter(({ push, reject }) => {
      try {
        push.admit();
        return true;
      } catch (thrown) {
        reject(thrown);
        return false;
      }
    });
    if (admitted.length === 0) return;
    try {
      const attempts = book.recordEach(admitted.map(({ push }) => push));
      for (const [index, attempt] of attempts.entries()) {
        if ('taken' in attempt) admitted[index]?.resolve(attempt.taken);
        else admitted[index]?.reject(attempt.thrown);
      }
    } catch (thrown) {
      for (const { reject } of admitted) reject(thrown);
    }
  };
  return (push) =>
    new Promise((resolve, reject) => {
      if (waiting.length === 0) setImmediate(turn);
      waiting = [...waiting, { push, resolve, reject }];
    });
};

/** How many go together, from the first on, in the order they came: no device twice, since what is refused counts for the next. */
const sizeOfNext = (pushes: readonly Push[]): number => {
  const devices = new Set<string>();
  let entries = 0;
  for (const push of pushes) {
    entries += push.entries;
    if (devices.has(push.device) || (devices.size > 0 && entries > MOST_TOGETHER)) break;
    devices.add(push.device);
  }
  return devices.size;
};
