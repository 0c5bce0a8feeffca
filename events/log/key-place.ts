/**
 * Where a key file was made for: which computer, which path, which file on the disk. It stands beneath the key, so a copy of
 * a book that took its key along brings the proof of it. A file that was moved keeps its number on the disk; one that was put
 * back in its place keeps its path; a copy has neither. A clone of the whole disk, on a computer of the same name, has both.
 */
import fs from 'node:fs';
import os from 'node:os';
import { z } from 'zod';

const place = z.strictObject({ computer: z.string(), path: z.string(), file: z.string() });
type Place = z.infer<typeof place>;

const MARK = 'This key was made for ';

/** The line to write beneath the key of the book at that path. */
export const placeLine = (bookPath: string): string => {
  const here = placeOf(bookPath);
  return here === undefined ? '' : `${MARK}${JSON.stringify(here)}\n`;
};

/** The path that the key was made for, where the book beside it is a copy of that one; else nothing. */
export const copiedFrom = (keyText: string, bookPath: string): string | undefined => {
  const line = keyText.split('\n').find((each) => each.startsWith(MARK));
  const here = placeOf(bookPath);
  if (line === undefined || here === undefined) return undefined;
  const made = place.safeParse(readable(line.slice(MARK.length)));
  if (!made.success || made.data.file === here.file) return undefined;
  const inPlace = made.data.path === here.path && made.data.computer === here.computer;
  return inPlace ? undefined : made.data.path;
};

const placeOf = (bookPath: string): Place | undefined => {
  const stat = fs.statSync(bookPath, { bigint: true, throwIfNoEntry: false });
  return stat === undefined
    ? undefined
    : {
        computer: os.hostname(),
        // A book that is being restored gets its name when it is whole.
        path: fs.realpathSync(bookPath).replace(/\.unfinished$/, ''),
        file: String(stat.ino),
      };
};

const readable = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
};
