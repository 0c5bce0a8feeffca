/**
 * The book's Ed25519 key, in a file of its own beside the book (`<book>.key`, readable by its owner alone), so that
 * a backup or a copy of the book cannot sign for it.
 */
import crypto, { type KeyObject } from 'node:crypto';
import fs from 'node:fs';
import { UserProblem } from '../../shared/refusal.ts';
import { copiedFrom, placeLine } from './key-place.ts';

export interface SigningKey {
  readonly privateKey: KeyObject;
  /** 64 hex digits. */
  readonly publicKey: string;
}

export const keyPathOf = (bookPath: string): string => `${bookPath}.key`;

export const newKey = (): SigningKey => withPublic(crypto.generateKeyPairSync('ed25519').privateKey);

/** A key anyone can work out again from `seed` (64 hex digits): good for a rehearsal, which proves nothing. */
export const keyFromSeed = (seed: string): SigningKey =>
  withPublic(
    // The fixed bytes are the PKCS #8 wrapping of an Ed25519 seed (RFC 8410 section 7).
    crypto.createPrivateKey({
      key: Buffer.from(`302e020100300506032b657004220420${seed}`, 'hex'),
      format: 'der',
      type: 'pkcs8',
    }),
  );

/**
 * Writes the key beside a new book, and beneath it what it was made for. An older key is never overwritten: it may belong
 * to a book that was moved away.
 */
export const writeKey = (bookPath: string, key: SigningKey, made = placeLine(bookPath)): void => {
  const path = keyPathOf(bookPath);
  const pem = key.privateKey.export({ format: 'pem', type: 'pkcs8' }).toString();
  if (fs.existsSync(path)) {
    if (fs.readFileSync(path, 'utf8').startsWith(pem)) return;
    throw new UserProblem(
      `${path} is the signing key of a book that is not here; move it to where that book is, then make the new book`,
    );
  }
  try {
    const file = fs.openSync(path, 'wx', 0o600);
    try {
      fs.writeFileSync(file, pem + made);
      fs.fsyncSync(file);
    } finally {
      fs.closeSync(file);
    }
  } catch (error) {
    if (!(error instanceof Error && 'code' in error)) throw error;
    throw new UserProblem(
      `The key file ${path} can't be written (${String(error.code)}); check the folder and the space in it, then try again`,
    );
  }
};

/** Why a book has no key to sign with: none is there, one that came with a copy, or one that it can't use. */
export interface NoKey {
  readonly because: 'missing' | 'copied' | 'unusable';
  readonly why: string;
}

/** The book's key, or why there is none. */
export const readKey = (bookPath: string, publicKey: string): { key: SigningKey } | NoKey => {
  const path = keyPathOf(bookPath);
  let text: string;
  let key: SigningKey;
  try {
    text = fs.readFileSync(path, 'utf8');
    key = withPublic(crypto.createPrivateKey(text));
  } catch (error) {
    const missing = error instanceof Error && 'code' in error && error.code === 'ENOENT';
    return missing
      ? { because: 'missing', why: `the key file ${path} is missing` }
      : { because: 'unusable', why: `the key file ${path} can't be read` };
  }
  if (key.publicKey !== publicKey) return { because: 'unusable', why: `the key in ${path} is not this book's` };
  const from = copiedFrom(text, bookPath);
  return from === undefined
    ? { key }
    : { because: 'copied', why: `this file is a copy of ${from} that took the key along, which belongs to that book` };
};

/** 32 bytes worked out from the key for one purpose (HKDF, RFC 5869): they go where the key goes, never into a backup. */
export const secretFrom = ({ privateKey }: SigningKey, purpose: string): Uint8Array => {
  const seed = privateKey.export({ format: 'der', type: 'pkcs8' });
  return new Uint8Array(crypto.hkdfSync('sha256', seed, '', `byrebook ${purpose}`, 32));
};

/** True when others than its owner may read the key file. */
export const keyIsOpenToOthers = (bookPath: string): boolean => {
  const stat = fs.statSync(keyPathOf(bookPath), { throwIfNoEntry: false });
  return stat !== undefined && process.platform !== 'win32' && (stat.mode & 0o077) !== 0;
};

const withPublic = (privateKey: KeyObject): SigningKey => {
  const { x = '' } = crypto.createPublicKey(privateKey).export({ format: 'jwk' });
  return { privateKey, publicKey: Buffer.from(x, 'base64url').toString('hex') };
};
