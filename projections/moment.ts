/** What every question about one milking is asked against: the farm, the milking, its window, and when the asking is done. */
import type { Instant } from '../shared/instant.ts';
import type { LocalDay } from '../shared/local-day.ts';
import { columnOf } from './columns.ts';
import { type Cow, groupAt, presentAt } from './cow.ts';
import type { CowFile } from './cow-file.ts';
import type { Farm, Labels } from './farm.ts';
import { type Group, type GroupLookup, groupNamed, isForDry } from './groups.ts';
import { inMilkAt, stretchAt } from './lactation.ts';
import type { CountsFor } from './milking-count.ts';
import { remembered } from './remembered.ts';
import { firstOf, type Milking, type Schedule } from './schedule.ts';

/** As much of a moment as what one cow comes to may go by: what is worked out from her file and this can be kept. */
export interface CowMoment {
  readonly farm: Labels;
  readonly schedule: Schedule;
  readonly lookup: GroupLookup;
  readonly milking: Milking;
  /** The groups of this milking, in order. */
  readonly groups: readonly Group[];
  /** Last instant that counts as inside this milking. */
  readonly windowEnd: Instant;
  /** Is a milking over when the sheets are worked out? */
  readonly hasEnded: (milking: Milking) => boolean;
}

export interface Moment extends CowMoment {
  readonly farm: Farm;
  /** When the sheets are worked out. */
  readonly asOf: Instant;
}

/** The files of cows that may be in the herd at some time from `from` on, in order. */
export const openFrom = (files: readonly CowFile[], from: number): readonly CowFile[] => {
  const kept = openKept(files);
  if (kept.from === undefined || from < kept.from) {
    const closed = closedAts(files);
    kept.files = files.filter((_, place) => (closed[place] ?? 0) >= from);
    kept.from = from;
    return kept.files;
  }
  return from === kept.from ? kept.files : kept.files.filter(({ closedAt }) => closedAt >= from);
};

const closedColumn = columnOf<number>('closed at');

/** When each file was closed, beside the files. */
export const closedAts = (files: readonly CowFile[]): readonly (number | undefined)[] => {
  const closed = closedColumn(files);
  for (let place = 0; place < files.length; place += 1) closed[place] ??= files[place]?.closedAt;
  return closed;
};

/** The longest list asked for yet: the others are parts of it. */
const openKept = remembered((_: readonly CowFile[]): { from?: number; files: readonly CowFile[] } => ({ files: [] }));

/** In milk at some time during this milking: at its start (she may leave inside it), or calved inside its window. */
export const inMilkDuring = ({ cow, lactations }: CowFile, moment: CowMoment): boolean =>
  inMilkAt(cow, lactations, moment.milking.start) || inMilkAt(cow, lactations, moment.windowEnd);

/** In the herd at this milking, however late in it she came. */
export const isThere = (cow: Cow, moment: CowMoment): boolean =>
  presentAt(cow, moment.milking.start) || presentAt(cow, moment.windowEnd);

/** From when a milking has to do with her: its start, or its end where she came inside it. */
export const firstThere = (cow: Cow, moment: CowMoment): Instant =>
  presentAt(cow, moment.milking.start) ? moment.milking.start : moment.windowEnd;

/** Where she stands at this milking. A cow that comes back inside it stands where she was put then, not where she left from. */
export const standsIn = (cow: Cow, moment: CowMoment): Group => {
  const name = groupAt(cow, firstThere(cow, moment)) ?? cow.placements[0]?.group ?? '';
  return groupNamed(moment.groups, name);
};

/**
 * Milkings that count for her holds. From this milking on, a cow in milk that still stands in a group that is not milked
 * is taken to come in with the others: she has calved and somebody must milk her.
 */
export const countsFor =
  ({ cow, lactations }: CowFile, moment: CowMoment): CountsFor =>
  (milking) => {
    if (stretchAt(lactations, milking.start) === undefined) return false;
    // Away between leaving and coming back: nobody here knows who milked her, or whether.
    if (isAway(cow, milking.start)) return false;
    const group = groupAt(cow, milking.start) ?? cow.placements[0]?.group;
    if (group === undefined) return true;
    if (moment.lookup.isMilked(group, milking)) return true;
    return milking.start >= moment.milking.start && isForDry(groupNamed(moment.lookup.groups(milking), group));
  };

/** She was here before, and is not in the herd then. */
const isAway = (cow: Cow, at: Instant): boolean =>
  cow.left.length > 0 && !presentAt(cow, at) && cow.entered.some((entry) => entry.at <= at);

/** Is this milking one of hers? Her group's, or that of the others, where she is in milk and still stands among the dry. */
export const isMilkedNow = (group: Group, isInMilk: boolean, { lookup, milking }: CowMoment): boolean =>
  lookup.isMilked(group.name, milking) || (isInMilk && isForDry(group));

/** The first milking strictly after an instant that counts for her; null where none comes. */
export const firstCounting = (schedule: Schedule, counts: CountsFor, after: Instant): Milking | null => {
  let tried = 0;
  for (const milking of schedule.after(after)) {
    if (counts(milking)) return milking;
    tried += 1;
    if (tried > 60) return null;
  }
  return null;
};

/** The farm's date of the milking. */
export const today = (moment: CowMoment): LocalDay => moment.milking.day;

/** The milking after this one. */
export const nextAfter = (moment: CowMoment): Milking | undefined =>
  firstOf(moment.schedule.after(moment.milking.start));
