/**
 * The tree while its leaves come one after the other. Each state shares all but a few hashes with the one before it, so the
 * last thousands of states are kept at next to no cost, and the root of any of them can still be asked for.
 */
import { EMPTY_RANGE, nodeHash, rootOf } from './merkle.ts';

export interface GrowingTree {
  readonly add: (leaf: string) => void;
  readonly size: () => number;
  /** Roots of the full subtrees, the largest first. */
  readonly peaks: () => string[];
  /** The root over the first `size` leaves; undefined where that state is no longer kept, or is still to come. */
  readonly rootAt: (size: number) => string | undefined;
}

/** The smallest full subtree, and those to its left. */
interface Peak {
  readonly hash: string;
  readonly left: Peak | undefined;
}

const KEPT = 4_096;

export const growingTree = (): GrowingTree => {
  const states: (Peak | undefined)[] = new Array<Peak | undefined>(KEPT).fill(undefined);
  let size = 0;
  let last: Peak | undefined;
  return {
    add: (leaf) => {
      let hash = leaf;
      for (let rest = size; rest % 2 === 1; rest = (rest - 1) / 2) {
        hash = nodeHash(last?.hash ?? '', hash);
        last = last?.left;
      }
      last = { hash, left: last };
      size += 1;
      states[size % KEPT] = last;
    },
    size: () => size,
    peaks: () => peaksOf(last),
    rootAt: (asked) => {
      if (asked === 0) return rootOf(EMPTY_RANGE);
      if (asked > size || asked <= size - KEPT) return undefined;
      return rootOf({ size: asked, peaks: peaksOf(states[asked % KEPT]) });
    },
  };
};

const peaksOf = (smallest: Peak | undefined): string[] => {
  const peaks: string[] = [];
  for (let peak = smallest; peak !== undefined; peak = peak.left) peaks.push(peak.hash);
  return peaks.reverse();
};
