/**
 * The tree over a book's entries, as in RFC 6962 section 2.1 (unchanged in RFC 9162 section 2.1). Hashes are
 * lower-case hex. Pure arithmetic: nothing here reads a book. A `CompactRange` holds the roots of the full subtrees
 * to the left of the next leaf, which is all that is needed to append and to give the root.
 */
import { sha256 } from '../../shared/fingerprint.ts';

export interface CompactRange {
  /** How many leaves are under it. */
  readonly size: number;
  /** Roots of the full subtrees, the largest (leftmost) first: one for every 1 in the binary form of `size`. */
  readonly peaks: readonly string[];
}

export const EMPTY_RANGE: CompactRange = { size: 0, peaks: [] };

/** SHA-256(0x00 ‖ content): no leaf can pass for an inner node. */
export const leafHash = (content: string | Uint8Array): string =>
  sha256(typeof content === 'string' ? `\0${content}` : Buffer.concat([ZERO, content]));

/** SHA-256(0x01 ‖ left ‖ right). */
export const nodeHash = (left: string, right: string): string => {
  // One buffer for all: millions of nodes are hashed one after the other. What is no hash is not taken for one.
  if (node.write(left, 1, 32, 'hex') !== 32 || node.write(right, 33, 32, 'hex') !== 32) {
    return sha256(Buffer.from(`01${left}${right}`, 'hex'));
  }
  return sha256(node);
};

const node = Buffer.alloc(65, 1);

const ZERO = Buffer.of(0);

/** The range with these leaf hashes appended in order. */
export const extend = (range: CompactRange, leaves: Iterable<string>): CompactRange => {
  const peaks = [...range.peaks];
  let size = range.size;
  for (const leaf of leaves) {
    grow(peaks, size, leaf);
    size += 1;
  }
  return { size, peaks };
};

/** Appends one leaf to the peaks of a tree of `size`, in place: for whoever goes through millions of them. */
export const grow = (peaks: string[], size: number, leaf: string): void => {
  let hash = leaf;
  for (let rest = size; rest % 2 === 1; rest = Math.floor(rest / 2)) hash = nodeHash(peaks.pop() ?? '', hash);
  peaks.push(hash);
};

/** The tree's root; of an empty tree, the hash of nothing. */
export const rootOf = (range: CompactRange): string =>
  range.peaks.length === 0 ? sha256('') : range.peaks.reduceRight((right, left) => nodeHash(left, right));

const rootOver = (leaves: readonly string[]): string => rootOf(extend(EMPTY_RANGE, leaves));

/** The largest power of two below `size`, where RFC 6962 splits a tree. */
export const splitOf = (size: number): number => {
  let split = 1;
  while (split * 2 < size) split *= 2;
  return split;
};

/** The sibling hashes that lead from one leaf to the root, the nearest first (PATH of RFC 6962 section 2.1.1). */
export const inclusionProof = (leaves: readonly string[], index: number): string[] => {
  if (leaves.length <= 1) return [];
  const split = splitOf(leaves.length);
  const [left, right] = [leaves.slice(0, split), leaves.slice(split)];
  return index < split
    ? [...inclusionProof(left, index), rootOver(right)]
    : [...inclusionProof(right, index - split), rootOver(left)];
};

/** The hashes that show the tree over all leaves to continue the one over the first `size` (section 2.1.2). */
export const consistencyProof = (leaves: readonly string[], size: number): string[] =>
  size === 0 ? [] : continuation(leaves, size, true);

/** `whole`: the older tree is a full subtree here, so the verifier holds its root already (SUBPROOF's flag). */
const continuation = (leaves: readonly string[], size: number, whole: boolean): string[] => {
  if (size === leaves.length) return whole ? [] : [rootOver(leaves)];
  const split = splitOf(leaves.length);
  const [left, right] = [leaves.slice(0, split), leaves.slice(split)];
  return size <= split
    ? [...continuation(left, size, whole), rootOver(right)]
    : [...continuation(right, size - split, false), rootOver(left)];
};

/** True when the proof leads from the leaf at `index` (from 0) to the root of a tree of `size` (RFC 9162 section 2.1.3.2). */
export const provesInclusion = (
  leaf: string,
  index: number,
  size: number,
  proof: readonly string[],
  root: string,
): boolean => {
  if (index < 0 || index >= size) return false;
  let place = index;
  let last = size - 1;
  let hash = leaf;
  for (const sibling of proof) {
    if (last === 0) return false;
    if (place % 2 === 1 || place === last) {
      hash = nodeHash(sibling, hash);
      while (place % 2 === 0 && place !== 0) [place, last] = [half(place), half(last)];
    } else {
      hash = nodeHash(hash, sibling);
    }
    [place, last] = [half(place), half(last)];
  }
  return last === 0 && hash === root;
};

/** True when the tree of `size` continues the tree of `oldSize` (RFC 9162 section 2.1.4.2). */
export const provesConsistency = (
  oldSize: number,
  size: number,
  oldRoot: string,
  root: string,
  proof: readonly string[],
): boolean => {
  if (oldSize > size || oldSize < 0) return false;
  if (oldSize === size) return proof.length === 0 && oldRoot === root;
  if (oldSize === 0) return proof.length === 0 && oldRoot === sha256('');
  let place = oldSize - 1;
  let last = size - 1;
  while (place % 2 === 1) [place, last] = [half(place), half(last)];
  const path = place === 0 ? [oldRoot, ...proof] : proof;
  const [seed, ...rest] = path;
  if (seed === undefined) return false;
  let older = seed;
  let newer = seed;
  for (const sibling of rest) {
    if (last === 0) return false;
    if (place % 2 === 1 || place === last) {
      older = nodeHash(sibling, older);
      newer = nodeHash(sibling, newer);
      while (place % 2 === 0 && place !== 0) [place, last] = [half(place), half(last)];
    } else {
      newer = nodeHash(newer, sibling);
    }
    [place, last] = [half(place), half(last)];
  }
  return last === 0 && older === oldRoot && newer === root;
};

const half = (value: number): number => Math.floor(value / 2);
