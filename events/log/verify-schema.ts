/** Checks the file's own layout: SQLite's integrity check, and that every table and guard is as its format makes it. */
import Database from 'better-sqlite3';
import type { Format } from './formats.ts';
import type { Connection } from './tables.ts';
import type { Tell } from './verify-roots.ts';

interface Part {
  readonly type: string;
  readonly name: string;
  readonly sql: string | null;
}

export const checkSchema = (db: Connection, formats: readonly Format[], tell: Tell): void => {
  const wanted = partsOf(freshOf(formats));
  const found = new Map(partsOf(db).map((part) => [part.name, part]));
  for (const { type, name, sql } of wanted) {
    const part = found.get(name);
    found.delete(name);
    if (part === undefined) tell(null, `the ${type} "${name}" is missing: without it the log is not guarded`);
    else if (part.sql !== sql) tell(null, `the ${type} "${name}" is not as this format makes it`);
  }
  for (const { type, name } of found.values()) tell(null, `the ${type} "${name}" does not belong in a book`);
  for (const line of db.pragma('integrity_check(20)', { simple: false }) as { integrity_check: string }[]) {
    if (line.integrity_check !== 'ok') tell(null, `the database file is damaged: ${line.integrity_check}`);
  }
};

const freshOf = (formats: readonly Format[]): Connection => {
  const fresh = new Database(':memory:');
  for (const { steps } of formats) for (const step of steps) fresh.exec(step);
  return fresh;
};

/** `sqlite_stat` tables come from SQLite's own ANALYZE and say nothing about the log. */
const partsOf = (db: Connection): Part[] =>
  db
    .prepare<[], Part>(`select type, name, sql from sqlite_schema where name not like 'sqlite_stat%' order by name`)
    .all();
