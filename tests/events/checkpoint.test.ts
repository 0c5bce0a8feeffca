/** The book's signed checkpoint, and its key in a file of its own. */
import fs from 'node:fs';
import { expect, test } from 'vitest';
import { noteIsSignedBy, parseCheckpoint } from '../../events/log/note.ts';
import { dose, line, newBook, newPath, opened } from './a-book.ts';

/** As whoever holds only the verifier key would check it. */
const signedFor = (note: string, verifierKey: string): boolean => {
  const [, name = '', key = ''] = /^([^+]+)\+[0-9a-f]{8}\+(.+)$/.exec(verifierKey) ?? [];
  return noteIsSignedBy(note, name, Buffer.from(key, 'base64').subarray(1));
};

test('a new book has a signed checkpoint of no entries', () => {
  const book = newBook();
  expect(parseCheckpoint(book.checkpoint())).toEqual({
    origin: `byrebook/${book.bookId}`,
    size: 0,
    root: book.head().root,
  });
  expect(signedFor(book.checkpoint(), book.verifierKey)).toBe(true);
});

test('every batch moves the checkpoint with the head, and what is only set aside does not', () => {
  const book = newBook();
  for (let round = 1; round <= 5; round += 1) {
    book.record([dose(`a${round}`, '412'), dose(`b${round}`, '413')]);
    expect(parseCheckpoint(book.checkpoint())).toMatchObject({ size: 2 * round, root: book.head().root });
    expect(signedFor(book.checkpoint(), book.verifierKey)).toBe(true);
  }
  const before = book.checkpoint();
  book.record([line('{'), dose('a1', '412')]);
  expect(book.checkpoint()).toBe(before);
});

test('the key is in a file of its own that its owner alone may read, and nowhere in the book', () => {
  const book = newBook();
  const file = `${book.path}.key`;
  expect(fs.statSync(file).mode & 0o777).toBe(0o600);
  const secret = Buffer.from(fs.readFileSync(file, 'utf8').split('\n')[1] ?? '', 'base64').subarray(-32);
  expect(secret).toHaveLength(32);
  book.close();
  expect(fs.readFileSync(book.path).includes(secret)).toBe(false);
});

test('without its key file it can be read as before, and verify says so', () => {
  const book = newBook();
  book.record([dose('a', '412')]);
  fs.rmSync(`${book.path}.key`);
  const read = opened(book.path, { readOnly: true });
  const report = read.verify();
  expect(report).toMatchObject({ ok: true, signed: true, position: 1 });
  expect(report.notes.join('\n')).toContain(`The key file ${book.path}.key is missing`);
  expect([read.bookId, read.checkpoint()]).toEqual([book.bookId, book.checkpoint()]);
});

test.each([
  ['another book’s key', (file: string) => fs.copyFileSync(`${newBook().path}.key`, file), "is not this book's"],
  ['no key at all', (file: string) => fs.writeFileSync(file, 'nonsense'), "can't be read"],
])('with %s in the key file it signs nothing, and says so', (_, spoil, why) => {
  const file = newPath();
  opened(file).close();
  spoil(`${file}.key`);
  const book = opened(file);
  book.record([dose('a', '412')]);
  expect(book.checkpoint()).toContain('unsigned');
  expect(book.verify().notes.join('\n')).toContain(why);
});

test('a key file that others may read is pointed out', () => {
  const book = newBook();
  expect(book.verify().notes.join('\n')).not.toContain('chmod');
  fs.chmodSync(`${book.path}.key`, 0o644);
  expect(book.verify().notes.join('\n')).toContain('chmod 600');
});
