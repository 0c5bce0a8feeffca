/**
 * What is refused is kept for ever, so how much of it one device may add is bounded: beyond that nothing is taken
 * from it for a while, and it still has what it said. A gate with a wrong clock for three days stays far below. A book that
 * carries what others refused, years of it at its first sync, may add more, and on an account of its own, so that its entries
 * never wait for that. Only what was new counts.
 */
import type { Receipt } from '../../events/book.ts';
import { steadyMilliseconds } from '../../shared/clock.ts';
import { type Allowance, allowanceOf } from './limits.ts';
import { RequestProblem } from './problem.ts';

export interface Refusals {
  /** Throws where a device had too much refused lately. */
  readonly check: (device: string) => void;
  readonly count: (device: string, receipts: readonly Receipt[], sizeOf: (index: number) => number) => void;
}

/** Refused entries and characters: at once, and an hour. */
export const MOST_REFUSED = 5_000;
const REFUSED_AN_HOUR = 1_000;
export const MOST_CHARACTERS = 16 * 1024 * 1024;
const CHARACTERS_AN_HOUR = 4 * 1024 * 1024;

/** What a book may carry here: at once, and an hour. */
export const MOST_CARRIED = 50_000;
const CARRIED_AN_HOUR = 10_000;
const MOST_CARRIED_CHARACTERS = 128 * 1024 * 1024;
const CARRIED_CHARACTERS_AN_HOUR = 32 * 1024 * 1024;

export interface Carryings {
  /** Throws where a book had too much new set aside here lately. */
  readonly check: (device: string) => void;
  /** How long each was that was new. */
  readonly count: (device: string, lengths: readonly number[]) => void;
}

export const carryingsOf = (now: () => number = steadyMilliseconds): Carryings =>
  accountsOf(
    allowanceOf(MOST_CARRIED, CARRIED_AN_HOUR),
    allowanceOf(MOST_CARRIED_CHARACTERS, CARRIED_CHARACTERS_AN_HOUR),
    'This book passed on so much that was refused that no more of it is taken for now, and nothing of this was; its entries are taken as ever. See what it refuses, and sync again later',
    now,
  );

export const refusalsOf = (now: () => number = steadyMilliseconds): Refusals => {
  const { check, count } = accountsOf(
    allowanceOf(MOST_REFUSED, REFUSED_AN_HOUR),
    allowanceOf(MOST_CHARACTERS, CHARACTERS_AN_HOUR),
    'So much of what this device said was refused that no more is taken for now, and nothing of this was; see what its receipts said, mend that, and send it again later',
    now,
  );
  return {
    check,
    count: (device, receipts, sizeOf) =>
      count(
        device,
        receipts.flatMap(({ outcome }, index) => (outcome === 'refused' ? [sizeOf(index)] : [])),
      ),
  };
};

/** Each device has so many pieces and so many characters; `tooMuch` is said to one that has used up either. */
const accountsOf = (pieces: Allowance, characters: Allowance, tooMuch: string, now: () => number): Carryings => ({
  check: (device) => {
    const retryAfter = Math.max(pieces.wait(device, now()), characters.wait(device, now()));
    if (retryAfter > 0) throw new RequestProblem('too-often', tooMuch, { retryAfter });
  },
  count: (device, lengths) => {
    pieces.spend(device, lengths.length, now());
    characters.spend(
      device,
      lengths.reduce((sum, each) => sum + each, 0),
      now(),
    );
  },
});
