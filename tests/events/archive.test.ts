/** The whole book as one file and back: same sequence, times and root, and a new book from there. */
import fs from 'node:fs';
import path from 'node:path';
import { gunzipSync, gzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { KINDS } from '../../events/kinds.ts';
import { writeArchive } from '../../events/log/archive.ts';
import { readArchive } from '../../events/log/archive-back.ts';
import { takeNewKey } from '../../events/log/backup.ts';
import { readRefusal } from '../../events/refused-elsewhere.ts';
import { dose, folder, handClock, newPath, opened, passed, rehearsalClock, turnedAway } from './a-book.ts';

const clock = handClock();

const aBook = (options: Parameters<typeof opened>[1] = {}): string => {
  const file = newPath();
  const book = opened(file, options);
  book.record([passed({ id: 'farm', type: 'farm-set-up', data: KINDS['farm-set-up'].example })]);
  for (let number = 1; number < 29; number += 1) book.record([dose(`d${number}`, '412', { author: 'Łucja 🐄' })]);
  book.record([dose('from-peer', '413')], 'laptop');
  book.record([turnedAway('not an entry, but it names "subject":"412"'), turnedAway('{')]);
  book.keepPaper(new TextEncoder().encode('a paper'));
  book.keepPaper(Buffer.from([0, 255, 10, 13]));
  book.close();
  return file;
};

const archived = async (file: string): Promise<string> => {
  const archive = path.join(folder(), 'book.archive');
  await writeArchive(file, archive);
  return archive;
};

const linesIn = (archive: string): string[] => gunzipSync(fs.readFileSync(archive)).toString().trimEnd().split('\n');

describe('an archive', () => {
  test('brought back has the same entries, refusals, papers, times and root, and goes on as a new book', async () => {
    const file = aBook();
    const to = newPath();
    const back = await readArchive(await archived(file), to, clock);
    const [old, book] = [opened(file), opened(to)];
    expect(back).toEqual({ from: old.bookId, position: 30, bookId: book.bookId, root: old.head().root });
    expect(book.rows(0, 30)).toEqual(old.rows(0, 30));
    expect(book.read({ position: 30 })).toEqual(old.read());
    expect([book.farmId, book.rehearsal]).toEqual([old.farmId, false]);
    expect(book.read().entries.slice(30)).toMatchObject([
      { type: 'book-continued', data: { book: old.bookId, position: 30, root: old.head().root } },
    ]);
    book.record([dose('after', '414')]);
    expect(book.verify()).toMatchObject({ ok: true, signed: true, papers: 2, setAside: 2, position: 32 });
    expect(book.names().map(({ verifierKey }) => verifierKey)).toEqual([old.verifierKey, book.verifierKey]);
  });

  test('R-27 a line that two books refused comes back with what both said of it', async () => {
    const file = aBook();
    const [to, book] = [newPath(), opened(file)];
    const [refusal] = book.refusedBehind(0, { rows: 1, characters: 1 })?.refused ?? [];
    book.carry([readRefusal({ ...refusal, problem: 'a', cows: ['77'] })], 'laptop');
    expect(book.read().asides.find(({ problem }) => problem === 'a')?.cows).toEqual(['412', '77']);
    await readArchive(await archived(file), to, clock);
    const back = opened(to);
    expect(back.read({ position: 30 })).toEqual(book.read({ position: 30 }));
    expect(back.lastRefused()).toEqual(book.lastRefused());
    expect(back.verify()).toMatchObject({ ok: true, setAside: 3 });
  });

  test('is JSON Lines that any program can read: the book first, then each entry’s stored text in order', async () => {
    const file = aBook();
    const [first = '', ...rest] = linesIn(await archived(file));
    const book = opened(file);
    expect(JSON.parse(first)).toMatchObject({
      archive: 1,
      position: 30,
      ...{ root: book.head().root },
      checkpoint: book.checkpoint(),
    });
    const entries = rest.map((line) => JSON.parse(line)).filter((line) => 'entry' in line);
    expect(entries.map(({ entry }) => entry)).toEqual(book.rows(0, 100).map(({ entry }) => entry));
  });

  test('holds no private key', async () => {
    const file = aBook();
    const secret = Buffer.from(fs.readFileSync(`${file}.key`, 'utf8').split('\n')[1] ?? '', 'base64').subarray(-32);
    const text = linesIn(await archived(file)).join('\n');
    expect(text).not.toContain('PRIVATE KEY');
    for (const form of ['hex', 'base64'] as const) expect(text).not.toContain(secret.toString(form).replace(/=+$/, ''));
  });

  test('of a book that went on before keeps every name and key of it', async () => {
    const file = aBook();
    fs.rmSync(`${file}.key`);
    takeNewKey(file, clock);
    const to = newPath();
    await readArchive(await archived(file), to, clock);
    const [old, book] = [opened(file), opened(to)];
    expect(book.names().slice(0, 2)).toEqual(old.names());
    expect(book.names()).toHaveLength(3);
    expect(book.verify()).toMatchObject({ ok: true, signed: true });
  });

  test('of a rehearsal is a rehearsal with the same clock', async () => {
    const to = newPath();
    await readArchive(await archived(aBook({ clock: rehearsalClock })), to, clock);
    const book = opened(to);
    expect([book.rehearsal, book.clock.now(), book.verify().ok]).toEqual([true, rehearsalClock.now(), true]);
  });

  test('of a book without an entry comes back as well', async () => {
    const file = newPath();
    opened(file).close();
    const to = newPath();
    await readArchive(await archived(file), to, clock);
    expect(
      opened(to)
        .read()
        .entries.map(({ type }) => type),
    ).toEqual(['book-continued']);
  });

  test('is of one moment, though the book is written to meanwhile', async () => {
    const file = aBook();
    const book = opened(file);
    const archive = path.join(folder(), 'book.archive');
    const made = writeArchive(file, archive);
    for (let number = 100; number < 150; number += 1) book.record([dose(`d${number}`, '412')]);
    const { position } = await made;
    expect(position).toBe(30);
    await readArchive(archive, newPath(), clock);
  });

  const swap = (lines: string[], one: number, two: number): string[] =>
    lines.map((line, index) => lines[index === one ? two : index === two ? one : index] ?? line);

  test.each<[string, (lines: string[]) => string[] | Buffer]>([
    ['an entry that was changed', (lines) => lines.map((line) => line.replace('d17', 'd71'))],
    ['two entries in another order', (lines) => swap(lines, 10, 11)],
    ['an entry left out', (lines) => lines.filter((_, index) => index !== 12)],
    ['an entry put in', (lines) => [...lines, lines.at(-1)?.replace('from-peer', 'put-in') ?? '']],
    ['its end cut off', (lines) => lines.slice(0, -3)],
    ['a refusal that was changed', (lines) => lines.map((line) => line.replace('not an entry, but', 'an entry, and'))],
    ['a refusal left out', (lines) => lines.filter((_, index) => index !== 2)],
    [
      'another farm’s key in its first line',
      ([first = '', ...rest]) => [first.replace(/"key":"[0-9a-f]{8}/, '"key":"00000000'), ...rest],
    ],
    ['a checkpoint that was changed', ([first = '', ...rest]) => [first.replace('— byrebook', '— Byrebook'), ...rest]],
    ['a line of another kind', (lines) => [...lines, '{"cow":"412"}']],
    ['a line that is not JSON', (lines) => [...lines, 'milk 412 out']],
    ['nothing but braces', () => ['{}']],
    ['bytes cut off its compressed end', (lines) => gzipSync(lines.join('\n')).subarray(0, -40)],
    [
      'a bit of its compressed bytes changed',
      (lines) => {
        const bytes = gzipSync(lines.join('\n'));
        bytes[200] = (bytes[200] ?? 0) ^ 4;
        return bytes;
      },
    ],
    ['no compression', (lines) => Buffer.from(lines.join('\n'))],
  ])('with %s is refused in a sentence that names it, and nothing is made of it', async (_, spoil) => {
    const archive = await archived(aBook());
    const spoiled = spoil(linesIn(archive));
    fs.writeFileSync(archive, Array.isArray(spoiled) ? gzipSync(`${spoiled.join('\n')}\n`) : spoiled);
    const to = newPath();
    await expect(readArchive(archive, to, clock)).rejects.toMatchObject({
      name: 'UserProblem',
      message: expect.stringMatching(/archive/),
    });
    expect(fs.readdirSync(path.dirname(to))).toEqual([]);
  });

  test('of a real book under a fixed clock is refused', async () => {
    const to = newPath();
    await expect(readArchive(await archived(aBook()), to, rehearsalClock)).rejects.toThrow(/keeps real time/);
    expect(fs.readdirSync(path.dirname(to))).toEqual([]);
  });

  test('never overwrites', async () => {
    const file = aBook();
    await expect(writeArchive(file, file)).rejects.toThrow(/never overwrites/);
    await expect(readArchive(await archived(file), file, clock)).rejects.toThrow(/never overwrites/);
  });
});
