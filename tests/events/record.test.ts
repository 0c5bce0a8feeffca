/** What a book does with what arrives: recorded once, in order, or kept aside; one receipt each. */
import { describe, expect, test } from 'vitest';
import { KINDS } from '../../events/kinds.ts';
import { appender } from '../../events/log/append.ts';
import { mustBeInstant, plusHours } from '../../shared/instant.ts';
import { bare, dose, handClock, line, NOW, newBook, newPath, opened, passed, strike, turnedAway } from './a-book.ts';

const entryAt = (book: ReturnType<typeof newBook>, position: number): Record<string, unknown> =>
  JSON.parse(book.rows(position - 1, 1)[0]?.entry ?? 'null');

describe('recording', () => {
  test('gives each entry the next position, the time of recording and the peer it came through', () => {
    const book = newBook();
    expect(book.record([dose('a', '412'), dose('b', '413')])).toEqual([
      { id: 'a', outcome: 'recorded', position: 1 },
      { id: 'b', outcome: 'recorded', position: 2 },
    ]);
    book.record([dose('c', '414')], 'laptop');
    expect(entryAt(book, 2)).toEqual({
      ...dose('b', '413').said,
      sequence: '0000000002',
      recordedtime: '2026-03-14T18:00:00Z',
    });
    expect(entryAt(book, 3)).toMatchObject({ sequence: '0000000003', via: 'laptop' });
  });

  test('the same file twice adds nothing', () => {
    const book = newBook();
    const text = '{"type":"milk-hold","subject":"412","time":"2026-03-14T16:40:00Z","data":{"reason":"clots"}}';
    const [first] = book.record([line(text)]);
    const head = book.head();
    expect(book.record([line(text), line(text)])).toEqual([
      { id: first?.id, outcome: 'already-known', position: 1 },
      { id: first?.id, outcome: 'already-known', position: 1 },
    ]);
    expect(book.head()).toEqual(head);
  });

  test('one entry twice in one batch is recorded once', () => {
    const book = newBook();
    expect(book.record([dose('a', '412'), dose('a', '412')]).map(({ outcome }) => outcome)).toEqual([
      'recorded',
      'already-known',
    ]);
    expect(book.head().position).toBe(1);
  });

  test('a line without an id is known again even when its author is named otherwise', () => {
    const book = newBook();
    const value = { type: 'milk-hold', subject: '412', data: { reason: 'clots' } };
    book.record([passed({ ...value, author: 'Marta' })]);
    expect(book.record([passed({ ...value, author: 'Jonas' })])).toMatchObject([{ outcome: 'already-known' }]);
  });

  test('a known entry that was struck since says so', () => {
    const book = newBook();
    book.record([dose('a', '412'), strike('s', 'a')]);
    expect(book.record([dose('a', '412')])).toEqual([{ id: 'a', outcome: 'already-known', position: 1, struck: true }]);
  });

  test('the recorded time never goes back when the clock does', () => {
    const clock = handClock();
    const book = newBook({ clock });
    book.record([dose('a', '412')]);
    clock.set(plusHours(NOW, -5));
    book.record([dose('b', '412')]);
    clock.set(plusHours(NOW, 1));
    book.record([dose('c', '412')]);
    expect([1, 2, 3].map((position) => entryAt(book, position).recordedtime)).toEqual([
      '2026-03-14T18:00:00Z',
      '2026-03-14T18:00:00Z',
      '2026-03-14T19:00:00Z',
    ]);
  });

  test('the good ones are recorded whatever the others are', () => {
    const book = newBook();
    const receipts = book.record([line('{'), dose('a', '412'), line('{"type":"calfing"}'), dose('b', '413')]);
    expect(receipts.map(({ outcome }) => outcome)).toEqual(['refused', 'recorded', 'refused', 'recorded']);
    expect(book.head().position).toBe(2);
  });

  test('an empty batch is no batch', () => {
    const book = newBook();
    expect(book.record([])).toEqual([]);
    expect(book.head().position).toBe(0);
  });

  test('two programs on one book take turns and never fork it', () => {
    const path = newPath();
    const [office, parlour] = [opened(path), opened(path)];
    for (let round = 0; round < 20; round += 1) {
      office.record([dose(`office-${round}`, '412')]);
      parlour.record([dose(`parlour-${round}`, '413'), line(`{"round":${round}`)]);
    }
    expect(office.head()).toEqual(parlour.head());
    expect(office.head().position).toBe(40);
    expect(office.verify()).toMatchObject({ ok: true, problems: [], setAside: 20 });
  });
});

