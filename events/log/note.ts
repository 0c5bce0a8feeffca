/**
 * Signed notes and checkpoints, as in the C2SP specifications "signed-note" and "tlog-checkpoint". A checkpoint says
 * how many entries a book has and which root they give; whoever keeps a copy can later show that the book changed.
 */
import crypto, { type KeyObject } from 'node:crypto';

export interface Checkpoint {
  readonly origin: string;
  readonly size: number;
  /** 64 hex digits. */
  readonly root: string;
}

/** Signature type 1 of signed-note: Ed25519. */
const ED25519 = Buffer.of(1);

/** The note's text: three lines. What is signed is exactly this, its last newline included. */
export const checkpointText = ({ origin, size, root }: Checkpoint): string =>
  `${origin}\n${size}\n${Buffer.from(root, 'hex').toString('base64')}\n`;

/** Reads the first three lines of a note; `undefined` where it is not a checkpoint. */
export const parseCheckpoint = (note: string): Checkpoint | undefined => {
  const [origin = '', size = '', root = ''] = note.split('\n');
  const bytes = Buffer.from(root, 'base64');
  if (origin === '' || !/^(0|[1-9]\d{0,15})$/.test(size)) return undefined;
  if (bytes.length !== 32 || bytes.toString('base64') !== root) return undefined;
  return { origin, size: Number(size), root: bytes.toString('hex') };
};

/** The four bytes that name a key: the start of SHA-256(name ‖ newline ‖ type ‖ public key). */
const keyId = (name: string, publicKey: Uint8Array): Buffer => {
  if (lastId?.name === name && lastId.publicKey.equals(publicKey)) return lastId.id;
  const id = crypto.createHash('sha256').update(`${name}\n`).update(ED25519).update(publicKey).digest().subarray(0, 4);
  lastId = { name, publicKey: Buffer.from(publicKey), id };
  return id;
};

/** A book signs one checkpoint after the other under one name. */
let lastId: { readonly name: string; readonly publicKey: Buffer; readonly id: Buffer } | undefined;

/** The text form in which a key is handed to whoever checks: `<name>+<key id>+<base64 of type and key>`. */
export const verifierKey = (name: string, publicKey: Uint8Array): string =>
  `${name}+${keyId(name, publicKey).toString('hex')}+${Buffer.concat([ED25519, publicKey]).toString('base64')}`;

/** Text, blank line, one signature line. */
export const signNote = (text: string, name: string, key: KeyObject, publicKey: Uint8Array): string => {
  const signature = Buffer.concat([keyId(name, publicKey), crypto.sign(null, Buffer.from(text), key)]);
  return `${text}\n— ${name} ${signature.toString('base64')}\n`;
};

/** True when the note carries a good signature of that name and key (32 raw bytes). Others' signatures are passed over. */
export const noteIsSignedBy = (note: string, name: string, publicKey: Uint8Array): boolean => {
  const end = note.lastIndexOf('\n\n');
  if (end < 0) return false;
  const text = Buffer.from(note.slice(0, end + 1));
  const id = keyId(name, publicKey);
  const key = crypto.createPublicKey({
    key: { kty: 'OKP', crv: 'Ed25519', x: Buffer.from(publicKey).toString('base64url') },
    format: 'jwk',
  });
  return note
    .slice(end + 2)
    .split('\n')
    .some((line) => {
      if (!line.startsWith(`— ${name} `)) return false;
      const written = line.slice(name.length + 3);
      const blob = Buffer.from(written, 'base64');
      return (
        blob.toString('base64') === written &&
        blob.length === 68 &&
        blob.subarray(0, 4).equals(id) &&
        crypto.verify(null, text, key, blob.subarray(4))
      );
    });
};
