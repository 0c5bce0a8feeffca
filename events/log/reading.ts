/** The reading side of a book: raw rows for streaming, and everything known up to a position and time. */
import type { Instant } from '../../shared/instant.ts';
import type { Aside, Entry, EntryOf } from '../entry.ts';
import { asideOf, readStored, type StoredRow } from '../stored.ts';
import { type EntryPage, entryPage } from '../stored-entry.ts';
import { POSITIONS_OF_COWS } from './cow-entries.ts';
import { readHead } from './head.ts';
import type { OwnType } from './own-entry.ts';
import { asidesUpTo } from './set-aside-read.ts';
import { all, type Connection, sqlFor } from './tables.ts';
import { rootOfFirst } from './tiles.ts';

export interface Known {
  readonly entries: readonly Entry[];
  readonly asides: readonly Aside[];
  /** Those of them that stand in the log but can't be used. */
  readonly unusable: readonly Aside[];
  /** The last position read, and the root of the tree up to there. */
  readonly position: number;
  readonly root: string;
  /** Chain of what was set aside, at the head. */
  readonly chain: string;
}

/** Another text after every change to what is known: an entry recorded, or one set aside. */
export const changesOf = ({ position, root, chain }: Pick<Known, 'position' | 'root' | 'chain'>): string =>
  `${position} ${root} ${chain}`;

export interface UpTo {
  readonly position?: number;
  readonly knownAt?: Instant;
}

/** Every entry recorded by then, and everything set aside or not usable; all of one moment of the book. */
export const readKnown = (db: Connection, upTo: UpTo = {}): Known => {
  const known = readAllKnown(db, upTo);
  // Pages that were read once for all are no use any more.
  if (known.position > MANY) db.pragma('shrink_memory');
  return known;
};

/** As many entries as fill SQLite's pages in memory. */
const MANY = 50_000;

const readAllKnown = (db: Connection, upTo: UpTo): Known =>
  db.transaction((): Known => {
    const head = readHead(db);
    const last = Math.min(upTo.position ?? head.size, head.size);
    const knownAt = upTo.knownAt ?? Number.POSITIVE_INFINITY;
    const { entries, unusable, position } = readRows(rowsBetween(db, Number.MIN_SAFE_INTEGER, last), {
      behind: 0,
      last,
      knownAt,
    });
    return {
      entries,
      asides: [...unusable, ...asidesUpTo(db, upTo.position ?? Number.MAX_SAFE_INTEGER, knownAt)],
      unusable,
      position,
      root: position === head.size ? head.root : rootOfFirst(db, position),
      chain: head.chain,
    };
  })();

/** What is known besides the entries that were known before. */
export interface KnownFurther extends Omit<Known, 'entries'> {
  readonly news: readonly Entry[];
  /** The news are all there is: nothing that was known before counts. */
  readonly isAnew: boolean;
}

/**
 * All that is known now, or at a position, where all that was known before it is given: only what was recorded since is
 * read. What stands in the log never changes, so with the entries known before the answer is that of reading it all; a book
 * that has become shorter (another file in its place), or a position before what is known, is read anew.
 */
export const readFurther = (
  db: Connection,
  before: Omit<Known, 'entries' | 'root'>,
  upTo: Pick<UpTo, 'position'> = {},
): KnownFurther =>
  db.transaction((): KnownFurther => {
    const head = readHead(db);
    const last = Math.min(upTo.position ?? head.size, head.size);
    if (last < before.position) {
      const { entries: news, ...anew } = readKnown(db, upTo);
      return { ...anew, news, isAnew: true };
    }
    const { entries, unusable } = readRows(rowsBetween(db, before.position, last), {
      behind: before.position,
      last,
      knownAt: Number.POSITIVE_INFINITY,
    });
    const unusableNow = unusable.length === 0 ? before.unusable : [...before.unusable, ...unusable];
    const isSame = upTo.position === undefined && before.chain === head.chain && unusable.length === 0;
    return {
      news: entries,
      isAnew: false,
      asides: isSame
        ? before.asides
        : [...unusableNow, ...asidesUpTo(db, upTo.position ?? Number.MAX_SAFE_INTEGER, Number.POSITIVE_INFINITY)],
      unusable: unusableNow,
      position: last,
      root: last === head.size ? head.root : rootOfFirst(db, last),
      chain: head.chain,
    };
  })();

/** Every entry of a kind that books write themselves, in the order of the log. A canonical text says its kind in these very words. */
export const ownEntries = <T extends OwnType>(db: Connection, type: T): EntryOf<T>[] =>
  db
    .prepare<[string], StoredRow>(
      'select position, entry, content from entries where instr(entry, ?) > 0 order by position',
    )
    .all(`"type":"${type}"`)
    .flatMap((row) => {
      const read = readStored(row, undefined);
      return read.ok && read.entry.type === type ? [read.entry as Entry as EntryOf<T>] : [];
    });

