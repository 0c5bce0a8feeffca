/** One reason to hold, with when it began and ends. A cow is on hold while any of hers has not ended. */
import { type Instant, instantText } from '../shared/instant.ts';
import type { Because } from './because.ts';
import type { HoldCause, HoldReason } from './views.ts';

export interface HoldPiece {
  readonly began: Instant;
  /** Null: without end. */
  readonly end: Instant | null;
  readonly cause: HoldCause;
  readonly because: Because;
  readonly medicine?: string;
  readonly quarters?: readonly string[];
  readonly lastDose?: Instant;
}

/** Milk drawn at the very minute a hold ends stays out: it is over only for a milking that starts strictly after. */
export const holdsAt = (piece: HoldPiece, start: Instant, windowEnd: Instant): boolean =>
  piece.began <= windowEnd && (piece.end === null || piece.end >= start);

/** The latest end; null when any is without end; undefined when there are none. */
export const latestEnd = (pieces: readonly { readonly end: Instant | null }[]): Instant | null | undefined => {
  let latest: Instant | undefined;
  for (const { end } of pieces) {
    if (end === null) return null;
    if (latest === undefined || end > latest) latest = end;
  }
  return latest;
};

export const endText = (end: Instant | null): string | null => (end === null ? null : instantText(end));

export const reasonOf = (piece: HoldPiece): HoldReason => ({
  ...piece.because,
  cause: piece.cause,
  until: endText(piece.end),
  ...(piece.medicine === undefined ? {} : { medicine: piece.medicine }),
  ...(piece.quarters === undefined || piece.quarters.length === 0 ? {} : { quarters: piece.quarters }),
  ...(piece.lastDose === undefined ? {} : { lastDose: instantText(piece.lastDose) }),
});

/** Without end first, then the latest end: the reason that governs leads. */
export const byWeight = (a: HoldPiece, b: HoldPiece): number => {
  const weight = (piece: HoldPiece): number => piece.end ?? Number.POSITIVE_INFINITY;
  return weight(a) === weight(b) ? 0 : weight(b) - weight(a);
};
