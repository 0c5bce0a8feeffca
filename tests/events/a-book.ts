/** Books and arrivals for tests: real files in a folder of their own, removed when the test is over. */
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import Database from 'better-sqlite3';
import { onTestFinished } from 'vitest';
import { type Book, type BookOptions, openBook } from '../../events/book.ts';
import { type DoorSettings, type Passed, readLine, readValue, type TurnedAway } from '../../events/door.ts';
import { type Clock, fixedClock } from '../../shared/clock.ts';
import { type Instant, parseInstant } from '../../shared/instant.ts';
import { mustBe } from '../../shared/refusal.ts';

export const at = (text: string): Instant => mustBe(parseInstant(text));

export const NOW = at('2026-03-14T18:00:00Z');

/** A real book's clock that the test sets by hand. */
export const handClock = (start: Instant = NOW): Clock & { set: (instant: Instant) => void } => {
  let now = start;
  return {
    now: () => now,
    fixed: false,
    set: (instant) => {
      now = instant;
    },
  };
};

export const rehearsalClock = fixedClock(NOW);

/** A folder that goes with the test. */
export const folder = (): string => {
  const made = fs.mkdtempSync(path.join(os.tmpdir(), 'byrebook-'));
  onTestFinished(() => fs.rmSync(made, { recursive: true, force: true }));
  return made;
};

export const newPath = (): string => path.join(folder(), 'farm.book');

/** Opens, or makes, the book at a path; it is closed when the test is over. */
export const opened = (file: string, options: Partial<BookOptions> = {}): Book => {
  const book = openBook(file, { clock: handClock(), create: true, waitMilliseconds: 100, ...options });
  onTestFinished(() => book.close());
  return book;
};

export const newBook = (options: Partial<BookOptions> = {}): Book => opened(newPath(), options);

/** Another program's connection to the same file, without any of the book's own settings. */
export const bare = (file: string): Database.Database => {
  const db = new Database(file);
  onTestFinished(() => {
    db.close();
  });
  return db;
};

export const DOOR: DoorSettings = { source: 'office', author: 'Marta', now: NOW };

export const said = (value: Record<string, unknown>): Passed | TurnedAway =>
  readValue({ time: '2026-03-14T16:40:00Z', ...value }, DOOR);

/** An arrival that is meant to pass the door. */
export const passed = (value: Record<string, unknown>): Passed => {
  const arrival = said(value);
  if (arrival.outcome === 'refused') throw new Error(arrival.problem);
  return arrival;
};

export const line = (text: string): Passed | TurnedAway => readLine(text, DOOR);

/** A refused line with this text. */
export const turnedAway = (text: string): TurnedAway => {
  const arrival = line(text);
  if (arrival.outcome === 'passed') throw new Error('That line passes');
  return arrival;
};

/** A dose of penicillin for a cow. */
export const dose = (id: string, cow: string, more: Record<string, unknown> = {}): Passed =>
  passed({ id, type: 'treatment', subject: cow, data: { medicine: 'Penicillin G procaine, udder' }, ...more });

export const strike = (id: string, entry: string): Passed =>
  passed({ id, type: 'entry-struck', data: { entry, reason: 'wrong cow', instead: 'nothing' } });
