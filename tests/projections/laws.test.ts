/** Laws that hold for any history: order of arrival, repetition, counting, and that nothing said frees milk sooner. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Aside, Entry } from '../../events/entry.ts';
import { latestEnd } from '../../projections/hold-piece.ts';
import { know } from '../../projections/know.ts';
import { type Standing, standingsAt } from '../../projections/standing.ts';
import type { Views } from '../../projections/views.ts';
import { momentOf, viewsAt } from '../../projections/views-at.ts';
import { instantText, mustBeInstant, plusHours } from '../../shared/instant.ts';
import { entriesOf } from '../published/paper-farm.ts';
import { about, CUPBOARD, dryCow, farm, farmWide, medicine, milker, type Saying } from './evening.ts';

const START = mustBeInstant('2026-03-10T00:00:00Z');
const at = (hour: number): string => instantText(plusHours(START, hour));
const NUMBERS = ['1', '2', '3', '4', '07', '7', '999'];
const MEDICINES = [
  'Sixty hours',
  'Five milkings',
  'Both',
  'Nothing held',
  'Not known',
  'Not for milkers',
  'Dry-cow tube',
  'Not listed',
];
const GROUPS = ['Cows', 'Heifers', 'Fresh', 'Hospital', 'Dry', 'Close-up'];

const hour = fc.integer({ min: 0, max: 96 });
const cow = fc.constantFrom(...NUMBERS);

/**
 * What never frees a cow's milk sooner. Left out is what frees her because the rules say so: the end of a course, a lifted
 * hold, a clear test, the vet's time, a settling, a strike. Left out too is
 * - what makes known what was held for not being known: a dose that a course waits for (R-17: so only courses of their own
 *   are begun here), a first listing of a medicine and one older than a dose (R-29: so listings come after every dose and
 *   name listed medicines), a dry-cow product, which states that of a dry-off, a set-up with a fresh hold;
 * - what changes whether or when she is milked at all: a calving (it gives a dry-cow hold its end too), a dry-off, a
 *   leaving, a group move, a milking that is finished;
 * - what changes who is meant: a cow entering, a change of number.
 */
const holdingWith = (course: string): fc.Arbitrary<Saying> =>
  fc.oneof(
    {
      weight: 5,
      arbitrary: fc
        .record({ cow, hour, medicine: fc.constantFrom(...MEDICINES.filter((name) => name !== 'Dry-cow tube')) })
        .map((each) => about(each.cow, 'treatment', at(each.hour), { medicine: each.medicine })),
    },
    fc.record({ cow, hour, of: fc.integer({ min: 1, max: 4 }) }).map((each) =>
      about(each.cow, 'treatment', at(each.hour), {
        medicine: 'Sixty hours',
        course: { id: course, dose: 1, of: each.of, everyHours: 12 },
      }),
    ),
    fc
      .record({
        name: fc.constantFrom(...MEDICINES.filter((name) => name !== 'Not listed')),
        hours: fc.integer({ min: 1, max: 200 }),
        milkHold: fc.constantFrom('hours', 'none', 'unknown', 'not-for-milking-cows'),
      })
      .map(({ name, hours, milkHold }) =>
        medicine(
          name,
          {
            milkHold: milkHold === 'hours' ? { hours } : (milkHold as 'none' | 'unknown' | 'not-for-milking-cows'),
            meatDays: 3,
          },
          at(97),
        ),
      ),
    fc.record({ cow, hour, offLabel: fc.boolean(), hours: fc.integer({ min: 0, max: 120 }) }).map((each) =>
      about(each.cow, 'treatment', at(each.hour), {
        medicine: 'Both',
        offLabel: each.offLabel,
        milkHoldHours: each.hours,
        prescribedBy: 'Dr Vane',
      }),
    ),
    fc.record({ cow, hour }).map((each) => about(each.cow, 'milk-hold', at(each.hour), { reason: 'clots' })),
    fc
      .record({ cow, hour })
      .map((each) => about(each.cow, 'residue-test', at(each.hour), { result: 'positive', of: 'cow' })),
    fc.record({ cow, hour }).map((each) => about(each.cow, 'sort-request', at(each.hour), { reason: 'lame' })),
    fc
      .record({ cow, hour, kg: fc.integer({ min: 5, max: 30 }) })
      .map((each) =>
        about(each.cow, 'milk-record', at(each.hour), { milking: '2026-03-12/morning', kg: each.kg, minutes: 7 }),
      ),
    fc.record({ cow, hour }).map((each) => about(each.cow, 'service', at(each.hour), { how: 'insemination' })),
    fc
      .record({ hour, count: fc.integer({ min: 0, max: 9 }) })
      .map((each) => farmWide('head-count', at(each.hour), { group: 'Cows', count: each.count })),
  );

