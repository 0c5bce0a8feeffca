/** A copy while others write, and a book that goes on from one. */
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { KINDS } from '../../events/kinds.ts';
import { backupBook, restoreBook } from '../../events/log/backup.ts';
import { bare, dose, folder, handClock, newPath, opened, passed, rehearsalClock } from './a-book.ts';
import { putBackInto } from './older-book.ts';

const clock = handClock();

const aBook = (entries = 20): string => {
  const file = newPath();
  const book = opened(file);
  book.record([passed({ id: 'farm', type: 'farm-set-up', data: KINDS['farm-set-up'].example })]);
  for (let number = 1; number < entries; number += 1) book.record([dose(`d${number}`, '412')]);
  book.keepPaper(Buffer.from('a paper'));
  book.close();
  return file;
};

const backedUp = async (file: string): Promise<string> => {
  const copy = path.join(folder(), 'copy.book');
  await backupBook(file, copy, clock);
  return copy;
};

/** Does what the guards forbid. */
const changed = (file: string): void => {
  const db = bare(file);
  const guards = db.prepare<[], string>("select name from sqlite_schema where type = 'trigger'").pluck().all();
  for (const name of guards) db.exec(`drop trigger "${name}"`);
  db.exec("update entries set entry = replace(entry, '412', '499') where position = 7");
  db.close();
};

/** Another program that records into the book as fast as it can, from its first word until it is stopped. */
const writing = (file: string): Promise<{ stop: () => Promise<void> }> =>
  new Promise((resolve, reject) => {
    const child = spawn(process.execPath, ['--import', 'tsx', 'tests/events/record-until-killed.ts', file, '1']);
    child.on('error', reject);
    child.on('close', () => reject(new Error('It stopped by itself')));
    child.stdout.once('data', () =>
      resolve({
        stop: () =>
          new Promise((done) => {
            child.removeAllListeners('close');
            child.on('close', () => done());
            child.kill('SIGKILL');
          }),
      }),
    );
  });

describe('backup', () => {
  test('while another program writes, every copy is whole, verifies, and has all that was there when it began', async () => {
    const file = aBook(200);
    const writer = await writing(file);
    const reader = opened(file, { readOnly: true });
    try {
      for (let round = 0; round < 5; round += 1) {
        const before = reader.head().position;
        const copy = path.join(folder(), 'copy.book');
        const { ok, position } = await backupBook(file, copy, clock);
        expect([ok, position >= before]).toEqual([true, true]);
        expect(opened(copy, { create: false, readOnly: true }).verify()).toMatchObject({ ok: true, position });
      }
      const after = reader.head().position;
      await new Promise((resolve) => setTimeout(resolve, 100));
      expect(reader.head().position, 'the other program was writing all along').toBeGreaterThan(after);
    } finally {
      await writer.stop();
    }
  }, 60_000);

  test('is one file, and the key is not in it', async () => {
    const file = aBook();
    const copy = await backedUp(file);
    expect(fs.readdirSync(path.dirname(copy))).toEqual(['copy.book']);
    const bytes = fs.readFileSync(copy);
    const secret = Buffer.from(fs.readFileSync(`${file}.key`, 'utf8').split('\n')[1] ?? '', 'base64').subarray(-32);
    expect([bytes.includes('PRIVATE KEY'), bytes.includes(secret), secret.length]).toEqual([false, false, 32]);
  });

  test('of a book that does not verify is made all the same, and says so', async () => {
    const file = aBook();
    changed(file);
    const copy = path.join(folder(), 'copy.book');
    const report = await backupBook(file, copy, clock);
    expect(report.ok).toBe(false);
    expect(report.problems).toContainEqual({ position: 7, problem: expect.stringContaining('fingerprint') });
    expect(fs.existsSync(copy)).toBe(true);
  });

  test('never overwrites', async () => {
    const file = aBook();
    const was = fs.readFileSync(file);
    await expect(backupBook(file, file, clock)).rejects.toThrow(/never overwrites/);
    expect(fs.readFileSync(file).equals(was)).toBe(true);
  });

  test('to a folder that is not there says so and leaves nothing', async () => {
    const to = folder();
    await expect(backupBook(aBook(), path.join(to, 'no', 'copy.book'), clock)).rejects.toThrow(/backup .* not/i);
    expect(fs.readdirSync(to)).toEqual([]);
  });
});

