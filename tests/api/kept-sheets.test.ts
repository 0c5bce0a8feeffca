/** The sheets kept beside a big book: the very same sheets, or nothing. Wherever there is doubt the log is read. */
import fs from 'node:fs';
import { describe, expect, onTestFinished, test } from 'vitest';
import { keepSheets, keptSheets, keptSheetsPath, sheetsTonight } from '../../api/kept-sheets.ts';
import { tonight } from '../../api/tonight.ts';
import { type Book, openBook } from '../../events/book.ts';
import { readLine, readValue } from '../../events/door.ts';
import { type Instant, mustBeInstant } from '../../shared/instant.ts';
import { newPath } from '../events/a-book.ts';
import { PENICILLIN, SET_UP } from './alder-bank.ts';

let now: Instant;
const setClock = (time: string): void => {
  now = mustBeInstant(time);
};

/** Opened anew, as a command that starts does. */
const opened = (path: string, fixed = false): Book => {
  const book = openBook(path, { clock: { now: () => now, fixed }, create: true });
  onTestFinished(() => book.close());
  return book;
};

const say = (book: Book, type: string, time: string, subject: string | undefined, data: unknown): void => {
  const value = { type, time, data, ...(subject === undefined ? {} : { subject }) };
  const [receipt] = book.record([readValue(value, { source: 'office', author: 'Marta', now })]);
  if (receipt?.outcome !== 'recorded') throw new Error(receipt?.problem);
};

/** Milked 05:00 and 16:30 UTC; cow 101 on penicillin; noon on 1 March, and the sheets are kept. */
const aKeptFarm = (fixed = false): string => {
  setClock('2026-03-01T12:00:00Z');
  const path = newPath();
  const book = opened(path, fixed);
  const early = '2026-02-01T12:00:00Z';
  say(book, 'farm-set-up', early, undefined, SET_UP);
  say(book, 'medicine-listed', early, undefined, { name: PENICILLIN, milkHold: { hours: 60 }, meatDays: 3 });
  for (const cow of ['101', '102']) {
    const hers = {
      group: 'Milkers',
      lactation: 2,
      calvedOn: '2025-12-01',
      milkHoldUntil: 'none',
      meatHoldUntil: 'none',
    };
    say(book, 'cow-entered', early, cow, hers);
  }
  say(book, 'treatment', '2026-03-01T11:00:00Z', '101', { medicine: PENICILLIN });
  sheetsTonight(book, {}, 0);
  return path;
};

const kept = (path: string, milking = 'next') => keptSheets(opened(path), milking);

/** The file beside the book with one character otherwise. */
const changedAt = (path: string, place: number): void => {
  const file = keptSheetsPath(path);
  const text = fs.readFileSync(file, 'utf8');
  const at = place < 0 ? text.length + place : place;
  fs.writeFileSync(file, `${text.slice(0, at)}${text[at] === '7' ? '8' : '7'}${text.slice(at + 1)}`);
};

describe('kept sheets', () => {
  test.each([
    ['a real book', false],
    ['a rehearsal', true],
  ])('are, byte for byte, those that reading the log of %s gives, at the time of asking', (_, fixed) => {
    const path = aKeptFarm(fixed);
    for (const time of ['2026-03-01T12:00:00Z', '2026-03-01T12:40:00.500Z', '2026-03-01T16:29:59.999Z']) {
      setClock(time);
      const found = keptSheets(opened(path, fixed), 'next');
      const { views, milking, asOf, position, root } = tonight(opened(path, fixed));
      expect(JSON.stringify(found)).toBe(JSON.stringify({ views, milking, asOf, position, root }));
    }
  });

  test('are what is given until the book is read, and the same when it is', () => {
    const path = aKeptFarm();
    const book = opened(path);
    const first = JSON.stringify(sheetsTonight(book).views);
    tonight(book);
    expect(JSON.stringify(sheetsTonight(book).views)).toBe(first);
  });

  test('answer for their own milking by its name too, and for no other', () => {
    const path = aKeptFarm();
    expect(kept(path, '2026-03-01/afternoon')?.views.sheets['milk-hold'].held.map(({ cow }) => cow)).toEqual(['101']);
    expect(kept(path, '2026-03-02/morning')).toBeUndefined();
  });

  test('count no more once anything was recorded, or set aside, here or by another program', () => {
    const path = aKeptFarm();
    say(opened(path), 'milk-hold', '2026-03-01T11:30:00Z', '102', { reason: 'clots' });
    expect(kept(path)).toBeUndefined();
    expect(sheetsTonight(opened(path)).views.sheets['milk-hold'].held.map(({ cow }) => cow)).toEqual(['101', '102']);
    const again = aKeptFarm();
    opened(again).record([readLine('{"subject":"102"', { source: 'office', author: 'Marta', now })]);
    expect(kept(again)).toBeUndefined();
  });

  test('worked out before another program wrote, they never pass for those after it', () => {
    const path = aKeptFarm();
    const book = opened(path);
    const answer = tonight(book);
    say(opened(path), 'milk-hold', '2026-03-01T11:30:00Z', '102', { reason: 'clots' });
    keepSheets(book, answer, 0);
    expect(kept(path)).toBeUndefined();
  });

  test.each(['2026-03-01T11:59:59Z', '2026-03-01T16:30:00Z', '2026-03-02T05:00:00Z'])(
    'count no more when time alone may have changed them, nor on a clock set back: %s',
    (time) => {
      const path = aKeptFarm();
      setClock(time);
      expect(kept(path)).toBeUndefined();
    },
  );

  test.each([0, 30, 66, 90, 200, 1_000, -1, -40])(
    'changed by a single character, at %i, they count for nothing',
    (place) => {
      const path = aKeptFarm();
      expect(kept(path)).toBeDefined();
      changedAt(path, place);
      expect(kept(path)).toBeUndefined();
      expect(sheetsTonight(opened(path)).views.sheets['milk-hold'].held.map(({ cow }) => cow)).toEqual(['101']);
    },
  );

  test('half a file, an empty one, and one of nonsense count for nothing', () => {
    const path = aKeptFarm();
    const whole = fs.readFileSync(keptSheetsPath(path), 'utf8');
    for (const text of [whole.slice(0, whole.length / 2), '', '\n', 'no sheets at all', `${'0'.repeat(64)}\n{}`]) {
      fs.writeFileSync(keptSheetsPath(path), text);
      expect(kept(path)).toBeUndefined();
    }
  });

  test('another farm’s file, and a copy of the book without its key, count for nothing', () => {
    const path = aKeptFarm();
    const other = aKeptFarm();
    fs.copyFileSync(keptSheetsPath(other), keptSheetsPath(path));
    expect(kept(path)).toBeUndefined();
    const copy = newPath();
    fs.copyFileSync(other, copy);
    fs.copyFileSync(keptSheetsPath(other), keptSheetsPath(copy));
    expect(kept(copy)).toBeUndefined();
  });

  test('are kept for big books alone, and one that can’t be written is no trouble', () => {
    const path = aKeptFarm();
    fs.rmSync(keptSheetsPath(path));
    sheetsTonight(opened(path));
    expect(fs.existsSync(keptSheetsPath(path))).toBe(false);
    fs.mkdirSync(keptSheetsPath(path));
    expect(sheetsTonight(opened(path), {}, 0).views.sheets['milk-hold'].held).toHaveLength(1);
    expect(fs.readdirSync(keptSheetsPath(path))).toEqual([]);
  });
});
