/** The times of a cow's life: in milk, and dry from when. */
import { DAY, type Instant, instantText } from '../shared/instant.ts';
import type { LocalDay } from '../shared/local-day.ts';

/** Calvings this near are one: twins. A cow that calved so lately may still stand with the dry ones. */
export const ONE_CALVING = 5 * DAY;

/** What is given so near to a dry-off is given at it. */
export const TWO_DAYS = 2 * DAY;

/** A stretch in milk: from a calving (or from being entered in milk) to dry-off or leaving. */
export interface Stretch {
  readonly begun: 'calving' | 'abortion' | 'entered' | 'assumed';
  /** In milk from here. */
  readonly from: Instant;
  /** For holds: the calving's instant, or the end of its day where only the date is known; null where nothing is known. */
  readonly calved: Instant | null;
  /** For a dry-cow product's minimum: the earliest she can have calved. */
  readonly calvedEarliest: Instant | null;
  readonly calvedDay: LocalDay | null;
  /** The date, where only that is known of when she calved. */
  readonly calvedOn: LocalDay | null;
  readonly lactation: number;
  readonly entries: readonly string[];
  readonly mayBe: boolean;
  to: Instant | null;
}

/** When she calved, for the words: by the date where no more is known, though her hold counts from that day's end. */
export const calvingSaid = ({
  calved,
  calvedOn,
}: {
  readonly calved: Instant;
  readonly calvedOn: LocalDay | null;
}): { calved: string; calvedOn?: string } => ({
  calved: instantText(calved),
  ...(calvedOn === null ? {} : { calvedOn }),
});

/** A dry-off as said: by entry, or by `driedOffOn` and `driedOffWith` when she entered. */
export interface DryStart {
  readonly entry: string;
  /** The end of the day where only the date is known; the entering where not even that is. */
  readonly at: Instant;
  readonly earliest: Instant;
  readonly day: LocalDay | null;
  /** `undefined`: not stated. */
  readonly product: string | undefined;
}
