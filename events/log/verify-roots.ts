/**
 * Checks the roots that were said of the log (by issued sheets, by the book that went on, by the last checkpoint) against
 * the tree that the rows make.
 */
import type { GrowingTree } from './growing-tree.ts';
import { grow, leafHash, rootOf } from './merkle.ts';
import type { Connection } from './tables.ts';

/** Reports a problem at a position; null where it is not about one entry. */
export type Tell = (position: number | null, problem: string) => void;

/** A root that something said the log had at a position. */
export interface SaidRoot {
  /** Position of the entry that says so; null for the checkpoint. */
  readonly by: number | null;
  readonly position: number;
  readonly root: string;
  readonly who: string;
}

/**
 * An entry is nearly always of a moment just before itself: the tree still knows that root. What speaks of later waits
 * until the log is there; what speaks of long ago is looked up at the end, all of it in one more pass.
 */
export const saidRoots = (tree: GrowingTree, elsewhere: readonly SaidRoot[], tell: Tell) => {
  const toCome: SaidRoot[] = [];
  const longAgo: SaidRoot[] = [];
  /** The nearest position that is waited for. */
  let nearest = Number.POSITIVE_INFINITY;
  const judge = (each: SaidRoot, root: string): void => {
    if (each.root === root) return;
    tell(
      each.by,
      `${each.who} says another root for position ${each.position} than the log gives: an entry up to there was changed`,
    );
  };
  const add = (each: SaidRoot): void => {
    if (each.position > tree.size()) {
      toCome.push(each);
      nearest = Math.min(nearest, each.position);
      return;
    }
    const root = Number.isInteger(each.position) && each.position >= 0 ? tree.rootAt(each.position) : '';
    if (root === undefined) longAgo.push(each);
    else judge(each, root);
  };
  for (const each of elsewhere) add(each);
  return {
    add,
    /** To be asked after every entry. */
    check: (): void => {
      if (tree.size() < nearest) return;
      const ripe = toCome.splice(0);
      nearest = Number.POSITIVE_INFINITY;
      for (const each of ripe) add(each);
    },
    /** What is left when all entries are in. */
    end: (db: Connection): void => {
      for (const each of toCome) {
        tell(each.by, `${each.who} speaks of position ${each.position}, but the log ends at ${tree.size()}`);
      }
      longAgo.sort((a, b) => a.position - b.position);
      const texts = db.prepare<[], Uint8Array>('select cast(entry as blob) from entries order by position').pluck();
      const peaks: string[] = [];
      let next = 0;
      let size = 0;
      for (const text of longAgo.length === 0 ? [] : texts.iterate()) {
        grow(peaks, size, leafHash(text));
        size += 1;
        for (let each = longAgo[next]; each?.position === size; each = longAgo[++next]) {
          judge(each, rootOf({ size, peaks }));
        }
        if (next === longAgo.length) break;
      }
    },
  };
};
