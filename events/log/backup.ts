/**
 * A copy of a book while others write to it, and going on from a copy: a restored file, or one whose key was lost, goes on as
 * a new book with a key of its own, and its first new entry says which book it continues and where.
 */
import fs from 'node:fs';
import path from 'node:path';
import Database from 'better-sqlite3';
import type { Clock } from '../../shared/clock.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { openBook } from '../book.ts';
import { idFor } from './begin.ts';
import { currentBook, readHead } from './head.ts';
import { keyPathOf, newKey, readKey, writeKey } from './signing-key.ts';
import { run, sqlFor } from './tables.ts';

/** SQLite's online backup; never the key. The copy gets its name when it is whole, and never takes another file's place. */
export const backupBook = async (book: string, copy: string): Promise<void> => {
  if (fs.existsSync(copy))
    throw new UserProblem(`${copy} is there already; a backup never overwrites, name another file`);
  const unfinished = `${copy}.unfinished`;
  const db = new Database(book, { readonly: true, fileMustExist: true });
  try {
    await db.backup(unfinished);
    settleCopy(unfinished);
    fs.linkSync(unfinished, copy);
  } catch (error) {
    if (error instanceof UserProblem) throw error;
    const code = error instanceof Error && 'code' in error ? ` (${String(error.code)})` : '';
    throw new UserProblem(
      `The backup to ${copy} was not finished${code}; check the folder and the space in it, then back up again`,
    );
  } finally {
    db.close();
    fs.rmSync(unfinished, { force: true });
  }
};

/** Out of write-ahead mode, so that the copy is one file, and onto the disk. */
const settleCopy = (file: string): void => {
  const db = new Database(file);
  db.pragma('journal_mode = DELETE');
  db.close();
  const written = fs.openSync(file, 'r+');
  fs.fsyncSync(written);
  fs.closeSync(written);
};

/** Checks the backup, copies it to a place where nothing is, and lets it go on as a new book. Gives the new book's id. */
export const restoreBook = (backup: string, to: string, clock: Clock): { bookId: string; position: number } => {
  for (const file of [to, keyPathOf(to)]) {
    if (fs.existsSync(file))
      throw new UserProblem(`${file} is there already; restore never overwrites, name another file with --book`);
  }
  const from = openBook(backup, { clock, readOnly: true });
  const report = from.verify();
  from.close();
  if (!report.ok) {
    throw new UserProblem(`${backup} does not verify, so it was not restored: ${report.problems[0]?.problem ?? ''}`);
  }
  fs.mkdirSync(path.dirname(path.resolve(to)), { recursive: true });
  fs.copyFileSync(backup, to, fs.constants.COPYFILE_EXCL);
  return continueAsNew(to, clock);
};

/** A new name and key for a file, and the entry that says so. Refused where the book still has its key. */
export const continueAsNew = (file: string, clock: Clock): { bookId: string; position: number } => {
  openBook(file, { clock }).close();
  const db = new Database(file, { fileMustExist: true });
  let before: { book: string; position: number; root: string };
  try {
    const { book, key } = currentBook(db);
    const held = readKey(file, key);
    if ('key' in held) throw new UserProblem(`The book ${file} has its key; there is nothing to renew`);
    const head = readHead(db);
    const made = newKey();
    writeKey(file, made);
    before = { book, position: head.size, root: head.root };
    db.transaction(() => {
      const last = db.prepare<[], number>('select max(number) from books').pluck().get() ?? 0;
      const id = idFor(head.rehearsal !== null, `${book} goes on from ${head.size}`);
      run(db, sqlFor.insertInto('books').values({ number: last + 1, book: id, key: made.publicKey, after: head.size }));
    }).immediate();
  } finally {
    db.close();
  }
  const book = openBook(file, { clock });
  try {
    book.recordOwn('book-continued', before);
    return { bookId: book.bookId, position: before.position };
  } finally {
    book.close();
  }
};
