/**
 * The key that a line goes by, which a `settled` entry names: twelve digits of its hash, for people to read. Where another
 * line was made to have the same twelve, both go by their whole hash, in whatever order they came: else what was settled of
 * the one in this book would be settled of the other in the next. Until they are settled anew, both hold.
 */
import { type Connection, prepared } from './tables.ts';

const DIGITS = 12;

export const shortOf = (hash: string): string => hash.slice(0, DIGITS);

export const keyNamed = (hash: string, isAlone: boolean): string => `set-aside:${isAlone ? shortOf(hash) : hash}`;

/** Of a line that is kept or is about to be. */
export const keyOf = (db: Connection, hash: string): string => keyNamed(hash, othersLike(db, hash) === 0);

/** The part of the hash that a key names; undefined where it is no key of a refused line. */
export const digitsIn = (key: string): string | undefined => /^set-aside:([0-9a-f]{12}|[0-9a-f]{64})$/.exec(key)?.[1];

const othersLike = (db: Connection, hash: string): number =>
  prepared<{ others: number }>(
    db,
    `select count(*) as others from set_aside where hash >= ? and hash < ? || 'g' and hash <> ?`,
  ).get(shortOf(hash), shortOf(hash), hash)?.others ?? 0;
