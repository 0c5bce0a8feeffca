/** Laws that hold for any history: order of arrival, repetition, and that nothing said frees milk sooner. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Entry } from '../../events/entry.ts';
import { know } from '../../projections/know.ts';
import type { Views } from '../../projections/views.ts';
import { viewsAt } from '../../projections/views-at.ts';
import { instantText, mustBeInstant, plusHours } from '../../shared/instant.ts';
import { entriesOf } from '../published/paper-farm.ts';
import { about, CUPBOARD, dryCow, farm, farmWide, milker, type Saying } from './evening.ts';

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

/** What never frees a cow's milk sooner. */
const holding: fc.Arbitrary<Saying> = fc.oneof(
  {
    weight: 5,
    arbitrary: fc
      .record({ cow, hour, medicine: fc.constantFrom(...MEDICINES) })
      .map((each) => about(each.cow, 'treatment', at(each.hour), { medicine: each.medicine })),
  },
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

const anything: fc.Arbitrary<Saying> = fc.oneof(
  { weight: 3, arbitrary: holding },
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

/** Ids by place, so that strikes can name them and order of arrival cannot. */
const book = (history: readonly Saying[]): readonly Entry[] =>
  entriesOf([...HERD, ...history.map((saying, index) => ({ ...saying, id: `e${index}` }))]);

const views = (entries: readonly Entry[], milking = '2026-03-14/morning'): Views => {
  const known = know(entries, []);
  const found = known.farm.schedule?.find(milking);
  if (found === undefined) throw new Error('no such milking');
  return viewsAt(known, { milking: found, asOf: found.start, position: 0 });
};

const histories = fc.array(anything, { maxLength: 14 });
const RUNS = { seed: 412, numRuns: 150 };

describe('laws', () => {
  test('any order of arrival gives the same views', () => {
    fc.assert(
      fc.property(histories, fc.infiniteStream(fc.nat()), (history, dice) => {
        const entries = book(history);
        const shuffled = entries
          .map((entry) => ({ entry, key: dice.next().value ?? 0 }))
          .sort((a, b) => a.key - b.key)
          .map(({ entry }) => entry);
        expect(views(shuffled)).toEqual(views(entries));
      }),
      RUNS,
    );
  });

  test('each cow in milk is in exactly one count, and held and free make the cows in milk', () => {
    fc.assert(
      fc.property(histories, (history) => {
        const { sheets } = views(book(history));
        const { groups, total } = sheets.counts;
        expect(groups.reduce((sum, row) => sum + row.inMilk, 0)).toBe(total.inMilk);
        expect(groups.reduce((sum, row) => sum + row.cows.length, 0)).toBe(total.head);
        for (const row of groups) {
          expect(row.held).toBeLessThanOrEqual(row.inMilk);
          expect(row.inMilk).toBeLessThanOrEqual(row.head);
        }
        const planned = sheets['milking-plan'].groups.reduce((sum, row) => sum + row.cows, 0);
        const unmilked = groups.filter(({ milked }) => !milked).reduce((sum, row) => sum + row.inMilk, 0);
        expect(planned + unmilked).toBe(total.inMilk);
      }),
      RUNS,
    );
  });

  test('each held row has an entry behind every reason', () => {
    fc.assert(
      fc.property(histories, (history) => {
        const entries = book(history);
        const ids = new Set(entries.map(({ id }) => id));
        for (const row of views(entries).sheets['milk-hold'].held) {
          expect(row.reasons.length).toBeGreaterThan(0);
          for (const reason of row.reasons) {
            expect(reason.entries.length).toBeGreaterThan(0);
            for (const id of reason.entries) expect(ids).toContain(id);
          }
        }
      }),
      RUNS,
    );
  });

  /**
   * The generator leaves out what may free her by the rules themselves: the end of a course, a lifted hold, a clear test, the
   * vet's time, a settling, a strike; and what ends a hold by being known at last (R-17 the dose waited for, R-14 and R-29 a
   * first listing, R-19 a stated product, R-20 a fresh hold set), or changes whether she is milked at all (calving, dry-off,
   * leaving, entering, a number, a group).
   */
  test('adding a treatment, a hold, a positive test, a record, a service or a request never frees milk sooner', () => {
    fc.assert(
      fc.property(histories, holding, (history, added) => {
        const before = views(book(history)).sheets['milk-hold'];
        const after = views(book([...history, added])).sheets['milk-hold'];
        for (const row of before.held) {
          const now = after.held.filter((each) => each.cow === row.cow && each.group === row.group);
          expect(now.length).toBeGreaterThan(0);
          const latest =
            now
              .map(({ until }) => until ?? '9999')
              .sort()
              .at(-1) ?? '';
          expect(latest >= (row.until ?? '9999')).toBe(true);
        }
      }),
      RUNS,
    );
  });
});
