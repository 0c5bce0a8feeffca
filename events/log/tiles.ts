/**
 * Roots of any beginning of an open book's log, and what leads from one to the other, without hashing the log each time.
 * The roots of full tiles of 1,024 leaves are remembered while the book is open, and of the few tiles looked into last all
 * that is in them: the log only grows, so they stay. Asked a second time, a log of millions costs a few thousand hashes. It
 * takes the stored leaves at their word; `verify` does not.
 */
import { EMPTY_RANGE, nodeHash, rootOf, splitOf } from './merkle.ts';
import type { Connection } from './tables.ts';

const TILE = 1_024;
/** Tiles whose inner hashes are kept: a proof looks into those of the two sizes it is between. */
const MOST_OPEN = 4;

/** The hashes of full subtrees by their height, the leaves first; from the left as far as the tile goes. */
type Levels = readonly (readonly string[])[];

interface Remembered {
  /** Roots of full tiles. */
  readonly roots: string[];
  /** By the tile's number, the one looked into last behind the others. */
  readonly open: Map<number, Levels>;
}

const remembered = new WeakMap<Connection, Remembered>();

/** The root over the leaves from `start` (from 0) to before `end`, of the tree where RFC 6962 puts such a subtree. */
type RootOver = (start: number, end: number) => string;

const rootsIn = (db: Connection): RootOver => {
  const { roots, open } = remembered.get(db) ?? { roots: [], open: new Map<number, Levels>() };
  remembered.set(db, { roots, open });
  const leaves = db
    .prepare<[number, number], string>(
      'select leaf from entries where position > ? and position <= ? order by position',
    )
    .pluck();
  /** What is in a tile, of which so many leaves are asked for. */
  const opened = (tile: number, wanted: number): Levels => {
    const known = open.get(tile);
    const isEnough = known !== undefined && (known[0]?.length ?? 0) >= wanted;
    const levels = isEnough ? known : levelsOver(leaves.all(tile * TILE, (tile + 1) * TILE));
    open.delete(tile);
    open.set(tile, levels);
    for (const oldest of open.keys()) {
      if (open.size <= MOST_OPEN) break;
      open.delete(oldest);
    }
    return levels;
  };
  const inTile: RootOver = (start, end) => {
    const size = end - start;
    const tile = Math.floor(start / TILE);
    const height = Math.log2(size);
    if (Number.isInteger(height)) {
      // Where an entry is gone there is no hash, and what should lead somewhere does not.
      return opened(tile, end - tile * TILE)[height]?.[(start - tile * TILE) / size] ?? '';
    }
    const middle = start + splitOf(size);
    return nodeHash(inTile(start, middle), inTile(middle, end));
  };
  const rootOver: RootOver = (start, end) => {
    const size = end - start;
    if (size === 0) return rootOf(EMPTY_RANGE);
    if (size === TILE) {
      const root = roots[start / TILE] ?? inTile(start, end);
      roots[start / TILE] = root;
      return root;
    }
    if (size < TILE) return inTile(start, end);
    const middle = start + splitOf(size);
    return nodeHash(rootOver(start, middle), rootOver(middle, end));
  };
  return rootOver;
};

const levelsOver = (leaves: readonly string[]): Levels => {
  const levels = [leaves];
  for (let below = leaves; below.length > 1; ) {
    const level: string[] = [];
    for (let at = 1; at < below.length; at += 2) level.push(nodeHash(below[at - 1] ?? '', below[at] ?? ''));
    levels.push(level);
    below = level;
  }
  return levels;
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
