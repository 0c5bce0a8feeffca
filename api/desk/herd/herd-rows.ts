/**
 * The herd as a table of rows at one milking, in the order of the sheets. Worked out once for each answer and kept with it:
 * a page that sorts or filters asks no rule again.
 */
import type { Because } from '../../../projections/because.ts';
import { latestEnd } from '../../../projections/hold-piece.ts';
import { meatHoldPieces } from '../../../projections/meat-hold.ts';
import { countsFor, firstCounting, type Moment } from '../../../projections/moment.ts';
import { pregnancyAt } from '../../../projections/pregnancy.ts';
import type { Standing } from '../../../projections/standing.ts';
import { standingsAt } from '../../../projections/standings.ts';
import { momentOf } from '../../../projections/views-at.ts';
import type { Instant } from '../../../shared/instant.ts';
import type { LocalDay } from '../../../shared/local-day.ts';
import type { Tonight } from '../../tonight.ts';
import { askedOf } from '../who.tsx';

/** `waits`: something holds her, but she stands where nobody milks her. */
export interface MilkNow {
  readonly hold: 'held' | 'waits' | 'none';
  /** Null: no end known, or no hold. */
  readonly until: Instant | null;
  /** Id of the first milking whose milk may go in the tank; null as above. */
  readonly tankFrom: string | null;
}

export interface MeatNow {
  readonly held: boolean;
  readonly until: Instant | null;
}

export interface HerdRow {
  readonly number: string;
  /** Numbers she bore before. */
  readonly once: readonly string[];
  readonly officialId: string | null;
  readonly group: string;
  readonly lactation: number;
  readonly daysInMilk: number | null;
  readonly inMilk: boolean;
  readonly milk: MilkNow;
  readonly meat: MeatNow;
  readonly due: LocalDay | null;
  /** On the dry-off sheet as due. */
  readonly dryOffDue: boolean;
  /** In a fresh group, on her fresh hold, or calved and still to come in. */
  readonly fresh: boolean;
}

export interface HerdNow {
  readonly moment: Moment;
  readonly standings: readonly Standing[];
  readonly rows: readonly HerdRow[];
}

const kept = new WeakMap<Tonight, HerdNow>();

/** Undefined where the book has no farm. */
export const herdNow = (answer: Tonight): HerdNow | undefined => {
  const have = kept.get(answer);
  if (have !== undefined) return have;
  const moment = momentOf(answer.known, askedOf(answer));
  if (moment === undefined) return undefined;
  const standings = standingsAt(answer.known, moment);
  const lists = listed(answer);
  const made = { moment, standings, rows: standings.map((standing) => rowOf(standing, moment, lists)) };
  kept.set(answer, made);
  return made;
};

interface Listed {
  readonly dryOff: ReadonlySet<string>;
  readonly freshIn: ReadonlySet<string>;
}

const listed = ({ views }: Tonight): Listed => ({
  dryOff: new Set(views.sheets['dry-off'].due.map((row) => row.cow)),
  freshIn: new Set(
    views.sheets['fresh-moves'].in.filter((row) => row.because.key === 'fresh.in-calved').map((row) => row.cow),
  ),
});

const rowOf = (standing: Standing, moment: Moment, lists: Listed): HerdRow => {
  const { number, file, group } = standing;
  const { due } = pregnancyAt(file.cow, moment.schedule, moment.windowEnd);
  return {
    number,
    once: [...new Set(file.cow.spans.map((span) => span.number))].filter((each) => each !== number),
    officialId: file.cow.officialId ?? null,
    group: group.name,
    lactation: standing.lactation,
    daysInMilk: standing.inMilkDuring ? standing.daysInMilk : null,
    inMilk: standing.inMilkDuring,
    milk: milkNow(standing, moment),
    meat: meatNow(standing, moment),
    due,
    dryOffDue: standing.inMilkDuring && due !== null && lists.dryOff.has(number),
    fresh:
      group.kind === 'fresh' ||
      standing.running.some(({ because }) => FRESH_HOLDS.has(because.key)) ||
      lists.freshIn.has(number),
  };
};

const FRESH_HOLDS: ReadonlySet<Because['key']> = new Set<Because['key']>(['hold.fresh']);

export const milkNow = (standing: Standing, moment: Moment): MilkNow => {
  const end = latestEnd(standing.running);
  if (end === undefined) return { hold: 'none', until: null, tankFrom: null };
  if (!standing.held) return { hold: 'waits', until: end, tankFrom: null };
  const next = end === null ? null : firstCounting(moment.schedule, countsFor(standing.file, moment), end);
  return { hold: 'held', until: end, tankFrom: next?.id ?? null };
};

export const meatNow = (standing: Standing, moment: Moment): MeatNow => {
  const running = meatHoldPieces(standing.file, moment, standing.asides).filter(
    (piece) => piece.began <= moment.windowEnd && (piece.end === null || piece.end >= moment.milking.start),
  );
  const end = latestEnd(running);
  return { held: end !== undefined, until: end ?? null };
};
