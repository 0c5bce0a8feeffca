/**
 * Opens the file of a book: looks before it touches, makes a new one whole or not at all, brings an older format up
 * to date behind a backup copy, and says in a sentence why it can't.
 */
import fs from 'node:fs';
import path from 'node:path';
import Database from 'better-sqlite3';
import { UserProblem } from '../../shared/refusal.ts';
import { APPLICATION_ID, type Format } from './formats.ts';
import type { Connection } from './tables.ts';
import { damaged, onBook, readOnlyFile } from './trouble.ts';

export interface Opening {
  readonly create: boolean;
  readonly readOnly: boolean;
  /** How long to wait for another program's lock. */
  readonly waitMilliseconds: number;
  readonly formats: readonly Format[];
  /** Fills a new book, inside the transaction that makes it. */
  readonly begin: (db: Connection) => void;
}

const HEADER = 'SQLite format 3\0';

export const openFile = (file: string, opening: Opening): Connection => {
  const isNew = lookAt(file, opening);
  return onBook(file, () => {
    const db = connect(file, opening);
    try {
      settle(db, file, opening);
      return db;
    } catch (error) {
      db.close();
      if (isNew) for (const end of ['', '-wal', '-shm']) fs.rmSync(file + end, { force: true });
      throw error;
    }
  });
};

/** Refuses what can be refused without opening it. True where there is no file yet and one may be made. */
const lookAt = (file: string, { create, readOnly }: Opening): boolean => {
  const folder = path.dirname(file);
  const stat = fs.statSync(file, { throwIfNoEntry: false });
  if (stat === undefined) {
    if (!create || readOnly) {
      throw new UserProblem(`There is no book at ${file}; check the path, or record there to start one`);
    }
    if (!fs.existsSync(folder))
      throw new UserProblem(`The folder ${folder} does not exist; make it, or check the path`);
    if (!mayWrite(folder)) throw new UserProblem(readOnlyFile(file));
    return true;
  }
  if (stat.isDirectory()) {
    throw new UserProblem(`${file} is a folder, not a book; give the path of the book's file in it`);
  }
  if (!stat.isFile()) throw new UserProblem(`${file} is not a file; give the path of the book's file`);
  const start = startOf(file);
  if (start === undefined) throw new UserProblem(`The book ${file} can't be read; ask for the right to read it`);
  if (start === '' && !create) throw new UserProblem(notABook(file, 'it is empty'));
  if (!HEADER.startsWith(start.slice(0, HEADER.length))) {
    throw new UserProblem(notABook(file, 'it is a file of another kind'));
  }
  if (start !== '' && stat.size < 512) throw new UserProblem(damaged(file, 'only its first bytes are there'));
  if (!readOnly && !mayBeWritten(file)) throw new UserProblem(readOnlyFile(file));
  return false;
};

const connect = (file: string, { create, readOnly, waitMilliseconds: timeout }: Opening): Connection => {
  const db = new Database(file, { readonly: readOnly, fileMustExist: !create || readOnly, timeout });
  if (!readOnly) return db;
  try {
    db.pragma('user_version');
    return db;
  } catch (error) {
    db.close();
    const pending = fs.statSync(`${file}-wal`, { throwIfNoEntry: false })?.size ?? 0;
    if (mayWrite(path.dirname(file)) || pending > 0) throw error;
    return fromMemory(file);
  }
};

/**
 * Where not even SQLite's own side files may be written (a read-only disk), the book is read as it lies there; nobody
 * can be writing it. Bytes 18 and 19 of the header ask for the write-ahead log, which a copy in memory can't have.
 */
const fromMemory = (file: string): Connection => {
  const bytes = fs.readFileSync(file);
  bytes.fill(1, 18, 20);
  return new Database(bytes, { readonly: true });
};

