/** Which cow of the demo shows what: for its tests, and for whoever wants to see a rule at work. */
import { dryOff } from './example-cows/dry-off.ts';
import { freshPen } from './example-cows/fresh-pen.ts';
import { onHold } from './example-cows/on-hold.ts';
import { sortGate } from './example-cows/sort-gate.ts';
import type { Example, Story } from './example-cows/story.ts';
import { whichCow } from './example-cows/which-cow.ts';

export const STORIES: readonly Story[] = [onHold, freshPen, dryOff, whichCow, sortGate];

export const EXAMPLES: readonly Example[] = STORIES.flatMap(({ examples }) => examples);
export type { Example };
