/** Reasons and times in the language of whoever asks, on the farm's own clock. */
import { type Format, formatFor } from '../../print/words/format.ts';
import { sayIn, wordsFor } from '../../print/words.ts';
import type { Because } from '../../projections/because.ts';
import type { Schedule } from '../../projections/schedule.ts';
import type { Instant } from '../../shared/instant.ts';
import { hearer } from './hearer.ts';

export interface Speaking {
  readonly says: (because: Because) => string;
  readonly format: Format;
}

/** Dates of this year are said without it. */
export const speakingOf = (schedule: Schedule, now: Instant): Speaking => {
  const { zone } = schedule.inForceAt(now);
  const words = wordsFor(hearer().tag);
  const frame = { zone, near: schedule.dayOf(now) };
  return { says: (because) => sayIn(words, because, frame), format: formatFor(words, frame) };
};
