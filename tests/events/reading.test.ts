/** What comes out of a book: everything known by a position or a time, a cow's rows, rows for streaming, papers. */
import { describe, expect, test } from 'vitest';
import { EMPTY_RANGE, extend, leafHash, rootOf } from '../../events/log/merkle.ts';
import { readRelayed } from '../../events/relay.ts';
import { sha256 } from '../../shared/fingerprint.ts';
import { plusHours } from '../../shared/instant.ts';
import { bare, dose, handClock, line, NOW, newBook, newPath, opened, passed } from './a-book.ts';

const rootOver = (texts: readonly string[]): string => rootOf(extend(EMPTY_RANGE, texts.map(leafHash)));

/** Three doses an hour apart; a line is refused after the second. */
const threeHours = () => {
  const clock = handClock();
  const book = newBook({ clock });
  book.record([dose('a', '412')]);
  clock.set(plusHours(NOW, 1));
  book.record([dose('b', '413')]);
  clock.set(plusHours(NOW, 2));
  book.record([line('{"subject":"77"')]);
  clock.set(plusHours(NOW, 3));
  book.record([dose('c', '412')]);
  return book;
};

describe('reading', () => {
  test('gives every entry in the order of the book, with the root of the tree over them', () => {
    const book = threeHours();
    const known = book.read();
    expect(known.entries.map(({ id, position }) => [id, position])).toEqual([
      ['a', 1],
      ['b', 2],
      ['c', 3],
    ]);
    expect(known.position).toBe(3);
    expect(known.root).toBe(book.head().root);
    expect(known.root).toBe(rootOver(book.rows(0, 9).map(({ entry }) => entry)));
  });

  test('up to a position gives the root there, and only what had been set aside by then', () => {
    const book = threeHours();
    const one = book.read({ position: 1 });
    expect(one.entries.map(({ id }) => id)).toEqual(['a']);
    expect(one.asides).toEqual([]);
    expect(one.root).toBe(rootOver(book.rows(0, 1).map(({ entry }) => entry)));
    expect(book.read({ position: 2 }).asides).toHaveLength(1);
    expect(book.read({ position: 99 })).toEqual(book.read());
    expect(book.read({ position: 0 })).toMatchObject({ entries: [], position: 0, root: sha256('') });
  });

  test.each([
    [-1, 0, 0],
    [0, 1, 0],
    [1, 2, 0],
    [1.999, 2, 0],
    [2, 2, 1],
    [3, 3, 1],
  ])('as known %f hours after the first gives %i entries and %i set aside', (hours, entries, asides) => {
    const known = threeHours().read({ knownAt: plusHours(NOW, hours) });
    expect([known.entries.length, known.asides.length, known.position]).toEqual([entries, asides, entries]);
  });

  test('R-27 a stored entry of a kind this version does not know is set aside with its cow, and stops nothing else', () => {
    const path = newPath();
    const book = opened(path);
    book.record([dose('a', '412')]);
    // As a newer version's entry would stand here: through the back door, at the next position.
    const entry = JSON.stringify({ ...dose('x', '413').said, type: 'hoof-trim' });
    const db = bare(path);
    db.prepare('insert into entries (position, entry, content, leaf, id) values (2, ?, ?, ?, ?)').run(
      entry,
      sha256('x'),
      leafHash(entry),
      'x',
    );
    db.prepare('update head set size = 2').run();
    book.record([dose('b', '414')]);
    const known = book.read();
    expect(known.entries.map(({ id }) => id)).toEqual(['a', 'b']);
    expect(known.asides).toMatchObject([{ cows: ['413'], id: 'x' }]);
    expect(known.asides[0]?.problem).toContain('hoof-trim');
  });
});

