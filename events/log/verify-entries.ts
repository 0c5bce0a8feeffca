/** Checks the whole log: every row of it, the tree that they make, the roots said before, and the list of the cows' entries. */
import { type CowStart, cowEntriesCheck, cowStart } from './cow-entries.ts';
import { growingTree } from './growing-tree.ts';
import type { CompactRange } from './merkle.ts';
import type { Connection } from './tables.ts';
import type { Continued } from './verify-names.ts';
import { type SaidRoot, saidRoots, type Tell } from './verify-roots.ts';
import { rowCheck, rowsBetween } from './verify-rows.ts';
import { type Clean, endOf, type Stripes } from './verify-stripes.ts';

/** What the check of the rows comes to. */
export interface Checked extends CompactRange {
  /** The entries that say this file goes on as another book. */
  readonly continued: readonly Continued[];
}

/**
 * Checks every entry in one pass, in constant memory; gives the tree that the rows make. Where stripes of the log were
 * found clean by themselves, only what joins them is left to do; any other is gone through here, row by row, in its place.
 */
export const checkEntries = (
  db: Connection,
  saidElsewhere: readonly SaidRoot[],
  tell: Tell,
  start: CowStart = cowStart(db),
  stripes?: Stripes,
): Checked => {
  const tree = growingTree();
  const said = saidRoots(tree, saidElsewhere, tell);
  const cows = cowEntriesCheck(db, start, tell);
  const continued: Continued[] = [];
  const check = rowCheck(db, {
    tell,
    row: (leaf, subject, position) => {
      tree.add(leaf);
      cows.entry(subject, position);
    },
    said: said.add,
    continued: (by) => continued.push(by),
  });
  const goThrough = (behind: number, upTo: number): void => {
    for (const row of rowsBetween(db, behind, upTo)) {
      check.row(row);
      said.check();
    }
  };
  const join = (clean: Clean): void => {
    let next = 0;
    for (const [index, leaf] of clean.leaves.entries()) {
      tree.add(leaf);
      for (let each = clean.said[next]; each?.by === clean.behind + index + 1; each = clean.said[++next])
        said.add(each);
    }
    cows.join(clean.cows);
    continued.push(...clean.continued);
    check.skip(clean.behind + clean.leaves.length, clean.last);
  };
  /** What is clean by itself may still not be so where it stands: something is missing ahead of it, or was recorded later. */
  const follows = ({ behind, first }: Clean): boolean => {
    const before = check.times.last();
    return check.last() === behind && (before === undefined || first >= before);
  };
  let behind = Number.MIN_SAFE_INTEGER;
  for (let index = 0; index < (stripes?.count ?? 0); index += 1) {
    const clean = stripes?.take(index);
    if (clean !== undefined && follows(clean)) join(clean);
    else goThrough(behind, endOf(index));
    behind = endOf(index);
  }
  goThrough(behind, Number.POSITIVE_INFINITY);
  said.end(db);
  cows.end();
  return { size: tree.size(), peaks: tree.peaks(), continued };
};
