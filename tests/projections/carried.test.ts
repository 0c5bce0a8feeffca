/** What was said of a cow is said again while nothing is said about her, and it is what asking her again would give. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Aside, Entry } from '../../events/entry.ts';
import { carryColumns, columnAbout, columnOf } from '../../projections/columns.ts';
import { type Known, know } from '../../projections/know.ts';
import { knowMore } from '../../projections/know-more.ts';
import { viewsAt } from '../../projections/views-at.ts';
import { plusHours } from '../../shared/instant.ts';
import { entriesOf } from '../published/paper-farm.ts';
import { about, CUPBOARD, dose, dryCow, farm, farmWide, milker, type Saying } from './evening.ts';
import { anything, aside, at, hour, issuedFor, NUMBERS, said } from './histories.ts';
import { shut } from './shut.ts';

const views = (known: Known, id: string, hours: number): string => {
  const milking = known.farm.schedule?.find(id);
  if (milking === undefined) return 'no farm';
  return JSON.stringify(viewsAt(known, { milking, asOf: plusHours(milking.start, hours), position: 0 }));
};

/** Cows that come and go, so that the others stand elsewhere in the list of the herd. */
const comeAndGo: fc.Arbitrary<Saying> = fc.oneof(
  fc.record({ cow: fc.constantFrom('50', '51', '1', '7'), hour }).map((each) =>
    about(each.cow, 'cow-entered', at(each.hour), {
      group: 'Cows',
      lactation: 2,
      calvedOn: '2026-02-20',
      milkHoldUntil: 'none',
      meatHoldUntil: 'none',
    }),
  ),
  fc
    .record({ cow: fc.constantFrom(...NUMBERS), hour })
    .map((each) => about(each.cow, 'cow-left', at(each.hour), { reason: 'sold-for-beef' })),
  fc
    .record({ hour, entry: fc.integer({ min: 0, max: 9 }) })
    .map((each) => farmWide('entry-struck', at(each.hour), { entry: `herd-${each.entry}`, reason: 'never so' })),
  fc
    .record({ hour, request: fc.integer({ min: 0, max: 20 }), cow: fc.constantFrom(...NUMBERS) })
    .map((each) => about(each.cow, 'sort-done', at(each.hour), { request: `e${each.request}` })),
  fc
    .record({ hour, count: fc.integer({ min: 0, max: 9 }) })
    .map((each) => farmWide('head-count', at(each.hour), { group: 'Cows', count: each.count })),
);

/** Before all that is said, in the midst of it, and long after. */
const SPREAD = [
  '2026-03-09/afternoon',
  '2026-03-10/afternoon',
  '2026-03-11/afternoon',
  '2026-03-12/morning',
  '2026-03-12/afternoon',
  '2026-03-14/morning',
  '2026-03-17/afternoon',
  '2026-05-30/morning',
];

