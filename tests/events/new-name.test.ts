/** A copied file, and one whose key was lost: the first new entry says that it goes on as a new book, with which key. */
import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { takeNewKey } from '../../events/log/backup.ts';
import { noteIsSignedBy } from '../../events/log/note.ts';
import { bare, dose, folder, handClock, newPath, opened, rehearsalClock } from './a-book.ts';

const aBook = (options: Parameters<typeof opened>[1] = {}) => {
  const book = opened(newPath(), options);
  book.record([dose('a', '412'), dose('b', '413')]);
  book.close();
  return book;
};

const copied = (file: string, ...ends: string[]): string => {
  const to = path.join(folder(), 'copy.book');
  for (const end of ['', ...ends]) fs.copyFileSync(file + end, to + end);
  return to;
};

describe('a file without its key', () => {
  test('goes on as a new book with its first new entry, and the old one goes on beside it', () => {
    const old = aBook();
    const book = opened(copied(old.path));
    expect([book.bookId, book.wentOn]).toEqual([old.bookId, null]);
    expect(book.record([dose('c', '414')])).toMatchObject([{ outcome: 'recorded', position: 4 }]);
    expect(book.bookId).not.toBe(old.bookId);
    expect(book.wentOn).toEqual({ from: old.bookId, position: 2, bookId: book.bookId });
    const { root } = opened(old.path).head();
    expect(book.read().entries[2]).toMatchObject({
      type: 'book-continued',
      source: `byrebook/${book.bookId}`,
      data: { book: old.bookId, position: 2, root, newKey: book.verifierKey },
    });
    expect(book.verify()).toMatchObject({ ok: true, signed: true, position: 4 });
    expect(opened(old.path).record([dose('c', '414')])).toMatchObject([{ position: 3 }]);
  });

  test('says so once, however often it is opened after', () => {
    const file = copied(aBook().path);
    const first = opened(file);
    first.record([dose('c', '414')]);
    first.close();
    const again = opened(file);
    again.record([dose('d', '415')]);
    expect(again.wentOn).toBeNull();
    expect(again.read().entries.map(({ type }) => type)).toEqual([
      'treatment',
      'treatment',
      'book-continued',
      'treatment',
      'treatment',
    ]);
  });

  test('opened by two programs, takes one new name', () => {
    const file = copied(aBook().path);
    const [one, two] = [opened(file), opened(file)];
    one.record([dose('c', '414')]);
    two.record([dose('d', '415')]);
    expect(two.bookId).toBe(one.bookId);
    expect(one.verify()).toMatchObject({ ok: true, signed: true, position: 5 });
  });

  test('is not changed by reading, nor by opening it for writing', () => {
    const file = copied(aBook().path);
    const book = opened(file);
    book.read();
    book.verify();
    book.close();
    expect(opened(file, { readOnly: true }).head().position).toBe(2);
    expect(fs.existsSync(`${file}.key`)).toBe(false);
  });

  test('of a rehearsal takes a name of its own as well, another one at another place', () => {
    const { path: file } = aBook({ clock: rehearsalClock });
    const ids = [copied(file), copied(file)].map((each) => {
      const book = opened(each, { clock: rehearsalClock });
      book.record([dose('c', '414')]);
      expect(book.verify()).toMatchObject({ ok: true, signed: true, position: 4 });
      return book.bookId;
    });
    expect(new Set(ids).size).toBe(2);
  });
});

describe('a copy that took the key along', () => {
  test('is found out, verify says so, and it goes on with a key of its own', () => {
    const old = aBook();
    const file = copied(old.path, '.key');
    const book = opened(file);
    expect(book.verify().notes.join('\n')).toContain(`This file is a copy of ${old.path} that took the key along`);
    book.record([dose('c', '414')]);
    expect(book.read().entries[2]).toMatchObject({ type: 'book-continued', data: { newKey: book.verifierKey } });
    expect(book.verify()).toMatchObject({ ok: true, signed: true, position: 4 });
    expect(fs.readFileSync(`${file}.key`)).not.toEqual(fs.readFileSync(`${old.path}.key`));
    expect(fs.readFileSync(`${file}.key-of-${old.bookId}`)).toEqual(fs.readFileSync(`${old.path}.key`));
  });

  test('but a book that was moved with its key, or put back in its place, is the same book', () => {
    const old = aBook();
    const moved = newPath();
    for (const end of ['', '.key']) fs.renameSync(old.path + end, moved + end);
    const book = opened(moved);
    book.record([dose('c', '414')]);
    expect([book.bookId, book.wentOn]).toEqual([old.bookId, null]);
    book.close();
    for (const end of ['', '.key']) fs.renameSync(moved + end, old.path + end);
    fs.copyFileSync(old.path, `${old.path}.new`);
    fs.renameSync(`${old.path}.new`, old.path);
    const back = opened(old.path);
    back.record([dose('d', '415')]);
    expect([back.bookId, back.verify().signed, back.head().position]).toEqual([old.bookId, true, 4]);
  });
});

describe('a lost key', () => {
  test('is made good by a new one, said by an entry; each checkpoint is signed with the key of its time', () => {
    const old = aBook();
    const [before, oldKey] = [opened(old.path).checkpoint(), old.verifierKey];
    fs.rmSync(`${old.path}.key`);
    expect(opened(old.path, { readOnly: true }).verify().notes.join('\n')).toContain('is missing');
    expect(takeNewKey(old.path, handClock())).toMatchObject({ from: old.bookId, position: 2 });
    const book = opened(old.path);
    const report = book.verify();
    expect(report).toMatchObject({ ok: true, signed: true, position: 3 });
    expect(report.notes.join('\n')).toContain(`Up to position 2 it was the book ${old.bookId}`);
    expect(report.notes.join('\n')).toContain(`checkpoints of that time are signed with ${oldKey}`);
    expect(report.notes.join('\n')).toContain(`checkpoints of it are signed with ${book.verifierKey}`);
    const [first, second] = book.names();
    const signers = (note: string) =>
      [first, second].map((name) => name !== undefined && noteIsSignedBy(note, name.origin, name.publicKey));
    expect([signers(before), signers(book.checkpoint())]).toEqual([
      [true, false],
      [false, true],
    ]);
  });

  test('a book that has its key is not given another', () => {
    const { path: file } = aBook();
    expect(() => takeNewKey(file, handClock())).toThrow(/nothing was changed/);
    expect(opened(file).head().position).toBe(2);
  });

  test.each([
    [
      'another public key in the new name',
      "update books set key = 'x' || substr(key, 2) where number = 2",
      'not the one this file keeps',
    ],
    ['another name', "update books set book = 'x' where number = 2", 'no entry says that the book x goes on here'],
    ['another place', 'update books set after = 1 where number = 2', 'not what this file keeps of it'],
    ['another name before it', "update books set book = 'x' where number = 1", 'not what this file keeps of it'],
    ['the new name taken out', 'delete from books where number = 2', 'knows no name and key of'],
  ])('%s does not pass verify', (_, sql, problem) => {
    const { path: file } = aBook();
    fs.rmSync(`${file}.key`);
    takeNewKey(file, handClock());
    const db = bare(file);
    for (const guard of ['books_are_never_changed', 'books_are_never_removed']) db.exec(`drop trigger ${guard}`);
    db.exec(sql);
    db.close();
    expect(opened(file, { readOnly: true }).verify().problems).toContainEqual(
      expect.objectContaining({ problem: expect.stringContaining(problem) }),
    );
  });
});
