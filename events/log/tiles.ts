/**
 * Roots of any beginning of an open book's log, and what leads from one to the other, without hashing the log each time.
 * The roots of full tiles of 1,024 leaves are remembered while the book is open: the log only grows, so they stay. Asked a
 * second time, a log of millions costs a few thousand hashes. It takes the stored leaves at their word; `verify` does not.
 */
import { EMPTY_RANGE, extend, nodeHash, rootOf, splitOf } from './merkle.ts';
import type { Connection } from './tables.ts';

const TILE = 1_024;

const remembered = new WeakMap<Connection, string[]>();

/** The root over the leaves from `start` (from 0) to before `end`, of the tree where RFC 6962 puts such a subtree. */
type RootOver = (start: number, end: number) => string;

const rootsIn = (db: Connection): RootOver => {
  const tiles = remembered.get(db) ?? [];
  remembered.set(db, tiles);
  const leaves = db
    .prepare<[number, number], string>(
      'select leaf from entries where position > ? and position <= ? order by position',
    )
    .pluck();
  const rootOfLeaves: RootOver = (start, end) => rootOf(extend(EMPTY_RANGE, leaves.all(start, end)));
  const tile = (number: number): string => {
    const known = tiles[number];
    if (known !== undefined) return known;
    const root = rootOfLeaves(number * TILE, (number + 1) * TILE);
    tiles[number] = root;
    return root;
  };
  const rootOver: RootOver = (start, end) => {
    const size = end - start;
    if (size === TILE && start % TILE === 0) return tile(start / TILE);
    if (size <= TILE) return rootOfLeaves(start, end);
    const middle = start + splitOf(size);
    return nodeHash(rootOver(start, middle), rootOver(middle, end));
  };
  return rootOver;
};

/** The root of the log's first `size` entries, which must be there. */
export const rootOfFirst = (db: Connection, size: number): string => rootsIn(db)(0, size);

/** The hashes that show the log's first `size` entries to continue its first `oldSize` (RFC 6962 section 2.1.2). */
export const pathBetween = (db: Connection, oldSize: number, size: number): string[] => {
  const rootOver = rootsIn(db);
  /** `whole`: the older tree is a full subtree here, so its root is known already. */
  const between = (start: number, end: number, whole: boolean): string[] => {
    if (oldSize === end) return whole ? [] : [rootOver(start, end)];
    const middle = start + splitOf(end - start);
    return oldSize <= middle
      ? [...between(start, middle, whole), rootOver(middle, end)]
      : [...between(middle, end, false), rootOver(start, middle)];
  };
  return oldSize === 0 ? [] : between(0, size, true);
};
