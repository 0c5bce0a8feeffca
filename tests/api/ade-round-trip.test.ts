/** What one book exports, another takes in: the same rows on the sheets wherever the standard carries what they rest on. */
import { describe, expect, test } from 'vitest';
import { importAde } from '../../api/ade/import-ade.ts';
import { makeDemoBook } from '../../api/demo.ts';
import { tonight } from '../../api/tonight.ts';
import { type Book, openBook } from '../../events/book.ts';
import { readLine } from '../../events/door.ts';
import type { Views } from '../../projections/views.ts';
import { fixedClock, systemClock } from '../../shared/clock.ts';
import { newPath, opened } from '../events/a-book.ts';
import { exported, isOwnWord, richFarm } from './ade-farm.ts';

/** A new book with the farm's set-up and its labels, which the standard does not carry. */
const neighbour = (book: Book, which: (type: string) => boolean = isOwnWord): Book => {
  const other = opened(newPath(), { clock: fixedClock(book.clock.now()) });
  const lines = book.rows(0, 100_000).flatMap(({ entry }) => {
    const { sequence: _, recordedtime: __, via: ___, ...said } = JSON.parse(entry) as Record<string, unknown>;
    return which(String(said.type)) ? [JSON.stringify(said)] : [];
  });
  const settings = { source: 'office', author: 'Marta', now: book.clock.now() };
  other.record(lines.map((line) => readLine(line, settings)));
  return other;
};

/** Without the entries behind a row (their ids are the importing book's own) and without what no standard carries. */
const rowsOf = ({ sheets }: Views) => ({
  held: sheets['milk-hold'].held.map(({ cow, group, until, tankFrom, milkingsLeft, dryInMilkedGroup }) => ({
    cow,
    group,
    until,
    tankFrom,
    milkingsLeft,
    dryInMilkedGroup,
  })),
  treat: sheets['milk-hold'].treat.map(({ cow, group, medicine, dose, of, overdue }) => ({
    cow,
    group,
    medicine,
    dose,
    of,
    overdue,
  })),
  dryOff: sheets['dry-off'].due.map(({ cow, group, dryOffOn, calvingDue, daysOverdue, warnings }) => ({
    cow,
    group,
    dryOffOn,
    calvingDue,
    daysOverdue,
    warnings: warnings.map((each) => [each.key, each.values]),
  })),
  undecided: sheets['dry-off'].undecided.map(({ cow, daysInMilk }) => ({ cow, daysInMilk })),
  out: sheets['fresh-moves'].out.map(({ cow, from, to }) => ({ cow, from, to })),
  stay: sheets['fresh-moves'].stay.map(({ cow }) => cow),
  in: sheets['fresh-moves'].in.map(({ cow }) => cow),
  counts: sheets.counts.groups.map(({ group, head, inMilk, held }) => ({ group, head, inMilk, held })),
  plan: sheets['milking-plan'].groups,
  slow: sheets['milking-plan'].slow,
  beef: sheets['beef-hold'].cows.map(({ cow, until }) => ({ cow, until })),
});

const unplaced = ({ sheets }: Views): readonly (string | null)[] =>
  sheets['milk-hold'].unplaced.map((row) => row.number).sort();

