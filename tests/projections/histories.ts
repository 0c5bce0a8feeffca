/** Histories that nobody would write down: any kind of entry about any cow at any hour, and things set aside besides. */
import fc from 'fast-check';
import type { Aside, Entry } from '../../events/entry.ts';
import { entryLike } from '../../events/stored-entry.ts';
import { instantText, mustBeInstant, plusHours } from '../../shared/instant.ts';
import { entriesOf } from '../published/paper-farm.ts';
import { about, CUPBOARD, dryCow, farm, farmWide, medicine, milker, type Saying } from './evening.ts';

export const START = mustBeInstant('2026-03-10T00:00:00Z');
export const at = (hour: number): string => instantText(plusHours(START, hour));
export const NUMBERS = ['1', '2', '3', '4', '07', '7', '999'];
export const MEDICINES = [
  'Sixty hours',
  'Five milkings',
  'Both',
  'Nothing held',
  'Not known',
  'Not for milkers',
  'Dry-cow tube',
  'Sealant',
  'Not for milk',
  'Not listed',
];
export const GROUPS = ['Cows', 'Heifers', 'Fresh', 'Hospital', 'Dry', 'Close-up', 'Barn 9'];

export const hour = fc.integer({ min: 0, max: 96 });
export const cow = fc.constantFrom(...NUMBERS);

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
export const holdingWith = (course: string): fc.Arbitrary<Saying> =>
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

export const holding = holdingWith('a course of its own');

export const anything: fc.Arbitrary<Saying> = fc.oneof(
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
  fc.record({ cow, hour, product: fc.constantFrom('none', 'Dry-cow tube', 'Sealant', undefined) }).map((each) =>
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
  fc
    .record({
      cow,
      hour,
      group: fc.constantFrom(...GROUPS),
      lactation: fc.constantFrom(0, 2),
      dates: fc.record(
        {
          calvedOn: fc.constantFrom('2025-02-01', '2026-02-01', '2026-03-09'),
          driedOffOn: fc.constantFrom('2025-01-10', '2026-02-01', '2026-12-20'),
          driedOffWith: fc.constantFrom('none', 'Dry-cow tube'),
        },
        { requiredKeys: [] },
      ),
    })
    .map((each) =>
      about(each.cow, 'cow-entered', at(each.hour), {
        group: each.group,
        lactation: each.lactation,
        milkHoldUntil: 'none',
        meatHoldUntil: 'none',
        ...each.dates,
      }),
    ),
  fc
    .record({ hour, entry: fc.constantFrom('e3', 'e4', 'e5', 'e6') })
    .map((each) => farmWide('entry-struck', at(each.hour), { entry: each.entry, reason: 'wrong' })),
);

export const HERD: readonly Saying[] = [
  farm(),
  ...CUPBOARD,
  medicine('Sealant', { kind: 'sealant', for: ['dry'], milkHold: 'none', meatDays: 0 }),
  medicine('Not for milk', { milkHold: 'none', meatDays: 0, authorisedForMilkAnimals: false }),
  milker('1'),
  milker('2'),
  milker('7'),
  dryCow('3'),
  milker('4', { group: 'Heifers', lactation: 1 }),
];

/** Ids by place in the history, so that strikes can name them and order of arrival cannot. */
export const said = (history: readonly Saying[]): readonly Saying[] => [
  ...HERD.map((saying, index) => ({ id: `herd-${index}`, ...saying })),
  ...history.map((saying, index) => ({ ...saying, id: `e${index}` })),
];
export const book = (history: readonly Saying[]): readonly Entry[] => entriesOf(said(history));

export const aside: fc.Arbitrary<Aside> = fc
  .record({ cows: fc.subarray(NUMBERS, { maxLength: 2 }), hour, id: fc.option(fc.constantFrom('x1', 'x2')) })
  .map((each) => ({
    key: `set-aside:${each.hour}:${each.cows.join(',')}`,
    problem: 'unreadable',
    cows: each.cows,
    recordedAt: plusHours(START, each.hour),
    ...(each.id === null ? {} : { id: each.id }),
  }));

/** The sets that went to the wall for those milkings, with these numbers on them: whatever else holds a cow is news. */
export const issuedFor = (milkings: readonly string[], numbers: readonly string[] = []): readonly Entry[] =>
  milkings.map((milking, index) => {
    const [like] = entriesOf([about('1', 'milk-hold', at(index), { reason: 'clots' })]) as [Entry];
    const { subject: _, ...rest } = entryLike(like, {});
    return {
      ...rest,
      type: 'sheet-issued',
      id: `issued ${milking}`,
      content: `${index}`.padStart(64, '0'),
      data: {
        ref: `AAAA-000${index}-A`,
        book: 'b',
        milking,
        position: 1,
        root: '0'.repeat(64),
        sheets: [
          {
            sheet: 'milk-hold',
            content: { held: numbers.map((number) => ({ cow: number })) },
            contentHash: '0'.repeat(64),
            pdfHash: '0'.repeat(64),
          },
        ],
        program: 'byrebook 0.1.0',
        timeZoneData: '2025b',
      },
    } as Entry;
  });