describe('reading further', () => {
  test('gives what reading all again gives, whatever came since, and tells what came', () => {
    const clock = handClock();
    const book = newBook({ clock });
    let known: ReturnType<typeof book.read> = book.read();
    for (const arrivals of [
      [dose('a', '412')],
      [],
      [line('{"subject":"77"'), dose('b', '413')],
      [line('{"subject":"78"')],
      [dose('a', '412'), dose('c', '412')],
    ]) {
      clock.set(plusHours(clock.now(), 1));
      const { position } = book.head();
      book.record(arrivals);
      const { news, isAnew, ...further } = book.readFurther(known);
      const entries = [...known.entries, ...news];
      expect({ ...further, entries }).toEqual(book.read());
      expect(isAnew).toBe(false);
      expect(news.map((entry) => entry.position)).toEqual(book.rows(position, 9).map((row) => row.position));
      known = { ...further, entries };
    }
    expect(known.asides).toHaveLength(2);
    const again = book.readFurther(known);
    expect(again.news).toEqual([]);
    expect(again.asides).toBe(known.asides);
  });

  test('up to a position it is reading up to there, whichever position was asked for before', () => {
    const clock = handClock();
    const book = opened(newPath(), { clock });
    for (const arrivals of [[dose('a', '412')], [line('{"subject":"77"')], [dose('b', '413'), dose('c', '77')]]) {
      clock.set(plusHours(clock.now(), 1));
      book.record(arrivals);
    }
    for (const from of [0, 1, 2, 3]) {
      const before = book.read({ position: from });
      for (const position of [0, 1, 2, 3, 9]) {
        const { news, isAnew, ...further } = book.readFurther(before, { position });
        expect({ ...further, entries: isAnew ? news : [...before.entries, ...news] }).toEqual(book.read({ position }));
        expect(isAnew).toBe(position < from);
      }
    }
  });

  test('sees what another program wrote to the same file', () => {
    const path = newPath();
    const [here, there] = [opened(path), opened(path)];
    here.record([dose('a', '412')]);
    const known = here.read();
    there.record([dose('b', '413'), line('{"subject":"77"')]);
    const { news, isAnew, ...further } = here.readFurther(known);
    expect([news.map(({ id }) => id), isAnew]).toEqual([['b'], false]);
    expect({ ...further, entries: [...known.entries, ...news] }).toEqual(there.read());
  });

  test('a book that is shorter than what was read of it is read anew', () => {
    const long = newBook();
    long.record([dose('a', '412'), dose('b', '413')]);
    const short = newBook();
    short.record([dose('c', '414')]);
    const { news, isAnew, ...further } = short.readFurther(long.read());
    expect({ ...further, entries: news }).toEqual(short.read());
    expect(isAnew).toBe(true);
  });
});

describe('rows', () => {
  test('come out raw and in order, as many as asked for', () => {
    const book = newBook();
    book.record(Array.from({ length: 25 }, (_, index) => dose(`d${index}`, String(index % 5))));
    expect(book.rows(0, 10).map(({ position }) => position)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
    expect(book.rows(20, 10).map(({ position }) => position)).toEqual([21, 22, 23, 24, 25]);
    expect(book.rows(25, 10)).toEqual([]);
    expect(book.texts(20, 3)).toEqual(book.rows(20, 3).map(({ entry }) => entry));
    expect(book.texts(25, 10)).toEqual([]);
  });

  test('that came through a peer are passed over, whatever an entry says of itself', () => {
    const book = newBook();
    book.adoptFarm('the-farm');
    const through = (via: string, id: string, more: object = {}) =>
      book.relay([readRelayed({ id, type: 'hoof-bath-run', author: 'Łucja 🐄', ...more })], via);
    expect(book.firstNotVia(0, 'far')).toBeUndefined();
    through('far', 'a');
    through('far', 'b', { subject: '412' });
    expect(book.firstNotVia(0, 'far')).toBeUndefined();
    through('near', 'c', { zone: ',"via":"far"', data: { via: 'far' } });
    through('far', 'd');
    through('far', 'e', { zone: 'behind the peer’s name: only who reads it whole can tell' });
    through('so far', 'f');
    book.record([dose('g', '412')]);
    through('far', 'h');
    expect([0, 2, 3, 5, 6, 7].map((after) => book.firstNotVia(after, 'far'))).toEqual([3, 3, 5, 6, 7, undefined]);
    expect(book.firstNotVia(1, 'near')).toBe(2);
  });

  test('of a cow are found by her exact number, and an official number with or without its spaces', () => {
    const book = newBook();
    book.record([
      dose('a', '7'),
      dose('b', '007'),
      dose('c', '372 123456789012'),
      dose('d', '372123456789012'),
      passed({ id: 'e', type: 'head-count', data: { group: 'Cows', count: 3 } }),
    ]);
    const ids = (...subjects: string[]) => book.entriesOf(subjects).map(({ entry }) => JSON.parse(entry).id);
    expect(ids('7')).toEqual(['a']);
    expect(ids('007')).toEqual(['b']);
    expect(ids('372 1234 5678 9012')).toEqual(['c', 'd']);
    expect(ids('372123456789012', '7')).toEqual(['a', 'c', 'd']);
    expect(ids()).toEqual([]);
    expect(ids('8')).toEqual([]);
  });

  test('are found by id', () => {
    const book = newBook();
    book.record([dose('a', '412')]);
    expect(book.find('a')).toEqual(book.rows(0, 1));
    expect(book.find('b')).toEqual([]);
  });
});

describe('papers', () => {
  test('are kept once, by the hash of their bytes, and come back as they were', () => {
    const book = newBook();
    const bytes = Uint8Array.from({ length: 70_000 }, (_, index) => (index * 7) % 256);
    const hash = book.keepPaper(bytes);
    expect(hash).toBe(sha256(bytes));
    expect(book.keepPaper(bytes)).toBe(hash);
    expect(Buffer.from(book.paper(hash) ?? []).equals(Buffer.from(bytes))).toBe(true);
    expect(book.paper('0'.repeat(64))).toBeUndefined();
    expect(book.verify()).toMatchObject({ ok: true, papers: 1 });
  });
});
