/**
 * Doses put together into dosings: a course, or a single dose outside any course, with the vet's word on them.
 * A course is one treatment for the vet's hours and the plan; another medicine under the same course id is a dosing of its own.
 */
import type { EntryOf } from '../events/entry.ts';
import type { Instant } from '../shared/instant.ts';
import { type CoursePlan, coursePlanOf } from './course-plan.ts';
import type { Hers } from './cow.ts';
import { medicineKey } from './farm.ts';

type Dose = EntryOf<'treatment'>;

export interface VetWord {
  readonly milkHours: number | undefined;
  readonly meatDays: number | undefined;
  readonly prescribedBy: string | undefined;
  readonly entries: readonly string[];
  /** When the vet last spoke by a `vet-hold-time`. */
  readonly said: Instant | undefined;
}

export interface Dosing {
  /** The medicine as written at the last dose. */
  readonly medicine: string;
  readonly medicineKey: string;
  /** In fold order; never empty. */
  readonly doses: readonly [Dose, ...Dose[]];
  readonly last: Dose;
  readonly mayBe: Hers<'treatment'>['mayBe'];
  readonly vet: VetWord;
  readonly course: CoursePlan | undefined;
}

export interface Dosed {
  readonly treatments: readonly Hers<'treatment'>[];
  readonly vetTimes: readonly EntryOf<'vet-hold-time'>[];
  readonly courseEnds: readonly EntryOf<'course-ended'>[];
}

export const dosingsOf = ({ treatments, vetTimes, courseEnds }: Dosed): readonly Dosing[] => {
  const piles = new Map<string, Hers<'treatment'>[]>();
  for (const hers of treatments) {
    const { course, medicine } = hers.entry.data;
    const pile = course === undefined ? pileOfDose(piles, hers.entry) : `course ${course.id} ${medicineKey(medicine)}`;
    const have = piles.get(pile);
    if (have === undefined) piles.set(pile, [hers]);
    else have.push(hers);
  }
  return [...piles.values()].map((pile) => {
    const doses = pile.map((hers) => hers.entry) as [Dose, ...Dose[]];
    const last = doses[doses.length - 1] as Dose;
    return {
      medicine: last.data.medicine,
      medicineKey: medicineKey(last.data.medicine),
      doses,
      last,
      mayBe: pile.find((hers) => hers.mayBe !== undefined)?.mayBe,
      vet: vetWordOn(doses, vetTimes),
      course: coursePlanOf(doses, courseEnds),
    };
  });
};

/** A dose outside any course stands alone; books that synced may hold two under one id, told apart by their contents. */
const pileOfDose = (piles: ReadonlyMap<string, readonly Hers<'treatment'>[]>, dose: Dose): string => {
  const first = piles.get(`dose ${dose.id}`)?.[0];
  return first === undefined || first.entry.content === dose.content
    ? `dose ${dose.id}`
    : `dose ${dose.id} ${dose.content}`;
};

const longest = (numbers: readonly (number | undefined)[]): number | undefined => {
  const given = numbers.filter((each): each is number => each !== undefined);
  return given.length === 0 ? undefined : Math.max(...given);
};

const NOTHING_SAID: VetWord = {
  milkHours: undefined,
  meatDays: undefined,
  prescribedBy: undefined,
  entries: [],
  said: undefined,
};

const saysNothing = ({ data }: Dose): boolean =>
  data.milkHoldHours === undefined && data.meatHoldDays === undefined && data.prescribedBy === undefined;

const vetWordOn = (doses: readonly Dose[], vetTimes: readonly EntryOf<'vet-hold-time'>[]): VetWord => {
  if (vetTimes.length === 0 && doses.every(saysNothing)) return NOTHING_SAID;
  const ids = new Set(doses.map((dose) => dose.id));
  const times = vetTimes.filter((time) => ids.has(time.data.treatment));
  const prescribed = [...times.map((time) => time.data.prescribedBy), ...doses.map((dose) => dose.data.prescribedBy)];
  return {
    milkHours: longest([...doses.map((dose) => dose.data.milkHoldHours), ...times.map((time) => time.data.milkHours)]),
    meatDays: longest([...doses.map((dose) => dose.data.meatHoldDays), ...times.map((time) => time.data.meatDays)]),
    prescribedBy: prescribed.find((each) => each !== undefined),
    entries: times.map((time) => time.id),
    said: times.at(-1)?.at,
  };
};