const settle = (db: Connection, file: string, opening: Opening): void => {
  const latest = opening.formats.at(-1)?.format ?? 0;
  const found = formatOf(db);
  if (found === undefined) {
    if (!opening.create || opening.readOnly || !isBlank(db)) {
      throw new UserProblem(notABook(file, "it is another program's database"));
    }
  } else if (found > latest) {
    throw new UserProblem(
      `The book ${file} is of format ${found}, made by a newer version of Byrebook; this one reads up to format ${latest}. Install the newer version to open it; the book was not touched`,
    );
  } else if (found < latest && opening.readOnly) {
    throw new UserProblem(
      `The book ${file} is of the older format ${found}; open it once for writing, which brings it to format ${latest}`,
    );
  }
  // Every commit reaches the disk before it is acknowledged; SQLite's default with WAL may lose the last ones.
  db.pragma('synchronous = FULL');
  db.pragma('recursive_triggers = ON');
  db.pragma('foreign_keys = ON');
  db.pragma('trusted_schema = OFF');
  db.pragma('cell_size_check = ON');
  // The indexes of a big herd go over many pages: those that a batch comes to again need not be read again (32 MB at most).
  db.pragma('cache_size = -32768');
  if (opening.readOnly) return;
  db.pragma('journal_mode = WAL');
  if (found === undefined) make(db, opening);
  else if (found < latest) upgrade(db, file, found, opening.formats);
};

const make = (db: Connection, opening: Opening): void =>
  db
    .transaction(() => {
      if (formatOf(db) !== undefined) return;
      db.pragma(`application_id = ${APPLICATION_ID}`);
      climb(db, 0, opening.formats);
      opening.begin(db);
    })
    .immediate();

/** The backup copy comes first and is on the disk before the first step; a failing step leaves the book as it was. */
const upgrade = (db: Connection, file: string, found: number, formats: readonly Format[]): void => {
  const latest = formats.at(-1)?.format ?? found;
  const copy = freeName(`${file}.before-format-${latest}`);
  db.prepare('vacuum into ?').run(copy);
  const written = fs.openSync(copy, 'r+');
  fs.fsyncSync(written);
  fs.closeSync(written);
  db.transaction(() => climb(db, formatOf(db) ?? found, formats)).immediate();
};

const climb = (db: Connection, from: number, formats: readonly Format[]): void => {
  for (const { format, steps } of formats.filter((each) => each.format > from)) {
    for (const step of steps) db.exec(step);
    db.pragma(`user_version = ${format}`);
  }
};

const formatOf = (db: Connection): number | undefined =>
  db.pragma('application_id', { simple: true }) === APPLICATION_ID
    ? Number(db.pragma('user_version', { simple: true }))
    : undefined;

const isBlank = (db: Connection): boolean =>
  db.pragma('application_id', { simple: true }) === 0 &&
  db.pragma('user_version', { simple: true }) === 0 &&
  db.prepare('select 1 from sqlite_schema limit 1').get() === undefined;

const notABook = (file: string, why: string): string =>
  `${file} is not a book (${why}); it was not touched. Check the path`;

/** Whether the book and what SQLite keeps beside it may be written. */
export const mayBeWritten = (file: string): boolean => mayWrite(file) && mayWrite(path.dirname(file));

const mayWrite = (file: string): boolean => {
  try {
    fs.accessSync(file, fs.constants.W_OK);
    return true;
  } catch {
    return false;
  }
};

/** The first bytes, as Latin-1; `undefined` where they can't be read. */
const startOf = (file: string): string | undefined => {
  try {
    const opened = fs.openSync(file, 'r');
    const bytes = Buffer.alloc(HEADER.length);
    const length = fs.readSync(opened, bytes, 0, bytes.length, 0);
    fs.closeSync(opened);
    return bytes.subarray(0, length).toString('latin1');
  } catch {
    return undefined;
  }
};

const freeName = (wanted: string): string => {
  let name = wanted;
  for (let number = 2; fs.existsSync(name); number += 1) name = `${wanted}-${number}`;
  return name;
};
