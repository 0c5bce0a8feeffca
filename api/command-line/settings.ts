/** What every command shares: which book, which clock, where words go, and how a problem ends a command. */
import process from 'node:process';
import type { Command } from 'commander';
import { type Book, mayBeWritten, openBook } from '../../events/book.ts';
import { type Clock, fixedClock, systemClock } from '../../shared/clock.ts';
import { parseInstant } from '../../shared/instant.ts';
import { UserProblem } from '../../shared/refusal.ts';

export interface Globals {
  readonly book: string;
  readonly now?: string | undefined;
}

/** Where commands look when nobody names a book. */
export const DEFAULT_BOOK = 'farm.book';

export const globalsOf = (command: Command): Globals => {
  const options = command.optsWithGlobals() as { book?: string; now?: string };
  return { book: options.book ?? process.env.BYREBOOK_BOOK ?? DEFAULT_BOOK, now: options.now };
};

export const bookNamed = (command: Command): string | undefined =>
  (command.optsWithGlobals() as { book?: string }).book ?? process.env.BYREBOOK_BOOK;

/** The clock of a command: `--now` fixes it, for rehearsals. */
export const clockOf = (globals: Globals): Clock => {
  if (globals.now === undefined) return systemClock;
  const instant = parseInstant(globals.now);
  if (!instant.ok) throw new UserProblem(`--now: ${instant.problem}`, 2);
  return fixedClock(instant.value);
};

interface Opening {
  readonly create?: boolean;
  /** `where-must`: only where it can't be written, as on a disk that was handed to an inspector. */
  readonly readOnly?: boolean | 'where-must';
}

/** Opens the book, does the work, and closes it whatever happens. */
export const withBook = async <T>(
  command: Command,
  { create = false, readOnly = false }: Opening,
  work: (book: Book) => T | Promise<T>,
): Promise<T> => {
  const globals = globalsOf(command);
  const book = openBook(globals.book, {
    clock: clockOf(globals),
    create,
    readOnly: readOnly === 'where-must' ? !mayBeWritten(globals.book) : readOnly,
  });
  try {
    return await work(book);
  } finally {
    if (book.wentOn !== null) {
      const { position, bookId } = book.wentOn;
      note(
        `${book.path} is a copy, or its key is gone: from position ${position} on it is the new book ${bookId} with a new key; verify says more.`,
      );
    }
    book.close();
  }
};

export const out = (text: string): void => {
  process.stdout.write(`${text}\n`);
};

/** For people beside the facts: never mixed into `--json`. */
export const note = (text: string): void => {
  process.stderr.write(`${text}\n`);
};

export const outJson = (value: unknown): void => out(JSON.stringify(value, null, 2));

export const plural = (count: number, one: string, many = `${one}s`): string =>
  `${count.toLocaleString('en')} ${count === 1 ? one : many}`;
