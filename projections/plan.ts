/** The milking plan: turns, minutes, order, slow cows. */
import { type Instant, instantText, MINUTE } from '../shared/instant.ts';
import type { CowFile } from './cow-file.ts';
import { type Group, isMilkedAt } from './groups.ts';
import { rememberedInRoom } from './remembered.ts';
import type { Milking, SetUp } from './schedule.ts';
import type { PlanSheet } from './views.ts';

const SLOW_FROM_MINUTES = 10;
const RECORDS_LOOKED_AT = 10;

/** Median minutes of her last ten milk records up to an instant; undefined without any. */
export const usualMinutes = (file: CowFile, before: Instant): number | undefined => {
  const records = timedRecords(file);
  const upTo = records.findLastIndex((record) => record.at <= before) + 1;
  const kept = mediansKept(file);
  const have = kept.get(upTo);
  if (have !== undefined) return have;
  const median = medianOf(records.slice(Math.max(0, upTo - RECORDS_LOOKED_AT), upTo).map(({ minutes }) => minutes));
  if (median !== undefined) kept.set(upTo, median);
  return median;
};

/** Her milk records that say how long it took, in time. */
const timedRecords = rememberedInRoom(({ cow }: CowFile) =>
  cow.milkRecords.flatMap(({ at, data }) => (data.minutes === undefined ? [] : [{ at, minutes: data.minutes }])),
);

/** By how many records went before. */
const mediansKept = rememberedInRoom((_: CowFile): Map<number, number> => new Map());

const medianOf = (values: readonly number[]): number | undefined => {
  if (values.length === 0) return undefined;
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const upper = sorted[middle] ?? 0;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? 0) + upper) / 2;
};

/** */
export const isSlow = (file: CowFile, setUp: SetUp, before: Instant): boolean => {
  const minutes = usualMinutes(file, before);
  return minutes !== undefined && minutes >= (setUp.data.parlour.slowFromMinutes ?? SLOW_FROM_MINUTES);
};

/** The cows of a group that are in milk. */
export interface InMilk {
  readonly cows: number;
  /** The numbers of the slow ones, in order. */
  readonly slow: readonly string[];
}

const NOBODY: InMilk = { cows: 0, slow: [] };

/** `byGroup`: the cows in milk at the milking's start, by group. Start and end are instants; minutes elapsed ones. */
export const planOf = (
  milking: Milking,
  setUp: SetUp,
  groups: readonly Group[],
  byGroup: ReadonlyMap<string, InMilk>,
): PlanSheet => {
  const { stalls, turnMinutes, slowExtraMinutes = 0 } = setUp.data.parlour;
  const slow: string[] = [];
  let clock = milking.start as number;
  const rows = groups
    .filter((group) => isMilkedAt(group, milking.name))
    .map((group) => {
      const { cows, slow: slowHere } = byGroup.get(group.name) ?? NOBODY;
      const turns = Math.ceil(cows / stalls);
      slow.push(...slowHere);
      const minutes = turns * turnMinutes + Math.min(slowHere.length, turns) * slowExtraMinutes;
      const start = instantText(clock as Instant);
      clock += minutes * MINUTE;
      return { group: group.name, cows, turns, start, minutes };
    });
  const minutes = rows.reduce((sum, row) => sum + row.minutes, 0);
  return { groups: rows, minutes, ends: instantText(Math.round(clock) as Instant), slow };
};
