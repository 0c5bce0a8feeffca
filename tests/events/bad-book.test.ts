/** Everything that can be wrong with a book's file gets a sentence: what, where, what to do. Nothing is lost or touched. */
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, onTestFinished, test } from 'vitest';
import { FORMATS } from '../../events/log/formats.ts';
import { sha256 } from '../../shared/fingerprint.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { bare, dose, folder, newPath, opened, rehearsalClock } from './a-book.ts';

/** The sentence a call ends in; a stack trace in its place fails the test. */
const problemOf = (work: () => unknown): UserProblem => {
  try {
    work();
  } catch (error) {
    if (error instanceof UserProblem) return error;
    throw error;
  }
  throw new Error('Nothing was refused');
};

const fileHash = (file: string): string => sha256(fs.readFileSync(file));

/** A closed book with two entries. */
const closedBook = (): string => {
  const file = newPath();
  const book = opened(file);
  book.record([dose('a', '412'), dose('b', '413')]);
  book.close();
  return file;
};

describe('a file that is no book', () => {
  test('is said to be missing where there is none, and none is made', () => {
    const file = newPath();
    const problem = problemOf(() => opened(file, { create: false }));
    expect(problem.message).toContain(`no book at ${file}`);
    expect(fs.existsSync(file)).toBe(false);
  });

  test('is not made where it is only to be read', () => {
    expect(problemOf(() => opened(newPath(), { readOnly: true })).message).toContain('no book at');
  });

  test('is not made in a folder that is not there', () => {
    const file = path.join(folder(), 'nowhere', 'farm.book');
    expect(problemOf(() => opened(file)).message).toContain(`folder ${path.dirname(file)} does not exist`);
  });

  test('is said to be a folder', () => {
    const file = folder();
    expect(problemOf(() => opened(file)).message).toContain(`${file} is a folder, not a book`);
  });

  test.each([
    ['a text', 'Treated 412 this morning.\n'.repeat(100)],
    ['a single letter', 'x'],
    ['a spreadsheet', 'number,group\n412,Cows\n'],
  ])('and holds %s is left as it is', (_, text) => {
    const file = newPath();
    fs.writeFileSync(file, text);
    for (const create of [true, false]) {
      expect(problemOf(() => opened(file, { create })).message).toContain(`${file} is not a book`);
    }
    expect(fs.readFileSync(file, 'utf8')).toBe(text);
    expect(fs.readdirSync(path.dirname(file))).toEqual(['farm.book']);
  });

  test('and is empty is no book yet, but may become one', () => {
    const file = newPath();
    fs.writeFileSync(file, '');
    expect(problemOf(() => opened(file, { create: false })).message).toContain('it is empty');
    opened(file).record([dose('a', '412')]);
  });

  test('and is another program’s database is left as it is', () => {
    const file = newPath();
    const db = new Database(file);
    db.exec('create table cows (number text)');
    db.close();
    const before = fileHash(file);
    for (const create of [true, false]) {
      expect(problemOf(() => opened(file, { create })).message).toContain("another program's database");
    }
    expect(fileHash(file)).toBe(before);
    expect(fs.readdirSync(path.dirname(file))).toEqual(['farm.book']);
  });
});

describe('a book', () => {
  test('of a newer format is refused with both formats named, and not touched', () => {
    const file = closedBook();
    const db = new Database(file);
    db.pragma('user_version = 7');
    db.close();
    const before = fileHash(file);
    const { message } = problemOf(() => opened(file));
    expect(message).toContain('format 7');
    expect(message).toContain(`up to format ${FORMATS.at(-1)?.format}`);
    expect(message).toContain('newer version');
    expect(fileHash(file)).toBe(before);
  });

  test('that another program has locked is said to be in use, and goes on when it is free again', () => {
    const file = newPath();
    const book = opened(file);
    const other = bare(file);
    other.exec('begin immediate');
    expect(problemOf(() => book.record([dose('a', '412')])).message).toContain(`${file} is in use`);
    other.exec('rollback');
    expect(book.record([dose('a', '412')])).toMatchObject([{ outcome: 'recorded', position: 1 }]);
  });

  test('that another program keeps to itself cannot be opened meanwhile', () => {
    const file = closedBook();
    const other = bare(file);
    other.pragma('locking_mode = exclusive');
    other.exec('begin exclusive; commit');
    expect(problemOf(() => opened(file)).message).toContain('is in use');
    expect(problemOf(() => opened(file, { readOnly: true })).message).toContain('is in use');
  });

  test('that was opened to be read says so when it is written to', () => {
    const file = closedBook();
    const book = opened(file, { readOnly: true });
    expect(book.read().entries).toHaveLength(2);
    expect(book.verify().ok).toBe(true);
    expect(problemOf(() => book.record([dose('c', '412')])).message).toContain("can't be written");
    expect(problemOf(() => book.keepPaper(Uint8Array.of(1))).message).toContain("can't be written");
    expect(
      problemOf(() => book.recordOwn('book-continued', { book: 'x', position: 0, root: '0'.repeat(64) })).message,
    ).toContain("can't be written");
  });

  test.each([
    ['half of it', 0.5],
    ['all but its last page', 0.9],
    ['its first two hundred bytes', 0.001],
  ])('of which only %s is there is said to be damaged', (_, part) => {
    const file = closedBook();
    const size = fs.statSync(file).size;
    fs.truncateSync(file, Math.max(200, Math.floor((size * part) / 4096) * 4096));
    const { message } = problemOf(() => opened(file).read());
    expect(message).toContain(`${file} is damaged or only half there`);
    expect(message).toContain('restore the latest backup');
  });

  test('whose first page is scrambled is said to be damaged', () => {
    const file = closedBook();
    const opening = fs.openSync(file, 'r+');
    fs.writeSync(opening, Buffer.alloc(60, 0xa5), 0, 60, 16);
    fs.closeSync(opening);
    expect(problemOf(() => opened(file)).message).toContain('damaged');
  });

  test('that keeps real time refuses a fixed clock as wrong usage', () => {
    const file = closedBook();
    const problem = problemOf(() => opened(file, { clock: rehearsalClock }));
    expect(problem.message).toContain('leave --now out');
    expect(problem.exitCode).toBe(2);
  });
});

