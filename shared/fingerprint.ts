/** SHA-256 (FIPS 180-4) as lower-case hex, and canonical JSON (RFC 8785) to take it of. */
import crypto from 'node:crypto';
import canonicalize from 'canonicalize';

/** Of text (as UTF-8) or bytes. `crypto.hash` is Node 20.12's one-shot, several times faster than `createHash`. */
export const sha256 = (content: string | Uint8Array): string =>
  typeof crypto.hash === 'function'
    ? crypto.hash('sha256', content, 'hex')
    : crypto.createHash('sha256').update(content).digest('hex');

/** RFC 8785 text of a JSON value. Throws on what JSON cannot hold (NaN, a lone surrogate). */
export const canonicalJson = (value: unknown): string => {
  const text = canonicalize(value);
  if (text === undefined) throw new Error('Only a JSON value has a canonical form');
  return text;
};
