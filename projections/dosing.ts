/**
 * Doses put together into dosings: a course, or a single dose outside any course, with the vet's word on them.
 * A course is one treatment for the vet's hours and the plan; another medicine under the same course id is a dosing of its own.
 */
import type { EntryOf } from '../events/entry.ts';
import type { Instant } from '../shared/instant.ts';
import type { HerVetTime } from './animal.ts';
import { type CoursePlan, coursePlanOf } from './course-plan.ts';
import type { Hers } from './cow.ts';
import { medicineKey } from './farm.ts';

type Dose = EntryOf<'treatment'>;

/** A time beyond the label's: the longest that was given, by whomever. */
export interface VetTime {
  readonly time: number;
  /** The name that stands with it, in the same entry. */
  readonly by: string | undefined;
  /** Some time was given with the vet's name to it, so that an open hold has its end. */
  readonly isVouched: boolean;
}

export interface VetWord {
  /** In hours. */
  readonly milk: VetTime | undefined;
  /** In days. */
  readonly meat: VetTime | undefined;
  /** The vet named for the treatment, with a time or without. */
  readonly prescribedBy: string | undefined;
  readonly entries: readonly string[];
  /** When the vet last gave a time for the milk by a `vet-hold-time`. */
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

/** Is that time the planned last dose of a course that still runs: not given yet? */
export const isPlannedDose = ({ course, last }: Dosing, at: Instant): boolean =>
  course?.running === true && at > last.at;

export interface Dosed {
  readonly treatments: readonly Hers<'treatment'>[];
  readonly vetTimes: readonly HerVetTime[];
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

interface Said {
  readonly time: number | undefined;
  readonly by: string | undefined;
  readonly isSure: boolean;
}

const longestOf = (said: readonly Said[]): VetTime | undefined => {
  let longest: VetTime | undefined;
  for (const { time, by } of said) {
    if (time !== undefined && (longest === undefined || time > longest.time))
      longest = { time, by, isVouched: said.some((each) => isVouched(each)) };
  }
  return longest;
};

const isVouched = ({ time, by, isSure }: Said): boolean => time !== undefined && by !== undefined && isSure;

const NOTHING_SAID: VetWord = {
  milk: undefined,
  meat: undefined,
  prescribedBy: undefined,
  entries: [],
  said: undefined,
};

const saysNothing = ({ data }: Dose): boolean =>
  data.milkHoldHours === undefined && data.meatHoldDays === undefined && data.prescribedBy === undefined;

/** A time and the name that vouches for it stand in one entry, for milk and for meat apart. */
const vetWordOn = (doses: readonly Dose[], vetTimes: readonly HerVetTime[]): VetWord => {
  if (vetTimes.length === 0 && doses.every(saysNothing)) return NOTHING_SAID;
  const ids = new Set(doses.map((dose) => dose.id));
  const times = vetTimes.filter((time) => time.doses.some((dose) => ids.has(dose)));
  const sure = times.filter(({ isSure }) => isSure).map(({ entry }) => entry);
  const prescribed = [...sure.map((time) => time.data.prescribedBy), ...doses.map((dose) => dose.data.prescribedBy)];
  return {
    milk: longestOf([
      ...doses.map(({ data }) => ({ time: data.milkHoldHours, by: data.prescribedBy, isSure: true })),
      ...times.map(({ entry: { data }, isSure }) => ({ time: data.milkHours, by: data.prescribedBy, isSure })),
    ]),
    meat: longestOf([
      ...doses.map(({ data }) => ({ time: data.meatHoldDays, by: data.prescribedBy, isSure: true })),
      ...times.map(({ entry: { data }, isSure }) => ({ time: data.meatDays, by: data.prescribedBy, isSure })),
    ]),
    prescribedBy: prescribed.find((each) => each !== undefined),
    entries: times.map(({ entry }) => entry.id),
    said: sure.findLast((time) => time.data.milkHours !== undefined)?.at,
  };
};