const holding = holdingWith('a course of its own');

const anything: fc.Arbitrary<Saying> = fc.oneof(
  { weight: 3, arbitrary: holdingWith('c3') },
  fc.record({ cow, hour }).map((each) => about(each.cow, 'treatment', at(each.hour), { medicine: 'Dry-cow tube' })),
  fc
    .record({ hour, back: fc.integer({ min: 0, max: 4 }) })
    .map((each) => farmWide('milking-finished', at(each.hour), { milking: `2026-03-1${each.back}/morning` })),
  fc.record({ cow, hour, dose: fc.integer({ min: 1, max: 3 }), id: fc.constantFrom('c1', 'c2') }).map((each) =>
    about(each.cow, 'treatment', at(each.hour), {
      medicine: 'Sixty hours',
      course: { id: each.id, dose: each.dose, of: 3, everyHours: 12 },
    }),
  ),
  fc
    .record({ cow, hour, group: fc.constantFrom(...GROUPS) })
    .map((each) =>
      about(each.cow, 'calving', at(each.hour), { calves: [{ sex: 'female', alive: true }], group: each.group }),
    ),
  fc.record({ cow, hour, product: fc.constantFrom('none', 'Dry-cow tube', undefined) }).map((each) =>
    about(each.cow, 'dry-off', at(each.hour), {
      group: 'Dry',
      ...(each.product === undefined ? {} : { product: each.product }),
    }),
  ),
  fc
    .record({ cow, hour, to: fc.constantFrom(...GROUPS) })
    .map((each) => about(each.cow, 'group-move', at(each.hour), { to: each.to })),
  fc.record({ cow, hour }).map((each) => about(each.cow, 'milk-hold-lifted', at(each.hour), { reason: 'clear' })),
  fc
    .record({ cow, hour })
    .map((each) => about(each.cow, 'residue-test', at(each.hour), { result: 'clear', of: 'cow' })),
  fc
    .record({ cow, hour, id: fc.constantFrom('c1', 'c2') })
    .map((each) => about(each.cow, 'course-ended', at(each.hour), { course: each.id, reason: 'well' })),
  fc.record({ cow, hour }).map((each) => about(each.cow, 'cow-left', at(each.hour), { reason: 'died' })),
  fc
    .record({ cow, hour, to: fc.constantFrom('1', '50', '51') })
    .map((each) => about(each.cow, 'number-changed', at(each.hour), { to: each.to })),
  fc.record({ cow, hour }).map((each) =>
    about(each.cow, 'cow-entered', at(each.hour), {
      group: 'Cows',
      lactation: 2,
      calvedOn: '2026-02-01',
      milkHoldUntil: 'none',
      meatHoldUntil: 'none',
    }),
  ),
  fc
    .record({ hour, entry: fc.constantFrom('e3', 'e4', 'e5', 'e6') })
    .map((each) => farmWide('entry-struck', at(each.hour), { entry: each.entry, reason: 'wrong' })),
);

const HERD: readonly Saying[] = [
  farm(),
  ...CUPBOARD,
  milker('1'),
  milker('2'),
  milker('7'),
  dryCow('3'),
  milker('4', { group: 'Heifers', lactation: 1 }),
];

/** Ids by place in the history, so that strikes can name them and order of arrival cannot. */
const said = (history: readonly Saying[]): readonly Saying[] => [
  ...HERD.map((saying, index) => ({ id: `herd-${index}`, ...saying })),
  ...history.map((saying, index) => ({ ...saying, id: `e${index}` })),
];
const book = (history: readonly Saying[]): readonly Entry[] => entriesOf(said(history));

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

const aside: fc.Arbitrary<Aside> = fc
  .record({ cows: fc.subarray(NUMBERS, { maxLength: 2 }), hour, id: fc.option(fc.constantFrom('x1', 'x2')) })
  .map((each) => ({
    key: `set-aside:${each.hour}:${each.cows.join(',')}`,
    problem: 'unreadable',
    cows: each.cows,
    recordedAt: plusHours(START, each.hour),
    ...(each.id === null ? {} : { id: each.id }),
  }));

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
          expect(total.held + free.length).toBe(total.inMilk);
          expect(sheets['milk-hold'].held).toHaveLength(each.filter(({ held }) => held).length);
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