describe('what is refused', () => {
  test('R-27 a refused line is kept exactly as it was said, with the reason, the field and the cow', () => {
    const path = newPath();
    const book = opened(path);
    const text = '{"type":"treatment","subject":"412","time":"2026-03-14T16:40:00Z","data":{"medicine":7},  "id":"x"}';
    const [receipt] = book.record([line(text)], 'laptop');
    expect(receipt).toMatchObject({ id: 'x', outcome: 'refused', pointer: '/data/medicine' });
    expect(receipt?.key).toMatch(/^set-aside:[0-9a-f]{12}$/);
    expect(book.read().asides).toEqual([
      {
        key: receipt?.key,
        problem: receipt?.problem,
        cows: ['412'],
        recordedAt: NOW,
        since: mustBeInstant('2026-03-14T16:40:00Z'),
        id: 'x',
      },
    ]);
    expect(bare(path).prepare('select text, door from set_aside').get()).toEqual({ text, door: 'laptop' });
  });

  test('R-27 the same refused line again adds nothing and has the same key', () => {
    const book = newBook();
    const [first] = book.record([line('{"subject":"412"')]);
    const [again] = book.record([line('{"subject":"412"')]);
    expect(again).toEqual(first);
    expect(book.read().asides).toHaveLength(1);
  });

  test('R-27 a line of more than a mebibyte, and one with a zero byte in it, are kept whole', () => {
    const path = newPath();
    const book = opened(path);
    const texts = [`{"subject":"412","note":"${'x'.repeat(1_100_000)}"}`, '{"subject":"413"\u0000,"x":"y"', '', '🐄'];
    book.record(texts.map((text) => turnedAway(text)));
    expect(bare(path).prepare('select text from set_aside order by number').pluck().all()).toEqual(texts);
    expect(book.read().asides.map(({ cows }) => cows)).toEqual([['412'], ['413'], [], []]);
    expect(book.verify()).toMatchObject({ ok: true, setAside: 4 });
  });

  test('R-27 a refused entry that names another concerns that one’s cow too, even when that one comes later', () => {
    const book = newBook();
    const broken =
      '{"type":"entry-struck","time":"2026-03-14T16:40:00Z","data":{"entry":"dose-of-412","raeson":"wrong"}}';
    book.record([line(broken)]);
    expect(book.read().asides[0]?.cows).toEqual([]);
    book.record([dose('dose-of-412', '412')]);
    expect(book.read().asides[0]?.cows).toEqual(['412']);
    expect(book.read({ position: 0 }).asides[0]?.cows).toEqual([]);
  });

  test('R-27 an id that is taken by another entry is refused, and both cows are held', () => {
    const book = newBook();
    book.record([dose('a', '412')]);
    const [receipt] = book.record([dose('a', '413')]);
    expect(receipt).toMatchObject({ id: 'a', outcome: 'refused', pointer: '/id' });
    expect(receipt?.problem).toContain('position 1');
    expect(book.head().position).toBe(1);
    expect(book.read().asides[0]?.cows).toEqual(['413', '412']);
  });

  test('R-23 a strike cannot be struck, and the cow of the struck entry is held', () => {
    const book = newBook();
    const receipts = book.record([dose('a', '412'), strike('s', 'a'), strike('t', 's')]);
    expect(receipts[2]).toMatchObject({ id: 't', outcome: 'refused', pointer: '/data/entry' });
    expect(receipts[2]?.problem).toContain("strikes can't be struck: enter again");
    expect(book.read().asides[0]?.cows).toEqual(['412']);
  });

  test('R-23 an issued set of sheets cannot be struck', () => {
    const book = newBook();
    const { id } = book.recordOwn('sheet-issued', { ...KINDS['sheet-issued'].example, sheets: [] });
    expect(book.record([strike('s', id)])).toMatchObject([{ outcome: 'refused', pointer: '/data/entry' }]);
  });

  test('R-23 a strike of an entry that has not arrived yet is recorded', () => {
    const book = newBook();
    expect(book.record([strike('s', 'later')])).toMatchObject([{ outcome: 'recorded' }]);
    book.record([dose('later', '412')]);
    expect(book.record([dose('later', '412')])).toMatchObject([{ outcome: 'already-known', struck: true }]);
  });
});

