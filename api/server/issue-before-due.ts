/**
 * Which milkings are in play now, and whether the paper on the wall still says what is known. Pure: from what the book
 * says and the time, so the same book at the same time decides the same after any restart or change of the clock.
 */

import { withAhead } from '../../projections/ahead.ts';
import type { Milking } from '../../projections/schedule.ts';
import { viewsAt } from '../../projections/views-at.ts';
import { endedBy } from '../../projections/window.ts';
import type { Instant } from '../../shared/instant.ts';
import type { IssuedSet } from '../issue.ts';
import { lastSet } from '../issue.ts';
import type { Knowledge } from '../tonight.ts';
import { type Wrong, wrongOn } from './issue-before-news.ts';

export interface InPlay {
  readonly milking: Milking;
  /** The set that hangs there: the last one whose papers this book keeps. */
  readonly set: IssuedSet | undefined;
  /** Why a set is to be issued now; null where the one that hangs there is right. */
  readonly why: 'no-set' | Wrong | null;
}

export interface Due {
  /** The running milking and those whose time has come, by start. */
  readonly inPlay: readonly InPlay[];
  /** When the next milking's time comes; null where none is ahead. */
  readonly opens: Instant | null;
  /** The last milking, where it went by without any set; from the book's first issue on. */
  readonly missed: Milking | null;
}

export const NOTHING_DUE: Due = { inPlay: [], opens: null, missed: null };

/**
 * `before`: milliseconds ahead of a milking's start at which its set is due. `isKept`: whether this book has a set's
 * papers; another book's set hangs on another wall. A book without a farm has nothing due.
 */
export const dueNow = (
  { known, position }: Knowledge,
  now: Instant,
  before: number,
  isKept: (set: IssuedSet) => boolean,
): Due => {
  const { schedule, issued } = known.farm;
  if (schedule === undefined) return NOTHING_DUE;
  const started = schedule.startedBy(now);
  const isOver = started !== undefined && endedBy(known, schedule, started, now);
  const milkings = started === undefined || isOver ? [] : [started];
  let opens: Instant | null = null;
  for (const milking of schedule.after(now)) {
    if (milking.start - before > now) {
      opens = (milking.start - before) as Instant;
      break;
    }
    milkings.push(milking);
  }
  const inPlay = milkings.map((milking): InPlay => {
    const set = lastSet(
      issued.filter((each) => each.data.milking === milking.id && isKept(each)),
      milking.id,
    );
    if (set === undefined) return { milking, set, why: 'no-set' };
    const views = viewsAt(withAhead(known, now), { milking, asOf: now, position });
    return { milking, set, why: wrongOn(views, set, milking.start <= now) };
  });
  const firstIssued = Math.min(
    ...issued.map((set) => schedule.findEver(set.data.milking)?.start ?? Number.POSITIVE_INFINITY),
  );
  const isMissed = isOver && firstIssued < started.start && !issued.some((set) => set.data.milking === started.id);
  return { inPlay, opens, missed: isMissed ? started : null };
};
