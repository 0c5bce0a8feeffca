/** One cow for the second reading: in milk or not, where she stands, when she calved. */
import type { Entry } from '../../../events/entry.ts';
import { type Farm, goesThrough, groupIn, type Milking } from './farm.ts';
import { DAY, endOfDay } from './wall.ts';

export type State = 'away' | 'milk' | 'dry' | 'heifer';

export interface Change {
  readonly at: number;
  readonly state: State;
  readonly group: string;
}

export interface Calving {
  /** The first of twins: she gives milk from here. */
  readonly first: number;
  /** What holds count from. */
  readonly at: number;
  /** False where it was before she first came into the herd. */
  readonly seen: boolean;
  readonly abortion: boolean;
  /** How she stood just before it. */
  readonly before: Change;
  readonly id: string;
}

export interface Cow {
  /** The id of the entry by which she first came in. */
  readonly key: string;
  /** Every number she ever had, and those that perhaps mean her. */
  readonly numbers: readonly string[];
  readonly entries: readonly Entry[];
  readonly changes: readonly Change[];
  readonly calvings: readonly Calving[];
}

const AWAY: Change = { at: Number.NEGATIVE_INFINITY, state: 'away', group: '' };

const FIVE_DAYS = 5 * DAY;

export const cowOf = (key: string, entries: readonly Entry[], numbers: readonly string[], farm: Farm): Cow => {
  const changes: Change[] = [];
  const calved: Calving[] = [];
  let state: State = 'away';
  let driedOffAt = Number.NEGATIVE_INFINITY;
  let group = '';
  for (const entry of entries) {
    if (entry.type === 'cow-entered') {
      const { calvedOn, driedOffOn, lactation } = entry.data;
      group = entry.data.group;
      const kind = groupIn(farm.rulesAt(entry.at), group)?.kind;
      const unmilked = kind === 'dry' || kind === 'close-up';
      if (calvedOn !== undefined)
        calved.push({
          first: Math.min(entry.at, endOfDay(farm.zone, calvedOn)),
          at: endOfDay(farm.zone, calvedOn),
          seen: entry.id !== key,
          abortion: false,
          before: AWAY,
          id: entry.id,
        });
      if (driedOffOn !== undefined && (calvedOn === undefined || driedOffOn >= calvedOn)) state = 'dry';
      else if (calvedOn !== undefined && !(unmilked && entry.at - endOfDay(farm.zone, calvedOn) > FIVE_DAYS))
        state = 'milk';
      else if (lactation === 0) state = 'heifer';
      else state = unmilked ? 'dry' : 'milk';
    } else if (entry.type === 'calving' || (entry.type === 'abortion' && entry.data.milked === true)) {
      calved.push({
        first: entry.at,
        at: entry.at,
        seen: true,
        abortion: entry.type === 'abortion',
        before: changes.findLast(({ at }) => at < entry.at) ?? AWAY,
        id: entry.id,
      });
      // Of one minute the drying off comes last.
      if (driedOffAt < entry.at && state !== 'away') state = 'milk';
      group = entry.data.group ?? group;
    } else if (entry.type === 'abortion') group = entry.data.group ?? group;
    else if (entry.type === 'dry-off') {
      if (state !== 'away') state = 'dry';
      driedOffAt = entry.at;
      group = entry.data.group ?? group;
    } else if (entry.type === 'group-move') group = entry.data.to;
    else if (entry.type === 'cow-left') state = 'away';
    else continue;
    changes.push({ at: entry.at, state, group });
  }
  const calvings = together(calved);
  // Between the calvings of twins she is in milk, whatever was said there.
  const between = (at: number) => calvings.some((each) => each.first <= at && at < each.at && each.seen);
  const settled = changes.map((each) =>
    each.state === 'dry' && between(each.at) ? { ...each, state: 'milk' as const } : each,
  );
  return { key, numbers, entries, changes: settled, calvings };
};

/** calvings within five days are one, at the later time. */
const together = (calved: readonly Calving[]): Calving[] => {
  const calvings: Calving[] = [];
  for (const each of calved) {
    const last = calvings.at(-1);
    if (last !== undefined && !last.abortion && !each.abortion && each.at - last.at <= FIVE_DAYS) {
      calvings[calvings.length - 1] = { ...last, at: each.at };
    } else calvings.push(each);
  }
  return calvings;
};

/** How she is at an instant, what happened in that very minute included. */
export const stands = (cow: Cow, instant: number): Change => cow.changes.findLast(({ at }) => at <= instant) ?? AWAY;

/** How she was just before it. */
export const stood = (cow: Cow, instant: number): Change => cow.changes.findLast(({ at }) => at < instant) ?? AWAY;

/** The farm, and the milking that is asked about: what comes after it is foreseen. */
export interface Asked {
  readonly farm: Farm;
  readonly from: number;
}

/** A cow in milk in a group that is never milked is foreseen to be milked, for there she cannot stay. */
const isMilkedAt = (cow: Cow, milking: Milking, from: number): boolean => {
  const at = stands(cow, milking.start);
  const before = stood(cow, milking.start);
  // In the very minute of a dry-off, or of a leaving, she is still milked.
  if (at.state !== 'milk' && before.state !== 'milk') return false;
  const { group } = at;
  const kind = groupIn(milking.setUp, group)?.kind;
  if (milking.start >= from && (kind === 'dry' || kind === 'close-up')) return true;
  return goesThrough(milking, group);
};

/** the start of the nth milking strictly after it, of those that she is milked at. */
export const nthMilking = (cow: Cow, { farm, from }: Asked, after: number, n: number): number => {
  let left = n;
  for (const milking of farm.milkings) {
    if (milking.start <= after || !isMilkedAt(cow, milking, from)) continue;
    left -= 1;
    if (left === 0) return milking.start;
  }
  return Number.POSITIVE_INFINITY;
};
