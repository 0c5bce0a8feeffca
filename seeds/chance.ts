/**
 * Chance that is always the same: a stream of numbers that follows from a name alone, so that one cow's story
 * does not change when another is added. The generator is a 32-bit linear congruential one, x → 1664525·x + 1013904223,
 * of which the upper bits are used; good enough for a farm that never was.
 */
import { sha256 } from '../shared/fingerprint.ts';

export interface Chance {
  /** From 0 up to, not including, 1. */
  readonly share: () => number;
  /** A whole number, both ends included. */
  readonly whole: (from: number, to: number) => number;
  readonly oneOf: <T>(list: readonly T[]) => T;
}

export const chanceOf = (name: string): Chance => {
  let state = Number.parseInt(sha256(name).slice(0, 8), 16);
  const share = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state >>> 8) / 2 ** 24;
  };
  const whole = (from: number, to: number): number => from + Math.floor(share() * (to - from + 1));
  return {
    share,
    whole,
    oneOf: (list) => {
      const chosen = list[whole(0, list.length - 1)];
      if (chosen === undefined) throw new Error('There is nothing to choose from');
      return chosen;
    },
  };
};
