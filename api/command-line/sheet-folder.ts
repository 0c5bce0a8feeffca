/** The folder that sheets are written to with `--out`, and what is said where that can't be done. */
import fs from 'node:fs';
import { UserProblem } from '../../shared/refusal.ts';

/** Makes the folder where there is none; throws a `UserProblem` where nothing can be written there. */
export const makeFolder = (folder: string): void =>
  orSay(folder, () => {
    fs.mkdirSync(folder, { recursive: true });
    fs.accessSync(folder, fs.constants.W_OK);
  });

export const orSay = <T>(folder: string, work: () => T): T => {
  try {
    return work();
  } catch (error) {
    const why = error instanceof Error && 'code' in error ? ` (${String(error.code)})` : '';
    throw new UserProblem(
      `The sheets cannot be written to ${folder}${why}; name another folder with --out, or make room there`,
    );
  }
};
