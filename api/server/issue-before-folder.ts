/**
 * The folder that the sets go to. A set's papers are all written under other names first, and get theirs only when the last
 * one is on the disk: nobody prints half a paper, and a full disk leaves the set before it as it was.
 */
import fs from 'node:fs';
import path from 'node:path';
import { toDisk } from '../../events/log/whole-file.ts';
import { UserProblem } from '../../shared/refusal.ts';
import type { Paper } from '../issue.ts';

/** What went to a printer is remembered beside the papers, so that a restart does not print it again. */
const SENT = 'sent-to-printer.txt';
const SENT_KEPT = 200;

/** Where each paper lies: the milking and the sheet by name, as `print --out` has it. */
export const papersIn = (folder: string, milking: string, papers: readonly Paper[]): string[] => {
  const stem = milking.replace(/[^0-9A-Za-z\u00c0-\uffff-]+/g, '-');
  return papers.map(({ sheet }) => path.join(folder, `${stem}-${sheet}.pdf`));
};

/** Writes a set, unless its papers lie there already byte for byte. Throws a `UserProblem` with what is wrong with the folder. */
export const putPapers = (folder: string, milking: string, papers: readonly Paper[]): string[] => {
  const files = papersIn(folder, milking, papers);
  if (papers.every(({ bytes }, index) => bytes.length > 0 && liesThere(files[index] ?? '', bytes))) return files;
  inFolder(folder, () => {
    fs.mkdirSync(folder, { recursive: true });
    writeWhole(files.map((file, index) => ({ file, bytes: papers[index]?.bytes ?? new Uint8Array() })));
  });
  return files;
};

/** Whether a set was sent to that printer. What cannot be read was not. */
export const wasSent = (folder: string, ref: string, printer: string): boolean =>
  sentLines(folder).some((line) => line === `${ref} ${printer}`);

export const rememberSent = (folder: string, ref: string, printer: string): void => {
  const lines = [...sentLines(folder), `${ref} ${printer}`].slice(-SENT_KEPT);
  inFolder(folder, () => writeWhole([{ file: path.join(folder, SENT), bytes: Buffer.from(`${lines.join('\n')}\n`) }]));
};

const sentLines = (folder: string): string[] => {
  try {
    return fs.readFileSync(path.join(folder, SENT), 'utf8').split('\n').filter(Boolean);
  } catch {
    return [];
  }
};

const liesThere = (file: string, bytes: Uint8Array): boolean => {
  try {
    return Buffer.compare(fs.readFileSync(file), bytes) === 0;
  } catch {
    return false;
  }
};

/** All under hidden names beside their own first; where that fails, none of them stays to fill the disk. */
const writeWhole = (wanted: readonly { readonly file: string; readonly bytes: Uint8Array }[]): void => {
  const hidden = wanted.map(({ file }) => path.join(path.dirname(file), `.${path.basename(file)}.unfinished`));
  try {
    wanted.forEach(({ bytes }, index) => {
      fs.writeFileSync(hidden[index] ?? '', bytes);
      toDisk(hidden[index] ?? '');
    });
    wanted.forEach(({ file }, index) => {
      fs.renameSync(hidden[index] ?? '', file);
    });
  } catch (error) {
    for (const each of hidden) fs.rmSync(each, { force: true, recursive: true });
    throw error;
  }
};

const inFolder = (folder: string, work: () => void): void => {
  try {
    work();
  } catch (error) {
    if (!(error instanceof Error && 'code' in error)) throw error;
    const why = REASONS[String(error.code)] ?? `cannot be written to (${String(error.code)})`;
    throw new UserProblem(`The folder ${folder} ${why}`);
  }
};

const REASONS: Readonly<Record<string, string>> = {
  ENOSPC: 'is on a full disk; make room there',
  EDQUOT: 'is on a disk on which your share is used up; make room there',
  EACCES: 'may not be written to by the one who runs the server; change its rights',
  EPERM: 'may not be written to by the one who runs the server; change its rights',
  EROFS: 'is on a disk that can only be read',
  EEXIST: 'is a file; name a folder',
  ENOTDIR: 'is a file, or lies in one; name a folder',
};
