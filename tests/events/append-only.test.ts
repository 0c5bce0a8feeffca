/** The database itself refuses to change, remove or replace what is recorded, on any connection whatever its settings. */
import type Database from 'better-sqlite3';
import { describe, expect, test } from 'vitest';
import { bare, dose, line, newPath, opened } from './a-book.ts';

const HASH = 'a'.repeat(64);

/** A book with entries, a refused line and a paper, and another program's connection to it. */
const stranger = (recursiveTriggers: 'on' | 'off') => {
  const path = newPath();
  const book = opened(path);
  book.record([dose('a', '412'), dose('b', '413'), line('{"subject":"77"')]);
  book.keepPaper(Uint8Array.of(1, 2, 3));
  const db = bare(path);
  db.pragma(`recursive_triggers = ${recursiveTriggers}`);
  return { book, db };
};

const everything = (db: Database.Database): unknown =>
  ['entries', 'set_aside', 'papers', 'books', 'head'].map((table) => db.prepare(`select * from ${table}`).all());

const ENTRY = `'{"id":"z","type":"treatment","subject":"9"}'`;
const SAME = `(select entry from entries where position = 1), (select content from entries where position = 1)`;

const ATTEMPTS: readonly (readonly [string, string])[] = [
  ['an update of an entry', `update entries set entry = ${ENTRY}`],
  ['an update that sets what is there already', 'update entries set leaf = leaf'],
  ['an update of a position', 'update entries set position = 9 where position = 2'],
  ['a delete of an entry', 'delete from entries where position = 2'],
  ['a delete of all', 'delete from entries'],
  [
    'a replacement at a position',
    `replace into entries (position, entry, content, leaf, id) values (1, ${ENTRY}, '${HASH}', '${HASH}', 'z')`,
  ],
  [
    'a replacement by id and content at the end',
    `replace into entries (position, entry, content, leaf, id) select 3, ${SAME}, '${HASH}', 'a'`,
  ],
  [
    'an insert or replace by id and content',
    `insert or replace into entries (position, entry, content, leaf, id) select 3, ${SAME}, '${HASH}', 'a'`,
  ],
  [
    'an insert that updates on conflict',
    `insert into entries (position, entry, content, leaf, id) values (1, ${ENTRY}, '${HASH}', '${HASH}', 'z')
     on conflict (position) do update set entry = excluded.entry`,
  ],
  [
    'an insert that leaves a gap',
    `insert into entries (position, entry, content, leaf, id) values (9, ${ENTRY}, '${HASH}', '${HASH}', 'z')`,
  ],
  [
    'an insert before the first',
    `insert into entries (position, entry, content, leaf, id) values (0, ${ENTRY}, '${HASH}', '${HASH}', 'z')`,
  ],
  [
    'an insert without a position',
    `insert into entries (entry, content, leaf, id) values (${ENTRY}, '${HASH}', '${HASH}', 'z')`,
  ],
  [
    'an insert without an id',
    `insert into entries (position, entry, content, leaf) values (3, ${ENTRY}, '${HASH}', '${HASH}')`,
  ],
  ['an update of a refused line', `update set_aside set cows = '[]'`],
  ['a delete of a refused line', 'delete from set_aside'],
  [
    'a replacement of a refused line by number',
    `replace into set_aside select number, 'k', '${HASH}', text, problem, pointer, id, '[]', mentions, recordedtime, after, door, chain from set_aside`,
  ],
  [
    'a replacement of a refused line by hash',
    `replace into set_aside select 2, 'k', hash, text, problem, pointer, id, '[]', mentions, recordedtime, after, door, chain from set_aside`,
  ],
  [
    'a replacement of a refused line by key',
    `replace into set_aside select 2, key, '${HASH}', text, problem, pointer, id, '[]', mentions, recordedtime, after, door, chain from set_aside`,
  ],
  [
    'the same saying of a refused line once more',
    'insert into set_aside select 2, key, hash, text, problem, pointer, id, cows, mentions, recordedtime, after, door, chain from set_aside',
  ],
  ['an update of a paper', `update papers set bytes = x'00'`],
  ['a delete of a paper', 'delete from papers'],
  ['a replacement of a paper by number', `replace into papers values (1, '${HASH}', x'00')`],
  ['a replacement of a paper by hash', `replace into papers select 2, hash, x'00' from papers`],
  ['another name for the book', `update books set book = 'other'`],
  ['no name for the book', 'delete from books'],
  ['a replacement of the name', `replace into books select 1, 'other', key, 0 from books`],
  ['a head that forgets an entry', 'update head set size = 1'],
  ['a head that counts one too many', 'update head set size = 3'],
  ['a head that goes back in time', 'update head set recorded = recorded - 1'],
  ['a real book made a rehearsal', 'update head set rehearsal = 0'],
  ['a head taken away', 'delete from head'],
  ['a head replaced', `replace into head select 1, 0, '[]', root, 0, '', '', null, null from head`],
];

/** What the guards and the columns' own rules say; a slip in the SQL above says something else. */
const GUARDS =
  /are never (changed|removed)|are added (once|at the end)|the head (goes|is)|stays with its farm|NOT NULL/;

describe.each(['on', 'off'] as const)('with recursive triggers %s on the other connection', (recursiveTriggers) => {
  test.each(ATTEMPTS)('%s is refused and changes nothing', (_, sql) => {
    const { book, db } = stranger(recursiveTriggers);
    const before = everything(db);
    expect(() => db.exec(sql)).toThrow(GUARDS);
    expect(everything(db)).toEqual(before);
    expect(book.verify()).toMatchObject({ ok: true, position: 2, papers: 1, setAside: 1 });
  });
});

test('the farm’s id is given once', () => {
  const { db } = stranger('on');
  db.exec(`update head set farm = 'f'`);
  expect(() => db.exec(`update head set farm = 'g'`)).toThrow(/stays with its farm/);
  expect(() => db.exec('update head set farm = null')).toThrow(/stays with its farm/);
});

test('a value of another type than its column is refused', () => {
  const { db } = stranger('on');
  expect(() => db.exec(`update head set size = 'many'`)).toThrow();
  expect(() => db.exec(`insert into papers values (2, '${HASH}', 'text')`)).toThrow(/TEXT value in BLOB/);
});