interface Stretch {
  /** The position before the first of them. */
  readonly behind: number;
  readonly last: number;
  readonly knownAt: number;
}

/** Rows that are not there are told among what can't be used: nobody knows which cows they held. */
const readRows = (rows: Iterable<readonly [StoredRow, EntryPage | undefined]>, { behind, last, knownAt }: Stretch) => {
  const entries: Entry[] = [];
  const unusable: Aside[] = [];
  let position = behind;
  let recordedAt = Number.NEGATIVE_INFINITY;
  const missing = (to: number): void => {
    if (to > position) unusable.push(missingAside(position + 1, to, recordedAt));
  };
  for (const [row, page] of rows) {
    missing(row.position - 1);
    const read = readStored(row, page);
    // Recorded times never go back, so what is known at a time is a beginning of the log. A row whose time can't be
    // read counts as recorded with the one before it.
    recordedAt = Math.max(recordedAt, (read.ok ? read.entry : read.unusable).recordedAt);
    if (recordedAt > knownAt) return { entries, unusable, position };
    position = row.position;
    if (read.ok) entries.push(read.entry);
    else unusable.push(asideOf(read.unusable));
  }
  missing(last);
  return { entries, unusable, position };
};

/** The log has no gaps: what is not there was taken out of the file, or lost with a part of it. */
const missingAside = (from: number, to: number, recordedAt: number): Aside => ({
  key: `missing:${from}-${to}`,
  problem: `${from === to ? `the entry at position ${from} is` : `the entries at positions ${from} to ${to} are`} missing from the book's file; run verify, and go on with the last backup`,
  cows: [],
  recordedAt: Math.max(recordedAt, 0) as Instant,
});

const PAGE = 1_000;

/**
 * The rows behind a position up to another, in order, and room for each page's entries. By whole pages in raw form: half
 * again as fast as row by row. Where positions are missing there is no such room.
 */
function* rowsBetween(
  db: Connection,
  behind: number,
  last: number,
): Generator<readonly [StoredRow, EntryPage | undefined], void> {
  const page = db
    .prepare<[number, number], [position: number, entry: string, content: string]>(
      `select position, entry, content from entries where position > ? and position <= ? order by position limit ${PAGE}`,
    )
    .raw();
  for (let after = behind, full = true; full; ) {
    const rows = page.all(after, last);
    const [first, end] = [rows[0]?.[0], rows.at(-1)?.[0]];
    const isWhole = first !== undefined && end === first + rows.length - 1;
    const room = isWhole ? entryPage(first, rows.length) : undefined;
    for (const row of rows) {
      after = row[0];
      yield [{ position: after, entry: row[1], content: row[2] }, room];
    }
    full = rows.length === PAGE;
  }
}

/** At most `limit` rows behind a position, as stored. */
export const rowsAfter = (db: Connection, after: number, limit: number): StoredRow[] =>
  all(
    db,
    sqlFor
      .selectFrom('entries')
      .select(['position', 'entry', 'content'])
      .where('position', '>', after)
      .orderBy('position')
      .limit(limit),
  );

/** At most `limit` stored texts behind a position, in order. */
export const textsAfter = (db: Connection, after: number, limit: number): string[] =>
  db
    .prepare<[number, number], string>('select entry from entries where position > ? order by position limit ?')
    .pluck()
    .all(after, limit);

/**
 * The first position behind `after` whose entry may have come another way than through the peer `via`; undefined where
 * there is none. A text that ends as it asks for surely came through it: such an end is a field of the whole entry.
 */
export const firstNotVia = (db: Connection, after: number, via: string): number | undefined =>
  db
    .prepare<{ after: number; end: Uint8Array }, number>(
      'select position from entries where position > @after and substr(cast(entry as blob), -length(@end)) <> @end order by position limit 1',
    )
    .pluck()
    .get({ after, end: Buffer.from(`,"via":${JSON.stringify(via)}}`) });

/** The rows about these cows, in position order. Spaces in an official number make no difference. */
export const rowsOfSubjects = (db: Connection, subjects: readonly string[]): StoredRow[] =>
  db
    .prepare<[{ subjects: string }], StoredRow>(
      `select position, entry, content from entries where position in (${POSITIONS_OF_COWS}) order by position`,
    )
    .all({ subjects: JSON.stringify(subjects.map((subject) => subject.replaceAll(' ', ''))) });
