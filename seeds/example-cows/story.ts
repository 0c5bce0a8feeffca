/** What the example cows are made with: a cow at her stage, a dose as the crew write it, and what she is there to show. */

import type { DataOf } from '../../events/kinds.ts';
import { addDays, type LocalDay } from '../../shared/local-day.ts';
import { at, nearestThursday, nextWeekday, TODAY, vetDay } from '../calendar.ts';
import { type Cow, type Fact, GESTATION, officialOf } from '../cow.ts';
import { MEDICINES, type MedicineKey } from '../medicines.ts';
import { type Arrival, type SayOptions, say } from '../say.ts';

export interface Example {
  /** Her number, or the number as it was written. */
  readonly cow: string;
  /** What there is to see, in a sentence. */
  readonly shows: string;
  readonly rule: string;
  /** Where: a list of a sheet such as `milk-hold/held`, or `doubts` or `alerts`. */
  readonly on: string;
  /** The saying of the reason she is there for. */
  readonly says?: string;
  /** True where the point is that she is not there. */
  readonly absent?: true;
}

export interface Story {
  readonly cows: readonly Cow[];
  readonly entries: readonly Arrival[];
  readonly examples: readonly Example[];
}

const born = (number: string, calved: LocalDay, lactation: number): LocalDay =>
  addDays(calved, -(724 + (Number(number) % 61) + (lactation - 1) * 385));

/** A cow in milk, calved that many days ago and served once since where it is time for that. */
export const milker = (
  number: string,
  lactation: number,
  inMilkFor: number,
  { group, facts = [] }: { group?: string; facts?: readonly Fact[] } = {},
): Cow => {
  const calved = addDays(TODAY, -inMilkFor);
  const home = group ?? (lactation === 1 ? 'Heifers' : 'High');
  return {
    number,
    officialId: officialOf(6_000 + Number(number)),
    born: born(number, calved, lactation),
    lactation: lactation - 1,
    group: 'Dry',
    facts: inOrder([
      { kind: 'calving', day: calved, group: 'Fresh' },
      { kind: 'move', day: addDays(calved, 5), to: home },
      ...(inMilkFor > 75 && facts.every(({ kind }) => kind !== 'service')
        ? [{ kind: 'service', day: addDays(calved, 70) } as const]
        : []),
      ...facts,
    ]),
  };
};

/** In calf and due on a date; still in milk unless `dry` says since when she is not. */
export const inCalf = (number: string, lactation: number, due: LocalDay, facts: readonly Fact[] = []): Cow => {
  const served = addDays(due, -GESTATION);
  const calved = addDays(served, -(70 + (Number(number) % 40)));
  return {
    number,
    officialId: officialOf(6_000 + Number(number)),
    born: born(number, calved, lactation),
    lactation: lactation - 1,
    group: 'Dry',
    facts: inOrder([
      { kind: 'calving', day: calved, group: 'Fresh' },
      { kind: 'move', day: addDays(calved, 5), to: lactation === 1 ? 'Heifers' : 'High' },
      ...(lactation === 1
        ? []
        : [{ kind: 'move', day: nextWeekday(addDays(calved, 140), 'tuesday'), to: 'Steady' } as const]),
      { kind: 'service', day: served },
      { kind: 'check', day: vetDay(addDays(served, 35)), result: 'pregnant' },
      ...facts,
    ]),
  };
};

/** Dried off on a date with a product (none stated where it is left out), and in the dry group since. */
export const dried = (day: LocalDay, product?: string): Fact => ({
  kind: 'dry-off',
  day,
  group: 'Dry',
  ...(product === undefined ? {} : { product }),
});

/** The Thursday on which a cow due then would be dried off. */
export const dryDayFor = (due: LocalDay): LocalDay => nearestThursday(addDays(due, -60));

export const inOrder = (facts: readonly Fact[]): Fact[] =>
  [...facts].sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));

type Treatment = DataOf<'treatment'>;
const TUBES = new Set<MedicineKey>(['penicillinUdder', 'amoxicillin', 'cloxacillin', 'cephapirin']);

/** A dose of a listed medicine on its own route; `when` is a date and a time of day on the farm's clock. */
export const dose = (
  cow: string,
  medicine: MedicineKey,
  when: string,
  more: Partial<Treatment> = {},
  options: SayOptions = {},
): Arrival => {
  const listed = MEDICINES[medicine];
  const [day = '', time = ''] = when.split(' ');
  const data: Treatment = {
    medicine: listed.name,
    amount: TUBES.has(medicine) ? { value: 1, unit: 'tube' } : { value: 20, unit: 'ml' },
    route: listed.route,
    ...(TUBES.has(medicine) ? { quarters: ['right-hind'], reason: 'mastitis' } : {}),
    batch: batchOf(medicine),
    givenBy: 'Bram',
    ...more,
  };
  return say('treatment', cow, at(day, time), data, { author: 'bram', ...options });
};

/** The batch of a medicine that stood on the shelf all these sixty days. */
export const batchOf = (medicine: MedicineKey): string =>
  `${medicine.slice(0, 2).toUpperCase()}-${4_100 + Object.keys(MEDICINES).indexOf(medicine) * 37}`;
