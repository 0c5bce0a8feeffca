/** Verify finds every change of a stored row and names the first position, and says where it can't. */
import fs from 'node:fs';
import type Database from 'better-sqlite3';
import { describe, expect, test } from 'vitest';
import { openBook } from '../../events/book.ts';
import { KINDS } from '../../events/kinds.ts';
import { columnsOf } from '../../events/log/columns.ts';
import { signedCheckpoint } from '../../events/log/head.ts';
import { EMPTY_RANGE, extend, leafHash, rootOf } from '../../events/log/merkle.ts';
import { keyFromSeed } from '../../events/log/signing-key.ts';
import { canonicalJson, sha256 } from '../../shared/fingerprint.ts';
import { bare, dose, handClock, line, newPath, opened, strike } from './a-book.ts';

const CONTENT = { held: [{ cow: '412', until: null }] };

/** A book with some of everything: 31 entries (an issued sheet is the last), two refused lines, two papers. */
const fullBook = () => {
  const book = opened(newPath());
  book.record(Array.from({ length: 12 }, (_, index) => dose(`d${index}`, String(400 + index), { author: 'Łucja 🐄' })));
  book.record([line('{"subject":"77"'), strike('s', 'd3'), line('{"subject":"78"')]);
  book.record(
    Array.from({ length: 17 }, (_, index) => dose(`e${index}`, String(500 + index))),
    'laptop',
  );
  book.keepPaper(Buffer.from('another paper'));
  book.recordOwn('sheet-issued', {
    ...KINDS['sheet-issued'].example,
    ...book.head(),
    sheets: [
      {
        sheet: 'milk-hold',
        content: CONTENT,
        contentHash: sha256(canonicalJson(CONTENT)),
        pdfHash: book.keepPaper(Buffer.from('the paper')),
      },
    ],
  });
  return book;
};

/** Does what the guards forbid and puts them back, as somebody with the file and an SQL shell could. */
const behindTheGuards = (file: string, work: (db: Database.Database) => void): void => {
  const db = bare(file);
  const guards = db
    .prepare<[], { name: string; sql: string }>(`select name, sql from sqlite_schema where type = 'trigger'`)
    .all();
  for (const { name } of guards) db.exec(`drop trigger ${name}`);
  work(db);
  for (const { sql } of guards) db.exec(sql);
};

const placesOf = (bytes: Buffer, part: Buffer): number[] => {
  const places: number[] = [];
  for (let at = bytes.indexOf(part); at >= 0; at = bytes.indexOf(part, at + 1)) places.push(at);
  return places;
};

/** The same dice on every run. */
const dice = (seed: number) => (sides: number) => {
  seed = (Math.imul(seed, 1_103_515_245) + 12_345) >>> 0;
  return Math.floor((seed / 2 ** 32) * sides);
};

describe('an untouched book', () => {
  test('verifies, and its report counts what is there', () => {
    const book = fullBook();
    expect(book.verify()).toMatchObject({
      ok: true,
      position: 31,
      root: book.head().root,
      problems: [],
      signed: true,
      papers: 2,
      setAside: 2,
    });
  });

  test('says that no witness outside it is known', () => {
    expect(fullBook().verify().notes.join()).toContain('No witness outside this file is known');
  });
});

describe('a byte changed at random', () => {
  test('in a stored row is found at its position, 300 times of 300', () => {
    const book = fullBook();
    const file = book.path;
    const rows = book.rows(0, 100);
    book.close();
    const clean = fs.readFileSync(file);
    const roll = dice(412);
    for (let turn = 0; turn < 300; turn += 1) {
      const { position, entry, content } = rows[roll(rows.length)] ?? { position: 0, entry: '', content: '' };
      // A row's columns lie one behind the other: text, content hash, leaf hash.
      const stored = Buffer.from(entry + content + leafHash(entry));
      const offset = roll(stored.length);
      const byte = ((stored[offset] ?? 0) + 1 + roll(255)) % 256;
      const changed = Buffer.from(clean);
      // Where the tree of pages grew, an old copy of the row may lie about in the file: that one changes too.
      const starts = placesOf(clean, stored);
      expect(starts.length).toBeGreaterThan(0);
      for (const start of starts) changed[start + offset] = byte;
      fs.writeFileSync(file, changed);
      const damagedBook = openBook(file, { clock: handClock() });
      const { ok, problems } = damagedBook.verify();
      damagedBook.close();
      const what = `position ${position}, byte ${offset} from ${stored[offset]} to ${byte}`;
      expect([what, ok, problems[0]?.position]).toEqual([what, false, position]);
    }
    fs.writeFileSync(file, clean);
    expect(opened(file).verify()).toMatchObject({ ok: true, position: 31 });
  });

  test('in a printed paper is found', () => {
    const book = fullBook();
    behindTheGuards(book.path, (db) => db.exec(`update papers set bytes = cast('the Paper' as blob) where number = 2`));
    expect(book.verify().problems).toEqual([
      { position: null, problem: expect.stringContaining('is not the one that was printed') },
    ]);
  });
});

