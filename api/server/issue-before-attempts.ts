/** Work that may fail and is tried again: at first soon, then ever more seldom. Times are of the steady clock. */
import { steadyMilliseconds } from '../../shared/clock.ts';

export interface Attempts {
  /**
   * Does the work, unless the same failed a short while ago. What it throws is handed to `failed` and no further; true
   * where it was done.
   */
  readonly run: (about: string, work: () => Promise<void>, failed: (error: unknown) => void) => Promise<boolean>;
}

/** `first`: milliseconds to wait after the first failure; doubled after each, up to `longest`. */
export const attemptsOf = (first: number, longest: number, now: () => number = steadyMilliseconds): Attempts => {
  const failures = new Map<string, { count: number; notBefore: number }>();
  return {
    run: async (about, work, failed) => {
      const { count = 0, notBefore = 0 } = failures.get(about) ?? {};
      if (count > 0 && now() < notBefore) return false;
      try {
        await work();
        failures.delete(about);
        return true;
      } catch (error) {
        failures.set(about, { count: count + 1, notBefore: now() + Math.min(longest, first * 2 ** count) });
        failed(error);
        return false;
      }
    },
  };
};
