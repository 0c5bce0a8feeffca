/** What somebody outside holds against the log: a printed sheet, a checkpoint they kept. Each agrees or is a problem. */
import type { Book } from '../events/book.ts';
import { noteIsSignedBy, parseCheckpoint } from '../events/log/note.ts';
import { UserProblem } from '../shared/refusal.ts';

export type Witnessed =
  | { readonly agrees: true; readonly says: string }
  | { readonly agrees: false; readonly position: number; readonly says: string };

const LEAST_DIGITS = 8;

/** `POSITION:DIGITS` from the foot of a sheet. */
export const heldAgainstPaper = (book: Book, paper: string): Witnessed => {
  const [, before = '', digits = ''] = /^\s*(\d{1,10})\s*:([\s0-9a-fA-F]*)$/.exec(paper) ?? [];
  const wanted = digits.replace(/\s/g, '').toLowerCase();
  if (wanted.length < LEAST_DIGITS || wanted.length > 64) {
    throw new UserProblem(
      `--paper: write it as position:digits with at least ${LEAST_DIGITS} of the digits on the sheet, such as 1841:5dc9da79a70659a9`,
      2,
    );
  }
  const position = Number(before);
  const root = rootAt(book, position);
  if (root === undefined) return tooFar(book, 'the paper', position);
  return root.startsWith(wanted)
    ? { agrees: true, says: `The paper agrees: the first ${position} entries have the root that stands on it.` }
    : {
        agrees: false,
        position,
        says: `the paper does NOT agree: the first ${position} entries have the root ${root.slice(0, 32)}, the paper says ${wanted}`,
      };
};

/** A signed checkpoint of this file, under whichever name it went by then. */
export const heldAgainstCheckpoint = (book: Book, note: string): Witnessed => {
  const kept = parseCheckpoint(note);
  if (kept === undefined) {
    throw new UserProblem('--checkpoint: the file is not a checkpoint, a text of three lines and a signature', 2);
  }
  const { size, origin } = kept;
  const name = book.names().find((each) => origin === each.origin);
  if (name === undefined) {
    return { agrees: false, position: size, says: `the checkpoint is of ${origin}, which this file never was` };
  }
  const root = rootAt(book, size);
  if (root === undefined) return tooFar(book, 'the checkpoint', size);
  if (root !== kept.root) {
    return {
      agrees: false,
      position: size,
      says: `the checkpoint does NOT agree: the first ${size} entries have the root ${root}, the checkpoint says ${kept.root}`,
    };
  }
  const signed = noteIsSignedBy(note, origin, name.publicKey)
    ? `It is signed with the key of that time, ${name.verifierKey}.`
    : 'It is not signed with the key of that time.';
  return { agrees: true, says: `The checkpoint of position ${size} agrees. ${signed}` };
};

const rootAt = (book: Book, position: number): string | undefined => book.continuation(position, position)?.root;

const tooFar = (book: Book, what: string, position: number): Witnessed => ({
  agrees: false,
  position,
  says: `${what} speaks of position ${position}, but the log ends at ${book.head().position}: the end was taken off, or this is another book`,
});
