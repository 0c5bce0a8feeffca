/** Courses for the second reading: R-17. */
import type { EntryOf } from '../../../events/entry.ts';
import type { Cow } from './cow.ts';
import type { Milking } from './farm.ts';
import type { Hold } from './hold.ts';
import { OPEN } from './label.ts';
import { type Book, type Dose, endOfDose } from './treatment.ts';
import { HOUR } from './wall.ts';

/** The milking whose start is nearest; of two as near, the earlier. */
export const nearest = (milkings: readonly Milking[], instant: number): Milking | undefined => {
  let best: Milking | undefined;
  for (const each of milkings) {
    if (best === undefined || Math.abs(each.start - instant) < Math.abs(best.start - instant)) best = each;
  }
  return best;
};

export const courseHolds = (
  book: Book,
  cow: Cow,
  id: string,
  medicine: string,
  hasEnded: (milking: Milking) => boolean,
): readonly Hold[] => {
  const doses = cow.entries.filter(
    (entry): entry is Dose =>
      entry.type === 'treatment' && entry.data.course?.id === id && entry.data.medicine === medicine,
  );
  const ends = cow.entries.filter(
    (entry): entry is EntryOf<'course-ended'> => entry.type === 'course-ended' && entry.data.course === id,
  );
  const [first] = doses;
  const last = doses.at(-1);
  const course = last?.data.course;
  if (first === undefined || last === undefined || course === undefined) return [];
  const stopped = ends.some(({ at }) => at >= last.at);
  const endIf = (dose: Dose, base: number) => endOfDose(book, { dose, cow, course: doses, stopped }, base);
  const holds = doses.map((dose) => ({ from: first.at, end: endIf(dose, dose.at), why: `dose ${dose.id}` }));
  if (stopped) return holds;
  const round = lastRound(doses);
  const most = Math.max(...round.map(numberOf));
  const step = course.everyHours * HOUR;
  const missed = (after: Dose): boolean => {
    const due = nearest(book.farm.milkings, after.at + step);
    return due !== undefined && due.start < book.from && hasEnded(due);
  };
  const of = Math.max(...round.map((dose) => dose.data.course?.of ?? 0));
  // Each number after the first that was given wants the one before it, and the last wants the next.
  const missing = round.some((dose) => {
    const number = numberOf(dose);
    if (number >= of || round.some((each) => numberOf(each) === number + 1)) return false;
    return number < most || missed(dose);
  });
  if (missing) return [...holds, { from: first.at, end: OPEN, why: `missing dose of ${id}` }];
  const left = of - most;
  if (left <= 0) return holds;
  const planned = last.at + left * step;
  return [...holds, { from: first.at, end: endIf(last, planned), why: `plan of ${id}` }];
};

const numberOf = (dose: Dose | undefined): number => dose?.data.course?.dose ?? 0;

/** A number that does not go up begins the course again, unless it stands so near the one before that both are one dose. */
const lastRound = (doses: readonly Dose[]): readonly Dose[] => {
  let round: Dose[] = [];
  for (const dose of doses) {
    const before = round.at(-1);
    const half = ((dose.data.course?.everyHours ?? 0) * HOUR) / 2;
    if (before === undefined || numberOf(dose) > numberOf(before)) round.push(dose);
    else if (dose.at - before.at >= half) round = [dose];
    else round.push(dose);
  }
  return round;
};
