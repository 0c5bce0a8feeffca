/** Whatever is changed in a stored book behind its back is found, and the first position that differs is named. */
import fs from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { openBookAs } from '../../events/book.ts';
import { FORMATS } from '../../events/log/formats.ts';
import { leafHash } from '../../events/log/merkle.ts';
import { bare, dose, handClock, newPath, opened, turnedAway } from './a-book.ts';

const ENTRIES = 40;

const aBook = (): string => {
  const file = newPath();
  const book = opened(file);
  for (let number = 0; number < ENTRIES; number += 4)
    book.record([0, 1, 2, 3].map((more) => dose(`d${number + more}`, String(100 + number))));
  book.record([turnedAway('not an entry')]);
  book.keepPaper(new TextEncoder().encode('a paper'));
  book.close();
  return file;
};

/** Changes the file with the guards taken off, as somebody with the file and a database tool could. */
const tamper = (file: string, sql: string, ...values: unknown[]): void => {
  const db = bare(file);
  for (const { name } of db.prepare("select name from sqlite_schema where type = 'trigger'").all() as {
    name: string;
  }[])
    db.exec(`drop trigger "${name}"`);
  db.prepare(sql).run(...values);
  db.close();
};

const verified = (file: string) => {
  const book = opened(file);
  const report = book.verify();
  book.close();
  return report;
};

describe('verify', () => {
  test('an untouched book agrees', () => {
    expect(verified(aBook())).toMatchObject({ ok: true, position: ENTRIES, problems: [] });
  });

  test('any one changed character of any stored entry is found, and its position named', () => {
    const file = aBook();
    const rows = bare(file).prepare('select position, entry from entries').all() as {
      position: number;
      entry: string;
    }[];
    const original = fs.readFileSync(file);
    fc.assert(
      fc.property(
        fc.constantFrom(...rows),
        fc.nat(),
        fc.constantFrom('x', '0', ' ', '"', 'é'),
        ({ position, entry }, place, letter) => {
          const at = place % entry.length;
          fc.pre(entry[at] !== letter);
          for (const end of ['-wal', '-shm']) fs.rmSync(file + end, { force: true });
          fs.writeFileSync(file, original);
          try {
            tamper(
              file,
              'update entries set entry = ? where position = ?',
              `${entry.slice(0, at)}${letter}${entry.slice(at + 1)}`,
              position,
            );
          } catch {
            return; // Text that is no JSON at all is refused by the table itself.
          }
          const report = verified(file);
          expect(report.ok).toBe(false);
          expect(report.problems.map((problem) => problem.position)).toContain(position);
        },
      ),
      { seed: 7, numRuns: 200 },
    );
  });

  test('ten thousand changes of one byte, in bytes and entries drawn at random, each give the leaf another hash', () => {
    const rows = bare(aBook()).prepare('select entry, leaf from entries').all() as { entry: string; leaf: string }[];
    const bytes = rows.map(({ entry }) => Buffer.from(entry));
    for (const [index, { leaf }] of rows.entries()) expect(leafHash(bytes[index] ?? '')).toBe(leaf);
    let unseen = 0;
    fc.assert(
      fc.property(fc.nat(rows.length - 1), fc.nat(), fc.integer({ min: 1, max: 255 }), (index, place, flip) => {
        const changed = Buffer.from(bytes[index] ?? '');
        const at = place % changed.length;
        changed[at] = (changed[at] ?? 0) ^ flip;
        if (leafHash(changed) === rows[index]?.leaf) unseen += 1;
      }),
      { seed: 11, numRuns: 10_000 },
    );
    expect(unseen).toBe(0);
  });

  test.each([
    ['an entry taken out', 'delete from entries where position = 17'],
    ['the last entry taken out', `delete from entries where position = ${ENTRIES}`],
    ['a refusal taken out', 'delete from set_aside'],
    ['a refusal put in other words', "update set_aside set problem = 'nothing'"],
    ['a paper changed', "update papers set bytes = x'00'"],
  ])('%s is found', (_, sql) => {
    const file = aBook();
    tamper(file, sql);
    expect(verified(file).ok).toBe(false);
  });

  test('a book without its key says that it is not signed, and still takes entries', () => {
    const file = aBook();
    fs.rmSync(`${file}.key`);
    const book = opened(file);
    expect(book.record([dose('more', '412')])[0]?.outcome).toBe('recorded');
    const report = book.verify();
    expect(report.signed).toBe(false);
    expect([...report.notes, ...report.problems.map(({ problem }) => problem)].join(' ')).toMatch(/key|sign/);
  });

  test('a newer version brings an older book up to its format behind a backup copy, and the older then refuses it', () => {
    const file = aBook();
    const newer = [...FORMATS, { format: 2, steps: ['create table extra (id integer primary key) strict'] }];
    const book = openBookAs(file, { clock: handClock() }, newer);
    expect(book.read().entries).toHaveLength(ENTRIES);
    book.close();
    expect(fs.existsSync(`${file}.before-format-2`)).toBe(true);
    expect(() => opened(file)).toThrow(/newer version/);
  });
});
