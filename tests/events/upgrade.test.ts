/** An older book is brought up to date on opening, behind a backup copy; a failing step leaves it as it was. */
import fs from 'node:fs';
import Database from 'better-sqlite3';
import { expect, onTestFinished, test } from 'vitest';
import { type BookOptions, openBookAs } from '../../events/book.ts';
import { FORMATS, type Format } from '../../events/log/formats.ts';
import { bare, dose, handClock, newPath, opened } from './a-book.ts';

const LATEST = FORMATS.at(-1)?.format ?? 0;

const NEWER: readonly Format[] = [
  ...FORMATS,
  { format: LATEST + 1, steps: ['create table weather (day text primary key, rain real) strict'] },
  { format: LATEST + 2, steps: ['alter table weather add column wind real', 'create index windy on weather (wind)'] },
];

const openedAs = (file: string, formats: readonly Format[], options: Partial<BookOptions> = {}) => {
  const book = openBookAs(file, { clock: handClock(), ...options }, formats);
  onTestFinished(() => book.close());
  return book;
};

/** A closed book of the latest format with two entries. */
const oldBook = () => {
  const file = newPath();
  const book = opened(file);
  book.record([dose('a', '412'), dose('b', '413')]);
  const was = { head: book.head(), known: book.read(), checkpoint: book.checkpoint() };
  book.close();
  return { file, was };
};

test('a book of an older format goes through every step it lacks, and keeps what it holds', () => {
  const { file, was } = oldBook();
  const book = openedAs(file, NEWER);
  expect(book.head()).toEqual(was.head);
  expect(book.read()).toEqual(was.known);
  expect(book.checkpoint()).toBe(was.checkpoint);
  expect(bare(file).pragma('user_version', { simple: true })).toBe(LATEST + 2);
  expect(book.record([dose('c', '412')])).toMatchObject([{ outcome: 'recorded', position: 3 }]);
  expect(book.verify()).toMatchObject({ ok: true, problems: [] });
});

test('before the first step a whole copy in the old format is put beside it', () => {
  const { file, was } = oldBook();
  openedAs(file, NEWER);
  const copy = opened(`${file}.before-format-${LATEST + 2}`, { create: false });
  expect(copy.head()).toEqual(was.head);
  expect(copy.read()).toEqual(was.known);
  expect(bare(`${file}.before-format-${LATEST + 2}`).pragma('user_version', { simple: true })).toBe(LATEST);
});

test('a copy that stands there already is left alone', () => {
  const { file } = oldBook();
  fs.writeFileSync(`${file}.before-format-${LATEST + 2}`, 'an earlier copy');
  openedAs(file, NEWER);
  expect(fs.readFileSync(`${file}.before-format-${LATEST + 2}`, 'utf8')).toBe('an earlier copy');
  expect(fs.existsSync(`${file}.before-format-${LATEST + 2}-2`)).toBe(true);
});

test('a step that fails leaves the book in its old format, readable as before', () => {
  const { file, was } = oldBook();
  const broken: readonly Format[] = [
    ...NEWER.slice(0, -1),
    { format: LATEST + 2, steps: ['create table weather (x)'] },
  ];
  expect(() => openedAs(file, broken)).toThrow(/already exists/);
  expect(bare(file).pragma('user_version', { simple: true })).toBe(LATEST);
  expect(opened(file).read()).toEqual(was.known);
});

test('a book that is upgraded is refused by the older program afterwards', () => {
  const { file } = oldBook();
  openedAs(file, NEWER).close();
  expect(() => opened(file)).toThrow(new RegExp(`is of format ${LATEST + 2}.*up to format ${LATEST}`));
});

test('a book of an older format is not upgraded by reading it', () => {
  const { file } = oldBook();
  expect(() => openedAs(file, NEWER, { readOnly: true })).toThrow(
    new RegExp(`older format ${LATEST}; open it once for writing`),
  );
});

test('a book that is up to date is opened without a copy', () => {
  const { file } = oldBook();
  opened(file);
  expect(fs.readdirSync(file.replace(/\/[^/]+$/, '')).filter((name) => name.includes('before'))).toEqual([]);
});

test('a new book is made like an upgraded one, table for table', () => {
  const { file } = oldBook();
  openedAs(file, NEWER);
  const fresh = newPath();
  openedAs(fresh, NEWER, { create: true });
  const layout = (db: Database.Database) => db.prepare('select name, sql from sqlite_schema order by name').all();
  expect(layout(new Database(file, { readonly: true }))).toEqual(layout(new Database(fresh, { readonly: true })));
});

test('a book of format 1 gets its tables of devices and peers, and verifies', () => {
  const file = newPath();
  const first = openBookAs(file, { clock: handClock(), create: true }, FORMATS.slice(0, 1));
  first.record([dose('a', '412')]);
  first.close();
  const book = opened(file);
  expect(book.verify()).toMatchObject({ ok: true, problems: [], position: 1 });
  expect(book.devices.list()).toEqual([]);
});