/** Rewrites an entry with hashes to match, as somebody who knows the format would. */
const rewrite = (
  file: string,
  position: number,
  change: (entry: Record<string, unknown>) => unknown,
  asText = canonicalJson,
) =>
  behindTheGuards(file, (db) => {
    const was = db.prepare<[number], string>('select entry from entries where position = ?').pluck().get(position);
    const entry = asText(change(JSON.parse(was ?? '{}')));
    const { sequence: _, recordedtime: __, via: ___, ...writers } = JSON.parse(entry);
    const { id, subject, strikes } = columnsOf(writers);
    db.prepare(
      'update entries set entry = ?, content = ?, leaf = ?, id = ?, subject = ?, strikes = ? where position = ?',
    ).run(entry, sha256(canonicalJson(writers)), leafHash(entry), id, subject, strikes, position);
  });

/** Makes the head fit the entries again; gives what a checkpoint of it would say. */
const mendHead = (file: string): { size: number; root: string } => {
  let mended = { size: 0, root: '' };
  behindTheGuards(file, (db) => {
    const range = extend(
      EMPTY_RANGE,
      db.prepare<[], string>('select leaf from entries order by position').pluck().all(),
    );
    mended = { size: range.size, root: rootOf(range) };
    db.prepare('update head set size = ?, root = ?, peaks = ?').run(
      mended.size,
      mended.root,
      JSON.stringify(range.peaks),
    );
  });
  return mended;
};

const subjectOf = (subject: string) => (entry: Record<string, unknown>) => ({ ...entry, subject });
const says = (text: string) => expect.objectContaining({ problem: expect.stringContaining(text) });

describe('an entry rewritten with hashes to match', () => {
  test('does not give the head’s root, and the place is narrowed down to a full subtree', () => {
    const book = fullBook();
    rewrite(book.path, 20, subjectOf('999'));
    const { problems } = book.verify();
    expect(problems).toContainEqual(says('between positions 17 and 24'));
    expect(problems).toContainEqual({ position: 31, problem: expect.stringContaining('the issued set ACEF-3479-K') });
    expect(problems).not.toContainEqual(says('fingerprint'));
  });

  test('and a head to match still breaks the signature and the root on the issued paper', () => {
    const book = fullBook();
    rewrite(book.path, 20, subjectOf('999'));
    mendHead(book.path);
    const { problems, signed } = book.verify();
    expect(signed).toBe(false);
    expect(problems).toContainEqual(says("the book's last signed checkpoint says another root for position 31"));
    expect(problems).toContainEqual({ position: 31, problem: expect.stringContaining('the issued set ACEF-3479-K') });
  });

  test('and a checkpoint by another key is found out', () => {
    const book = fullBook();
    rewrite(book.path, 20, subjectOf('999'));
    const { size, root } = mendHead(book.path);
    const forged = signedCheckpoint(book.bookId, size, root, keyFromSeed('11'.repeat(32)));
    behindTheGuards(book.path, (db) => db.prepare('update head set checkpoint = ?').run(forged));
    expect(book.verify().problems).toContainEqual(says("not signed by the book's key"));
  });

  test('by the holder of the key himself shows in nothing but a witness outside, which verify admits', () => {
    const book = opened(newPath());
    book.record([dose('a', '412'), dose('b', '413')]);
    const paper = book.head();
    rewrite(book.path, 1, subjectOf('999'));
    const { size, root } = mendHead(book.path);
    const [, pem = ''] = [0, fs.readFileSync(`${book.path}.key`, 'utf8')];
    const seed = Buffer.from(pem.split('\n')[1] ?? '', 'base64')
      .subarray(-32)
      .toString('hex');
    const resigned = signedCheckpoint(book.bookId, size, root, keyFromSeed(seed));
    behindTheGuards(book.path, (db) => db.prepare('update head set checkpoint = ?').run(resigned));
    const report = book.verify();
    expect(report).toMatchObject({ ok: true, signed: true });
    expect(report.notes.join()).toContain('only that shows that the log was not replaced as a whole');
    expect(report.root).not.toBe(paper.root);
  });

  test.each<[string, (entry: Record<string, unknown>) => unknown, ((value: unknown) => string) | undefined, string]>([
    [
      'a recorded time before the one ahead',
      (entry) => ({ ...entry, recordedtime: '2020-01-01T00:00:00Z' }),
      undefined,
      'recorded before the entry ahead',
    ],
    [
      'a recorded time that is none',
      (entry) => ({ ...entry, recordedtime: 'noon' }),
      undefined,
      'recorded time is not a time',
    ],
    [
      'another sequence number',
      (entry) => ({ ...entry, sequence: '0000000021' }),
      undefined,
      'sequence number is not its position',
    ],
    ['spaces in its text', (entry) => entry, (value) => JSON.stringify(value, null, 1), 'not in canonical form'],
    [
      'its fields in another order',
      ({ id, ...entry }) => ({ type: 'x', ...entry, id }),
      JSON.stringify,
      'not in canonical form',
    ],
  ])('and %s is named at its position', (_, change, asText, problem) => {
    const book = fullBook();
    rewrite(book.path, 20, change, asText);
    expect(book.verify().problems).toContainEqual({ position: 20, problem: expect.stringContaining(problem) });
  });

  test('with a content hash of something else is named at its position', () => {
    const book = fullBook();
    behindTheGuards(book.path, (db) =>
      db.prepare('update entries set content = ? where position = 20').run(sha256('x')),
    );
    expect(book.verify().problems).toEqual([{ position: 20, problem: expect.stringContaining('content hash') }]);
  });
});

