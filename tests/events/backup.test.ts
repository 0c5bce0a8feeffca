/** A copy while others write, going on from a copy, and a lost key. */
import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { backupBook, continueAsNew, restoreBook } from '../../events/log/backup.ts';
import { bare, dose, folder, handClock, newPath, opened } from './a-book.ts';

const aBook = (entries = 20): string => {
  const file = newPath();
  const book = opened(file);
  for (let number = 0; number < entries; number += 1) book.record([dose(`d${number}`, '412')]);
  book.close();
  return file;
};

describe('backup', () => {
  test('while somebody writes, is a whole book that verifies, without the key', async () => {
    const file = aBook();
    const book = opened(file);
    const copy = path.join(folder(), 'copy.book');
    const done = backupBook(file, copy);
    for (let number = 100; number < 120; number += 1) book.record([dose(`d${number}`, '413')]);
    await done;
    expect(fs.readdirSync(path.dirname(copy))).toEqual(['copy.book']);
    const read = opened(copy, { create: false, readOnly: true });
    const { ok, position } = read.verify();
    expect([ok, position >= 20]).toEqual([true, true]);
    expect(fs.readFileSync(copy).includes('PRIVATE KEY')).toBe(false);
  });

  test('never overwrites', async () => {
    const file = aBook();
    await expect(backupBook(file, file)).rejects.toThrow(/never overwrites/);
  });

  test('to a folder that is not there says so and leaves nothing', async () => {
    await expect(backupBook(aBook(), path.join(folder(), 'no', 'copy.book'))).rejects.toThrow(/was not finished/);
  });
});

describe('restore', () => {
  test('goes on as a new book of the same farm, whose first new entry says from where', async () => {
    const file = aBook();
    const copy = path.join(folder(), 'copy.book');
    await backupBook(file, copy);
    const to = newPath();
    const { bookId, position } = restoreBook(copy, to, handClock());
    const old = opened(file);
    const book = opened(to);
    expect([position, book.bookId === bookId, book.bookId === old.bookId]).toEqual([20, true, false]);
    expect(book.read().entries.at(-1)).toMatchObject({
      type: 'book-continued',
      data: { book: old.bookId, position: 20, root: old.head().root },
    });
    expect(book.rows(0, 20)).toEqual(old.rows(0, 20));
    book.record([dose('after', '414')]);
    expect(book.verify()).toMatchObject({ ok: true, signed: true });
  });

  test('never overwrites a book or a key', () => {
    const file = aBook();
    expect(() => restoreBook(file, file, handClock())).toThrow(/never overwrites/);
  });

  test('a copy that does not verify is not restored', () => {
    const file = aBook();
    const db = bare(file);
    for (const { name } of db.prepare("select name from sqlite_schema where type = 'trigger'").all() as {
      name: string;
    }[])
      db.exec(`drop trigger "${name}"`);
    db.exec("update entries set entry = replace(entry, '412', '499') where position = 7");
    db.close();
    const to = newPath();
    expect(() => restoreBook(file, to, handClock())).toThrow(/does not verify/);
    expect(fs.existsSync(to)).toBe(false);
  });
});

describe('a lost key', () => {
  test('is made good by a new one, said by an entry, and what the old one signed stays as it was', () => {
    const file = aBook();
    const signedBefore = opened(file).checkpoint();
    fs.rmSync(`${file}.key`);
    expect(opened(file).verify().ok).toBe(true);
    continueAsNew(file, handClock());
    const book = opened(file);
    expect(book.read().entries.at(-1)?.type).toBe('book-continued');
    expect(book.checkpoint()).not.toBe(signedBefore);
    expect(book.verify()).toMatchObject({ ok: true, signed: true });
  });

  test('a book that has its key is not given another', () => {
    expect(() => continueAsNew(aBook(), handClock())).toThrow(/has its key/);
  });
});
