/** The quarters of the udder as the paper calls them, in the language of whoever asks. */
import type { QUARTERS } from '../../../events/fields.ts';
import { wordsFor } from '../../../print/words.ts';
import { hearer } from '../hearer.ts';

export const quarterName = (quarter: (typeof QUARTERS)[number]): string =>
  wordsFor(hearer().tag).labels.quarters[quarter];
