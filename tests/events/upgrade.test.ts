/** An older book is brought up to date on opening, behind a backup copy; a failing step leaves it as it was. */
import fs from 'node:fs';
import Database from 'better-sqlite3';
import { expect, onTestFinished, test } from 'vitest';
import { type BookOptions, openBookAs, type RefusedPage } from '../../events/book.ts';
import { FORMATS, type Format } from '../../events/log/formats.ts';
import { readRefusal } from '../../events/refused-elsewhere.ts';
import { readRelayed } from '../../events/relay.ts';
import { bare, dose, handClock, line, newPath, opened, strike } from './a-book.ts';
import { putBackInto } from './older-book.ts';

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

/** A closed book as it was in that format, with a strike, an official number with spaces, and a refused line. */
const bookOfFormat = (format: number) => {
  const file = newPath();
  const book = opened(file);
  book.record([dose('a', '412'), dose('b', '999 000000000413'), strike('s', 'a'), line('{"subject":"77"')]);
  book.record([dose('c', '412')], 'laptop');
  const was = { head: book.head(), known: book.read(), checkpoint: book.checkpoint(), rows: book.rows(0, 10) };
  book.close();
  putBackInto(format, file);
  return { file, was };
};

test('a book of format 1 gets its tables of devices and peers, and verifies', () => {
  const book = opened(bookOfFormat(1).file);
  expect(book.verify()).toMatchObject({ ok: true, problems: [], position: 4 });
  expect(book.devices.list()).toEqual([]);
});

test.each([1, 2, 3])('a book of format %i keeps every row, and its look-ups find what they found', (format) => {
  const { file, was } = bookOfFormat(format);
  const book = opened(file);
  expect(bare(file).pragma('user_version', { simple: true })).toBe(LATEST);
  expect({ head: book.head(), known: book.read(), checkpoint: book.checkpoint(), rows: book.rows(0, 10) }).toEqual(was);
  expect(book.verify()).toMatchObject({ ok: true, problems: [], signed: true, position: 4, setAside: 1 });
  expect(book.entriesOf(['999000000000413']).map(({ position }) => position)).toEqual([2]);
  expect(book.entriesOf(['412']).map(({ position }) => position)).toEqual([1, 4]);
  expect(book.find('b').map(({ position }) => position)).toEqual([2]);
  expect(book.record([dose('a', '412'), dose('b', '999 000000000413'), dose('d', '414')])).toMatchObject([
    { outcome: 'already-known', position: 1, struck: true },
    { outcome: 'already-known', position: 2 },
    { outcome: 'recorded', position: 5 },
  ]);
  expect(book.verify()).toMatchObject({ ok: true, problems: [], position: 5 });
});

test('the columns of an upgraded book are those that it would have been written with', () => {
  const { file } = bookOfFormat(2);
  opened(file).close();
  const columns = (db: Database.Database) =>
    db.prepare('select position, id, subject, strikes from entries order by position').all();
  expect(columns(bare(file))).toEqual([
    { position: 1, id: 'a', subject: '412', strikes: null },
    { position: 2, id: 'b', subject: '999000000000413', strikes: null },
    { position: 3, id: 's', subject: null, strikes: 'a' },
    { position: 4, id: 'c', subject: '412', strikes: null },
  ]);
});

test('whatever another version put into an entry, the step and the appender read the same columns from it', () => {
  const relayed = [
    { id: 'n', type: 'hoof-trim', subject: 412 },
    { id: 'big', type: 'hoof-trim', subject: 1e20 },
    { id: 'half', type: 'hoof-trim', subject: 1.5 },
    { id: 'list', type: 'hoof-trim', subject: ['412'] },
    { id: 'none', type: 'hoof-trim', subject: null },
    { id: 'yes', type: 'hoof-trim', subject: true },
    { id: 'quote', type: 'o\'clock "x" \\ \u00e9 🐄', subject: ' 4 1 2 ' },
    { id: 's1', type: 'entry-struck', data: { entry: 412 } },
    { id: 's2', type: 'entry-struck', data: 'n' },
    { id: 's3', type: 'entry-struck', data: { entry: 'n' } },
    { id: 's4', type: 'entry-unstruck', data: { entry: 'n' } },
  ];
  const file = newPath();
  const book = opened(file);
  book.adoptFarm('a farm');
  book.relay(
    relayed.map((value) => readRelayed(value)),
    'laptop',
  );
  expect(book.verify()).toMatchObject({ ok: true, position: relayed.length });
  book.close();
  const columns = () =>
    bare(file).prepare('select position, id, subject, strikes from entries order by position').all();
  const was = columns();
  putBackInto(2, file);
  opened(file).close();
  expect(columns()).toEqual(was);
});

test('before a book of format 2 is changed, a copy of it as it was is put beside it', () => {
  const { file } = bookOfFormat(2);
  opened(file).close();
  const copy = bare(`${file}.before-format-${LATEST}`);
  expect(copy.pragma('user_version', { simple: true })).toBe(2);
  expect(copy.prepare('select count(*) from entries').pluck().get()).toBe(4);
  const sql = copy.prepare(`select sql from sqlite_schema where name = 'entries'`).pluck().get();
  expect(String(sql)).toContain('generated');
});

test.each([2, 3])('a program of format %i refuses a book of a later format and does not touch it', (format) => {
  const { file } = oldBook();
  putBackInto(format + 1, file);
  const was = fs.readFileSync(file);
  expect(() => openedAs(file, FORMATS.slice(0, format))).toThrow(
    new RegExp(`is of format ${format + 1}.*up to format ${format}`),
  );
  expect(fs.readFileSync(file)).toEqual(was);
});

test('a book of format 3 keeps what was refused, and what it remembers of the books it synced with', () => {
  const file = newPath();
  const book = opened(file);
  book.adoptFarm('a farm');
  book.record([line('{"subject":"77"'), line('{"subject":"78"'), dose('a', '412')], 'laptop');
  const was = { asides: book.read().asides, page: book.refusedBehind(0, { rows: 9, characters: 9_000 }) };
  book.close();
  putBackInto(3, file);
  const older = bare(file);
  older.exec(`insert into peers values ('office', 'a key', 3, '["x"]', 2, 1)`);
  older.close();
  const upgraded = opened(file);
  expect({
    asides: upgraded.read().asides,
    page: upgraded.refusedBehind(0, { rows: 9, characters: 9_000 }),
  }).toEqual(was);
  expect(upgraded.peers.of('office')).toEqual({
    book: 'office',
    verifierKey: 'a key',
    read: { size: 3, peaks: ['x'] },
    sent: 2,
    resend: 1,
    refused: { read: 0, chain: '', sent: 0 },
  });
  expect(upgraded.verify()).toMatchObject({ ok: true, problems: [], setAside: 2 });
  // From now on a line may stand there with what several books say of it.
  const [first] = upgraded.record([line('{"subject":"77"')]);
  expect(upgraded.carry([readRefusal({ ...refusalOf(was.page), cows: ['79'] })], 'office')).toEqual([
    { outcome: 'set-aside', key: first?.key, number: 3 },
  ]);
  expect(upgraded.read().asides.map(({ cows }) => cows)).toEqual([['77', '79'], ['78']]);
  expect(upgraded.verify()).toMatchObject({ ok: true, problems: [], setAside: 3 });
});

const refusalOf = (page: RefusedPage | undefined) => page?.refused[0];
