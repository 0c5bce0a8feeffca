/** A file that gets its name only when all of it is there, and never takes another file's place. */
import fs from 'node:fs';
import { UserProblem } from '../../shared/refusal.ts';

/** Refuses a name that is taken. */
export const mustBeFree = (files: readonly string[], what: string, instead: string): void => {
  const taken = files.find((file) => fs.existsSync(file));
  if (taken !== undefined) throw new UserProblem(`${taken} is there already; ${what} never overwrites, ${instead}`);
};

/** Gives a finished file its name. A hard link never overwrites; a disk without them (a memory stick) gets a look first. */
export const giveName = (unfinished: string, name: string): void => {
  try {
    fs.linkSync(unfinished, name);
  } catch {
    mustBeFree([name], 'this', 'name another file');
    fs.renameSync(unfinished, name);
    return;
  }
  fs.rmSync(unfinished);
};

/** Sees to it that what was written to a file is on the disk. */
export const toDisk = (file: string): void => {
  const written = fs.openSync(file, 'r+');
  try {
    fs.fsyncSync(written);
  } finally {
    fs.closeSync(written);
  }
};

/** A failure of the disk as a sentence; refusals and faults of the program as they are. */
export const inASentence = (error: unknown, what: string): unknown =>
  error instanceof UserProblem || !(error instanceof Error && 'code' in error)
    ? error
    : new UserProblem(
        `${what} was not finished (${String(error.code)}); check the folder and the space in it, then do it again`,
      );
