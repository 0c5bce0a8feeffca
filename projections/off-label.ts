/** What makes a use off-label without its being ticked: route, doses, interval, age, class of animal. */
import type { EntryOf } from '../events/entry.ts';
import type { AnimalClass, MedicineListed } from '../events/kinds/medicine-listed.ts';
import { HOUR, type Instant } from '../shared/instant.ts';
import { addDays, type LocalDay } from '../shared/local-day.ts';
import type { OffLabelCause } from './because.ts';
import type { Dosing } from './dosing.ts';

type Dose = EntryOf<'treatment'>;

/** What of the animal a label asks about. Null class: no cow is known for the dose. */
export interface Patient {
  readonly classAt: (at: Instant) => AnimalClass | null;
  /** Is she dried off then, or within the two days after? */
  readonly isDryingOff: (at: Instant) => boolean;
  readonly born: LocalDay | undefined;
  readonly dayOf: (at: Instant) => LocalDay;
}

/** Where a dose stands among doses of the same medicine that count together. */
export interface ChainLink {
  /** 1 for the first. */
  readonly count: number;
  readonly hoursSinceLast: number | undefined;
}

const quartersApart = (a: Dose, b: Dose): boolean => {
  const first = a.data.quarters ?? [];
  const second = b.data.quarters ?? [];
  return first.length > 0 && second.length > 0 && !first.some((quarter) => second.includes(quarter));
};

/**
 * Hours in which a further dose still belongs with the one before: its label's hold or twice its interval, two days at
 * least, so that a daily dose given half an hour late is no new beginning.
 */
const togetherHours = (label: MedicineListed): number => {
  const hold = typeof label.milkHold === 'object' ? label.milkHold : {};
  return Math.max(48, hold.hours ?? 0, (hold.milkings ?? 0) * 12, (label.minIntervalHours ?? 0) * 2);
};

/** Counts the doses of one medicine, in fold order; doses into other quarters are counted apart. */
export const chainOf = (doses: readonly Dose[], label: MedicineListed): ReadonlyMap<Dose, ChainLink> => {
  const links = new Map<Dose, ChainLink>();
  const within = togetherHours(label) * HOUR;
  doses.forEach((dose, index) => {
    const before = doses.slice(0, index).findLast((each) => !quartersApart(each, dose));
    const together = before !== undefined && dose.at - before.at <= within;
    links.set(dose, {
      count: together ? (links.get(before)?.count ?? 0) + 1 : 1,
      hoursSinceLast: before === undefined ? undefined : (dose.at - before.at) / HOUR,
    });
  });
  return links;
};

const sameRoute = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();

/** Completed months of age on a date; one born on the 31st completes a shorter month on its last day. */
const monthsOld = (born: LocalDay, day: LocalDay): number => {
  const months =
    (Number(day.slice(0, 4)) - Number(born.slice(0, 4))) * 12 + Number(day.slice(5, 7)) - Number(born.slice(5, 7));
  const isLastOfMonth = addDays(day, 1).slice(8) === '01';
  return day.slice(8) < born.slice(8) && !isLastOfMonth ? months - 1 : months;
};

/** `all`: every dose of this medicine she had, in fold order. */
export const offLabelCauses = (
  dosing: Dosing,
  label: MedicineListed,
  patient: Patient,
  all: readonly Dose[],
): readonly OffLabelCause[] => {
  const chain = chainOf(all, label);
  const links = dosing.doses.map((dose) => chain.get(dose));
  const { course } = dosing;
  const causes = new Set<OffLabelCause>();
  for (const dose of dosing.doses) {
    if (dose.data.offLabel === true) causes.add('said');
    if (dose.data.route !== undefined && label.route !== undefined && !sameRoute(dose.data.route, label.route))
      causes.add('route');
    if (label.notFromAgeMonths !== undefined) {
      const { born } = patient;
      if (born === undefined || monthsOld(born, patient.dayOf(dose.at)) >= label.notFromAgeMonths) causes.add('age');
    }
    if (!inClass(label, dose, patient)) causes.add('class');
  }
  const planned =
    course?.running === true
      ? Math.max(course.of, (links.at(-1)?.count ?? course.given) + course.of - course.given)
      : 0;
  const most = Math.max(planned, ...links.map((link) => link?.count ?? 1), course?.given ?? 1);
  if (label.maxDoses !== undefined && most > label.maxDoses) causes.add('doses');
  const shortest = Math.min(
    ...links.map((link) => link?.hoursSinceLast ?? Number.POSITIVE_INFINITY),
    course === undefined || course.of < 2 ? Number.POSITIVE_INFINITY : course.everyHours,
  );
  if (label.minIntervalHours !== undefined && shortest < label.minIntervalHours) causes.add('interval');
  return [...causes];
};

/**
 * What is for dry cows is given at the end of milking: a cow about to be dried off is in its class. What is not authorised
 * for animals milked for people is for no cow in milk, whatever else the label says.
 */
const inClass = (label: MedicineListed, dose: Dose, patient: Patient): boolean => {
  const animal = patient.classAt(dose.at);
  if (animal === null) return true;
  const isForDryCow =
    label.dryCow !== undefined || (label.for?.includes('dry') === true && patient.isDryingOff(dose.at));
  const asked = animal === 'milking' && isForDryCow ? 'dry' : animal;
  if (asked === 'milking' && label.authorisedForMilkAnimals === false) return false;
  return label.for === undefined || label.for.includes(asked) || label.for.includes(animal);
};
