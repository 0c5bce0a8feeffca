/**
 * Entries in fold order, with a few more from time to time. The many that were there stay in one list that is never
 * copied, and what came since stands in a short one: with ten years of log, putting one entry in its place would else cost
 * a copy of a million and a half.
 */
import type { Entry } from '../events/entry.ts';
import type { Instant } from '../shared/instant.ts';
import { itself, merged, placeOf } from './fold-order.ts';
import { remembered } from './remembered.ts';

export interface Live {
  readonly many: readonly Entry[];
  readonly since: readonly Entry[];
}

/** So many are kept beside the others before they are put among them. */
const MOST_SINCE = 2_000;

/** `entries`: in fold order. */
export const liveOf = (entries: readonly Entry[]): Live => ({ many: entries, since: [] });

/** `more`: in fold order. */
export const liveWith = ({ many, since }: Live, more: readonly Entry[], without: ReadonlySet<Entry>): Live => {
  const all = merged(since, more).filter((entry) => !without.has(entry));
  // Looked up where they would stand: going through all to find a few would cost as much as a copy.
  const hasStruck = [...without].some((entry) => many[placeOf(many, entry, itself) - 1] === entry);
  const left = hasStruck ? many.filter((entry) => !without.has(entry)) : many;
  return all.length > MOST_SINCE ? liveOf(merged(left, all)) : { many: left, since: all };
};

/** All of them, in fold order. */
export const liveEntries = remembered(({ many, since }: Live): readonly Entry[] => merged(many, since));

/** Those after a time, in fold order. */
export const liveAfter = ({ many, since }: Live, time: number): readonly Entry[] =>
  merged(after(many, time), after(since, time));

/** The latest time that any of them gives; undefined where there is none. */
export const lastLive = ({ many, since }: Live): Instant | undefined => {
  const [one, other] = [many.at(-1)?.at, since.at(-1)?.at];
  return one === undefined || (other !== undefined && other > one) ? other : one;
};

const after = (ordered: readonly Entry[], time: number): readonly Entry[] => {
  let place = ordered.length;
  while ((ordered[place - 1]?.at ?? Number.NEGATIVE_INFINITY) > time) place -= 1;
  return ordered.slice(place);
};
