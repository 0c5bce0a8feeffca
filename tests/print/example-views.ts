/**
 * Views written by hand for the paper's tests: a farm with one of everything, and herds of any size with the longest
 * numbers, names and reasons that the door lets in. What stands here is what must stand on paper.
 */

import type { PaperMarks } from '../../print/sheets.ts';
import { because } from '../../projections/because.ts';
import type { HeldRow, HoldReason, TreatRow, Views } from '../../projections/views.ts';
import { parseInstant } from '../../shared/instant.ts';
import { mustBe } from '../../shared/refusal.ts';

const MILKING = { id: '2026-03-14/afternoon', start: '2026-03-14T16:30:00Z' };
const PENICILLIN = 'Penicillin G procaine, udder';

export const MARKS: PaperMarks = {
  ref: 'ACEF-3479-K',
  bookId: '0190b6d2-0000-7000-8000-00000000b00c',
  position: 1841,
  root: '5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328',
  printedAt: mustBe(parseInstant('2026-03-14T15:58:00Z')),
  rehearsal: false,
  checkpoint:
    'example.book/0190b6d2\n1841\nXcnaeacGWamtVZy3Ad7Zoqudgjqi9JYM/jcO/0YEMyg=\n\n— example.book/0190b6d2 XcnaeacGWamtVZy3Ad7Zoqudgjqi9JYM/jcO/0YEMygXcnaeacGWamtVZy3Ad7Zoqudgjqi9JYM/jcO/0YEMyg=\n',
};

export const treated = (medicine = PENICILLIN, quarters: readonly string[] = ['left-front']): HoldReason => ({
  ...because(
    'R-11',
    'hold.hours',
    { medicine, hours: 60, lastDose: '2026-03-14T05:10:00Z', planned: false, ends: '2026-03-16T17:10:00Z' },
    ['t-1'],
  ),
  cause: 'treated',
  until: '2026-03-16T17:10:00Z',
  medicine,
  quarters,
  lastDose: '2026-03-14T05:10:00Z',
});

export const fresh: HoldReason = {
  ...because(
    'R-20',
    'hold.fresh',
    { calved: '2026-03-13T22:10:00Z', hours: null, milkings: 8, ends: '2026-03-17T16:30:00Z' },
    ['c-1'],
  ),
  cause: 'fresh',
  until: '2026-03-17T16:30:00Z',
};

export const notListed: HoldReason = {
  ...because('R-14', 'hold.not-listed', { medicine: 'Tylosin, injection' }, ['t-2']),
  cause: 'treated',
  until: null,
  medicine: 'Tylosin, injection',
};

export const heldRow = (cow: string, group: string, reasons: readonly HoldReason[] = [treated()]): HeldRow => {
  const open = reasons.some((reason) => reason.until === null);
  return {
    cow,
    group,
    until: open ? null : '2026-03-16T17:10:00Z',
    tankFrom: open ? null : '2026-03-17/morning',
    milkingsLeft: open ? null : 5,
    reasons,
    isNew: false,
    dryInMilkedGroup: false,
    ask: false,
  };
};

export const treatRow = (cow: string, group: string, overdue = false): TreatRow => ({
  cow,
  group,
  medicine: PENICILLIN,
  dose: 2,
  of: 3,
  amount: { value: 1, unit: 'tube' },
  route: 'udder',
  quarters: ['right-hind'],
  overdue,
  because: because(
    'R-17',
    'treat.due',
    { planned: '2026-03-14T17:10:00Z', lastGiven: '2026-03-14T05:10:00Z', everyHours: 12 },
    ['t-1'],
  ),
});

const FARM: Views['farm'] = {
  name: 'Windmill Dairy',
  timeZone: 'Europe/Dublin',
  paper: 'A4',
  languages: ['en'],
  mark: 'yellow leg band',
  milkTo: { treated: 'red bucket, then the slurry', fresh: 'calf house', abnormal: 'red bucket, then the slurry' },
  chores: { before: ['Filter sock in'], after: ['Plant washed hot'] },
  footBath: true,
  phones: [{ who: 'Marta, herd manager', number: '020 910 0001' }],
};

