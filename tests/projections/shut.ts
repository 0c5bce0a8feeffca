/** Shuts the files of cows whom nobody may look at. */
import type { CowFile } from '../../projections/cow-file.ts';

/** From now on nobody may look into these files; `why` says what is wrong where somebody does. */
export const shut = (files: readonly CowFile[], why: string): void => {
  for (const file of files) {
    for (const name of ['cow', 'lactations', 'dosings']) {
      Object.defineProperty(file, name, {
        get: () => {
          throw new Error(why);
        },
      });
    }
  }
};