describe('a small farm with every kind of entry', () => {
  test('a book that has its set-up and labels prints the same rows from its export', () => {
    const farm = richFarm();
    try {
      const other = neighbour(farm.book);
      const done = importAde(other, JSON.stringify(exported(farm.book).collections), { author: 'Marta' });
      const before = tonight(farm.book).views;
      const after = tonight(other).views;
      expect(rowsOf(before).held.length).toBeGreaterThan(7);
      expect(rowsOf(before).beef.length).toBeGreaterThan(4);
      expect(rowsOf(after)).toEqual(rowsOf(before));
      expect(unplaced(after)).toEqual(unplaced(before));
      // The one entry that was set aside holds 105's meat too, and only a refusal does that here.
      expect(done.refused.map(({ cows }) => cows)).toEqual([['105']]);
    } finally {
      farm.close();
    }
  });

  test('without the labels no cow is free sooner than where the labels are known', () => {
    const farm = richFarm();
    try {
      const other = neighbour(farm.book, (type) => type === 'farm-set-up');
      importAde(other, JSON.stringify(exported(farm.book).collections), { author: 'Marta' });
      const before = tonight(farm.book).views.sheets['milk-hold'].held;
      const after = new Map(tonight(other).views.sheets['milk-hold'].held.map((row) => [row.cow, row.until]));
      expect(before.filter(({ cow }) => !after.has(cow))).toEqual([]);
      const sooner = before.filter(({ cow, until }) => {
        const there = after.get(cow) ?? null;
        return there !== null && (until === null || there < until);
      });
      expect(sooner).toEqual([]);
      // The vet's word is carried, so her end is known even without a label.
      expect(after.get('102')).toBe('2026-03-06T07:00:00Z');
    } finally {
      farm.close();
    }
  });

  test('the same export a second time, or into its own book, adds nothing', () => {
    const farm = richFarm();
    try {
      const other = neighbour(farm.book);
      const text = JSON.stringify(exported(farm.book).collections);
      importAde(other, text, { author: 'Marta' });
      const { position } = other.head();
      const again = importAde(other, text, { author: 'Marta' });
      expect(again).toMatchObject({ recorded: 0, struck: 0 });
      expect(other.head().position).toBe(position);

      const own = farm.book.head().position;
      expect(importAde(farm.book, text, { author: 'Marta' })).toMatchObject({ recorded: 0, struck: 0 });
      expect(farm.book.head().position).toBe(own);
    } finally {
      farm.close();
    }
  });

  test('what changes in one book changes in the other by the next export', () => {
    const farm = richFarm();
    try {
      const other = neighbour(farm.book);
      importAde(other, JSON.stringify(exported(farm.book).collections), { author: 'Marta' });
      farm.at('2026-03-04T13:00:00Z');
      farm.say('treatment', '2026-03-04T12:30:00Z', '101', {
        medicine: 'Penicillin G procaine, udder',
        route: 'udder',
        course: { id: 'course-101', dose: 3, of: 3, everyHours: 12 },
      });
      farm.say('entry-struck', '2026-03-04T12:40:00Z', undefined, {
        entry: 'dose-102',
        reason: 'never given',
        instead: 'nothing',
      });
      const later = opened(other.path, { clock: fixedClock(farm.book.clock.now()) });
      const done = importAde(later, JSON.stringify(exported(farm.book).collections), { author: 'Marta' });
      expect(done.struck).toBeGreaterThan(2);
      const before = tonight(farm.book).views;
      const after = tonight(later).views;
      expect(rowsOf(after).held).toEqual(rowsOf(before).held);
      expect(before.sheets['milk-hold'].held.map(({ cow }) => cow)).not.toContain('102');
    } finally {
      farm.close();
    }
  });
});

describe('the demo farm', () => {
  test('a book that has its set-up and labels prints the same rows from its export', async () => {
    const file = newPath();
    await makeDemoBook(file);
    const demo = openBook(file, { clock: systemClock });
    try {
      const other = neighbour(demo);
      const made = exported(demo);
      importAde(other, JSON.stringify(made.collections), { author: 'Marta' });
      const before = tonight(demo).views;
      const milking = before.milking.id;
      const after = tonight(other, { milking }).views;
      expect(rowsOf(before).held.length).toBeGreaterThan(20);
      expect(rowsOf(after)).toEqual(rowsOf(before));
      expect(made.cannotCarry.map(({ what }) => what)).toEqual(
        expect.arrayContaining([
          'farm-set-up',
          'medicine-listed',
          'sort-request',
          'tank-collection',
          'sheet-issued',
          'set aside',
        ]),
      );
    } finally {
      demo.close();
    }
  });
});
