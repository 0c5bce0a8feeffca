/** Reasons and times in the farm's first language, on the farm's own clock. */
import { type Format, formatFor } from '../../print/words/format.ts';
import { isSpoken, sayIn, wordsFor } from '../../print/words.ts';
import type { Because } from '../../projections/because.ts';
import type { Schedule } from '../../projections/schedule.ts';
import type { Instant } from '../../shared/instant.ts';

export interface Speaking {
  readonly says: (because: Because) => string;
  readonly format: Format;
}

/** Dates of this year are said without it. */
export const speakingOf = (schedule: Schedule, now: Instant): Speaking => {
  const { zone, data } = schedule.inForceAt(now);
  const tag = data.languages?.find(isSpoken) ?? 'en';
  const words = wordsFor(tag);
  const frame = { zone, near: schedule.dayOf(now) };
  return { says: (because) => sayIn(words, because, frame), format: formatFor(words, frame) };
};
