/** Laws that hold for any history: order of arrival, repetition, counting, and that nothing said frees milk sooner. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Aside, Entry } from '../../events/entry.ts';
import { latestEnd } from '../../projections/hold-piece.ts';
import { know } from '../../projections/know.ts';
import type { Standing } from '../../projections/standing.ts';
import { standingsAt } from '../../projections/standings.ts';
import type { Views } from '../../projections/views.ts';
import { momentOf, viewsAt } from '../../projections/views-at.ts';
import { entriesOf } from '../published/paper-farm.ts';
import { farm, type Saying } from './evening.ts';
import { anything, aside, book, HERD, holding, said } from './histories.ts';

/** Before, inside and after the days of a history. */
const MILKINGS = ['2026-03-11/afternoon', '2026-03-13/morning', '2026-03-14/morning', '2026-03-15/afternoon'];

const askedAt = (entries: readonly Entry[], asides: readonly Aside[], id: string) => {
  const known = know(entries, asides);
  const milking = known.farm.schedule?.find(id);
  if (milking === undefined) throw new Error('no such milking');
  return { known, asked: { milking, asOf: milking.start, position: 0 } };
};

const views = (entries: readonly Entry[], asides: readonly Aside[] = [], id = '2026-03-14/morning'): Views => {
  const { known, asked } = askedAt(entries, asides, id);
  return viewsAt(known, asked);
};

const standings = (entries: readonly Entry[], id: string, asides: readonly Aside[] = []): readonly Standing[] => {
  const { known, asked } = askedAt(entries, asides, id);
  const moment = momentOf(known, asked);
  if (moment === undefined) throw new Error('no farm');
  return standingsAt(known, moment);
};

/** Her hold's end at a milking: `undefined` where she is free, infinity where it has none. */
const endOf = (standing: Standing | undefined): number | undefined => {
  if (standing?.held !== true) return undefined;
  return latestEnd(standing.running) ?? Number.POSITIVE_INFINITY;
};

const histories = fc.array(anything, { maxLength: 14 });
const RUNS = { seed: 412, numRuns: 150 };

