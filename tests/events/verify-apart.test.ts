/** Verified in stripes, or in threads of its own, a book is said to be exactly what it is said to be in one pass. */
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Book, openBook } from '../../events/book.ts';
import { KINDS } from '../../events/kinds.ts';
import { cowStart } from '../../events/log/cow-entries.ts';
import { leafHash } from '../../events/log/merkle.ts';
import { isWorthThreads } from '../../events/log/verify-apart.ts';
import { checkEntries } from '../../events/log/verify-entries.ts';
import { STRIPE, stripeCheck } from '../../events/log/verify-stripes.ts';
import { bare, dose, handClock, NOW, newPath, opened, passed, strike } from './a-book.ts';

const MINUTE = 60_000;

const folders: string[] = [];
afterAll(() => {
  for (const made of folders) fs.rmSync(made, { recursive: true, force: true });
});

/** A book of `size` entries, recorded five hundred a minute; issued sheets and strikes stand among them. */
const longBook = (size: number): Book => {
  const clock = handClock(NOW);
  const made = fs.mkdtempSync(path.join(os.tmpdir(), 'byrebook-'));
  folders.push(made);
  const book = openBook(path.join(made, 'farm.book'), { clock, create: true });
  for (let batch = 0; book.head().position < size - 1; batch += 1) {
    clock.set((NOW + batch * MINUTE) as typeof NOW);
    const left = Math.min(499, size - 1 - book.head().position);
    book.record(
      Array.from({ length: left }, (_, index) =>
        index === 30
          ? strike(`s${batch}`, `d${batch}-1`)
          : index === 31
            ? passed({
                id: `ł${batch}`,
                type: 'cow-left',
                subject: '9',
                data: { reason: 'sold-for-beef', to: 'a "friend"' },
              })
            : dose(`d${batch}-${index}`, String(100 + ((index * 7) % 60))),
      ),
    );
    book.recordOwn('sheet-issued', { ...KINDS['sheet-issued'].example, ...book.head(), sheets: [] });
  }
  return book;
};

/** What the check of the rows finds with stripes and without, in a file of these bytes after `change`. */
const bothWays = (bytes: Buffer, change: (db: Database.Database) => void) => {
  const db = new Database(Buffer.from(bytes));
  try {
    for (const name of db.prepare<[], string>(`select name from sqlite_schema where type = 'trigger'`).pluck().all()) {
      db.exec(`drop trigger ${name}`);
    }
    change(db);
    const start = cowStart(db);
    const check = stripeCheck(db, start);
    const clean: number[] = [];
    const stripes = {
      count: Math.floor((db.prepare<[], number>('select count(*) from entries').pluck().get() ?? 0) / STRIPE),
      take: (index: number) => {
        const found = check(index);
        if (found !== undefined) clean.push(index);
        return found;
      },
    };
    const told = (shared?: typeof stripes) => {
      const problems: [number | null, string][] = [];
      const checked = checkEntries(db, [], (position, problem) => problems.push([position, problem]), start, shared);
      return { problems, checked };
    };
    return { whole: told(), striped: told(stripes), clean };
  } finally {
    db.close();
  }
};