describe('what is kept beside the herd', () => {
  test('gives at one milking, after every portion of entries, what knowing all of them anew gives', () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof(anything, comeAndGo), { minLength: 1, maxLength: 16 }),
        fc.subarray(['2026-03-11/morning', '2026-03-12/afternoon']),
        fc.uniqueArray(aside, { maxLength: 2, selector: ({ key }) => key }),
        fc.constantFrom('2026-03-11/afternoon', '2026-03-13/morning', '2026-03-14/morning'),
        fc.infiniteStream(fc.record({ more: fc.integer({ min: 1, max: 5 }), hours: fc.integer({ min: -30, max: 9 }) })),
        (sayings, issued, asides, milking, steps) => {
          const arriving: readonly Entry[] = [...entriesOf(said(sayings)), ...issuedFor(issued)];
          const herd = arriving.filter(({ type }) => type === 'farm-set-up' || type === 'medicine-listed');
          const others = arriving.filter((entry) => !herd.includes(entry));
          let known = know(herd, []);
          for (let next = 0; next < others.length; ) {
            const { more, hours } = steps.next().value ?? { more: 1, hours: 0 };
            const portion = others.slice(next, next + more);
            next += portion.length;
            const now: readonly Aside[] = asides.slice(0, next % 3);
            known = knowMore(known, portion, now);
            expect(views(known, milking, hours)).toBe(
              views(know([...herd, ...others.slice(0, next)], now), milking, hours),
            );
          }
        },
      ),
      { seed: 79, numRuns: 300 },
    );
  });

  test('a milking says the same whether others were asked about before it, earlier and later ones, or not', () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof(anything, comeAndGo), { minLength: 1, maxLength: 14 }),
        fc.subarray(['2026-03-11/morning', '2026-03-12/afternoon']),
        fc.array(fc.constantFrom(...SPREAD), { minLength: 2, maxLength: 6 }),
        fc.integer({ min: -30, max: 9 }),
        (sayings, issued, milkings, hours) => {
          const entries: readonly Entry[] = [...entriesOf(said(sayings)), ...issuedFor(issued)];
          const known = know(entries, []);
          for (const milking of milkings) {
            expect(views(known, milking, hours), milking).toBe(views(know(entries, []), milking, hours));
          }
        },
      ),
      { seed: 80, numRuns: 250 },
    );
  });

  test('R-17 a dose that was not recorded is missed once its milking is over, also of a cow that has left since', () => {
    const course = { medicine: 'Sixty hours', course: { id: 'c', dose: 1, of: 3, everyHours: 12 } };
    const given = ['4', '8'].map((cow) => about(cow, 'treatment', '2026-03-11T06:00:00Z', course));
    const left = about('8', 'cow-left', '2026-03-11T07:00:00Z', { reason: 'sold-for-beef' });
    const all = entriesOf([farm(), ...CUPBOARD, milker('4'), milker('8'), ...given, left]);
    const known = know(all, []);
    const milking = '2026-03-12/morning';
    const texts = [-20, 0, -20].map((hours) => {
      const text = views(known, milking, hours);
      expect(text).toBe(views(know(all, []), milking, hours));
      return text;
    });
    expect(texts.map((text) => text.includes('hold.dose-not-recorded'))).toEqual([false, true, false]);
    expect(texts[0]).toMatch(/"milkUntil":"/);
    expect(texts[1]).toMatch(/"milkUntil":null/);
  });

  test('no cow is looked at again but the one that an entry is about, and those a dose is waited for', () => {
    const known = know(entries(), []);
    const milking = '2026-03-12/morning';
    views(known, milking, 0);
    shut(
      known.files.filter(({ cow }) => !['1', '4'].includes(cow.spans[0]?.number ?? '')),
      'a cow is looked at that nothing was said about',
    );
    const news = [about('1', 'milk-hold', '2026-03-12T04:00:00Z', { reason: 'clots' }, 'clots')];
    const later = [about('1', 'service', '2026-03-12T04:10:00Z', { how: 'natural' }, 'served')];
    const first = knowMore(known, entriesOf(news), []);
    const all = [...entries(), ...entriesOf(news)];
    expect(views(first, milking, 0)).toBe(views(know(all, []), milking, 0));
    const second = knowMore(first, entriesOf(later), []);
    expect(views(second, milking, 0)).toBe(views(know([...all, ...entriesOf(later)], []), milking, 0));
    expect(views(second, milking, 0)).toContain('"rule":"R-21"');
  });

  test('values go with their files where the list grows, shrinks or gets other files', () => {
    const [a, b, c, d] = [{}, {}, {}, {}];
    const [alone, milking, another] = [columnOf<string>('alone'), columnAbout<string>('about', 1), {}];
    const about = {};
    const before = [a, b, c];
    ['a', 'b', 'c'].forEach((value, place) => {
      alone(before)[place] = value;
      milking(before, about)[place] = `${value} then`;
    });
    const lists = [[a, d, c], [a, d, b, c], [a, c], [c, b, a], []];
    for (const after of lists) carryColumns(before, after);
    expect(lists.map((after) => alone(after))).toEqual([
      ['a', undefined, 'c'],
      ['a', undefined, 'b', 'c'],
      ['a', 'c'],
      [undefined, 'b', undefined],
      [],
    ]);
    expect(milking([a, b], about)).toEqual([undefined, undefined]);
    expect(milking(lists[0] ?? [], about)).toEqual(['a then', undefined, 'c then']);
    expect(milking(lists[0] ?? [], another)).toEqual([undefined, undefined, undefined]);
    expect(alone(before)).toEqual(['a', 'b', 'c']);
  });
});

const entries = (): readonly Entry[] =>
  entriesOf([
    farm(),
    ...CUPBOARD,
    ...['1', '2', '4', '6', '8'].map((cow) => milker(cow)),
    dryCow('3'),
    dose('2', '2026-03-10T06:00:00Z'),
    about('4', 'treatment', '2026-03-11T06:00:00Z', {
      medicine: 'Sixty hours',
      course: { id: 'c', dose: 1, of: 3, everyHours: 12 },
    }),
    about('6', 'sort-request', '2026-03-11T06:00:00Z', { reason: 'lame' }),
    about('8', 'cow-left', '2026-03-11T07:00:00Z', { reason: 'sold-for-beef' }),
    farmWide('head-count', '2026-03-11T09:00:00Z', { group: 'Cows', count: 2 }),
  ]);
