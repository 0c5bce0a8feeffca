/** The list of where each cow's entries stand follows the log by thousands; nobody who asks can tell. */
import type Database from 'better-sqlite3';
import { expect, test } from 'vitest';
import type { Book } from '../../events/book.ts';
import { bare, dose, newBook, newPath, opened } from './a-book.ts';

const COWS = ['412', '413', '999000000000414', '7'];
const SAID = ['412', '413', '999 000000000414', '7'];

/** Adds that many entries about the four cows in turn. */
const fill = (book: Book, many: number): void => {
  const from = book.head().position;
  for (let at = from; at < from + many; at += 1_000) {
    const left = Math.min(1_000, from + many - at);
    book.record(Array.from({ length: left }, (_, index) => dose(`d${at + index}`, SAID[(at + index) % 4] ?? '')));
  }
};

const upTo = (file: string): unknown => bare(file).prepare('select position from cow_entries_up_to').pluck().get();

test('a cow’s entries are found alike before they are listed, while some are, and when the list has caught up', () => {
  const book = newBook();
  const lists: unknown[] = [];
  for (const many of [10, 16_000, 500, 300]) {
    fill(book, many);
    lists.push(upTo(book.path));
    const { position } = book.head();
    const positions = Array.from({ length: position }, (_, index) => index + 1);
    for (const [index, cow] of COWS.entries()) {
      expect(book.entriesOf([cow]).map((row) => row.position)).toEqual(
        positions.filter((each) => (each - 1) % 4 === index),
      );
    }
    expect(book.entriesOf(['412', '7', '8']).map((row) => row.position)).toEqual(
      positions.filter((each) => [0, 3].includes((each - 1) % 4)),
    );
    expect(book.verify()).toMatchObject({ ok: true, problems: [], position });
  }
  expect(lists).toEqual([0, 0, 16_510, 16_510]);
}, 60_000);

/** A book whose list reaches to its 17,000th entry, of 17,100. */
const listed = () => {
  const book = opened(newPath());
  fill(book, 17_000);
  fill(book, 100);
  expect(upTo(book.path)).toBe(17_000);
  return book;
};

const behindTheGuards = (file: string, work: (db: Database.Database) => void): void => {
  const db = bare(file);
  const guards = db
    .prepare<[], { name: string; sql: string }>(`select name, sql from sqlite_schema where type = 'trigger'`)
    .all();
  for (const { name } of guards) db.exec(`drop trigger ${name}`);
  work(db);
  for (const { sql } of guards) db.exec(sql);
};

test('verify finds every difference between the list and what the entries say', () => {
  const book = listed();
  for (const [change, back] of [
    [`delete from cow_entries where position = 4`, `insert into cow_entries values ('7', 4)`],
    [`insert into cow_entries values ('7', 3)`, `delete from cow_entries where position = 3 and subject = '7'`],
    [
      `update cow_entries set subject = '9' where position = 4`,
      `update cow_entries set subject = '7' where position = 4`,
    ],
    [`insert into cow_entries values ('7', 17099)`, 'delete from cow_entries where position = 17099'],
    ['update cow_entries_up_to set position = 17050', 'update cow_entries_up_to set position = 17000'],
    ['update cow_entries_up_to set position = 16900', 'update cow_entries_up_to set position = 17000'],
  ]) {
    behindTheGuards(book.path, (db) => db.exec(change ?? ''));
    expect([change, book.verify().problems]).toEqual([
      change,
      [{ position: null, problem: expect.stringContaining('the list of where each cow’s entries stand') }],
    ]);
    behindTheGuards(book.path, (db) => db.exec(back ?? ''));
    expect(book.verify().ok).toBe(true);
  }
}, 60_000);

test.each([
  'delete from cow_entries',
  `update cow_entries set subject = '9'`,
  'delete from cow_entries_up_to',
  'update cow_entries_up_to set position = 5',
  `replace into cow_entries_up_to values (1, 5)`,
])(
  '%s is refused',
  (sql) => {
    const book = newBook();
    fill(book, 17_000);
    const db = bare(book.path);
    expect(() => db.exec(sql)).toThrow(/are never|goes with the entries|is made once/);
    expect(book.verify().ok).toBe(true);
  },
  30_000,
);
