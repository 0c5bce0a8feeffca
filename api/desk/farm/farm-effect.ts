/**
 * What a change of the farm's rules or of a label does to cows, worked out before it is saved: the same views, with the
 * entry and without it, held side by side. It decides nothing itself.
 */
import { endText, latestEnd } from '../../../projections/hold-piece.ts';
import { meatHoldPieces } from '../../../projections/meat-hold.ts';
import { standingsAt } from '../../../projections/standings.ts';
import type { Notice } from '../../../projections/views.ts';
import { momentOf } from '../../../projections/views-at.ts';
import type { Tonight } from '../../tonight.ts';
import { askedOf } from '../who.tsx';

export interface HoldState {
  readonly held: boolean;
  /** Null: without end. */
  readonly until: string | null;
  /** The first milking whose milk is free; null where none is known. */
  readonly tankFrom: string | null;
}

export interface HoldChange {
  readonly cow: string;
  readonly group: string;
  readonly before: HoldState;
  readonly after: HoldState;
  readonly kind: 'newly-held' | 'newly-free' | 'longer' | 'shorter';
}

export interface Effect {
  readonly milk: readonly HoldChange[];
  readonly meat: readonly HoldChange[];
  /** Alerts and doubts that were not there before. */
  readonly alerts: readonly Notice[];
  readonly doubts: readonly Notice[];
}

interface CowState {
  readonly cow: string;
  readonly group: string;
  readonly milk: HoldState;
  readonly meat: HoldState;
}

/** Both of the same time; of the same milking too, or of the one that takes its place. */
export const effectOf = (before: Tonight, after: Tonight): Effect => {
  const was = statesOf(before);
  const is = statesOf(after);
  const changes = (of: 'milk' | 'meat'): HoldChange[] =>
    [...is].flatMap(([key, state]) => {
      const old = was.get(key)?.[of] ?? FREE;
      const kind = kindOf(old, state[of]);
      return kind === undefined ? [] : [{ cow: state.cow, group: state.group, before: old, after: state[of], kind }];
    });
  return {
    milk: changes('milk'),
    meat: changes('meat'),
    alerts: newIn(before.views.alerts, after.views.alerts),
    doubts: newIn(before.views.doubts, after.views.doubts),
  };
};

const FREE: HoldState = { held: false, until: null, tankFrom: null };

const statesOf = (answer: Tonight): ReadonlyMap<string, CowState> => {
  const moment = momentOf(answer.known, askedOf(answer));
  if (moment === undefined) return new Map();
  const rows = new Map(answer.views.sheets['milk-hold'].held.map((row) => [row.cow, row]));
  return new Map(
    standingsAt(answer.known, moment).map((standing) => {
      const meat = meatHoldPieces(standing.file, moment, standing.asides).filter(
        (piece) => piece.began <= moment.windowEnd && (piece.end === null || piece.end >= moment.milking.start),
      );
      const state: CowState = {
        cow: standing.number,
        group: standing.group.name,
        milk: stateOf(standing.running, rows.get(standing.number)?.tankFrom ?? null),
        meat: stateOf(meat, null),
      };
      return [standing.file.cow.key, state] as const;
    }),
  );
};

const stateOf = (pieces: Parameters<typeof latestEnd>[0], tankFrom: string | null): HoldState => {
  const end = latestEnd(pieces);
  return end === undefined ? FREE : { held: true, until: endText(end), tankFrom };
};

const kindOf = (was: HoldState, is: HoldState): HoldChange['kind'] | undefined => {
  if (was.held !== is.held) return is.held ? 'newly-held' : 'newly-free';
  if (!is.held || (was.until === is.until && was.tankFrom === is.tankFrom)) return undefined;
  const [a, b] = [was.until ?? '9', is.until ?? '9'];
  return b > a || (b === a && (is.tankFrom ?? '9') > (was.tankFrom ?? '9')) ? 'longer' : 'shorter';
};

const newIn = (before: readonly Notice[], after: readonly Notice[]): readonly Notice[] => {
  const had = new Set(before.map(({ key }) => key));
  return after.filter(({ key }) => !had.has(key));
};
