/** What went over the wire in one direction, counted from receipts. */
import { type Instant, MINUTE, parseInstant } from '../../shared/instant.ts';

export interface Tally {
  /** New on the receiving side. */
  recorded: number;
  known: number;
  /** Not readable on the receiving side, and kept aside there. */
  aside: number;
  /** Of the new ones, timed later than the receiving book's clock. */
  ahead: number;
}

export const noTally = (): Tally => ({ recorded: 0, known: 0, aside: 0, ahead: 0 });

const AHEAD = 5 * MINUTE;

/** `timeOf`: what an entry says of when it happened, or the empty text. `now`: the receiving book's clock. */
export const addReceipts = (
  tally: Tally,
  receipts: readonly { readonly outcome: string }[],
  timeOf: (index: number) => string,
  now: Instant,
): void => {
  receipts.forEach(({ outcome }, index) => {
    if (outcome === 'already-known') tally.known += 1;
    else if (outcome === 'refused') tally.aside += 1;
    else {
      tally.recorded += 1;
      if (isAhead(timeOf(index), now)) tally.ahead += 1;
    }
  });
};

const isAhead = (time: string, now: Instant): boolean => {
  const at = parseInstant(time);
  return at.ok && at.value > now + AHEAD;
};