describe('a log checked in stripes', () => {
  const SIZE = 2 * STRIPE + 500;
  let rows: { position: number; entry: string; content: string }[] = [];
  let bytes: Buffer = Buffer.alloc(0);
  beforeAll(() => {
    const book = longBook(SIZE);
    rows = [...book.rows(0, SIZE)];
    book.close();
    bytes = fs.readFileSync(book.path);
    // Bytes 18 and 19 of the header ask for a write-ahead log, which a database in memory can't have.
    bytes.fill(1, 18, 20);
  });

  test('gives the same tree, with nothing to say', () => {
    const { whole, striped, clean } = bothWays(bytes, () => undefined);
    expect(clean).toEqual([0, 1]);
    expect(whole.problems).toEqual([]);
    expect(striped).toEqual(whole);
    expect(whole.checked.size).toBe(SIZE);
  });

  test.each([1, 2, 31, 500, STRIPE - 1, STRIPE, STRIPE + 1, 2 * STRIPE, 2 * STRIPE + 1, SIZE])(
    'names a byte changed in the text, the content hash or the leaf of position %i as in one pass',
    (position) => {
      const row = rows[position - 1];
      if (row === undefined) throw new Error('No such row');
      const leaf = leafHash(row.entry);
      for (const [column, text] of [
        ['entry', row.entry],
        ['content', row.content],
        ['leaf', leaf],
      ] as const) {
        const stored = Buffer.from(text);
        const offset = (position * 31) % stored.length;
        stored[offset] = ((stored[offset] ?? 0) % 64) + 33 + (stored[offset] === 33 ? 1 : 0);
        if (stored.equals(Buffer.from(text))) stored[offset] = 35;
        const { whole, striped } = bothWays(bytes, (db) => {
          db.prepare(`update entries set ${column} = cast(? as text) where position = ?`).run(stored, position);
        });
        expect(whole.problems[0]?.[0]).toBe(position);
        expect(striped).toEqual(whole);
      }
    },
  );

  /** Another text with all its hashes right: only order and tree can tell. */
  const rewritten = (position: number, change: (text: string) => string) => (db: Database.Database) => {
    const text = change(rows[position - 1]?.entry ?? '');
    expect(text).not.toBe(rows[position - 1]?.entry);
    db.prepare('update entries set entry = ?, leaf = ? where position = ?').run(text, leafHash(text), position);
  };
  const earlier = (text: string) => text.replace(/"recordedtime":"2026-03-14T18/, '"recordedtime":"2026-03-14T17');
  const later = (text: string) => text.replace(/"recordedtime":"2026-03-14T18/, '"recordedtime":"2026-03-14T19');

  test.each<[string, (db: Database.Database) => void]>([
    ['the first of a stripe recorded before the one ahead', (db) => rewritten(STRIPE + 1, earlier)(db)],
    ['the last of a stripe recorded after all that follow', (db) => rewritten(STRIPE, later)(db)],
    ['one within a stripe recorded before', (db) => rewritten(STRIPE + 600, earlier)(db)],
    ['one in the last, short piece recorded before', (db) => rewritten(2 * STRIPE + 1, earlier)(db)],
    [
      'a root said otherwise by an issued sheet',
      (db) => rewritten(500, (text) => text.replace(/"root":"./, '"root":"x'))(db),
    ],
    [
      'another cow kept beside the text',
      (db) => db.exec(`update entries set subject = '99' where position = ${STRIPE}`),
    ],
    ['another id kept beside the text', (db) => db.exec(`update entries set id = 'x' where position = ${STRIPE + 1}`)],
    ['the last row of a stripe taken out', (db) => db.exec(`delete from entries where position = ${STRIPE}`)],
    ['the first row of a stripe taken out', (db) => db.exec(`delete from entries where position = ${STRIPE + 1}`)],
    ['a row taken out of every stripe', (db) => db.exec(`delete from entries where position % ${STRIPE} = 7`)],
    ['a whole stripe taken out', (db) => db.exec(`delete from entries where position <= ${STRIPE}`)],
    ['all but the last row taken out', (db) => db.exec(`delete from entries where position < ${SIZE}`)],
    ['a row moved before the first', (db) => db.exec('update entries set position = -5 where position = 12')],
    [
      'a row moved far behind the last',
      (db) => db.exec(`update entries set position = 1 << 50 where position = ${SIZE}`),
    ],
    ['a cow taken off the list', (db) => db.exec(`delete from cow_entries where subject = '121'`)],
    [
      'one position of a cow listed as another',
      (db) => db.exec(`update cow_entries set position = 3 where position = 2`),
    ],
  ])('tells of %s as in one pass', (_, change) => {
    const { whole, striped } = bothWays(bytes, (db) => {
      db.exec(
        'insert or ignore into cow_entries (subject, position) select subject, position from entries where subject is not null',
      );
      db.exec('update cow_entries_up_to set position = (select max(position) from entries)');
      change(db);
    });
    expect(whole.problems).not.toEqual([]);
    expect(striped).toEqual(whole);
  });
});

describe('a long book verified in threads of its own', () => {
  const SIZE = 5 * STRIPE + 300;
  let file = '';
  beforeAll(() => {
    const book = longBook(SIZE);
    file = book.path;
    book.close();
  });

  test('is reported as in one pass, while others are answered', async () => {
    expect(isWorthThreads(SIZE)).toBe(true);
    const book = opened(file);
    let answered = 0;
    const timer = setInterval(() => {
      answered += 1;
    }, 1);
    const report = await book.verifyApart();
    clearInterval(timer);
    expect(report).toMatchObject({ ok: true, position: SIZE, root: book.head().root });
    expect(report).toEqual(book.verify());
    expect(answered).toBeGreaterThan(5);
    book.close();
  });

  test('is reported as in one pass where it was changed, in a stripe of either thread', async () => {
    const copy = newPath();
    for (const end of ['', '.key']) fs.copyFileSync(file + end, copy + end);
    const db = bare(copy);
    for (const name of db.prepare<[], string>(`select name from sqlite_schema where type = 'trigger'`).pluck().all()) {
      db.exec(`drop trigger ${name}`);
    }
    for (let index = 0; index < 5; index += 1) {
      db.exec(
        `update entries set entry = replace(entry, '412', '413'), id = 'x' where position = ${index * STRIPE + 77}`,
      );
    }
    db.close();
    const book = opened(copy, { readOnly: true });
    const report = await book.verifyApart();
    const positions = report.problems.map(({ position }) => position).filter((position) => position !== null);
    expect(positions).toEqual([0, 1, 2, 3, 4].map((index) => index * STRIPE + 77));
    expect(report).toEqual(book.verify());
    book.close();
  });

  test('is verified over the connection at hand where the threads find no file', async () => {
    const copy = newPath();
    for (const end of ['', '.key']) fs.copyFileSync(file + end, copy + end);
    const book = opened(copy, { readOnly: true });
    book.head();
    fs.rmSync(copy);
    expect(await book.verifyApart()).toMatchObject({ ok: true, position: SIZE });
    book.close();
  });
});
