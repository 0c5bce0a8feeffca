/**
 * Proofs for somebody outside: that one entry is in the book, that today's book continues an older one (RFC 6962), each with
 * the signed checkpoint it leads to; and their check, which needs no book at all.
 */
import { z } from 'zod';
import { accepted, type Result, refused } from '../../shared/refusal.ts';
import { consistencyProof, inclusionProof, leafHash, provesConsistency, provesInclusion } from './merkle.ts';
import { noteIsSignedBy, parseCheckpoint, verifierKey } from './note.ts';

const hash = z.string().regex(/^[0-9a-f]{64}$/, 'must be 64 hex digits');
const common = {
  /** Entries in the tree the proof leads to. */
  treeSize: z.number().int().min(0),
  root: hash,
  path: z.array(hash),
  checkpoint: z.string(),
  verifierKey: z.string(),
};
const inclusion = z.strictObject({
  proof: z.literal('inclusion'),
  /** The stored entry, exactly; its hash is the leaf. */
  entry: z.string(),
  /** From 1, as printed on sheets. */
  position: z.number().int().min(1),
  ...common,
});
const consistency = z.strictObject({
  proof: z.literal('consistency'),
  oldSize: z.number().int().min(0),
  oldRoot: hash,
  ...common,
});
const anyProof = z.discriminatedUnion('proof', [inclusion, consistency]);

export type Proof = z.infer<typeof anyProof>;

export interface Signed {
  readonly checkpoint: string;
  readonly verifierKey: string;
}

/** `texts`: every stored entry up to the checkpoint's size, in order. */
export const proveInclusion = (texts: readonly string[], position: number, root: string, signed: Signed): Proof => ({
  proof: 'inclusion',
  entry: texts[position - 1] ?? '',
  position,
  treeSize: texts.length,
  root,
  path: inclusionProof(texts.map(leafHash), position - 1),
  checkpoint: signed.checkpoint,
  verifierKey: signed.verifierKey,
});

export const proveConsistency = (
  texts: readonly string[],
  oldSize: number,
  oldRoot: string,
  root: string,
  signed: Signed,
): Proof => ({
  proof: 'consistency',
  oldSize,
  oldRoot,
  treeSize: texts.length,
  root,
  path: consistencyProof(texts.map(leafHash), oldSize),
  checkpoint: signed.checkpoint,
  verifierKey: signed.verifierKey,
});

/** One sentence on what the proof shows, or why it does not hold. `kept`: a checkpoint that somebody else kept. */
export const checkProof = (value: unknown, kept?: string): Result<string> => {
  const read = anyProof.safeParse(value);
  if (!read.success)
    return refused('This is not a proof as "proof inclusion" or "proof consistency" writes it; check the file');
  const proof = read.data;
  const signed = checkSignature(proof);
  if (!signed.ok) return signed;
  if (proof.proof === 'inclusion') {
    if (kept !== undefined)
      return refused('A checkpoint kept elsewhere goes with a consistency proof; make one with "proof consistency"');
    return provesInclusion(leafHash(proof.entry), proof.position - 1, proof.treeSize, proof.path, proof.root)
      ? accepted(
          `This entry stands at position ${proof.position} of the book of ${proof.treeSize} entries that the checkpoint signs.`,
        )
      : refused(`The proof does not hold: this entry is not at position ${proof.position} under that root`);
  }
  const older = kept === undefined ? undefined : parseCheckpoint(kept);
  if (kept !== undefined && older === undefined)
    return refused('The checkpoint kept elsewhere cannot be read; it is a text of three lines and a signature');
  if (older !== undefined && (older.size !== proof.oldSize || older.root !== proof.oldRoot)) {
    return refused(
      `The proof is for position ${proof.oldSize} with another root than the checkpoint that was kept: the book was changed since, or this is another book`,
    );
  }
  return provesConsistency(proof.oldSize, proof.treeSize, proof.oldRoot, proof.root, proof.path)
    ? accepted(
        `The book of ${proof.treeSize} entries continues the one of ${proof.oldSize}: nothing before was changed, taken out or put in.`,
      )
    : refused('The proof does not hold: the newer book does not continue the older one');
};

/** The checkpoint in the proof says the same size and root, and its signature is good. */
const checkSignature = (proof: Proof): Result<true> => {
  const head = parseCheckpoint(proof.checkpoint);
  if (head === undefined || head.size !== proof.treeSize || head.root !== proof.root) {
    return refused('The checkpoint in the proof is of another size or root than the proof leads to');
  }
  const [name = '', , encoded = ''] = splitKey(proof.verifierKey);
  const publicKey = Buffer.from(encoded, 'base64').subarray(1);
  if (name !== head.origin || publicKey.length !== 32 || verifierKey(name, publicKey) !== proof.verifierKey) {
    return refused('The key in the proof cannot be read, or is not the one of that book');
  }
  return noteIsSignedBy(proof.checkpoint, name, publicKey)
    ? accepted(true)
    : refused('The checkpoint in the proof is not signed by that key');
};

/** `<name>+<key id>+<key>`; base64 may hold a plus itself, so only the first two count. */
const splitKey = (key: string): string[] => {
  const first = key.indexOf('+');
  const second = key.indexOf('+', first + 1);
  return [key.slice(0, first), key.slice(first + 1, second), key.slice(second + 1)];
};
