/** Reasons out of stored rows: another version may have written them, so one that can't be said is left out, not fatal. */
import { z } from 'zod';
import { wordsFor } from '../../../print/words.ts';
import type { Because } from '../../../projections/because.ts';

const shape = z.looseObject({
  key: z.string(),
  values: z.looseObject({}),
  entries: z.array(z.string()),
});

/** True where the words know this kind of reason. */
export const sayable = (value: unknown): boolean => {
  const read = shape.safeParse(value);
  return read.success && Object.hasOwn(wordsFor('en').says, read.data.key);
};

/** The sentence, or nothing where its values are not what the words want. */
export const saidIfCan = (says: (because: Because) => string, because: Because): string => {
  try {
    return says(because);
  } catch {
    return '';
  }
};