describe('what is kept beside an entry’s text to find it by', () => {
  test.each([
    ['another id', `id = 'other'`, 20],
    ['no id', `id = ''`, 20],
    ['another cow', `subject = '999'`, 20],
    ['no cow', 'subject = null', 20],
    ['a cow in other letters', `subject = subject || ' '`, 20],
    ['a strike of another entry', `strikes = 'd4'`, 13],
    ['a strike of nothing', 'strikes = null', 13],
    ['a strike where there is none', `strikes = 'd4'`, 20],
    ['a strike by an issued sheet', `strikes = 'd4'`, 31],
  ])('%s than the text says is named at its position', (_, change, position) => {
    const book = fullBook();
    behindTheGuards(book.path, (db) => db.exec(`update entries set ${change} where position = ${position}`));
    expect(book.verify().problems).toEqual([
      { position, problem: expect.stringContaining('kept beside it is not the one') },
    ]);
  });
});

describe('roots that entries say', () => {
  const sheetOf = (book: ReturnType<typeof fullBook>, position: number, root: string) =>
    book.recordOwn('sheet-issued', { ...KINDS['sheet-issued'].example, position, root, sheets: [] });
  const rootsOf = (book: ReturnType<typeof fullBook>) => {
    const rows = book.rows(0, 10_000);
    return (size: number) =>
      rootOf(
        extend(
          EMPTY_RANGE,
          rows.slice(0, size).map(({ entry }) => leafHash(entry)),
        ),
      );
  };

  test('of long before are checked as those of just before', () => {
    const book = fullBook();
    for (let batch = 0; batch < 5; batch += 1)
      book.record(Array.from({ length: 1_000 }, (_, index) => dose(`m${batch}-${index}`, '412')));
    const rootAt = rootsOf(book);
    for (const position of [0, 1, 20, 5_000]) sheetOf(book, position, rootAt(position));
    expect(book.verify()).toMatchObject({ ok: true, problems: [], position: 5_035 });
    for (const position of [0, 1, 20, 5_000]) sheetOf(book, position, 'a'.repeat(64));
    expect(book.verify().problems).toEqual(
      [0, 1, 20, 5_000].map((position, index) => ({
        position: 5_036 + index,
        problem: expect.stringContaining(`says another root for position ${position} than`),
      })),
    );
  }, 30_000);

  test('of later are checked when the log is there, and of never are named', () => {
    const book = fullBook();
    sheetOf(book, 33, 'a'.repeat(64));
    book.record([dose('later', '412')]);
    sheetOf(book, 99, 'a'.repeat(64));
    expect(book.verify().problems).toEqual([
      { position: 32, problem: expect.stringContaining('says another root for position 33 than') },
      { position: 34, problem: expect.stringContaining('speaks of position 99, but the log ends at 34') },
    ]);
  });
});

