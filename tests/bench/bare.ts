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

/** The same rows with one prepared insert and one SHA-256 each, durable, in batches of that many. */
export const bareInserts = (file: string, lines: readonly string[], batch: number): void => {
  const db = new Database(file);
  db.pragma('journal_mode = wal');
  db.pragma('synchronous = full');
  db.exec('create table entries (position integer primary key, entry text not null, leaf text not null) strict');
  const insert = db.prepare<[string, string]>('insert into entries (entry, leaf) values (?, ?)');
  const many = db.transaction((texts: readonly string[]) => {
    for (const text of texts) insert.run(text, sha256(text));
  });
  for (const texts of inBatches(lines, batch)) many.immediate(texts);
  db.close();
};
