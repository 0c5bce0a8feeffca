/**
 * What was refused at a door is kept here exactly as it was said, for ever, with the reason. The same text
 * again adds nothing. Each row's chain value covers the row before it, so none can be changed or taken out unseen.
 */
import { sha256 } from '../../shared/fingerprint.ts';
import { type Instant, instantText, parseInstant } from '../../shared/instant.ts';
import { mentionsIn } from '../door.ts';
import type { Aside } from '../entry.ts';
import type { StoredRow } from '../stored.ts';
import { chainOf, type Unchained } from './set-aside-chain.ts';
import { all, type Connection, first, run, sqlFor } from './tables.ts';

export interface Refused {
  readonly text: string;
  readonly problem: string;
  readonly pointer?: string;
  readonly id?: string;
  readonly cows: readonly string[];
  readonly mentions: readonly string[];
  readonly door?: string;
}

/** Keeps a refusal, inside the caller's transaction. Gives its key and the new chain value. */
export const setAside = (
  db: Connection,
  refused: Refused,
  at: { recorded: Instant; position: number; chain: string },
): { key: string; chain: string } => {
  const text = asUtf8(refused.text);
  const hash = sha256(text);
  const known = first(db, sqlFor.selectFrom('set_aside').select('key').where('hash', '=', hash));
  if (known !== undefined) return { key: known.key, chain: at.chain };
  const last = first(
    db,
    sqlFor.selectFrom('set_aside').select((row) => row.fn.max('number').as('number')),
  );
  const row: Unchained = {
    number: (last?.number ?? 0) + 1,
    key: freeKey(db, hash),
    hash,
    text,
    problem: asUtf8(refused.problem),
    pointer: refused.pointer === undefined ? null : asUtf8(refused.pointer),
    id: refused.id === undefined ? null : asUtf8(refused.id),
    cows: JSON.stringify(refused.cows),
    mentions: JSON.stringify(refused.mentions),
    recordedtime: instantText(at.recorded),
    after: at.position,
    door: refused.door ?? null,
  };
  const chain = chainOf(at.chain, row);
  run(db, sqlFor.insertInto('set_aside').values({ ...row, chain }));
  return { key: row.key, chain };
};

/** A lone surrogate has no UTF-8 form; it is kept as the replacement character, as any file would keep it. */
const asUtf8 = (text: string): string => Buffer.from(text).toString();

/** Twelve digits are for people to read; a text made to collide in them gets more. */
const freeKey = (db: Connection, hash: string): string => {
  const short = `set-aside:${hash.slice(0, 12)}`;
  const taken = first(db, sqlFor.selectFrom('set_aside').select('key').where('key', '=', short));
  return taken === undefined ? short : `set-aside:${hash}`;
};

/** What was set aside up to that position and time, with the cows of the entries each one names. */
export const asidesUpTo = (db: Connection, position: number, knownAt: number): Aside[] =>
  all(db, sqlFor.selectFrom('set_aside').selectAll().where('after', '<=', position).orderBy('number'))
    .map((row) => ({ row, recordedAt: instantOf(row.recordedtime) }))
    .filter(({ recordedAt }) => recordedAt <= knownAt)
    .map(({ row, recordedAt }) => ({
      key: row.key,
      problem: row.problem,
      cows: [...new Set([...textsIn(row.cows), ...cowsNamed(db, textsIn(row.mentions), position)])],
      recordedAt,
      ...(row.id === null ? {} : { id: row.id }),
    }));

/** One thing as it was set aside. */
export interface SetAside {
  /** Exactly what was said. */
  readonly text: string;
  readonly problem: string;
  /** JSON Pointer to the field at fault, where there is one. */
  readonly pointer: string | null;
  readonly recordedAt: Instant;
  /** The source it was said by, or the peer it came through, where known. */
  readonly door: string | null;
}

export const setAsideUnder = (db: Connection, key: string): SetAside | undefined => {
  const row = first(db, sqlFor.selectFrom('set_aside').selectAll().where('key', '=', key));
  if (row === undefined) return undefined;
  const { text, problem, pointer, door } = row;
  return { text, problem, pointer, door, recordedAt: instantOf(row.recordedtime) };
};

/** The cows of these entries, and of the entries they name in turn: a strike concerns the struck entry's cow. */
const cowsNamed = (db: Connection, ids: readonly string[], position: number): string[] => {
  const cows = new Set<string>();
  const seen = new Set<string>();
  const waiting = [...ids];
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    if (seen.has(id)) continue;
    seen.add(id);
    for (const row of rowsOfId(db, id)) {
      const entry: unknown = row.position <= position ? readable(row.entry) : undefined;
      if (typeof entry !== 'object' || entry === null) continue;
      if ('subject' in entry && typeof entry.subject === 'string') cows.add(entry.subject);
      if ('data' in entry) waiting.push(...mentionsIn(entry.data));
    }
  }
  return [...cows];
};

export const rowsOfId = (db: Connection, id: string): StoredRow[] =>
  all(
    db,
    sqlFor.selectFrom('entries').select(['position', 'entry', 'content']).where('id', '=', id).orderBy('position'),
  );

const readable = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
};

const textsIn = (json: string): string[] => {
  const value = readable(json);
  return Array.isArray(value) ? value.filter((each): each is string => typeof each === 'string') : [];
};

const instantOf = (text: string): Instant => {
  const parsed = parseInstant(text);
  return parsed.ok ? parsed.value : (0 as Instant);
};
