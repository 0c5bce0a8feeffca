/**
 * How long the sheets stay as they are while nobody says anything: time alone ends milkings, makes doses overdue and
 * alerts old. What was worked out may be shown again until then, with nothing but the time of asking put right.
 */
import type { Instant } from '../shared/instant.ts';
import { liesAhead } from './ahead.ts';
import type { Known } from './know.ts';
import { LOOKED_AT_WHOLE, NO_SHEET_LOOK_BACK } from './late-news.ts';
import { firstOf, type Schedule } from './schedule.ts';
import { windowEndOf } from './window.ts';

/**
 * The first instant after `asOf` at which the sheets, alerts or doubts of a milking, or which milking is next, may come
 * out otherwise from the same entries. `asOf` itself where they may at any time.
 */
export const steadyUntil = (known: Known, schedule: Schedule, asOf: Instant): Instant => {
  if (liesAhead(known, asOf)) return asOf;
  const next = firstOf(schedule.after(asOf))?.start;
  const running = schedule.startedBy(asOf);
  const end = running === undefined ? undefined : windowEndOf(known, schedule, running);
  // On most days these are starts of milkings too; not where the clocks change or the set-up does.
  const leaves = [LOOKED_AT_WHOLE, NO_SHEET_LOOK_BACK].map((back) => {
    const oldest = firstOf(schedule.after((asOf - back - 1) as Instant))?.start;
    return oldest === undefined ? undefined : oldest + back + 1;
  });
  const changes = [next, end === undefined ? undefined : end + 1, ...leaves].filter(
    (at): at is number => at !== undefined && at > asOf,
  );
  return Math.min(...changes, asOf + LONGEST) as Instant;
};

/** No farm goes on longer without a word. */
const LONGEST = 12 * 60 * 60 * 1_000;
