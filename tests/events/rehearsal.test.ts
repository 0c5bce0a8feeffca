/** A rehearsal is a book made with a fixed clock: the same on any day, and never taken for a real one. */
import fs from 'node:fs';
import { expect, test } from 'vitest';
import { KINDS } from '../../events/kinds.ts';
import { fixedClock, systemClock } from '../../shared/clock.ts';
import { plusHours } from '../../shared/instant.ts';
import { dose, NOW, newPath, opened, passed, rehearsalClock } from './a-book.ts';

const rehearsal = (file = newPath(), name = 'demo') => opened(file, { clock: rehearsalClock, name });

test('made twice, it is the same book to the last byte that is printed', () => {
  const make = () => {
    const book = rehearsal();
    book.record([passed({ id: 'farm', type: 'farm-set-up', data: KINDS['farm-set-up'].example }), dose('a', '412')]);
    const own = book.recordOwn('sheet-issued', { ...KINDS['sheet-issued'].example, sheets: [] });
    const { farmId, bookId } = book;
    return {
      farmId,
      bookId,
      own,
      head: book.head(),
      checkpoint: book.checkpoint(),
      key: fs.readFileSync(`${book.path}.key`, 'utf8'),
    };
  };
  expect(make()).toEqual(make());
  expect(make().farmId).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-5/);
});

test('another name or another time makes another book', () => {
  const ids = [
    rehearsal().bookId,
    rehearsal(newPath(), 'training').bookId,
    opened(newPath(), { clock: fixedClock(plusHours(NOW, 1)), name: 'demo' }).bookId,
  ];
  expect(new Set(ids).size).toBe(3);
});

test('a real book is never the same twice', () => {
  const [one, two] = [opened(newPath()), opened(newPath())];
  expect(one.bookId).not.toBe(two.bookId);
  expect(one.verifierKey.split('+')[2]).not.toBe(two.verifierKey.split('+')[2]);
  expect([one.rehearsal, two.rehearsal]).toEqual([false, false]);
});

test('opened without a fixed clock it goes on at the time it was made', () => {
  const file = newPath();
  rehearsal(file).close();
  const book = opened(file, { clock: systemClock });
  expect(book.rehearsal).toBe(true);
  expect(book.clock.fixed).toBe(true);
  expect(book.clock.now()).toBe(NOW);
  book.record([dose('a', '412')]);
  expect(book.read().entries[0]?.recordedAt).toBe(NOW);
});

test('opened with another fixed clock it goes on at that time from then on', () => {
  const file = newPath();
  rehearsal(file).close();
  const later = plusHours(NOW, 12);
  opened(file, { clock: fixedClock(later) }).close();
  expect(opened(file, { clock: systemClock }).clock.now()).toBe(later);
});

test('a clock that is moved by hand while it is open is remembered with what was recorded', () => {
  const file = newPath();
  let now = NOW;
  const book = opened(file, { clock: { now: () => now, fixed: true } });
  now = plusHours(NOW, 3);
  book.record([dose('a', '412')]);
  book.close();
  expect(opened(file, { clock: systemClock }).clock.now()).toBe(now);
});

test('read only, it keeps the clock it was given to itself', () => {
  const file = newPath();
  rehearsal(file).close();
  const reader = opened(file, { clock: fixedClock(plusHours(NOW, 5)), readOnly: true });
  expect(reader.clock.now()).toBe(plusHours(NOW, 5));
  reader.close();
  expect(opened(file, { clock: systemClock }).clock.now()).toBe(NOW);
});

test('verify says that it proves nothing', () => {
  const book = rehearsal();
  expect(book.verify().ok).toBe(true);
  expect(book.verify().notes.join()).toContain('rehearsal');
});

test('it is made anew over its own left-over key', () => {
  const file = newPath();
  rehearsal(file).close();
  fs.rmSync(file);
  expect(rehearsal(file).verify()).toMatchObject({ ok: true, signed: true });
});
