/** Reading what was set aside: as it is held by, as a person looks at it, and page by page as it goes to another book. */
import { sql } from 'kysely';
import { type Instant, parseInstant } from '../../shared/instant.ts';
import { mentionsIn } from '../door.ts';
import type { Aside } from '../entry.ts';
import { isOfFarmAlone, isWord } from '../of-farm.ts';
import { type Refusal, readable, type Saying, together } from '../refusal.ts';
import { carriable } from '../refused-elsewhere.ts';
import { lineBearsSince } from '../stated-time.ts';
import type { StoredRow } from '../stored.ts';
import { digitsIn, keyNamed, shortOf } from './set-aside-key.ts';
import { all, type Connection, prepared, sqlFor, type Tables } from './tables.ts';

type Row = Tables['set_aside'];
export type SayingRow = Pick<Row, 'problem' | 'pointer' | 'id' | 'cows' | 'mentions'>;

/** What a row says of its line, as it is read in every book. */
export const sayingIn = ({ problem, pointer, id, cows, mentions }: SayingRow): Saying =>
  readable({ problem, pointer, id, cows: textsIn(cows), mentions: textsIn(mentions) });

/** What was set aside up to that position and time, with the cows of the entries each one names. */
export const asidesUpTo = (db: Connection, position: number, knownAt: number): Aside[] => {
  const rows = all(
    db,
    sqlFor
      .selectFrom('set_aside')
      .select(sql<string>`substr(text, 1, 65536)`.as('text'))
      .select(['hash', 'problem', 'pointer', 'id', 'cows', 'mentions', 'recordedtime'])
      .where('after', '<=', position)
      .orderBy('number'),
  );
  const lines = new Map<string, Line>();
  for (const row of rows) {
    const recordedAt = instantOf(row.recordedtime);
    if (recordedAt > knownAt) continue;
    const line = lines.get(row.hash);
    if (line === undefined) lines.set(row.hash, { text: row.text, recordedAt, sayings: [sayingIn(row)] });
    else line.sayings.push(sayingIn(row));
  }
  const alike = new Map<string, number>();
  for (const hash of lines.keys()) alike.set(shortOf(hash), (alike.get(shortOf(hash)) ?? 0) + 1);
  return [...lines].map(([hash, { text, recordedAt, sayings }]) => {
    const since = lineBearsSince(text, recordedAt);
    const { problem, id, cows, mentions } = together(sayings);
    return {
      key: keyNamed(hash, alike.get(shortOf(hash)) === 1),
      problem,
      cows: [...new Set([...cows, ...cowsNamed(db, mentions, position)])],
      recordedAt,
      ...(since === undefined ? {} : { since }),
      ...(id === null ? {} : { id }),
      ...(mentions.length === 0 && cows.every(isWord) && isOfFarmAlone(text) ? { ofFarm: true } : {}),
    };
  });
};

interface Line {
  /** What was said, or the beginning of it: a list of thousands does not bring long texts into memory. */
  readonly text: string;
  readonly recordedAt: Instant;
  readonly sayings: [Saying, ...Saying[]];
}

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
  const digits = digitsIn(key);
  if (digits === undefined) return undefined;
  const [row, ...others] = all(
    db,
    sqlFor
      .selectFrom('set_aside')
      .selectAll()
      .where('hash', '>=', digits)
      .where('hash', '<', `${digits}g`)
      .orderBy('number'),
  );
  if (row === undefined || others.some(({ hash }) => hash !== row.hash)) return undefined;
  const { problem, pointer } = together([sayingIn(row), ...others.map(sayingIn)]);
  return { text: row.text, problem, pointer, door: row.door, recordedAt: instantOf(row.recordedtime) };
};

/** Some of it, in this book's order, as it goes to another book. */
export interface RefusedPage {
  /** Chain value in front of its first row: who read up to there before sees whether it is the same still. */
  readonly before: string;
  readonly refused: readonly Refusal[];
  /** Number and chain value of its last row; those in front of it where it has none. */
  readonly number: number;
  readonly chain: string;
  /** How many there are in all. */
  readonly last: number;
}

/** At most so many behind a number, and so many characters, but always one; undefined where there are not so many. */
export const refusedBehind = (
  db: Connection,
  after: number,
  most: { readonly rows: number; readonly characters: number },
): RefusedPage | undefined => {
  const { number: last } = lastRefused(db);
  const before = after === 0 ? '' : prepared<Row>(db, 'select chain from set_aside where number = ?').get(after)?.chain;
  if (after > last || before === undefined) return undefined;
  const refused: Refusal[] = [];
  let [number, chain, characters] = [after, before, 0];
  // Row by row: a page of the longest lines is never in memory at once.
  const row = prepared<Row>(db, 'select * from set_aside where number = ?');
  while (number < last && refused.length < most.rows) {
    const next = row.get(number + 1);
    if (next === undefined) break;
    const refusal = carriable({ text: next.text, ...sayingIn(next) });
    characters += JSON.stringify(refusal).length;
    if (refused.length > 0 && characters > most.characters) break;
    refused.push(refusal);
    number = next.number;
    chain = next.chain;
  }
  return { before, refused, number, chain, last };
};

/** Its last row. */
export const lastRefused = (db: Connection): { readonly number: number; readonly chain: string } => {
  const row = prepared<Row>(db, 'select number, chain from set_aside order by number desc limit 1').get();
  return row === undefined ? { number: 0, chain: '' } : { number: row.number, chain: row.chain };
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
      const entry: unknown = row.position <= position ? readableJson(row.entry) : undefined;
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

const readableJson = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
};

const textsIn = (json: string): string[] => {
  const value = readableJson(json);
  return Array.isArray(value) ? value.filter((each): each is string => typeof each === 'string') : [];
};

const instantOf = (text: string): Instant => {
  const parsed = parseInstant(text);
  return parsed.ok ? parsed.value : (0 as Instant);
};
