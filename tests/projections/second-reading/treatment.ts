/** What one dose comes to, for the second reading. */
import type { Entry, EntryOf } from '../../../events/entry.ts';
import { type Asked, type Cow, stands } from './cow.ts';
import type { Farm } from './farm.ts';
import { endByListings, type Listed, listingAt, listingsOf, NEVER, OPEN } from './label.ts';
import { DAY, dayOf, HOUR } from './wall.ts';

export type Dose = EntryOf<'treatment'>;

/** All that counts, and what is asked of it. */
export interface Book extends Asked {
  readonly inOrder: readonly Entry[];
  /** Whether its number is that of another cow in the herd. */
  readonly ofAnother: (entry: Entry, cow: Cow) => boolean;
}

/** One dose, and the course that it belongs to, which may be nothing but itself. */
export interface Given {
  readonly dose: Dose;
  readonly cow: Cow;
  readonly course: readonly Dose[];
  /** The course was ended before its plan was done. */
  readonly stopped: boolean;
}

interface VetHours {
  /** With the vet's name behind them. */
  readonly said: number;
  /** Whoever gave them: they lengthen all the same. */
  readonly lengthens: number;
  /** When the vet last gave some after the dose. */
  readonly last: number;
}

/** The hours given for any dose of the course; under the number of another cow they only lengthen. */
const vetHours = (book: Book, cow: Cow, doses: readonly Dose[]): VetHours => {
  let said = NEVER;
  let lengthens = NEVER;
  let last = NEVER;
  for (const { data } of doses) {
    const own = data.milkHoldHours ?? NEVER;
    lengthens = Math.max(lengthens, own);
    if (data.prescribedBy !== undefined) said = Math.max(said, own);
  }
  for (const entry of book.inOrder) {
    if (entry.type !== 'vet-hold-time' || !doses.some(({ id }) => id === entry.data.treatment)) continue;
    const hours = entry.data.milkHours ?? NEVER;
    lengthens = Math.max(lengthens, hours);
    if (book.ofAnother(entry, cow) || hours === NEVER) continue;
    said = Math.max(said, hours);
    last = Math.max(last, entry.at);
  }
  return { said, lengthens: Math.max(said, lengthens), last };
};

const monthsOld = (born: string, day: string): number => {
  const [fromYear = 0, fromMonth = 0, fromDay = 0] = born.split('-').map(Number);
  const [year = 0, month = 0, on = 0] = day.split('-').map(Number);
  return (year - fromYear) * 12 + month - fromMonth - (on < fromDay ? 1 : 0);
};

const TWO_DAYS = 2 * DAY;

const outsideItsClass = (listed: Listed, dose: Dose, cow: Cow): boolean => {
  const { state } = stands(cow, dose.at);
  const animal = state === 'milk' ? 'milking' : state === 'heifer' ? 'young' : 'dry';
  if (listed.data.authorisedForMilkAnimals === false && animal === 'milking') return true;
  if (listed.data.for === undefined || listed.data.for.includes(animal)) return false;
  const driedOff = cow.entries.some(({ type, at }) => type === 'dry-off' && at >= dose.at && at - dose.at <= TWO_DAYS);
  return !(driedOff && listed.data.for.includes('dry'));
};

const pastItsAge = (listed: Listed, dose: Dose, cow: Cow, farm: Farm): boolean => {
  const months = listed.data.notFromAgeMonths;
  if (months === undefined) return false;
  const born = cow.entries.flatMap((entry) => (entry.type === 'cow-entered' ? (entry.data.born ?? []) : []))[0];
  return born === undefined || monthsOld(born, dayOf(farm.zone, dose.at)) >= months;
};

/** Doses of one medicine with no more than two days between them are counted in one go. */
const placeInRun = (doses: readonly Dose[], index: number): number => {
  let place = 1;
  for (let each = index; each > 0; each -= 1) {
    if ((doses[each]?.at ?? 0) - (doses[each - 1]?.at ?? 0) > TWO_DAYS) break;
    place += 1;
  }
  return place;
};

