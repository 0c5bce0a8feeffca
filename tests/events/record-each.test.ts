/** What several senders say at the same time goes into the book in one commit, and nothing tells it from one after the other. */
import Database from 'better-sqlite3';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Attempt, Batch, Book, Receipt } from '../../events/book.ts';
import type { Passed, TurnedAway } from '../../events/door.ts';
import { KINDS } from '../../events/kinds.ts';
import { recordEach } from '../../events/log/record-each.ts';
import { bare, dose, line, newBook, newPath, opened, passed, rehearsalClock, strike } from './a-book.ts';

type Arrival = Passed | TurnedAway;

/** Few ids and cows, so that the same comes again, an id is taken, and what is struck may be there or not. */
const arrival: fc.Arbitrary<Arrival> = fc.oneof(
  fc.tuple(fc.integer({ min: 1, max: 6 }), fc.constantFrom('412', '413')).map(([id, cow]) => dose(`dose-${id}`, cow)),
  fc
    .tuple(fc.integer({ min: 1, max: 3 }), fc.constantFrom('dose-1', 'dose-2', 'strike-1'))
    .map(([id, entry]) => strike(`strike-${id}`, entry)),
  fc.constantFrom('{', '{"type":"treatmnt","subject":"412"}', '7').map(line),
  fc.constantFrom('412', '413').map((subject) => passed({ type: 'milk-hold', subject, data: { reason: 'clots' } })),
  fc.constantFrom('a', 'b').map((id) => passed({ id, type: 'farm-set-up', data: KINDS['farm-set-up'].example })),
);
const batches = fc.array(fc.array(arrival, { maxLength: 4 }), { minLength: 1, maxLength: 12 });

const batchOf = (arrivals: readonly Arrival[]): Batch<Arrival> => ({ entries: arrivals.length, make: () => arrivals });

/** All that a book holds, to the byte. */
const wholeOf = (path: string) => {
  const db = bare(path);
  return ['entries', 'set_aside', 'head', 'cow_entries_up_to'].map((table) =>
    db.prepare(`select * from ${table}`).all(),
  );
};

const rehearsal = (): { path: string; book: Book } => {
  const path = newPath();
  return { path, book: opened(path, { clock: rehearsalClock }) };
};

const takenIn = (attempts: readonly Attempt[]): { receipts: Receipt[]; position: number }[] =>
  attempts.map((attempt) => {
    if ('thrown' in attempt) throw attempt.thrown;
    return attempt.taken;
  });

describe('batches recorded together', () => {
  test('give the receipts, and leave the book, of the same one after the other', () => {
    fc.assert(
      fc.property(batches, fc.integer({ min: 1, max: 6 }), (all, size) => {
        const [together, alone] = [rehearsal(), rehearsal()];
        const oneByOne = all.map((arrivals) => ({
          receipts: alone.book.record(arrivals),
          position: alone.book.head().position,
        }));
        const groups = Array.from({ length: Math.ceil(all.length / size) }, (_, index) =>
          all.slice(index * size, (index + 1) * size),
        );
        const taken = groups.flatMap((group) => takenIn(together.book.recordEach(group.map(batchOf))));
        expect(taken).toEqual(oneByOne);
        expect(wholeOf(together.path)).toEqual(wholeOf(alone.path));
        expect(together.book.checkpoint()).toBe(alone.book.checkpoint());
        expect(together.book.verify()).toMatchObject({ ok: true, signed: true });
      }),
      { seed: 7, numRuns: 40 },
    );
  });

  test('each is made out with what those before it said in the book', () => {
    const { book } = rehearsal();
    const seen: number[] = [];
    const looking = (arrivals: Arrival[]) => ({
      entries: arrivals.length,
      make: () => {
        seen.push(book.find('a').length);
        return arrivals;
      },
    });
    book.recordEach([looking([]), looking([dose('a', '412')]), looking([dose('b', '412')])]);
    expect(seen).toEqual([0, 0, 1]);
  });

  test('another program sees all of them or none', () => {
    const path = newPath();
    const [book, other] = [opened(path), opened(path)];
    const seen: number[] = [];
    const looking = (id: string) => ({
      entries: 1,
      make: () => {
        seen.push(other.head().position);
        return [dose(id, '412')];
      },
    });
    book.recordEach(['a', 'b', 'c'].map(looking));
    expect(seen).toEqual([0, 0, 0]);
    expect(other.head()).toEqual(book.head());
    expect(other.head().position).toBe(3);
  });

  test('none at all is nothing', () => {
    const { book } = rehearsal();
    expect(book.recordEach([])).toEqual([]);
    expect(takenIn(book.recordEach([batchOf([])]))).toEqual([{ receipts: [], position: 0 }]);
  });
});

