/** How long a milking goes on, and which one is next. */

import { byCowNumber } from '../shared/cow-number.ts';
import { type Instant, later, MINUTE, mustBeInstant } from '../shared/instant.ts';
import { kept } from '../shared/kept.ts';
import { columnAbout } from './columns.ts';
import type { CowFile } from './cow-file.ts';
import type { Farm } from './farm.ts';
import { type Group, groupNamed, groupsInOrder, isMilkedAt, isMilkedBeforeHospital, isNamed } from './groups.ts';
import { forOpen } from './kept-for-herd.ts';
import type { Known } from './know.ts';
import { type InMilk, isSlow, planOf } from './plan.ts';
import { remembered } from './remembered.ts';
import { firstOf, type Milking, type Schedule, type SetUp } from './schedule.ts';
import { thereAt } from './there.ts';

const AFTER_PLANNED_END = 60 * MINUTE;

/** Cows in milk at a milking's start, by the group they stand in: how many, and the numbers of the slow ones in order. */
export const inMilkByGroup = (
  { files }: Pick<Known, 'files'>,
  schedule: Schedule,
  milking: Milking,
): ReadonlyMap<string, InMilk> => {
  const setUp = schedule.inForceOn(milking.day);
  const planned = asPlanned(setUp, milking);
  const found = inMilkFound(files);
  const have = found.get(planned) ?? inMilkOf(files, setUp, milking, planned);
  found.set(planned, have);
  return have;
};

/** The window's end and the plan ask for the same. */
const inMilkFound = remembered((_: Known['files']): WeakMap<object, ReadonlyMap<string, InMilk>> => new WeakMap());

const inMilkOf = (
  files: Known['files'],
  setUp: SetUp,
  milking: Milking,
  planned: object,
): ReadonlyMap<string, InMilk> => {
  const column = toMilk(files, planned);
  const byGroup = new Map<string, { cows: number; slow: string[] }>();
  forOpen(files, milking.start, (place) => {
    const have = column[place];
    const hers = have === undefined ? toMilkOf(files[place] as CowFile, setUp, milking) : have;
    column[place] = hers;
    if (hers === null) return;
    const group = byGroup.get(hers.group) ?? { cows: 0, slow: [] };
    byGroup.set(hers.group, group);
    group.cows += 1;
    if (hers.slow !== undefined) group.slow.push(hers.slow);
  });
  for (const { slow } of byGroup.values()) slow.sort(byCowNumber);
  return byGroup;
};

interface ToMilk {
  readonly group: string;
  /** Her number, where she is slow. */
  readonly slow?: string;
}

/** This milking and the one before it. */
const toMilk = columnAbout<ToMilk | null>('to milk', 2);

/** What is asked of each cow goes by these two and no more. */
const asPlanned = (setUp: SetUp, milking: Milking): object => {
  const milkings = plannedBy(setUp);
  const have = milkings.get(milking) ?? { setUp, milking };
  milkings.set(milking, have);
  return have;
};

const plannedBy = remembered((_: SetUp): WeakMap<Milking, object> => new WeakMap());

/** Null where she is not in milk then. Most cows of a group are one and the same thing. */
const toMilkOf = (file: CowFile, setUp: SetUp, milking: Milking): ToMilk | null => {
  const there = thereAt(file, milking.start);
  if (there?.inMilk !== true) return null;
  const group = groupNamed(groupsInOrder(setUp.data), there.group ?? '').name;
  return isSlow(file, setUp, milking.start) ? { group, slow: there.number } : quickIn(group);
};

const quickIn = kept(200, (group: string): ToMilk => ({ group }));

/** The set-up's groups, and any other group that cows were put in: after the milked ones, but before the hospital. */
export const groupsAt = (schedule: Schedule, milking: Milking, standing: Iterable<string>): readonly Group[] => {
  const listed = groupsInOrder(schedule.inForceOn(milking.day).data);
  const strange = [...new Set(standing)]
    .filter((name) => name !== '' && !listed.some((group) => isNamed(group, name)))
    .sort();
  const after = listed.findIndex((group) => !isMilkedBeforeHospital(group));
  const place = after < 0 ? listed.length : after;
  return [...listed.slice(0, place), ...strange.map((name) => groupNamed(listed, name)), ...listed.slice(place)];
};

export const plannedEnd = (known: Known, schedule: Schedule, milking: Milking): Instant => {
  const byGroup = inMilkByGroup(known, schedule, milking);
  const groups = groupsAt(schedule, milking, byGroup.keys()).filter((group) => isMilkedAt(group, milking.name));
  return mustBeInstant(planOf(milking, schedule.inForceOn(milking.day), groups, byGroup).ends);
};

/** The last instant inside a milking: when it was finished, else its planned end and an hour; never past the next start. */
export const windowEndOf = (known: Known, schedule: Schedule, milking: Milking): Instant => {
  if (schedule !== known.farm.schedule) return windowEndFound(known, schedule, milking);
  const ends = windowEndsOf(known.farm);
  const have = ends.get(milking.id);
  if (have !== undefined) return have;
  const end = windowEndFound(known, schedule, milking);
  ends.set(milking.id, end);
  return end;
};

/** By milking; a farm as folded goes with one herd. */
const windowEndsOf = remembered((_: Farm): Map<string, Instant> => new Map());

const windowEndFound = (known: Known, schedule: Schedule, milking: Milking): Instant => {
  const next = firstOf(schedule.after(milking.start))?.start;
  const said = known.farm.finished.get(milking.id);
  // One that is said to be finished before it begins is another one: whoever wrote it took the wrong name.
  const finished = said !== undefined && said < milking.start ? undefined : said;
  const end = finished ?? ((plannedEnd(known, schedule, milking) + AFTER_PLANNED_END) as Instant);
  const notBefore = later(end, milking.start);
  return next !== undefined && next < notBefore ? next : notBefore;
};

/** Is a milking over at an instant? */
export const endedBy = (known: Known, schedule: Schedule, milking: Milking, at: Instant): boolean => {
  if (at < milking.start) return false;
  const next = firstOf(schedule.after(milking.start));
  return (next !== undefined && next.start <= at) || windowEndOf(known, schedule, milking) < at;
};

/** the running milking while no sheet has been issued for it, else the first that starts after. */
export const nextMilking = (known: Known, schedule: Schedule, now: Instant): Milking | undefined => {
  const last = schedule.startedBy(now);
  if (last !== undefined && !endedBy(known, schedule, last, now)) {
    const isIssued = known.farm.issued.some((issue) => issue.data.milking === last.id);
    if (!isIssued) return last;
  }
  return firstOf(schedule.after(now));
};