describe('the farm and its book', () => {
  test('the farm has its id from its first set-up on, and keeps it', () => {
    const book = newBook();
    const setUp = (id: string) => passed({ id, type: 'farm-set-up', data: KINDS['farm-set-up'].example });
    expect(book.farmId).toBeNull();
    book.record([setUp('first')]);
    const { farmId } = book;
    expect(farmId).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7/);
    book.record([setUp('second')]);
    expect(book.farmId).toBe(farmId);
  });

  test('what the book writes itself names the book, and is checked like any other entry', () => {
    const book = newBook();
    const { position, id } = book.recordOwn('book-continued', { book: 'x', position: 0, root: book.head().root });
    expect(position).toBe(1);
    expect(book.read().entries).toMatchObject([
      { id, type: 'book-continued', author: 'Byrebook', source: `byrebook/${book.bookId}`, recordedAt: NOW },
    ]);
    expect(() => book.recordOwn('book-continued', { book: 'x', position: -1, root: 'y' })).toThrow();
    expect(book.head().position).toBe(1);
  });

  test('a book is the same after closing and opening', () => {
    const path = newPath();
    const first = opened(path);
    first.record([dose('a', '412'), line('{')]);
    const [before, known] = [first.head(), first.read()];
    first.close();
    const second = opened(path, { create: false });
    expect(second.bookId).toBe(first.bookId);
    expect(second.head()).toEqual(before);
    expect(second.read()).toEqual(known);
  });
});

describe('from a peer book', () => {
  test('one id with two contents is kept twice, known again each time, and a strike of a strike is kept too', () => {
    const path = newPath();
    const book = opened(path);
    book.record([dose('a', '412'), strike('s', 'a')]);
    const peer = appender(bare(path), { clock: handClock(), bookId: book.bookId, newFarmId: () => 'farm' });
    const ways = { via: 'laptop', sameId: 'keep-both' } as const;
    expect(peer.record([dose('a', '413'), strike('t', 's')], ways)).toMatchObject([
      { id: 'a', outcome: 'recorded', position: 3 },
      { id: 't', outcome: 'recorded', position: 4 },
    ]);
    expect(peer.record([dose('a', '413'), dose('a', '412')], ways)).toMatchObject([
      { outcome: 'already-known', position: 3, struck: true },
      { outcome: 'already-known', position: 1, struck: true },
    ]);
    expect(book.find('a').map(({ position }) => position)).toEqual([1, 3]);
    expect(book.verify()).toMatchObject({ ok: true, position: 4, setAside: 0 });
  });
});

test('a book knows whether anything was ever set aside in it', () => {
  const book = newBook();
  book.record([dose('a', '412')]);
  expect(book.hasSetAside()).toBe(false);
  book.record([line('{"subject":"77"')]);
  expect(book.hasSetAside()).toBe(true);
});
