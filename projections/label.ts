/** Which label and which law govern a dose: those in force then; a later one that is longer extends what still runs, a shorter one never shortens. */
import type { FarmSetUp } from '../events/kinds/farm-set-up.ts';
import { type Instant, later } from '../shared/instant.ts';
import type { Labels, Listing } from './farm.ts';
import { remembered } from './remembered.ts';

export type OffLabelLaw = NonNullable<FarmSetUp['offLabel']>;

/** A label and a law together, and from when they are in force. */
export interface Word {
  readonly since: Instant;
  readonly listing: Listing | undefined;
  readonly law: OffLabelLaw;
}

/**
 * The word in force at the dose first, then each change after it, in time. Of two listings at one time nobody knows which
 * is right: both are in force.
 */
export const wordsSince = (farm: Labels, medicine: string, dose: Instant): readonly [Word, ...Word[]] => {
  const listings = farm.listings.get(medicine) ?? [];
  const first = (listings.findLast((listing) => listing.at <= dose) ?? listings[0])?.at;
  const laws = lawChanges(farm);
  const law = laws.findLast((each) => each.since <= dose) ?? laws[0];
  const changes = [
    ...[...new Set(listings.map(({ at }) => at))]
      .filter((at) => at > dose && at !== first)
      .map((at) => ({ since: at, listed: at })),
    ...laws.filter((each) => each.since > dose && each !== law),
  ].sort((a, b) => a.since - b.since);
  let state: { since: Instant; listed: Instant | undefined; law: OffLabelLaw } = {
    since: dose,
    listed: first,
    law: law?.law ?? 'vet',
  };
  const wordsNow = (): Word[] =>
    listings
      .filter((listing) => listing.at === state.listed)
      .map((listing) => ({ since: state.since, listing, law: state.law }));
  const [inForce = { since: dose, listing: undefined, law: state.law }, ...together] = wordsNow();
  const words: [Word, ...Word[]] = [inForce, ...together];
  for (const change of changes) {
    state = { ...state, ...change };
    const now = wordsNow();
    words.push(...(now.length === 0 ? [{ since: state.since, listing: undefined, law: state.law }] : now));
  }
  return words;
};

/** From when each off-label law was in force; set-ups that do not say are passed over. */
const lawChanges = remembered((farm: Labels): readonly { since: Instant; law: OffLabelLaw }[] =>
  (farm.schedule?.setUps ?? []).flatMap((setUp) =>
    setUp.data.offLabel === undefined ? [] : [{ since: setUp.zone.startOfDay(setUp.from), law: setUp.data.offLabel }],
  ),
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
