/** The baselines: SQLite and Node at their barest, doing the part of the work that nothing can do without. */
import Database from 'better-sqlite3';
import { sha256 } from '../../shared/fingerprint.ts';
import { inBatches } from './setting.ts';

/** Every row in order by pages of 1,000 in raw mode, the text alone; the fastest way known. */
export function* barePages(file: string, upTo = Number.MAX_SAFE_INTEGER): Generator<string[], void> {
  const db = new Database(file, { readonly: true });
  try {
    const page = db
      .prepare<[number, number], string>(
        'select entry from entries where position > ? and position <= ? order by position limit 1000',
      )
      .pluck();
    for (let after = 0; ; after += 1_000) {
      const texts = page.all(after, upTo);
      if (texts.length > 0) yield texts;
      if (texts.length < 1_000) return;
    }
  } finally {
    db.close();
  }
}

/** Reads all rows and JSON.parses each; gives how many. */
export const bareScan = (file: string, upTo?: number): number => {
  let count = 0;
  for (const texts of barePages(file, upTo)) {
    for (const text of texts) if (typeof JSON.parse(text) === 'object') count += 1;
  }
  return count;
};

/** Reads all rows and takes one SHA-256 of each. */
export const bareHashes = (file: string): number => {
  let count = 0;
  for (const texts of barePages(file)) for (const text of texts) if (sha256(text).length === 64) count += 1;
  return count;
};

/** So many texts with one prepared insert and one SHA-256 each, durable, in batches of that many. */
export const bareInserts = (file: string, lines: readonly string[], batch: number): void => {
  const db = blank(file, 'position integer primary key, entry text not null, leaf text not null');
  const insert = db.prepare<[string, string]>('insert into entries (entry, leaf) values (?, ?)');
  inTransactions(db, lines, batch, (text) => insert.run(text, sha256(text)));
};

/** A row as the log has it. */
export type BareRow = readonly [
  entry: string,
  content: string,
  id: string,
  subject: string | null,
  strikes: string | null,
];

/** All rows of a book, in order. */
export const bareRows = (file: string): BareRow[] => {
  const db = new Database(file, { readonly: true });
  const rows = db
    .prepare<[], BareRow>('select entry, content, id, subject, strikes from entries order by position')
    .raw()
    .all();
  db.close();
  return rows;
};

/** The very rows of a book, whole, with the index on the id that finds what is said twice, and no guards. */
export const bareWholeInserts = (file: string, rows: readonly BareRow[], batch: number): void => {
  const db = blank(
    file,
    'position integer primary key, entry text not null, content text not null, leaf text not null, id text not null, subject text, strikes text',
  );
  db.exec('create index entries_of_id on entries (id)');
  const insert = db.prepare<[...BareRow, string]>(
    'insert into entries (entry, content, id, subject, strikes, leaf) values (?, ?, ?, ?, ?, ?)',
  );
  inTransactions(db, rows, batch, (row) => insert.run(...row, sha256(row[0])));
};

const blank = (file: string, columns: string): Database.Database => {
  const db = new Database(file);
  db.pragma('journal_mode = wal');
  db.pragma('synchronous = full');
  db.exec(`create table entries (${columns}) strict`);
  return db;
};

const inTransactions = <T>(
  db: Database.Database,
  list: readonly T[],
  batch: number,
  each: (item: T) => unknown,
): void => {
  const many = db.transaction((items: readonly T[]) => {
    for (const item of items) each(item);
  });
  for (const items of inBatches(list, batch)) many.immediate(items);
  db.close();
};
