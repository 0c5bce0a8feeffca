/**
 * A copy of a book while others write to it, and going on from a copy as a new book. Everything is made under another name
 * first: a backup or a restored book that is there is whole.
 */
import fs from 'node:fs';
import path from 'node:path';
import Database from 'better-sqlite3';
import type { Clock } from '../../shared/clock.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { openBook, type VerifyReport } from '../book.ts';
import type { WentOn } from './go-on.ts';
import { keyPathOf } from './signing-key.ts';
import { onBook } from './trouble.ts';
import { giveName, inASentence, mustBeFree, toDisk } from './whole-file.ts';

/** As many pages as there are, in one step: others write on meanwhile, and none of it makes the copy begin again. */
const ALL_PAGES = 0x7fff_ffff;

/** SQLite's online backup; never the key. Gives what verify says of the copy: a damaged book can still be backed up. */
export const backupBook = async (book: string, copy: string, clock: Clock): Promise<VerifyReport> => {
  mustBeFree([copy], 'a backup', 'name another file');
  const unfinished = `${copy}.unfinished`;
  try {
    await copyWhole(book, unfinished);
    const made = openBook(unfinished, { clock, readOnly: true });
    const report = made.verify();
    made.close();
    giveName(unfinished, copy);
    return report;
  } catch (error) {
    throw inASentence(error, `The backup to ${copy}`);
  } finally {
    removeBook(unfinished);
  }
};

const copyWhole = async (book: string, to: string): Promise<void> => {
  removeBook(to);
  const from = new Database(book, { readonly: true, fileMustExist: true });
  try {
    await from.backup(to, { progress: () => ALL_PAGES });
  } finally {
    from.close();
  }
  // Out of write-ahead mode, so that the copy is one file that can be read even where nothing may be written.
  const db = new Database(to);
  db.pragma('journal_mode = DELETE');
  db.close();
  toDisk(to);
};

export const removeBook = (file: string): void => {
  for (const end of ['', '-wal', '-shm', '-journal', '.key']) fs.rmSync(file + end, { force: true });
};

/** Copies a backup to a place where nothing is, verifies the copy, and lets it go on as a new book. */
export const restoreBook = async (backup: string, to: string, clock: Clock): Promise<WentOn> => {
  mustBeFree([to, keyPathOf(to)], 'restore', 'name another file with --book');
  if (!fs.existsSync(backup)) throw new UserProblem(`There is no file ${backup} to restore; check the name`);
  const unfinished = `${to}.unfinished`;
  try {
    fs.mkdirSync(folderOf(to), { recursive: true });
    await copyWhole(backup, unfinished).catch((error: unknown) =>
      onBook(backup, () => {
        throw error;
      }),
    );
    return goOnFrom(unfinished, to, clock);
  } catch (error) {
    const problem = inASentence(error, `Restoring to ${to}`);
    throw problem instanceof UserProblem
      ? new UserProblem(problem.message.replaceAll(unfinished, backup), problem.exitCode)
      : problem;
  } finally {
    for (const file of beside(unfinished)) removeBook(file);
  }
};

const folderOf = (file: string): string => path.dirname(path.resolve(file));

/** The file, and the copies that opening an older format leaves beside it. */
const beside = (file: string): string[] => {
  const names = fs.existsSync(folderOf(file)) ? fs.readdirSync(folderOf(file)) : [];
  const copies = names.filter((name) => name.startsWith(`${path.basename(file)}.before-format`));
  return [file, ...copies.map((name) => path.join(folderOf(file), name))];
};

/** Verifies a whole book under its unfinished name, gives it a name and key of its own, then its place. */
export const goOnFrom = (unfinished: string, to: string, clock: Clock): WentOn => {
  const book = openBook(unfinished, { clock });
  let wentOn: WentOn | null;
  try {
    const { ok, problems } = book.verify();
    if (!ok)
      throw new UserProblem(`${unfinished} does not verify, so nothing was made of it: ${problems[0]?.problem ?? ''}`);
    book.claim();
    wentOn = book.wentOn;
  } finally {
    book.close();
  }
  if (wentOn === null) throw new Error('A book without its key goes on under a new name');
  // The book first: one that is left without its key takes another, a key without its book is only in the way.
  giveName(unfinished, to);
  giveName(keyPathOf(unfinished), keyPathOf(to));
  return wentOn;
};

/** A new name and key now, where recording would take them at the next entry. Refused where the book has its key. */
export const takeNewKey = (file: string, clock: Clock): WentOn => {
  const book = openBook(file, { clock });
  try {
    book.claim();
    if (book.wentOn === null) {
      throw new UserProblem(
        `The book ${book.path} has a key file that is not missing; nothing was changed. If verify says that the key can't be used, move ${keyPathOf(book.path)} away, then ask again`,
      );
    }
    return book.wentOn;
  } finally {
    book.close();
  }
};
