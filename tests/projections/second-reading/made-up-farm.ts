/** The farm of the made-up histories: three plans of milkings, a label of each kind, and the herd at the start. */
import type { DataOf } from '../../../events/kinds.ts';
import { about, farmWide, medicine, type Saying } from '../evening.ts';

const EARLY = '2026-01-02T09:00:00Z';

/** Without the fields that are undefined. */
export const lean = <T extends object>(data: T): T =>
  Object.fromEntries(Object.entries(data).filter(([, value]) => value !== undefined)) as T;
export const MILKINGS = {
  two: [
    { name: 'morning', start: '05:00' },
    { name: 'afternoon', start: '16:30' },
  ],
  three: [
    { name: 'morning', start: '04:00' },
    { name: 'noon', start: '12:00' },
    { name: 'night', start: '20:00' },
  ],
  early: [
    { name: 'morning', start: '02:15' },
    { name: 'afternoon', start: '14:00' },
  ],
};

export const setUp = (time: string, wish: Partial<DataOf<'farm-set-up'>>, plan: keyof typeof MILKINGS): Saying =>
  farmWide(
    'farm-set-up',
    time,
    lean({
      name: 'Windmill Dairy',
      timeZone: 'UTC',
      milkings: MILKINGS[plan],
      parlour: { stalls: 10, turnMinutes: 10 },
      groups: [
        { name: 'Cows', kind: 'milking', order: 1 },
        { name: 'Twice', kind: 'milking', order: 2, milkedAt: plan === 'three' ? ['morning', 'night'] : ['morning'] },
        { name: 'Fresh', kind: 'fresh', order: 3 },
        { name: 'Hospital', kind: 'hospital', order: 0 },
        { name: 'Dry', kind: 'dry' },
        { name: 'Close-up', kind: 'close-up' },
      ],
      ...wish,
    }) as DataOf<'farm-set-up'>,
  );
export const cupboard: readonly Saying[] = [
  medicine('Hours', { milkHold: { hours: 60 }, meatDays: 3, route: 'udder' }),
  medicine('Milkings', { milkHold: { milkings: 5 }, meatDays: 3 }),
  medicine('Both', { milkHold: { hours: 40, milkings: 3 }, meatDays: 3 }),
  medicine('None', { milkHold: 'none', meatDays: 0 }),
  medicine('Unknown', { milkHold: 'unknown', meatDays: 3 }),
  medicine('Forbidden', { milkHold: 'not-for-milking-cows', meatDays: 3 }),
  medicine('Strict', {
    milkHold: { hours: 24 },
    meatDays: 3,
    for: ['milking'],
    maxDoses: 3,
    minIntervalHours: 10,
    notFromAgeMonths: 36,
  }),
  medicine('For dry', { milkHold: 'none', meatDays: 3, for: ['dry'] }),
  medicine('Not for milk', { milkHold: 'none', meatDays: 3, authorisedForMilkAnimals: false }),
  medicine('Tube', {
    milkHold: 'not-for-milking-cows',
    meatDays: 3,
    dryCow: { minimumDryDays: 4, milkHoldAfterCalving: { hours: 48 }, earlyCalving: 'minimum-plus-hold' },
  }),
  medicine('Ask tube', {
    milkHold: 'not-for-milking-cows',
    meatDays: 3,
    dryCow: { minimumDryDays: 3, milkHoldAfterCalving: { hours: 24 }, earlyCalving: 'ask-vet' },
  }),
  medicine('Milkings tube', {
    milkHold: 'not-for-milking-cows',
    meatDays: 3,
    dryCow: { milkHoldAfterCalving: { milkings: 3 } },
  }),
].map((each) => ({ ...each, time: EARLY }));

const enters = (cow: string, data: Partial<DataOf<'cow-entered'>>): Saying =>
  about(cow, 'cow-entered', '2026-01-10T12:00:00Z', {
    group: 'Cows',
    lactation: 2,
    calvedOn: '2026-01-05',
    milkHoldUntil: 'none',
    ...data,
  });

export const herd: readonly Saying[] = [
  enters('1', { born: '2024-01-15' }),
  enters('2', { born: '2021-01-15' }),
  enters('3', { group: 'Dry', calvedOn: '2025-02-01', driedOffOn: '2026-01-08', driedOffWith: 'none' }),
  about('4', 'cow-entered', '2026-01-10T12:00:00Z', {
    group: 'Dry',
    lactation: 0,
    born: '2024-03-30',
    milkHoldUntil: 'none',
  }),
  enters('7', { group: 'Twice' }),
  enters('5', { officialId: '372000000000051' }),
  enters('5', { officialId: '372000000000052', group: 'Hospital' }),
];
