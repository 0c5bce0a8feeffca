/**
 * Cows in milk for all that is written down that were put among the dry ones since they calved, or whose group was made one
 * of dry cows. They may have been dried off: nobody is to bring them in to be milked, and somebody is asked.
 */
import { plusMilliseconds } from '../shared/instant.ts';
import type { LocalDay } from '../shared/local-day.ts';
import type { Placement } from './cow.ts';
import { type Group, groupNamed, groupsInOrder, isForDry, isNamed } from './groups.ts';
import { type CowMoment, firstThere } from './moment.ts';
import type { Standing } from './standing.ts';
import { ONE_CALVING } from './stretch.ts';

export interface AmongDry {
  readonly since: LocalDay;
  readonly entries: readonly string[];
}

export const amongDry = (standing: Standing, moment: CowMoment): AmongDry | undefined => {
  const { group, stretch, inMilkDuring, file } = standing;
  if (!isForDry(group) || !inMilkDuring || stretch === undefined || stretch.mayBe) return undefined;
  const { calved, calvedEarliest, from } = stretch;
  // One that calved in the group may be left there for some days, and be put there again by name.
  const moved = calved === null ? from : plusMilliseconds(calved, ONE_CALVING);
  for (const placement of stayIn(group, file.cow.placements, firstThere(file.cow, moment))) {
    const { day, setUp } = forDrySince(placement, moment);
    const isHers = setUp === undefined ? placement.at > moved : placement.at >= (calvedEarliest ?? from);
    if (isHers) return { since: day, entries: setUp === undefined ? [placement.entry] : [placement.entry, setUp] };
  }
  return undefined;
};

/** How she was put in the group that she stands in, since she was last anywhere else. */
const stayIn = (group: Group, placements: readonly Placement[], at: number): readonly Placement[] => {
  const until = placements.filter((placement) => placement.at <= at);
  return until.slice(until.findLastIndex((placement) => !isNamed(group, placement.group)) + 1);
};

/** From when she stands in a group of dry cows by such a placement, and by which set-up where it was made one after it. */
const forDrySince = (placement: Placement, { schedule, milking }: CowMoment): { day: LocalDay; setUp?: string } => {
  const placed = schedule.dayOf(placement.at);
  const isForDryOn = (day: LocalDay): boolean =>
    isForDry(groupNamed(groupsInOrder(schedule.inForceOn(day).data), placement.group));
  const changes = schedule.setUps.map(({ from }) => from).filter((from) => from > placed && from <= milking.day);
  const days = [placed, ...changes.sort()];
  const milked = days.findLastIndex((day) => !isForDryOn(day));
  if (milked < 0) return { day: placed };
  const day = days[milked + 1] ?? milking.day;
  return { day, setUp: schedule.inForceOn(day).id };
};
