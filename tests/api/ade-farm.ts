/** A small farm with every kind of entry that the exchange standard carries, and some that it doesn't. */

import { type AdeExport, exportAde } from '../../api/ade/export-ade.ts';
import type { Resource } from '../../api/ade/resource.ts';
import { tonight } from '../../api/tonight.ts';
import type { Book } from '../../events/book.ts';
import { momentOf } from '../../projections/views-at.ts';
import { type AFarm, aFarm, CEPHAPIRIN, PENICILLIN } from './a-farm.ts';

export const DRY_COW = 'Cloxacillin benzathine, dry cow';

/** Set-up and labels: what the standard cannot carry, and a farm that imports says for itself. */
export const isOwnWord = (type: string): boolean => type === 'farm-set-up' || type === 'medicine-listed';

/** The clock stands at 12:00 UTC on 4 March 2026; cows 101 to 106 in milk, and those below. */
export const richFarm = (): AFarm => {
  const farm = aFarm();
  const { say } = farm;
  const course = (dose: number, of: number) => ({ id: 'course-101', dose, of, everyHours: 12 });
  farm.at('2026-03-04T12:00:00Z');
  say('medicine-listed', '2026-02-01T12:00:00Z', undefined, {
    name: DRY_COW,
    milkHold: 'not-for-milking-cows',
    meatDays: 30,
    dryCow: { minimumDryDays: 30, milkHoldAfterCalving: 'none' },
  });
  say('medicine-received', '2026-02-02T08:00:00Z', undefined, {
    medicine: PENICILLIN,
    quantity: { value: 24, unit: 'tube' },
    batch: 'B-7',
    expires: '2027-05-31',
  });
  say('cow-entered', '2026-02-10T09:00:00Z', '201', {
    group: 'Milkers',
    officialId: '372000000000201',
    born: '2022-04-01',
    lactation: 1,
    calvedOn: '2025-10-01',
    servedOn: '2025-12-28',
    dueOn: '2026-10-07',
    milkHoldUntil: '2026-02-12T09:00:00Z',
    meatHoldUntil: 'none',
    from: 'a farm in the next valley',
  });
  say('cow-entered', '2026-02-10T09:00:00Z', '202', {
    group: 'Dry',
    lactation: 3,
    driedOffOn: '2026-01-20',
    driedOffWith: DRY_COW,
  });
  say('cow-entered', '2026-02-10T09:00:00Z', '203', {
    group: 'Dry',
    lactation: 0,
    milkHoldUntil: 'unknown',
    meatHoldUntil: 'none',
    driedOffWith: 'none',
  });
  // 101: two of three doses given, the third still to come.
  const tube = {
    medicine: PENICILLIN,
    amount: { value: 1, unit: 'tube' },
    route: 'udder',
    quarters: ['left-front'],
    reason: 'mastitis',
    givenBy: 'Bram',
    batch: 'B-7',
  };
  say('treatment', '2026-03-03T17:00:00Z', '101', { ...tube, course: course(1, 3) });
  say('treatment', '2026-03-04T06:00:00Z', '101', { ...tube, course: course(2, 3) });
  // 102: a vet's time longer than the label's. 103: not on the list. 104: lost track of the tubes.
  say('treatment', '2026-03-02T07:00:00Z', '102', { medicine: PENICILLIN }, 'dose-102');
  say('vet-hold-time', '2026-03-02T18:00:00Z', '102', {
    treatment: 'dose-102',
    milkHours: 96,
    meatDays: 10,
    prescribedBy: 'Dr Okafor',
  });
  say('treatment', '2026-03-03T07:00:00Z', '103', {
    medicine: 'Something from the shelf',
    amount: { value: 2, unit: 'bolus' },
  });
  say('treatment', '2026-03-03T07:30:00Z', '104', { medicine: CEPHAPIRIN, reason: 'mastitis' }, 'dose-104');
  say('entry-struck', '2026-03-03T08:00:00Z', undefined, { entry: 'dose-104', reason: 'wrong cow' });
  say('treatment', '2026-03-03T07:40:00Z', '106', { medicine: CEPHAPIRIN }, 'dose-106');
  say('entry-struck', '2026-03-03T08:10:00Z', undefined, {
    entry: 'dose-106',
    reason: 'not given',
    instead: 'nothing',
  });
  // 105: clots, lifted; then a positive test of 104.
  say('milk-hold', '2026-03-01T06:00:00Z', '105', { reason: 'clots' }, 'hold-105');
  say('milk-hold-lifted', '2026-03-02T06:00:00Z', '105', { reason: 'clear', hold: 'hold-105' });
  say('milk-hold', '2026-03-04T05:30:00Z', '106', { reason: 'watery' });
  say('residue-test', '2026-03-04T08:00:00Z', '104', {
    result: 'positive',
    of: 'cow',
    sampledAt: '2026-03-04T05:10:00Z',
  });
  say('calving', '2026-03-02T02:00:00Z', '202', {
    calves: [
      { sex: 'female', alive: true, number: 'C-31' },
      { sex: 'male', alive: false },
    ],
    ease: 2,
    group: 'Fresh',
  });
  say('service', '2026-03-01T10:00:00Z', '106', { how: 'insemination', sire: 'Alder Bank 7' });
  say('pregnancy-check', '2026-03-02T10:00:00Z', '105', { result: 'twins', servedOn: '2026-01-10' });
  say('pregnancy-check', '2026-03-02T10:05:00Z', '104', { result: 'pregnant', dueOn: '2026-05-06' });
  say('pregnancy-check', '2026-03-02T10:10:00Z', '103', { result: 'empty' });
  say('cow-entered', '2026-02-15T09:00:00Z', '301', {
    group: 'Milkers',
    lactation: 2,
    calvedOn: '2025-06-01',
    milkHoldUntil: 'none',
    meatHoldUntil: 'none',
  });
  say('cow-entered', '2026-02-15T09:00:00Z', '302', {
    group: 'Milkers',
    lactation: 2,
    calvedOn: '2025-06-01',
    milkHoldUntil: 'none',
    meatHoldUntil: 'none',
  });
  say('cow-entered', '2026-02-15T09:00:00Z', '303', {
    group: 'Milkers',
    lactation: 2,
    calvedOn: '2025-06-01',
    milkHoldUntil: 'none',
    meatHoldUntil: 'none',
  });
  say('cow-entered', '2026-02-15T09:00:00Z', '304', {
    group: 'Milkers',
    lactation: 2,
    calvedOn: '2025-06-01',
    milkHoldUntil: 'none',
    meatHoldUntil: 'none',
  });
  say('dry-off', '2026-02-26T10:00:00Z', '301', { product: DRY_COW, group: 'Dry' });
  say('dry-off', '2026-02-26T10:00:00Z', '302', { product: 'none', group: 'Dry' });
  say('abortion', '2026-02-28T10:00:00Z', '303', { milked: true, daysCarried: 200, group: 'Fresh' });
  say('number-changed', '2026-02-20T10:00:00Z', '304', { to: '1304' });
  say('treatment', '2026-03-04T06:10:00Z', '1304', { medicine: PENICILLIN });
  say('group-move', '2026-03-03T10:00:00Z', '1304', { to: 'Fresh' });
  for (const [cow, reason, to] of [
    ['401', 'died', 'the knacker'],
    ['402', 'sold-for-beef', 'the market'],
    ['403', 'sold-for-milking', 'a farm beyond the hill'],
  ] as const) {
    say('cow-entered', '2026-02-12T09:00:00Z', cow, {
      group: 'Milkers',
      lactation: 4,
      calvedOn: '2025-05-01',
      milkHoldUntil: 'none',
      meatHoldUntil: 'none',
    });
    say('cow-left', '2026-02-25T09:00:00Z', cow, { reason, to });
  }
  say('milk-record', '2026-03-03T05:40:00Z', '101', {
    milking: '2026-03-03/morning',
    kg: 17.4,
    minutes: 6.5,
    peakFlow: 3.9,
  });
  say('treatment', '2026-03-03T09:00:00Z', '999', { medicine: PENICILLIN });
  say('treatment', '2026-03-03T09:00:00Z', '105', { medicin: PENICILLIN });
  say('sort-request', '2026-03-04T08:00:00Z', '105', { reason: 'lame' });
  return farm;
};

export const exported = (book: Book): AdeExport => {
  const { known, milking, asOf, entries, position } = tonight(book);
  const moment = momentOf(known, { milking, asOf, position });
  if (moment === undefined) throw new Error('the farm is set up');
  return exportAde({ known, moment, entries: entries(), farm: book.farmId ?? book.bookId });
};

/** All resources of an export, those inside programs too. */
export const resourcesIn = ({ collections }: AdeExport): readonly Resource[] =>
  collections.flatMap(({ member }) => [
    ...member,
    ...member.flatMap((each) => (Array.isArray(each.treatments) ? (each.treatments as Resource[]) : [])),
  ]);
