/** What issuing by the clock is told at its start, and how often it looks, waits and tries again. */
import type { Logger } from 'pino';
import type { Book } from '../../events/book.ts';
import type { Issuing } from './issuing.ts';

export interface IssueBeforeSettings {
  readonly book: Book;
  readonly issuing: Issuing;
  readonly log: Logger;
  /** Milliseconds before a milking's start. */
  readonly before: number;
  readonly folder: string;
  readonly printer?: string | undefined;
  /** A set was recorded just now. */
  readonly wake?: () => void;
  readonly paces?: Partial<Paces>;
}

/** Milliseconds of the steady clock. */
export interface Paces {
  readonly lookEvery: number;
  /** While no milking is in play, a changed book is read again at most so often. */
  readonly readEvery: number;
  /** Between two sets for one milking; ten times as long once there are many. */
  readonly between: number;
  /** Changed rows that put nobody on hold or off it wait until so long nothing came in, at most five times that: one set for all of it. */
  readonly quiet: number;
  /** After the first failure; doubled after each, up to `longest`. */
  readonly again: number;
  readonly longest: number;
}

export const PACES: Paces = {
  lookEvery: 5_000,
  readEvery: 60_000,
  between: 60_000,
  quiet: 120_000,
  again: 10_000,
  longest: 300_000,
};
