/** The check of a proof, for whoever has nothing else: no book, at most a checkpoint or a key that they kept. */
import { accepted, type Result, refused } from '../../shared/refusal.ts';
import { leafHash, provesConsistency, provesInclusion } from './merkle.ts';
import { type Checkpoint, noteIsSignedBy, parseCheckpoint, verifierKey } from './note.ts';
import { anyProof, type Proof } from './proofs.ts';

export interface Kept {
  /** A checkpoint of the older book that somebody else kept. */
  readonly checkpoint?: string | undefined;
  /** The book's verifier key, as it was given to somebody before. */
  readonly key?: string | undefined;
}

/** What the proof shows, in sentences, or why it does not hold. */
export const checkProof = (value: unknown, kept: Kept = {}): Result<string> => {
  const read = anyProof.safeParse(value);
  if (!read.success) {
    return refused('This is not a proof as "proof inclusion" or "proof consistency" writes it; check the file');
  }
  const proof = read.data;
  const signed = checkSignature(proof, kept.key?.trim());
  if (!signed.ok) return signed;
  const older = checkKept(proof, kept.checkpoint);
  if (!older.ok) return older;
  const shown = proof.proof === 'inclusion' ? checkInclusion(proof) : checkConsistency(proof);
  return shown.ok ? accepted([shown.value, ...older.value, signed.value].join(' ')) : shown;
};

const checkInclusion = ({ entry, position, leafIndex, treeSize, path, root }: Inclusion): Result<string> =>
  leafIndex === position - 1 && provesInclusion(leafHash(entry), leafIndex, treeSize, path, root)
    ? accepted(
        `This entry stands at position ${position} of the book of ${treeSize} entries that the checkpoint signs.`,
      )
    : refused(`The proof does not hold: this entry is not at position ${position} under that root`);

const checkConsistency = ({ oldSize, oldRoot, treeSize, root, path }: Consistency): Result<string> =>
  provesConsistency(oldSize, treeSize, oldRoot, root, path)
    ? accepted(
        `The book of ${treeSize} entries continues the one of ${oldSize}: nothing before was changed, taken out or put in.`,
      )
    : refused('The proof does not hold: the newer book does not continue the older one');

/** A checkpoint that was kept must be of the very tree that the proof begins with (or leads to, for one entry). */
const checkKept = (proof: Proof, note: string | undefined): Result<string[]> => {
  if (note === undefined) return accepted([]);
  const older = parseCheckpoint(note);
  if (older === undefined) {
    return refused('The checkpoint that was kept cannot be read; it is a text of three lines and a signature');
  }
  const [size, root] = proof.proof === 'inclusion' ? [proof.treeSize, proof.root] : [proof.oldSize, proof.oldRoot];
  if (older.size !== size) {
    return refused(
      `The checkpoint that was kept is of position ${older.size}, but the proof speaks of ${size}; ask the book for "proof consistency ${older.size}"`,
    );
  }
  if (older.root !== root) {
    return refused(
      `The proof is for position ${size} with another root than the checkpoint that was kept: the book was changed since, or this is another book`,
    );
  }
  return accepted([...nameOf(older, note, proof)]);
};

const nameOf = (older: Checkpoint, note: string, proof: Proof): string[] => {
  const { name, publicKey } = keyIn(proof.verifierKey);
  if (older.origin !== name) {
    return [
      `The checkpoint that was kept is of ${older.origin}, and the book goes by ${name} now: it went on from there.`,
    ];
  }
  return [
    noteIsSignedBy(note, name, publicKey)
      ? 'The checkpoint that was kept agrees, and the same key signed it.'
      : 'The checkpoint that was kept agrees, but this key did not sign it.',
  ];
};

/** The checkpoint in the proof says the same size and root, and its signature is good. */
const checkSignature = (proof: Proof, given: string | undefined): Result<string> => {
  const head = parseCheckpoint(proof.checkpoint);
  if (head === undefined || head.size !== proof.treeSize || head.root !== proof.root) {
    return refused('The checkpoint in the proof is of another size or root than the proof leads to');
  }
  const { name, publicKey } = keyIn(proof.verifierKey);
  if (name !== head.origin || publicKey.length !== 32 || verifierKey(name, publicKey) !== proof.verifierKey) {
    return refused('The key in the proof cannot be read, or is not the one of that book');
  }
  if (!noteIsSignedBy(proof.checkpoint, name, publicKey)) {
    return refused('The checkpoint in the proof is not signed by that key');
  }
  if (given === undefined) {
    return accepted(`It is signed with ${proof.verifierKey}; see that this is the key you know the book by (--key).`);
  }
  return given === proof.verifierKey
    ? accepted('It is signed with the key that was given.')
    : refused(`It is signed with ${proof.verifierKey}, which is not the key that was given`);
};

/** `<name>+<key id>+<key>`; base64 may hold a plus itself, so only the first two count. */
const keyIn = (key: string): { name: string; publicKey: Uint8Array } => {
  const first = key.indexOf('+');
  const second = key.indexOf('+', first + 1);
  return { name: key.slice(0, first), publicKey: Buffer.from(key.slice(second + 1), 'base64').subarray(1) };
};

type Inclusion = Extract<Proof, { proof: 'inclusion' }>;
type Consistency = Extract<Proof, { proof: 'consistency' }>;
