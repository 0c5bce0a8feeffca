/** Pieces of the log that are each checked by themselves, so that two threads can share them. */
import type { Instant } from '../../shared/instant.ts';
import { type CowStart, type CowSums, cowDraws, cowEntriesCheck } from './cow-entries.ts';
import type { Connection } from './tables.ts';
import type { Continued } from './verify-names.ts';
import type { SaidRoot } from './verify-roots.ts';
import { rowCheck, rowsBetween } from './verify-rows.ts';

/** So many entries make a stripe. */
export const STRIPE = 2_000;

/** The position a stripe ends with; the first has the index 0. */
export const endOf = (index: number): number => (index + 1) * STRIPE;

/** A stripe with all its rows there and nothing wrong in any of them, and what is left to be held against the others. */
export interface Clean {
  readonly behind: number;
  readonly leaves: readonly string[];
  readonly said: readonly SaidRoot[];
  readonly continued: readonly Continued[];
  readonly cows: CowSums;
  /** When its first and its last entry were recorded; none between went back. */
  readonly first: Instant;
  readonly last: Instant;
}

export interface Stripes {
  readonly count: number;
  /** Asked for one after the other. Undefined where it is not clean, or was not checked: the rows have to be gone through. */
  readonly take: (index: number) => Clean | undefined;
}

/**
 * Checks one stripe after the other. Undefined at the first thing that is wrong: to say what, and in which order, is for
 * who goes through the whole log.
 */
export const stripeCheck = (db: Connection, start: CowStart) => {
  const draws = cowDraws(start.secret);
  return (index: number): Clean | undefined => {
    // What lies before the first position belongs to the first stripe, and makes it unclean.
    const [behind, from] = [index * STRIPE, index === 0 ? Number.MIN_SAFE_INTEGER : index * STRIPE];
    let isClean = true;
    const spoil = (): void => {
      isClean = false;
    };
    const leaves: string[] = [];
    const said: SaidRoot[] = [];
    const continued: Continued[] = [];
    try {
      const cows = cowEntriesCheck(db, start, spoil, draws);
      const listener = {
        tell: spoil,
        row: (leaf: string, subject: string | null, position: number): void => {
          leaves.push(leaf);
          cows.entry(subject, position);
        },
        said: (root: SaidRoot) => said.push(root),
        continued: (by: Continued) => continued.push(by),
      };
      const check = rowCheck(db, listener, behind);
      for (const row of rowsBetween(db, from, endOf(index))) {
        check.row(row);
        if (!isClean) return undefined;
      }
      const [first, last] = [check.times.first(), check.times.last()];
      if (leaves.length !== STRIPE || first === undefined || last === undefined) return undefined;
      return { behind, leaves, said, continued, cows: cows.sums(), first, last };
    } catch {
      return undefined;
    }
  };
};