/** Nothing on any list: what must be said all the same. */
export const EMPTY: Views = {
  milking: MILKING,
  nextMilking: { id: '2026-03-15/morning', start: '2026-03-15T05:00:00Z' },
  asOf: '2026-03-14T15:58:00Z',
  position: 1841,
  farm: FARM,
  alerts: [],
  doubts: [],
  notReturned: [],
  sheets: {
    'milk-hold': {
      unplaced: [],
      held: [],
      cleared: [],
      gone: [],
      treat: [],
      groups: [
        { group: 'Heifers', held: 0 },
        { group: 'Cows', held: 0 },
      ],
    },
    'dry-off': { due: [], undecided: [] },
    'fresh-moves': { out: [], stay: [], in: [], pen: [] },
    sort: { cows: [], cannot: [] },
    counts: { groups: [], total: { head: 0, inMilk: 0, held: 0 } },
    'milking-plan': { groups: [], minutes: 0, ends: MILKING.start, slow: [] },
    'beef-hold': { cows: [] },
  },
};

/** One of everything that a sheet can say. */
export const RICH: Views = {
  ...EMPTY,
  alerts: [
    {
      key: 'left-on-hold:l-1',
      because: because(
        'R-90',
        'alert.left-on-hold',
        {
          cow: '619',
          left: '2026-03-13',
          milkUntil: '2026-03-15T04:25:00Z',
          meatUntil: null,
          milk: true,
          meat: true,
          reason: 'sold-for-beef',
        },
        ['l-1'],
      ),
    },
  ],
  doubts: [
    {
      key: 'past-due:334',
      because: because('R-46', 'doubt.past-due', { cow: '334', due: '2026-03-05', days: 9 }, ['c-9']),
    },
  ],
  notReturned: [{ ref: 'MMPX-PKHJ-P', milking: '2026-03-14/morning' }],
  sheets: {
    'milk-hold': {
      unplaced: [
        {
          number: '0417',
          because: because(
            'R-25',
            'unplaced.leading-zeros',
            { number: '0417', about: 'Cephapirin sodium, udder', at: '2026-03-13T16:00:00Z', mayBe: ['417'] },
            ['t-3'],
          ),
          key: 'unplaced:t-3',
        },
        {
          number: null,
          because: because('R-27', 'unplaced.set-aside', { problem: 'it is not readable JSON', cows: [] }, ['x-1']),
          key: 'set-aside:x-1',
        },
      ],
      held: [
        {
          ...heldRow('438', 'Heifers', [
            {
              ...because('R-24', 'hold.dry-in-milked-group', { group: 'Heifers' }, ['d-1']),
              cause: 'dry',
              until: null,
            },
          ]),
          dryInMilkedGroup: true,
        },
        { ...heldRow('233', 'Cows'), isNew: true },
        { ...heldRow('274', 'Cows', [notListed]), ask: true },
        heldRow('318', 'Cows', [treated(), treated('Flunixin, vein', []), fresh]),
        heldRow('512', 'Fresh', [fresh]),
      ],
      cleared: [
        { cow: '395', group: 'Cows', since: '2026-03-14T05:30:00Z', notBefore: null, reasons: [treated()] },
        { cow: '411', group: 'Cows', since: '2026-03-14T16:05:00Z', notBefore: '16:05', reasons: [treated()] },
      ],
      gone: [{ cow: '371', how: 'struck' }],
      treat: [treatRow('387', 'Cows'), treatRow('402', 'Cows', true)],
      groups: [
        { group: 'Heifers', held: 1 },
        { group: 'Cows', held: 3 },
        { group: 'Steady', held: 0 },
        { group: 'Fresh', held: 1 },
      ],
    },
    'dry-off': {
      due: [
        {
          cow: '519',
          group: 'Steady',
          dryOffOn: '2026-03-12',
          calvingDue: '2026-05-11',
          daysOverdue: 2,
          warnings: [because('R-45', 'dry-off.twins', {}, ['p-1'])],
          because: because(
            'R-43',
            'dry-off.due',
            { due: '2026-05-11', days: 60, target: '2026-03-12', dryOffOn: '2026-03-12', weekday: 'thursday' },
            ['s-1'],
          ),
          product: 'Cloxacillin benzathine, dry cow',
        },
      ],
      undecided: [
        {
          cow: '541',
          group: 'Steady',
          daysInMilk: 341,
          because: because('R-44', 'dry-off.not-confirmed', { daysInMilk: 341, limit: 305 }, ['c-2']),
        },
      ],
    },
    'fresh-moves': {
      out: [
        {
          cow: '561',
          from: 'Fresh',
          to: 'Cows',
          because: because(
            'R-50',
            'fresh.out',
            { calved: '2026-03-10T02:20:00Z', hours: 110, wanted: 60, lactation: 3 },
            ['c-3'],
          ),
          warnings: [because('R-51', 'fresh.at-capacity', { group: 'Cows', head: 111, capacity: 104 }, ['f-1'])],
        },
      ],
      stay: [
        {
          cow: '512',
          group: 'Fresh',
          because: because('R-50', 'fresh.stay-hours', { calved: '2026-03-13T22:10:00Z', hours: 18, wanted: 60 }, [
            'c-1',
          ]),
        },
      ],
      in: [
        {
          cow: '577',
          group: 'Dry',
          because: because('R-50', 'fresh.in-due', { due: '2026-03-19', days: 5, group: 'Dry' }, ['s-2']),
        },
      ],
      pen: [
        {
          cow: '512',
          group: 'Fresh',
          calved: '2026-03-13T22:10:00Z',
          milkingsSince: 1,
          ease: 3,
          calves: [{ sex: 'male', alive: true }],
        },
      ],
    },
    sort: {
      cows: [
        {
          cow: '597',
          group: 'Cows',
          reasons: [
            because('R-60', 'sort.request', { reason: 'hoof trimming', forWhom: 'the hoof trimmer', to: 'Crush' }, [
              'r-1',
            ]),
          ],
          to: ['Crush'],
        },
        {
          cow: '505',
          group: 'Steady',
          reasons: [because('R-60', 'sort.dry-off', { product: null }, ['d-2'])],
          to: ['Dry'],
        },
        {
          cow: '611',
          group: 'Cows',
          reasons: [because('R-60', 'sort.request', { reason: 'off her feed', forWhom: null, to: null }, ['r-2'])],
          to: ['Crush', 'Hospital'],
        },
      ],
      cannot: [
        {
          cow: '577',
          because: because('R-61', 'sort.cannot-dry', { group: 'Dry' }, ['r-3']),
          reasons: [because('R-60', 'sort.request', { reason: 'clip the udder', forWhom: null, to: 'Crush' }, ['r-3'])],
        },
      ],
    },
    counts: {
      groups: [
        {
          group: 'Cows',
          head: 111,
          inMilk: 110,
          held: 3,
          in: ['561'],
          out: ['203', '300'],
          lastCount: 110,
          lastCountAt: '2026-03-14T08:40:00Z',
          countedDifference: -1,
          capacity: 104,
          milked: true,
          cows: ['233', '274', '318'],
        },
        {
          group: 'Dry',
          head: 27,
          inMilk: 0,
          held: 0,
          in: [],
          out: [],
          lastCount: null,
          lastCountAt: null,
          countedDifference: null,
          capacity: null,
          milked: false,
          cows: ['577'],
        },
      ],
      total: { head: 138, inMilk: 110, held: 3 },
    },
    'milking-plan': {
      groups: [
        { group: 'Heifers', cows: 82, turns: 4, start: '2026-03-14T16:30:00Z', minutes: 48 },
        { group: 'Cows', cows: 110, turns: 5, start: '2026-03-14T17:18:00Z', minutes: 60 },
      ],
      minutes: 108,
      ends: '2026-03-14T18:18:00Z',
      slow: ['243', '262'],
    },
    'beef-hold': {
      cows: [
        {
          cow: '233',
          group: 'Cows',
          until: '2026-03-17T05:10:00Z',
          reasons: [
            {
              ...because(
                'R-90',
                'meat.days',
                {
                  medicine: PENICILLIN,
                  days: 3,
                  doses: 1,
                  lastDose: '2026-03-14T05:10:00Z',
                  planned: false,
                  ends: '2026-03-17T05:10:00Z',
                },
                ['t-1'],
              ),
              until: '2026-03-17T05:10:00Z',
            },
          ],
        },
        {
          cow: '274',
          group: 'Cows',
          until: null,
          reasons: [
            { ...because('R-14', 'meat.not-listed', { medicine: 'Tylosin, injection' }, ['t-2']), until: null },
          ],
        },
      ],
    },
  },
};

