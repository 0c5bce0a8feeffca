/**
 * What another book passed on with a time that is still to come: a clock was wrong, so nobody can say what it does to her
 * milk now. Until its time, or until somebody settles it, it holds the cow as a thing set aside does.
 */
import type { Aside, Entry } from '../events/entry.ts';
import { type Instant, instantText, MINUTE } from '../shared/instant.ts';
import type { Known } from './know.ts';
import { liveAfter } from './live.ts';
import { aheadKey } from './notice-keys.ts';

/** As at the doors: clocks may differ by so much. */
const LEEWAY = 5 * MINUTE;

/** `known` with what lies ahead of `asOf` among the things set aside; done twice it is the same. */
export const withAhead = (known: Known, asOf: Instant): Known => {
  const have = new Set(known.asides.map(({ key }) => key));
  const more = liveAfter(known.strikes.live, asOf + LEEWAY)
    .filter((entry) => entry.subject !== undefined)
    .map((entry) => asideOf(entry, asOf))
    .filter(({ key }) => !have.has(key) && !known.farm.settled.has(key));
  return more.length === 0 ? known : { ...known, asides: [...known.asides, ...more] };
};

/** Does anything lie ahead? Then what is said changes by the minute. */
export const liesAhead = (known: Known, asOf: Instant): boolean =>
  liveAfter(known.strikes.live, asOf + LEEWAY).some((entry) => entry.subject !== undefined);

/** Known from now on: what was on the wall before could not know of it. */
const asideOf = (entry: Entry, asOf: Instant): Aside => ({
  key: aheadKey(entry.id),
  problem: `its time is ${instantText(entry.at)}, which is still to come: a clock was wrong; strike it and enter it again with the right time`,
  cows: entry.subject === undefined ? [] : [entry.subject],
  recordedAt: asOf,
  id: entry.id,
});
