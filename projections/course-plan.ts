/** What the doses of a course say of its plan: how many are given, which are missing, when the others fall due. */
import type { EntryOf } from '../events/entry.ts';
import { HOUR, type Instant, plusHours } from '../shared/instant.ts';

type Dose = EntryOf<'treatment'>;

export interface CoursePlan {
  readonly id: string;
  /** Which time this is that the course is begun: an id that is used again says so by its dose numbers. */
  readonly run: number;
  /** Highest dose number recorded since it was begun. */
  readonly given: number;
  readonly of: number;
  /** As the last dose says. */
  readonly everyHours: number;
  readonly ended: EntryOf<'course-ended'> | undefined;
  /** Dose numbers between the first and the last recorded that are missing. */
  readonly gaps: readonly number[];
  /** True while doses remain and nobody ended it. */
  readonly running: boolean;
  /** Planned time of the last dose while it runs, else of the last given one. */
  readonly plannedLast: Instant;
  /** Planned time of the next dose while it runs. */
  readonly plannedNext: Instant | undefined;
}

/** `doses`: in the order of their times. Undefined where the last is of no course. */
export const coursePlanOf = (
  doses: readonly [Dose, ...Dose[]],
  courseEnds: readonly EntryOf<'course-ended'>[],
): CoursePlan | undefined => {
  const runs = runsOf(doses.flatMap(numbered));
  const run = runs.at(-1);
  const last = run?.at(-1);
  if (run === undefined || last === undefined) return undefined;
  const { id, everyHours } = last.plan;
  const given = highest(run);
  // Only the end of the course shortens its plan: of several words on its length the longest stands.
  const of = Math.max(...run.map(({ plan }) => plan.of));
  const longestInterval = Math.max(...run.map(({ plan }) => plan.everyHours));
  // A dose given after the end was said goes on with the course: its plan is ended only by a later word.
  const endOf = (each: Run) => courseEnds.find((end) => end.data.course === id && end.at >= (each.at(-1)?.at ?? 0));
  const ended = endOf(run);
  const running = ended === undefined && given < of;
  return {
    id,
    run: runs.length,
    given,
    of,
    everyHours,
    ended,
    gaps: runs.flatMap((each, place) => (endOf(each) === undefined ? gapsOf(each, runs.slice(place + 1)) : [])),
    running,
    plannedLast: running ? plusHours(last.at, (of - given) * longestInterval) : last.at,
    plannedNext: running ? plusHours(last.at, everyHours) : undefined,
  };
};

interface Numbered {
  readonly at: Instant;
  readonly dose: number;
  readonly plan: NonNullable<Dose['data']['course']>;
}

/** Doses whose numbers go up; never empty. */
type Run = readonly Numbered[];

const numbered = ({ at, data }: Dose): Numbered[] =>
  data.course === undefined ? [] : [{ at, dose: data.course.dose, plan: data.course }];

/**
 * A number that does not go up begins the course again: what was given under its name before counts for nothing in the new
 * plan. Only where it comes within half an interval is it the same dose written down twice.
 */
const runsOf = (doses: readonly Numbered[]): readonly Run[] => {
  const runs: Numbered[][] = [];
  for (const each of doses) {
    const run = runs.at(-1);
    if (run !== undefined && (each.dose > highest(run) || isSameAgain(each, run))) run.push(each);
    else runs.push([each]);
  }
  return runs;
};

const isSameAgain = ({ at, dose, plan }: Numbered, run: Run): boolean =>
  run.some((given) => given.dose === dose) && at - (run.at(-1)?.at ?? 0) < (plan.everyHours * HOUR) / 2;

const highest = (run: Run): number => Math.max(...run.map(({ dose }) => dose));

/** Numbers that were passed over, and not recorded when the course was begun again either. */
const gapsOf = (run: Run, later: readonly Run[]): number[] => {
  const recorded = new Set([run, ...later].flatMap((each) => each.map(({ dose }) => dose)));
  const gaps: number[] = [];
  for (let dose = Math.min(...run.map((each) => each.dose)); dose < highest(run); dose += 1)
    if (!recorded.has(dose)) gaps.push(dose);
  return gaps;
};