describe('what is missing', () => {
  test('an entry taken out of the middle is named', () => {
    const book = fullBook();
    behindTheGuards(book.path, (db) => db.exec('delete from entries where position = 7'));
    expect(book.verify().problems[0]).toEqual({ position: 7, problem: expect.stringContaining('is missing') });
  });

  test('entries taken off the end are missed by the head', () => {
    const book = fullBook();
    behindTheGuards(book.path, (db) => db.exec('delete from entries where position > 28'));
    expect(book.verify().problems).toContainEqual(says('the head counts 31 entries, but 28 are there'));
  });

  test('entries taken off the end, and the head put right, are missed by the signed checkpoint', () => {
    const book = fullBook();
    behindTheGuards(book.path, (db) => db.exec('delete from entries where position > 28'));
    mendHead(book.path);
    expect(book.verify().problems).toContainEqual(says('speaks of position 31, but the log ends at 28'));
  });

  test('a paper of an issued sheet is missed at the sheet’s position', () => {
    const book = fullBook();
    behindTheGuards(book.path, (db) => db.exec('delete from papers where number = 2'));
    expect(book.verify().problems).toEqual([
      { position: 31, problem: expect.stringContaining('paper of its sheet "milk-hold"') },
    ]);
  });

  test('a refused line taken out is missed, the last one too', () => {
    for (const number of [1, 2]) {
      const book = fullBook();
      behindTheGuards(book.path, (db) => db.prepare('delete from set_aside where number = ?').run(number));
      expect(book.verify().problems).toContainEqual(says('of what was set aside'));
    }
  });

  test('a guard taken away is missed', () => {
    const book = fullBook();
    bare(book.path).exec('drop trigger entries_are_never_changed');
    expect(book.verify().problems).toEqual([says('"entries_are_never_changed" is missing')]);
  });
});

describe('what stands beside the log', () => {
  test.each([
    ['the cows of a refused line', `update set_aside set cows = '[]' where number = 1`, 'number 1 (set-aside:'],
    ['the text of a refused line', `update set_aside set text = 'nothing' where number = 2`, 'number 2 (set-aside:'],
    ['the reason of a refused line', `update set_aside set problem = 'none' where number = 2`, 'number 2 (set-aside:'],
    ['the hashes the next entry builds on', `update head set peaks = '[]'`, 'the hashes that the next entry builds on'],
    ['the root in the head', `update head set root = '${'0'.repeat(64)}'`, 'in the head itself'],
    ['the name of the book', `update books set book = 'another'`, "not signed by the book's key"],
    ['the public key of the book', `update books set key = '${'0'.repeat(64)}'`, "not signed by the book's key"],
  ])('%s cannot be changed unseen', (_, sql, problem) => {
    const book = fullBook();
    behindTheGuards(book.path, (db) => db.exec(sql));
    expect(book.verify().problems).toContainEqual(says(problem));
  });

  test('a guard that was weakened, or a table that was added, is named', () => {
    const book = fullBook();
    const db = bare(book.path);
    db.exec('drop trigger papers_are_never_removed; create table extra (x)');
    db.exec('create trigger papers_are_never_removed before delete on papers when false begin select 1; end');
    expect(book.verify().problems).toEqual([
      says('"papers_are_never_removed" is not as this format makes it'),
      says('"extra" does not belong in a book'),
    ]);
  });

  test('rows of an issued sheet that do not give the hash it names are found', () => {
    const book = opened(newPath());
    const { example } = KINDS['sheet-issued'];
    const pdfHash = book.keepPaper(Buffer.from('the paper'));
    book.recordOwn('sheet-issued', {
      ...example,
      ...book.head(),
      sheets: [{ sheet: 'milk-hold', content: CONTENT, contentHash: sha256('other'), pdfHash }],
    });
    expect(book.verify().problems).toEqual([{ position: 1, problem: expect.stringContaining('rows of its sheet') }]);
  });

  test('a log that was torn apart in the file is a finding, not a failure', () => {
    const book = fullBook();
    book.close();
    const bytes = fs.readFileSync(book.path);
    const start = bytes.indexOf('"id":"e3"');
    bytes.fill(0xff, start - (start % 4096), start);
    fs.writeFileSync(book.path, bytes);
    const { ok, problems } = opened(book.path).verify();
    expect(ok).toBe(false);
    expect(problems.length).toBeGreaterThan(0);
  });
});