describe('a key that stands there already', () => {
  test('is never overwritten by a new book', () => {
    const file = closedBook();
    const kept = fs.readFileSync(`${file}.key`, 'utf8');
    fs.renameSync(file, `${file}.moved`);
    const { message } = problemOf(() => opened(file));
    expect(message).toContain(`${file}.key is the signing key of a book that is not here`);
    expect(fs.readFileSync(`${file}.key`, 'utf8')).toBe(kept);
    expect(fs.existsSync(file)).toBe(false);
  });
});

/** Disks of a wanted size or kind can be made by the superuser alone; elsewhere these tests do not run. */
const mounted = (folderPath: string, options: string): boolean => {
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', options, 'tmpfs', folderPath], { stdio: 'ignore' });
    onTestFinished(() => {
      execFileSync('umount', ['-l', folderPath], { stdio: 'ignore' });
    });
    return true;
  } catch {
    return false;
  }
};

describe('the disk', () => {
  test('that is full stops a batch whole, and the same batch goes in when there is space', ({ skip }) => {
    const place = folder();
    skip(!mounted(place, 'size=600k'), 'no small disk can be made here');
    const file = path.join(place, 'farm.book');
    const book = opened(file);
    book.record([dose('first', '412')]);
    const fill = path.join(place, 'fill');
    const before = book.head();
    const batch = Array.from({ length: 400 }, (_, index) => dose(`d${index}`, String(index)));
    fs.writeFileSync(fill, '');
    try {
      for (;;) fs.appendFileSync(fill, Buffer.alloc(4096));
    } catch {
      // The disk is full now.
    }
    const { message } = problemOf(() => book.record(batch));
    expect(message).toContain('full');
    expect(message).toContain('nothing of this batch was recorded');
    expect(book.head()).toEqual(before);
    fs.rmSync(fill);
    expect(book.record(batch).every(({ outcome }) => outcome === 'recorded')).toBe(true);
    expect(book.verify()).toMatchObject({ ok: true, position: 401 });
  });

  test('that is full takes no new book, and leaves nothing half made', ({ skip }) => {
    const place = folder();
    skip(!mounted(place, 'size=24k'), 'no small disk can be made here');
    expect(problemOf(() => opened(path.join(place, 'farm.book'))).message).toContain('full');
    expect(fs.readdirSync(place)).toEqual([]);
  });

  test('that is read-only lets a book be read and verified, and says what it does not let', ({ skip }) => {
    const place = folder();
    skip(!mounted(place, 'size=4m'), 'no disk can be made here');
    const file = path.join(place, 'farm.book');
    const book = opened(file);
    book.record([dose('a', '412')]);
    book.close();
    execFileSync('mount', ['-o', 'remount,ro', place], { stdio: 'ignore' });
    expect(problemOf(() => opened(file)).message).toContain("can't be written");
    expect(problemOf(() => opened(path.join(place, 'new.book'))).message).toContain("can't be written");
    const reader = opened(file, { readOnly: true });
    expect(reader.read().entries).toHaveLength(1);
    expect(reader.verify()).toMatchObject({ ok: true, signed: true });
  });

  test('on which the file is read-only says so', ({ skip }) => {
    skip(process.getuid?.() === 0, 'the superuser may write every file');
    const file = closedBook();
    fs.chmodSync(file, 0o444);
    expect(problemOf(() => opened(file)).message).toContain("can't be written");
  });
});