/** More doses, or doses closer together, than the label has: of those that were given and of those that are planned. */
const isTooMuch = (listed: Listed, { dose, cow, course, stopped }: Given): boolean => {
  const { maxDoses = OPEN, minIntervalHours = 0 } = listed.data;
  const last = course.at(-1)?.data.course;
  const all = cow.entries.filter(
    (entry): entry is Dose => entry.type === 'treatment' && entry.data.medicine === dose.data.medicine,
  );
  if (last !== undefined) {
    if ((stopped ? last.dose : Math.max(last.of, last.dose)) > maxDoses) return true;
    const toCome = stopped ? 0 : Math.max(0, last.of - last.dose);
    if (
      placeInRun(
        all,
        all.findLastIndex((each) => course.includes(each)),
      ) +
        toCome >
      maxDoses
    )
      return true;
    if (last.of > 1 && last.everyHours < minIntervalHours) return true;
  }
  return all.some((each, index) => {
    if (!course.includes(each)) return false;
    const before = all[index - 1];
    if (before !== undefined && each.at - before.at < minIntervalHours * HOUR) return true;
    return placeInRun(all, index) > maxDoses;
  });
};

const isOffLabel = (listed: Listed, given: Given, farm: Farm): boolean => {
  if (isTooMuch(listed, given)) return true;
  return given.course.some((dose) => {
    const { offLabel, route } = dose.data;
    if (offLabel === true) return true;
    if (route !== undefined && listed.data.route !== undefined && route !== listed.data.route) return true;
    return pastItsAge(listed, dose, given.cow, farm) || outsideItsClass(listed, dose, given.cow);
  });
};

/** R-18, in hours; open where nothing can be multiplied. */
const euHours = (listed: Listed | undefined, dose: Dose): number => {
  if (listed === undefined) return OPEN;
  const { milkHold, authorisedForMilkAnimals } = listed.data;
  if (authorisedForMilkAnimals === false) return 7 * 24;
  if (milkHold === 'not-for-milking-cows') return dose.data.offLabel === true ? 7 * 24 : OPEN;
  if (milkHold === 'none') return 24;
  if (milkHold === 'unknown' || milkHold.hours === undefined) return OPEN;
  return Math.ceil((milkHold.hours * 1.5) / 24) * 24;
};

/** When the milk of this dose is free again, if the last dose is (or will be) at `base`. */
export const endOfDose = (book: Book, given: Given, base: number): number => {
  const { farm } = book;
  const { dose, cow } = given;
  const listings = listingsOf(book.inOrder, dose.data.medicine);
  const listed = listingAt(listings, dose.at);
  const { said, lengthens, last } = vetHours(book, cow, given.course);
  const openUntil = said === NEVER ? OPEN : Math.max(last, base + lengthens * HOUR);
  const label = endByListings(listings, dose.at, base, cow, book, openUntil);
  // Not on the list, not known, not for milking cows: the vet's time is the end there is.
  const byVet = base + lengthens * HOUR;
  if (listed === undefined || label === undefined) return said === NEVER ? OPEN : byVet;
  const isEu = farm.rulesAt(dose.at).offLabel === 'eu-2019-6';
  if (!isOffLabel(listed, given, farm)) {
    if (!label.open) return Math.max(label.known, byVet);
    if (said === NEVER) return OPEN;
    const forbidden = isEu && listed.data.milkHold === 'not-for-milking-cows' ? base + 7 * DAY : NEVER;
    return Math.max(label.known, byVet, forbidden);
  }
  if (isEu) {
    const hours = euHours(listed, dose);
    const prescribed = dose.data.prescribedBy !== undefined || said !== NEVER;
    return prescribed ? Math.max(label.known, base + hours * HOUR, byVet) : OPEN;
  }
  return said === NEVER ? OPEN : Math.max(label.known, byVet);
};
