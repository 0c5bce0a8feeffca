/** Which label and which law govern a dose: those in force then; a later one that is longer extends what still runs, a shorter one never shortens. */
import type { FarmSetUp } from '../events/kinds/farm-set-up.ts';
import { type Instant, later } from '../shared/instant.ts';
import type { Labels, Listing } from './farm.ts';
import { remembered } from './remembered.ts';
import { setUpsTogether } from './schedule.ts';

export type OffLabelLaw = NonNullable<FarmSetUp['offLabel']>;

/** A label and a law together, and from when they are in force. */
export interface Word {
  readonly since: Instant;
  readonly listing: Listing | undefined;
  readonly law: OffLabelLaw;
}

/**
 * The word in force at the dose first, then each change after it, in time. Of two listings, or of two set-ups, made at one
 * time nobody knows which is right: both are in force.
 */
export const wordsSince = (farm: Labels, medicine: string, dose: Instant): readonly [Word, ...Word[]] => {
  const listings = farm.listings.get(medicine) ?? [];
  const first = (listings.findLast((listing) => listing.at <= dose) ?? listings[0])?.at;
  const laws = lawChanges(farm);
  const law = laws.findLast((each) => each.since <= dose) ?? laws[0];
  const changes: { since: Instant; listed?: Instant; laws?: readonly OffLabelLaw[] }[] = [
    ...[...new Set(listings.map(({ at }) => at))]
      .filter((at) => at > dose && at !== first)
      .map((at) => ({ since: at, listed: at })),
    ...laws.filter((each) => each.since > dose && each !== law),
  ].sort((a, b) => a.since - b.since);
  let state: { since: Instant; listed: Instant | undefined; laws: readonly OffLabelLaw[] } = {
    since: dose,
    listed: first,
    laws: law?.laws ?? ['vet'],
  };
  const wordsNow = (): Word[] => {
    const { since, listed } = state;
    const inForce = listings.filter((listing) => listing.at === listed);
    return (inForce.length === 0 ? [undefined] : inForce).flatMap((listing) =>
      state.laws.map((each) => ({ since, listing, law: each })),
    );
  };
  const words = wordsNow();
  for (const change of changes) {
    state = { ...state, ...change };
    words.push(...wordsNow());
  }
  return words as [Word, ...Word[]];
};

interface LawChange {
  readonly since: Instant;
  readonly laws: readonly OffLabelLaw[];
}

/** From when each off-label law was in force; set-ups that do not say are passed over, those made at one time go together. */
const lawChanges = remembered(({ schedule }: Labels): readonly LawChange[] =>
  (schedule?.setUps ?? []).flatMap((setUp): LawChange[] => {
    const together = schedule === undefined ? [] : setUpsTogether(schedule, setUp);
    const laws = [...new Set(together.flatMap(({ data }) => data.offLabel ?? []))];
    return laws.length === 0 || together.at(-1) !== setUp ? [] : [{ since: setUp.zone.startOfDay(setUp.from), laws }];
  }),
);

/** An outcome of a word: when the hold ends (null: without end). */
export interface Ends {
  readonly end: Instant | null;
  /** Without the vet's time it has no end: it was running until the vet spoke, whenever the time that was given is over. */
  readonly openUntil?: Instant | undefined;
}

/** The outcome that governs: the first, unless a later one is longer and came while the hold was still running. */
export const laterIfLonger = <T extends Ends>(
  outcomes: readonly { readonly since: Instant; readonly outcome: T }[],
): { outcome: T; extendedAt: Instant | undefined } => {
  const [first] = outcomes;
  if (first === undefined) throw new Error('a dose has at least one word on it');
  let governs = first.outcome;
  let extendedAt: Instant | undefined;
  for (const { since, outcome } of outcomes.slice(1)) {
    const stillRunning = governs.end === null || later(governs.end, governs.openUntil ?? governs.end) >= since;
    const isLonger = governs.end !== null && (outcome.end === null || outcome.end > governs.end);
    if (stillRunning && isLonger) {
      governs = outcome;
      // What was in force together with the first did not come later.
      extendedAt = since > first.since ? since : undefined;
    }
  }
  return { outcome: governs, extendedAt };
};

/** Of the doses of one course, each under the label of its own day, the one whose hold ends last; the last dose where they end together. */
export const longest = <T extends Ends>(
  each: readonly { outcome: T; extendedAt: Instant | undefined }[],
): { outcome: T; extendedAt: Instant | undefined } => {
  const last = each.at(-1);
  if (last === undefined) throw new Error('a course has at least one dose');
  return each.reduceRight((governs, one) => {
    const isLonger =
      governs.outcome.end !== null && (one.outcome.end === null || one.outcome.end > governs.outcome.end);
    return isLonger ? one : governs;
  }, last);
};
