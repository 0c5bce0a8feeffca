/** At which milking a dose falls due: the one whose start is nearest to its planned time; a tie goes to the earlier. */
import { type Instant, plusHours } from '../shared/instant.ts';
import type { Dosing } from './dosing.ts';
import type { CowMoment } from './moment.ts';
import type { Milking, Schedule } from './schedule.ts';

export const nearestDue = (schedule: Schedule, planned: Instant): Milking | undefined => schedule.nearest(planned);

export interface DueDose {
  readonly dose: number;
  readonly planned: Instant;
  readonly due: Milking;
  /** Its milking has ended and nobody wrote it down. */
  readonly overdue: boolean;
}

/**
 * The dose of a running course that stands on this milking's treat list, if any. A dose whose milking is still to come
 * before this one is taken as given then; one whose milking is over is overdue and stands until settled.
 */
export const dueAt = (dosing: Dosing, moment: CowMoment): DueDose | undefined => {
  const { course } = dosing;
  if (course?.plannedNext === undefined) return undefined;
  let planned = course.plannedNext;
  for (let dose = course.given + 1; dose <= course.of; dose += 1) {
    const due = nearestDue(moment.schedule, planned);
    if (due === undefined || due.start > moment.milking.start) return undefined;
    if (due.start === moment.milking.start) return { dose, planned, due, overdue: false };
    if (moment.hasEnded(due)) return { dose, planned, due, overdue: true };
    planned = plusHours(planned, course.everyHours);
  }
  return undefined;
};
