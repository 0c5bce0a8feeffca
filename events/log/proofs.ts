/**
 * Proofs for somebody outside: that one entry is in the book, that today's book continues an older one (RFC 6962 sections
 * 2.1.1 and 2.1.2), each with the signed checkpoint it leads to. `check-proof.ts` checks them and needs no book.
 */
import { z } from 'zod';
import { consistencyProof, EMPTY_RANGE, extend, inclusionProof, rootOf } from './merkle.ts';

const hash = z.string().regex(/^[0-9a-f]{64}$/, 'must be 64 hex digits');
const count = z.number().int().min(0);
const common = {
  /** Entries in the tree that the path leads to, and its root. */
  treeSize: count,
  root: hash,
  /** Audit path or consistency proof, in the order of the RFC. */
  path: z.array(hash),
  /** C2SP tlog-checkpoint of that tree. */
  checkpoint: z.string(),
  /** The key that signs it, in the text form of C2SP signed-note. */
  verifierKey: z.string(),
};

export const anyProof = z.discriminatedUnion('proof', [
  z.strictObject({
    proof: z.literal('inclusion'),
    /** The stored entry, exactly: the leaf is SHA-256 of a zero byte and these UTF-8 bytes. */
    entry: z.string(),
    /** From 1, as printed on sheets. */
    position: count.min(1),
    /** From 0, as the RFC counts. */
    leafIndex: count,
    ...common,
  }),
  z.strictObject({ proof: z.literal('consistency'), oldSize: count, oldRoot: hash, ...common }),
]);
export type Proof = z.infer<typeof anyProof>;

/** A book at its head: the hash of every entry in order, and what signs it. */
export interface Tree {
  readonly leaves: readonly string[];
  readonly checkpoint: string;
  readonly verifierKey: string;
}

export const proveInclusion = (tree: Tree, position: number, entry: string): Proof => ({
  proof: 'inclusion',
  entry,
  position,
  leafIndex: position - 1,
  ...ledTo(tree, inclusionProof(tree.leaves, position - 1)),
});

export const proveConsistency = (tree: Tree, oldSize: number): Proof => ({
  proof: 'consistency',
  oldSize,
  oldRoot: rootOver(tree.leaves.slice(0, oldSize)),
  ...ledTo(tree, consistencyProof(tree.leaves, oldSize)),
});

const ledTo = ({ leaves, checkpoint, verifierKey }: Tree, path: string[]) => ({
  treeSize: leaves.length,
  root: rootOver(leaves),
  path,
  checkpoint,
  verifierKey,
});

const rootOver = (leaves: readonly string[]): string => rootOf(extend(EMPTY_RANGE, leaves));
