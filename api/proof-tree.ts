/** A book's tree at its head, every leaf worked out from the stored text, and the proofs that are made from it. */
import type { Book } from '../events/book.ts';
import { leafHash } from '../events/log/merkle.ts';
import { type Proof, proveConsistency, proveInclusion, type Tree } from '../events/log/proofs.ts';
import { UserProblem } from '../shared/refusal.ts';

const PAGE = 5_000;

const treeOf = (book: Book): Tree => {
  const { position } = book.head();
  const leaves: string[] = [];
  for (let after = 0; after < position; after += PAGE) {
    for (const { entry } of book.rows(after, Math.min(PAGE, position - after))) leaves.push(leafHash(entry));
  }
  return { leaves, checkpoint: book.checkpoint(), verifierKey: book.verifierKey };
};

/** That one entry, named by its id or its position, is in the book. */
export const inclusionOf = (book: Book, entry: string): Proof => {
  const tree = treeOf(book);
  const { length } = tree.leaves;
  const position = book.find(entry)[0]?.position ?? (/^\d{1,10}$/.test(entry) ? Number(entry) : 0);
  const [row] = position < 1 ? [] : book.rows(position - 1, 1);
  if (row === undefined) {
    throw new UserProblem(`There is no entry ${entry} in this book of ${length}; give an id or a position`);
  }
  return proveInclusion(tree, row.position, row.entry);
};

/** That the book continues what it was at an older position. */
export const consistencyOf = (book: Book, position: string): Proof => {
  const tree = treeOf(book);
  return proveConsistency(tree, positionOf(position, tree.leaves.length));
};

export const positionOf = (text: string, most: number): number => {
  const position = Number(text);
  if (!/^\d{1,10}$/.test(text) || position > most) {
    throw new UserProblem(`"${text}" is not a position of this book; give a whole number up to ${most}`, 2);
  }
  return position;
};

/** A head that nobody signed proves nothing to an outsider. */
export const isSigned = (checkpoint: string): boolean => !checkpoint.endsWith('\nunsigned\n');