describe('a batch that throws', () => {
  const broken = new Error('broken');
  const throwing: Batch<Arrival> = {
    entries: 1,
    make: () => {
      throw broken;
    },
  };
  /** Something that no door lets through: the table's own guard refuses it. */
  const unfit = batchOf([{ ...dose('unfit', '412'), content: 'no hash' }]);

  test('takes none of the others with it, wherever it stands', () => {
    fc.assert(
      fc.property(batches, fc.nat(), fc.boolean(), (all, place, byGuard) => {
        const [together, alone] = [rehearsal(), rehearsal()];
        const oneByOne = all.map((arrivals) => alone.book.record(arrivals));
        const at = place % (all.length + 1);
        const attempts = together.book.recordEach(all.map(batchOf).toSpliced(at, 0, byGuard ? unfit : throwing));
        expect(attempts[at]).toEqual({ thrown: byGuard ? expect.any(Database.SqliteError) : broken });
        expect(takenIn(attempts.toSpliced(at, 1)).map(({ receipts }) => receipts)).toEqual(oneByOne);
        expect(wholeOf(together.path)).toEqual(wholeOf(alone.path));
        expect(together.book.verify().ok).toBe(true);
      }),
      { seed: 8, numRuns: 30 },
    );
  });

  test('alone, leaves the book as it was', () => {
    const { book } = rehearsal();
    expect(book.recordEach([throwing])).toEqual([{ thrown: broken }]);
    expect(book.recordEach([unfit])).toEqual([{ thrown: expect.any(Database.SqliteError) }]);
    expect(book.head().position).toBe(0);
    expect(book.verify().ok).toBe(true);
  });
});

describe('trouble with the file', () => {
  test('that another program keeps locked is told to all of them, and waited for once', () => {
    const path = newPath();
    const book = opened(path, { waitMilliseconds: 1 });
    let made = 0;
    const counted = (id: string) => ({
      entries: 1,
      make: () => {
        made += 1;
        return [dose(id, '412')];
      },
    });
    const other = bare(path);
    other.exec('begin immediate');
    const attempts = book.recordEach([counted('a'), counted('b')]);
    expect(attempts).toEqual([
      { thrown: expect.objectContaining({ kind: 'busy' }) },
      { thrown: expect.objectContaining({ kind: 'busy' }) },
    ]);
    expect(made).toBe(0);
    other.exec('rollback');
    expect(takenIn(book.recordEach([counted('a'), counted('b')])).map(({ position }) => position)).toEqual([1, 2]);
  });

  test('in the middle of it leaves each to be recorded by itself, and those that find no room are told so', () => {
    const full = new Database.SqliteError('database or disk is full', 'SQLITE_FULL');
    const tried: string[][] = [];
    const log = {
      recordEach: (some: readonly Batch[]) => {
        const ids = some.flatMap(({ make }) => make().map((each) => ('problem' in each ? '' : each.said.id)));
        tried.push(ids);
        if (ids.length > 1 || ids[0] === 'b') throw full;
        return [{ receipts: [], position: tried.length }];
      },
    };
    const attempts = recordEach(
      log,
      ['a', 'b', 'c'].map((id) => batchOf([dose(id, '412')])),
      'farm.book',
    );
    expect(tried).toEqual([['a', 'b', 'c'], ['a'], ['b'], ['c']]);
    expect(attempts).toEqual([
      { taken: { receipts: [], position: 2 } },
      { thrown: expect.objectContaining({ kind: 'full' }) },
      { taken: { receipts: [], position: 4 } },
    ]);
  });

  test('that may only be read is refused with a sentence', () => {
    const path = newPath();
    opened(path).record([dose('a', '412')]);
    const book = opened(path, { create: false, readOnly: true });
    expect(() => book.recordEach([batchOf([dose('b', '412')])])).toThrow('read-only');
  });
});

test('big batches and small ones recorded together make the same list of where the cows stand', () => {
  const book = newBook();
  const many = Array.from({ length: 300 }, (_, each) => dose(`many-${each}`, String(each % 7)));
  expect(takenIn(book.recordEach([batchOf([dose('a', '3')]), batchOf(many)])).map(({ position }) => position)).toEqual([
    1, 301,
  ]);
  expect(book.entriesOf(['3'])).toHaveLength(1 + many.filter((each) => each.said.subject === '3').length);
  expect(book.verify().ok).toBe(true);
});