const LONG_NAME = 'Procaine benzylpenicillin with dihydrostreptomycin and dexamethasone, for the udder';
const LONG_GROUP = 'Late-lactation cows of the hill farm over the river, second year';

/** A herd with that many on every list; `long`: ten-character numbers, the longest names and reasons. */
export const herdOf = (size: number, long = false): Views => {
  const group = long ? LONG_GROUP : 'Cows';
  const numbers = Array.from({ length: size }, (_, index) =>
    long ? `W${String(800_000_000 + index)}` : String(101 + index),
  );
  const complaint =
    'watery milk with clots on the left side, off her feed since the evening, and lame on the hind foot; '.repeat(5);
  const reasons = (index: number): HoldReason[] => {
    if (!long) return [index % 3 === 0 ? fresh : treated()];
    const person: HoldReason = {
      ...because(
        'R-21',
        'hold.set-by-person',
        { reason: complaint.slice(0, 500), since: '2026-03-13T05:35:00Z', author: 'Łukasz' },
        ['h-1'],
      ),
      cause: 'abnormal',
      until: null,
    };
    return [treated(LONG_NAME, ['left-front', 'right-front', 'left-hind', 'right-hind']), person, fresh];
  };
  const { sheets } = RICH;
  const [dry] = sheets['dry-off'].due;
  const [sorted] = sheets.sort.cows;
  const [count] = sheets.counts.groups;
  const [meat] = sheets['beef-hold'].cows;
  const [pen] = sheets['fresh-moves'].pen;
  if (!dry || !sorted || !count || !meat || !pen) throw new Error('The example has one of each');
  return {
    ...RICH,
    sheets: {
      'milk-hold': {
        unplaced: [],
        held: numbers.map((cow, index) => ({ ...heldRow(cow, group, reasons(index)), isNew: index % 5 === 0 })),
        cleared: numbers.slice(0, 40).map((cow) => ({
          cow: `${cow.slice(0, 9)}B`,
          group,
          since: '2026-03-14T05:30:00Z',
          notBefore: null,
          reasons: [treated()],
        })),
        gone: [],
        treat: numbers.slice(0, 40).map((cow) => ({ ...treatRow(`${cow.slice(0, 9)}T`, group), medicine: LONG_NAME })),
        groups: [{ group, held: size }],
      },
      'dry-off': { due: numbers.map((cow) => ({ ...dry, cow, group })), undecided: [] },
      'fresh-moves': { ...sheets['fresh-moves'], pen: numbers.map((cow) => ({ ...pen, cow })) },
      sort: { cows: numbers.map((cow) => ({ ...sorted, cow, group })), cannot: [] },
      counts: { ...sheets.counts, groups: [{ ...count, group, in: numbers }] },
      'milking-plan': { ...sheets['milking-plan'], slow: numbers },
      'beef-hold': { cows: numbers.map((cow) => ({ ...meat, cow, group })) },
    },
  };
};
