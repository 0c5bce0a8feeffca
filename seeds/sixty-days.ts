/**
 * The demo: sixty days of an invented farm, entry by entry, in the order they reached its book. The same on any day and
 * any machine: nothing here asks the clock or throws dice.
 */
import type { Said } from '../events/entry.ts';
import type { Instant } from '../shared/instant.ts';
import { at, DEMO_EARLIER, DEMO_NOW } from './calendar.ts';
import { deliveries, medicinesListed, pastCourses } from './cupboard.ts';
import { dailyRound } from './daily-round.ts';
import { DEMO_FARM } from './demo-farm.ts';
import { REFUSED_LINES } from './example-cows/which-cow.ts';
import { EXAMPLES, STORIES } from './examples.ts';
import { HERD, ORDINARY } from './herd.ts';
import { livesOf } from './lives.ts';
import { type Arrival, byArrival, say } from './say.ts';

export type { Arrival } from './say.ts';
export { DEMO_EARLIER, DEMO_NOW, EXAMPLES };

/** Every entry with the time it reached the book, earliest first. Some reached it long after they happened. */
export const demoArrivals = (): readonly Arrival[] => {
  const lives = [...HERD.flatMap(livesOf), ...STORIES.flatMap(({ entries }) => entries)];
  return [
    say('farm-set-up', undefined, at('2026-01-29', '20:00'), DEMO_FARM),
    ...medicinesListed(),
    ...deliveries(),
    ...lives,
    ...pastCourses(ORDINARY),
    ...dailyRound(lives),
  ].sort(byArrival);
};

/** The entries alone, in that order. */
export const demoEntries = (): readonly Said[] => demoArrivals().map(({ said }) => said);

/** Lines that the door turns away, as text, with the time they came: what is set aside in the demo. */
export const demoRefusedLines: readonly { readonly recordedAt: Instant; readonly text: string }[] = REFUSED_LINES;

export const demoDescription =
  `${DEMO_FARM.name}, an invented farm: ${HERD.length} cows since 30 January 2026, ${DEMO_FARM.groups.length} groups, ` +
  `two milkings a day through ${DEMO_FARM.parlour.stalls} stalls. The clock stands at 13:50 on Tuesday 31 March 2026; ` +
  'the afternoon milking starts at 15:20. No farm, person, telephone number or animal in it is real.';