describe('restore', () => {
  test('goes on as a new book of the same farm, whose first new entry says from where and with which key', async () => {
    const file = aBook();
    const to = newPath();
    const { bookId, position, from } = await restoreBook(await backedUp(file), to, clock);
    const [old, book] = [opened(file), opened(to)];
    expect([position, book.bookId, from]).toEqual([20, bookId, old.bookId]);
    expect(bookId).not.toBe(old.bookId);
    expect([book.farmId, book.rehearsal]).toEqual([old.farmId, false]);
    expect(book.farmId).toMatch(/^[0-9a-f]{8}-/);
    expect(book.read().entries.slice(20)).toMatchObject([
      {
        type: 'book-continued',
        position: 21,
        source: `byrebook/${bookId}`,
        data: { book: old.bookId, position: 20, root: old.head().root, newKey: book.verifierKey },
      },
    ]);
    expect(book.rows(0, 20)).toEqual(old.rows(0, 20));
    expect(book.record([dose('after', '414')])).toMatchObject([{ position: 22 }]);
    expect(book.verify()).toMatchObject({ ok: true, signed: true, papers: 1 });
    expect(fs.readdirSync(path.dirname(to)).filter((name) => name.includes('unfinished'))).toEqual([]);
  });

  test('of a live book takes what its write-ahead log holds, too', async () => {
    const file = newPath();
    const book = opened(file);
    book.record([dose('a', '412')]);
    expect(fs.statSync(`${file}-wal`).size).toBeGreaterThan(0);
    const to = newPath();
    await restoreBook(file, to, clock);
    expect(opened(to).find('a')).toHaveLength(1);
  });

  test('of a restored book names the book before it, and verify knows all three keys', async () => {
    const file = aBook();
    const [second, third] = [newPath(), newPath()];
    await restoreBook(await backedUp(file), second, clock);
    await restoreBook(await backedUp(second), third, clock);
    const [a, b, c] = [opened(file), opened(second), opened(third)];
    const report = c.verify();
    expect(report).toMatchObject({ ok: true, signed: true, position: 22 });
    for (const each of [a, b, c]) expect(report.notes.join('\n')).toContain(each.verifierKey);
    expect(c.names().map(({ verifierKey }) => verifierKey)).toEqual([a.verifierKey, b.verifierKey, c.verifierKey]);
  });

  test('of a rehearsal is a rehearsal', async () => {
    const file = newPath();
    const book = opened(file, { clock: rehearsalClock });
    book.record([dose('a', '412')]);
    const copy = path.join(folder(), 'copy.book');
    await backupBook(file, copy, clock);
    const to = newPath();
    await restoreBook(copy, to, clock);
    const restored = opened(to);
    expect([restored.rehearsal, restored.clock.now()]).toEqual([true, rehearsalClock.now()]);
    expect(restored.verify()).toMatchObject({ ok: true, signed: true, position: 2 });
  });

  test('of a real book under a fixed clock is refused', async () => {
    const to = newPath();
    await expect(restoreBook(await backedUp(aBook()), to, rehearsalClock)).rejects.toThrow(/keeps real time/);
    expect(fs.readdirSync(path.dirname(to))).toEqual([]);
  });

  test('of an older format brings it up to date, and leaves no copy about', async () => {
    const old = newPath();
    const book = opened(old, { clock });
    book.record([dose('a', '412')]);
    book.close();
    putBackInto(1, old);
    const to = newPath();
    await restoreBook(old, to, clock);
    expect(opened(to).verify()).toMatchObject({ ok: true, signed: true, position: 2 });
    expect(fs.readdirSync(path.dirname(to)).filter((name) => name.includes('format'))).toEqual([]);
  });

  test('never overwrites a book or a key', async () => {
    const copy = await backedUp(aBook());
    const taken = aBook();
    await expect(restoreBook(copy, taken, clock)).rejects.toThrow(/never overwrites/);
    const to = newPath();
    fs.writeFileSync(`${to}.key`, 'a key');
    await expect(restoreBook(copy, to, clock)).rejects.toThrow(/\.key is there already; restore never overwrites/);
  });

  test.each<[string, (file: string) => void, RegExp]>([
    ['was changed', changed, /does not verify, so nothing was made of it: its text does not give/],
    ['is half there', (file) => fs.truncateSync(file, 8_192), /damaged|does not verify/],
    ['is no book', (file) => fs.writeFileSync(file, 'Treated 412.\n'.repeat(500)), /does not read as a database/],
    ['is not there', (file) => fs.rmSync(file), /There is no file/],
  ])('of a file that %s says so, names that file, and leaves nothing', async (_, spoil, problem) => {
    const copy = await backedUp(aBook());
    spoil(copy);
    const to = newPath();
    await expect(restoreBook(copy, to, clock)).rejects.toThrow(problem);
    await expect(restoreBook(copy, to, clock)).rejects.toThrow(copy);
    expect(fs.readdirSync(path.dirname(to))).toEqual([]);
  });
});
