/**
 * Cows that may have been dry with no dry-off written down: they stood with the dry ones and calved, or went back to the
 * milked ones, or came in a group that the farm does not have with no date at all. Whether they were given a product, and
 * which, nobody has said.
 */
import type { Instant } from '../shared/instant.ts';
import type { Cow, Placement } from './cow.ts';
import { type Group, groupNamed, groupsInOrder, isForDry } from './groups.ts';
import type { Schedule } from './schedule.ts';
import { type DryStart, ONE_CALVING, type Stretch, TWO_DAYS } from './stretch.ts';

export interface NotDriedOff extends Pick<DryStart, 'earliest' | 'at'> {
  /** She is milked again with no calving between: then a clear test of her milk frees her too. */
  readonly isMilkedAgain?: true;
  /** Where she stood: since `earliest`. */
  readonly group: string;
  /** Held from `at` to here; null: until it is stated. */
  readonly to: Instant | null;
  readonly entries: readonly string[];
}

const groupOf = (schedule: Schedule, { at, group }: Placement): Group =>
  groupNamed(groupsInOrder(schedule.inForceAt(at).data), group);

/** Not a group of cows in milk, for all the book knows. */
const mayBeForDry = (schedule: Schedule, placement: Placement): boolean => {
  const group = groupOf(schedule, placement);
  return isForDry(group) || group.kind === 'unknown';
};

/**
 * Of a cow that calved at `calved` and was in milk from `from` for all that is written down. One that stands among the dry
 * cows for a day or two and goes back was not dried off; one that calves there, or stood there longer, was.
 */
export const calvedFromDry = (
  cow: Cow,
  schedule: Schedule,
  from: Instant,
  calved: Instant,
  calving: string,
): NotDriedOff | undefined => {
  const stood = cow.placements.find((placement, place) => {
    if (placement.at >= calved || !mayBeForDry(schedule, placement)) return false;
    const left = cow.placements.slice(place + 1).find((each) => !mayBeForDry(schedule, each))?.at ?? calved;
    return left >= calved || (placement.at > from && left - placement.at > TWO_DAYS);
  });
  if (stood === undefined) return undefined;
  return { group: stood.group, earliest: stood.at, at: calved, to: null, entries: [stood.entry, calving] };
};

/**
 * Of a cow in milk that stood among the dry ones for more than two days and went back to others. One that has just calved
 * may be put with those that are about to.
 */
export const backFromDry = (cow: Cow, schedule: Schedule, stretch: Stretch): NotDriedOff[] => {
  const { from, to, calved, mayBe } = stretch;
  if (mayBe) return [];
  const begin = calved === null ? from : calved + ONE_CALVING;
  let came: Placement | undefined;
  return cow.placements.flatMap((placement): NotDriedOff[] => {
    if (placement.at <= begin || (to !== null && placement.at >= to)) return [];
    if (isForDry(groupOf(schedule, placement))) {
      came ??= placement;
      return [];
    }
    const stood = came;
    came = undefined;
    if (stood === undefined || placement.at - stood.at <= TWO_DAYS) return [];
    if (cow.dryOffs.some(({ at }) => at >= stood.at - TWO_DAYS && at <= placement.at)) return [];
    const entries = [stood.entry, placement.entry];
    return [{ group: stood.group, earliest: stood.at, at: placement.at, to, entries, isMilkedAgain: true }];
  });
};

/** Of a cow that came with no date in a group that the farm does not have: until somebody says where she is, or she calves. */
export const neitherSaid = (cow: Cow, schedule: Schedule, stretch: Stretch): NotDriedOff | undefined => {
  const isUnknown = (placement: Placement) => groupOf(schedule, placement).kind === 'unknown';
  const [came, ...since] = cow.placements.filter(({ at }) => at >= stretch.from);
  if (stretch.begun !== 'assumed' || came === undefined || !isUnknown(came)) return undefined;
  const moved = since.find((placement) => !isUnknown(placement))?.at;
  const ends = [moved, stretch.to].filter((each): each is Instant => each !== undefined && each !== null);
  const to = ends.length === 0 ? null : (Math.min(...ends) as Instant);
  return { group: came.group, earliest: came.at, at: came.at, to, entries: [came.entry] };
};
