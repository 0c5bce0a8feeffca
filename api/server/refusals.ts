/**
 * What is refused is kept for ever, so how much of it one device may add is bounded: beyond that nothing is taken
 * from it for a while, and it still has what it said. A gate with a wrong clock for three days stays far below.
 */
import type { Receipt } from '../../events/book.ts';
import { steadyMilliseconds } from '../../shared/clock.ts';
import { allowanceOf } from './limits.ts';
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

export const refusalsOf = (now: () => number = steadyMilliseconds): Refusals => {
  const entries = allowanceOf(MOST_REFUSED, REFUSED_AN_HOUR);
  const characters = allowanceOf(MOST_CHARACTERS, CHARACTERS_AN_HOUR);
  return {
    check: (device) => {
      const retryAfter = Math.max(entries.wait(device, now()), characters.wait(device, now()));
      if (retryAfter === 0) return;
      throw new RequestProblem(
        'too-often',
        'So much of what this device said was refused that no more is taken for now, and nothing of this was; see what its receipts said, mend that, and send it again later',
        { retryAfter },
      );
    },
    count: (device, receipts, sizeOf) => {
      const refused = receipts.flatMap(({ outcome }, index) => (outcome === 'refused' ? [sizeOf(index)] : []));
      entries.spend(device, refused.length, now());
      characters.spend(
        device,
        refused.reduce((sum, each) => sum + each, 0),
        now(),
      );
    },
  };
};