describe('laws', () => {
  test('any order of arrival gives the same views, to the letter', () => {
    fc.assert(
      fc.property(
        histories,
        fc.uniqueArray(aside, { maxLength: 2, selector: ({ key }) => key }),
        fc.infiniteStream(fc.nat()),
        (history, asides, dice) => {
          const inOrder = said(history);
          const shuffled = inOrder
            .map((saying) => ({ saying, key: dice.next().value ?? 0 }))
            .sort((a, b) => a.key - b.key)
            .map(({ saying }) => saying);
          for (const id of MILKINGS.slice(1, 3)) {
            expect(JSON.stringify(views(entriesOf(shuffled), [...asides].reverse(), id))).toBe(
              JSON.stringify(views(entriesOf(inOrder), asides, id)),
            );
          }
        },
      ),
      RUNS,
    );
  });

  test('said twice is said once: the same line has the same id, and one id is one entry', () => {
    fc.assert(
      fc.property(histories, (history) => {
        const once = [...new Map(entriesOf([...HERD, ...history]).map((entry) => [entry.id, entry])).values()];
        const twice = [
          ...new Map(entriesOf([...HERD, ...history, ...history, ...HERD]).map((entry) => [entry.id, entry])).values(),
        ];
        expect(twice).toHaveLength(once.length);
        expect(JSON.stringify(views(twice))).toBe(JSON.stringify(views(once)));
      }),
      { ...RUNS, numRuns: 80 },
    );
  });

  test('asking changes nothing: the same knowledge asked twice, and about another milking between, says the same', () => {
    fc.assert(
      fc.property(histories, (history) => {
        const { known, asked } = askedAt(book(history), [], '2026-03-14/morning');
        const other = known.farm.schedule?.find('2026-03-12/morning');
        if (other === undefined) throw new Error('no such milking');
        const first = JSON.stringify(viewsAt(known, asked));
        viewsAt(known, { ...asked, milking: other });
        expect(JSON.stringify(viewsAt(known, asked))).toBe(first);
      }),
      { ...RUNS, numRuns: 60 },
    );
  });

  test('each cow in milk is in exactly one count, and held and free make the cows in milk', () => {
    fc.assert(
      fc.property(histories, (history) => {
        const entries = book(history);
        for (const id of MILKINGS) {
          const { sheets } = views(entries, [], id);
          const { groups, total } = sheets.counts;
          const each = standings(entries, id);
          expect(new Set(each.map(({ file }) => file.cow.key)).size).toBe(each.length);
          const counted = groups.flatMap(({ cows }) => cows).sort();
          expect(counted).toEqual(each.map(({ number }) => number).sort());
          const inMilk = each.filter((standing) => standing.inMilk);
          const free = inMilk.filter(({ running }) => running.length === 0);
          expect(groups.reduce((sum, row) => sum + row.inMilk, 0)).toBe(total.inMilk);
          expect(inMilk.length).toBe(total.inMilk);
          expect(inMilk.filter(({ held }) => held).length + free.length).toBe(total.inMilk);
          const onList = sheets['milk-hold'].held;
          expect(onList).toHaveLength(each.filter(({ held }) => held).length);
          expect(total.held).toBe(onList.length);
          for (const { group, held } of groups) expect(onList.filter((row) => row.group === group)).toHaveLength(held);
          const planned = sheets['milking-plan'].groups.reduce((sum, row) => sum + row.cows, 0);
          const unmilked = groups.filter(({ milked }) => !milked).reduce((sum, row) => sum + row.inMilk, 0);
          expect(planned + unmilked).toBe(total.inMilk);
        }
      }),
      RUNS,
    );
  });

  test('each reason of a held row has an entry behind it, but for a thing set aside that has no id', () => {
    fc.assert(
      fc.property(histories, fc.uniqueArray(aside, { maxLength: 2, selector: ({ key }) => key }), (history, asides) => {
        const entries = book(history);
        const ids = new Set([...entries.map(({ id }) => id), ...asides.flatMap(({ id }) => id ?? [])]);
        const { sheets } = views(entries, asides);
        const anonymous = asides.some(({ id }) => id === undefined);
        const rows = [...sheets['milk-hold'].held, ...sheets['beef-hold'].cows];
        for (const row of rows) {
          expect(row.reasons.length).toBeGreaterThan(0);
          for (const reason of row.reasons) {
            if (!(anonymous && reason.rule === 'R-27')) expect(reason.entries.length).toBeGreaterThan(0);
            for (const id of reason.entries) expect(ids).toContain(id);
          }
        }
      }),
      RUNS,
    );
  });

  test('a held row says the end that all its reasons say, and the tank only after it', () => {
    fc.assert(
      fc.property(histories, (history) => {
        const entries = book(history);
        for (const id of MILKINGS) {
          for (const row of views(entries, [], id).sheets['milk-hold'].held) {
            const ends = row.reasons.map(({ until }) => until);
            expect(row.until).toBe(ends.includes(null) ? null : [...ends].sort().at(-1));
            if (row.until === null) expect([row.tankFrom, row.milkingsLeft]).toEqual([null, null]);
            else expect(row.milkingsLeft).toBeGreaterThan(0);
          }
        }
      }),
      { ...RUNS, numRuns: 80 },
    );
  });

  const keepsHolding = (before: readonly Standing[], after: readonly Standing[]) => {
    for (const standing of before) {
      const end = endOf(standing);
      if (end === undefined) continue;
      const now = endOf(after.find(({ file }) => file.cow.key === standing.file.cow.key));
      expect(now, `${standing.number} is still held`).toBeDefined();
      expect(now).toBeGreaterThanOrEqual(end);
    }
  };

  test('adding what the rules do not name as freeing never frees milk sooner, at any milking', () => {
    fc.assert(
      fc.property(histories, holding, (history, added) => {
        const without = book(history);
        const withIt = book([...history, added]);
        for (const id of MILKINGS) keepsHolding(standings(without, id), standings(withIt, id));
      }),
      { ...RUNS, numRuns: 250 },
    );
  });

  test('R-18 R-29 nor does it under the regulation, where one more dose can make a use off-label', () => {
    const eu = (history: readonly Saying[]) =>
      entriesOf([{ ...farm({ offLabel: 'eu-2019-6' }), id: 'herd-0' }, ...said(history).slice(1)]);
    fc.assert(
      fc.property(histories, holding, (history, added) => {
        const id = '2026-03-14/morning';
        keepsHolding(standings(eu(history), id), standings(eu([...history, added]), id));
      }),
      { ...RUNS, numRuns: 120 },
    );
  });

  test('R-27 a thing set aside never frees milk, and holds every cow in milk that it names', () => {
    fc.assert(
      fc.property(histories, aside, (history, one) => {
        const entries = book(history);
        const id = '2026-03-14/morning';
        const after = standings(entries, id, [one]);
        keepsHolding(standings(entries, id), after);
        for (const standing of after.filter(({ number, inMilk }) => inMilk && one.cows.includes(number))) {
          expect(endOf(standing)).toBe(Number.POSITIVE_INFINITY);
        }
      }),
      { ...RUNS, numRuns: 100 },
    );
  });
});
