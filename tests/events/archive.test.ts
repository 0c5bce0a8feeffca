/** The whole book as one file and back: same sequence, times and root, and a new book from there. */
import fs from 'node:fs';
import path from 'node:path';
import { gunzipSync, gzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { readArchive, writeArchive } from '../../events/log/archive.ts';
import { dose, folder, handClock, newPath, opened, turnedAway } from './a-book.ts';

const aBook = (): string => {
  const file = newPath();
  const book = opened(file);
  for (let number = 0; number < 30; number += 1) book.record([dose(`d${number}`, '412')]);
  book.record([turnedAway('not an entry, but it names "subject":"412"')]);
  book.keepPaper(new TextEncoder().encode('a paper'));
  book.close();
  return file;
};

describe('an archive', () => {
  test('brought back has the same entries, refusals, papers, times and root, and goes on as a new book', async () => {
    const file = aBook();
    const archive = path.join(folder(), 'book.archive');
    const { position, root } = await writeArchive(file, archive);
    const to = newPath();
    const back = await readArchive(archive, to, handClock());
    const [old, book] = [opened(file), opened(to)];
    expect([back.position, back.root]).toEqual([position, root]);
    expect(book.rows(0, 30)).toEqual(old.rows(0, 30));
    expect(book.read({ position: 30 })).toEqual(old.read());
    expect(book.read().entries.at(-1)).toMatchObject({
      type: 'book-continued',
      data: { book: old.bookId, position: 30, root },
    });
    book.record([dose('after', '414')]);
    expect(book.verify()).toMatchObject({ ok: true, signed: true, papers: 1, setAside: 1 });
  });

  test('that was changed, cut, or is another file is refused, and nothing is kept of it', async () => {
    const archive = path.join(folder(), 'book.archive');
    await writeArchive(aBook(), archive);
    const text = gunzipSync(fs.readFileSync(archive)).toString();
    const broken = [
      gzipSync(text.replace('d17', 'd71')),
      gzipSync(text.split('\n').slice(0, -3).join('\n')),
      gzipSync('{}\n'),
      Buffer.from('not gzip'),
    ];
    for (const [index, bytes] of broken.entries()) {
      const file = path.join(folder(), `broken-${index}`);
      fs.writeFileSync(file, bytes);
      const to = newPath();
      await expect(readArchive(file, to, handClock())).rejects.toThrow(/archive/);
      expect(fs.readdirSync(path.dirname(to))).toEqual([]);
    }
  });

  test('never overwrites', async () => {
    const file = aBook();
    await expect(writeArchive(file, file)).rejects.toThrow(/never overwrites/);
    const archive = path.join(folder(), 'book.archive');
    await writeArchive(file, archive);
    await expect(readArchive(archive, file, handClock())).rejects.toThrow(/never overwrites/);
  });
});
