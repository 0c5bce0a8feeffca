/** What the disk or another program did to a book, in a sentence for the person who has to mend it. */
import Database from 'better-sqlite3';
import { UserProblem } from '../../shared/refusal.ts';

/** `full` and `busy` pass; whoever waits for a machine's answer (a server's status) needs to tell them apart. */
export type TroubleKind = 'busy' | 'full' | 'damaged' | 'not-writable';

/** Trouble with the book's file or disk, in a sentence. */
export class BookTrouble extends UserProblem {
  readonly kind: TroubleKind;
  constructor(kind: TroubleKind, sentence: string) {
    super(sentence);
    this.name = 'BookTrouble';
    this.kind = kind;
  }
}

/** Runs `work` on the book at `path`; the database's own errors come out as sentences, everything else as it is. */
export const onBook = <T>(path: string, work: () => T): T => {
  try {
    return work();
  } catch (error) {
    const sentence = error instanceof Database.SqliteError ? sentenceFor(error, path) : undefined;
    if (sentence === undefined || !(error instanceof Database.SqliteError)) throw error;
    throw new BookTrouble(kindOf(error.code), sentence);
  }
};

const kindOf = (code: string): TroubleKind => {
  if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED')) return 'busy';
  if (code === 'SQLITE_FULL' || code === 'SQLITE_IOERR_SHMSIZE' || code === 'SQLITE_IOERR_WRITE') return 'full';
  return code === 'SQLITE_NOTADB' || code.startsWith('SQLITE_CORRUPT') ? 'damaged' : 'not-writable';
};

export const damaged = (path: string, detail: string): string =>
  `The book ${path} is damaged or only half there (${detail}); keep this file as it is, and restore the latest backup beside it`;

export const readOnlyFile = (path: string): string =>
  `The book ${path} can't be written: the file, its folder or its disk is read-only; nothing was recorded. Ask for the right to write there, or copy the book to where you may write`;

const sentenceFor = ({ code, message }: { code: string; message: string }, path: string): string | undefined => {
  if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED')) {
    return `The book ${path} is in use: another program has it locked; nothing was recorded. Close that program, or try again in a moment`;
  }
  if (code === 'SQLITE_NOTADB') return damaged(path, 'it does not read as a database');
  if (code.startsWith('SQLITE_CORRUPT')) return damaged(path, message);
  if (code.startsWith('SQLITE_READONLY')) return readOnlyFile(path);
  if (code === 'SQLITE_FULL' || code === 'SQLITE_IOERR_SHMSIZE') {
    return `The disk that holds the book ${path} is full; nothing of this batch was recorded. Free some space, then record it again`;
  }
  if (code.startsWith('SQLITE_IOERR')) {
    return `The disk that holds the book ${path} gave an error (${code.slice(7).toLowerCase()}); nothing of this batch was recorded. Check the disk and its free space, then try again`;
  }
  if (code.startsWith('SQLITE_CANTOPEN') || code === 'SQLITE_PERM' || code === 'SQLITE_AUTH') {
    return `The book ${path} can't be opened; check that you may read and write the file and its folder`;
  }
  return undefined;
};
