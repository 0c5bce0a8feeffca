/** A farm's book, a clock that the test sets, a folder, and the part of the server that issues by the clock, looked at by hand. */
import fs from 'node:fs';
import path from 'node:path';
import { pino } from 'pino';
import { onTestFinished } from 'vitest';
import { type IssueBefore, issueBefore } from '../../../api/server/issue-before.ts';
import type { IssueBeforeSettings, Paces } from '../../../api/server/issue-before-settings.ts';
import { type Issuing, issuingOf } from '../../../api/server/issuing.ts';
import type { Book, Receipt } from '../../../events/book.ts';
import type { EntryOf } from '../../../events/entry.ts';
import { MINUTE } from '../../../shared/instant.ts';
import { at, folder, handClock, newPath, opened } from '../../events/a-book.ts';
import { readPdf } from '../../print/read-pdf.ts';
import { farmEntries, tell } from './a-server.ts';

export interface AWatch {
  readonly book: Book;
  readonly issuing: Issuing;
  readonly folder: string;
  readonly clock: ReturnType<typeof handClock>;
  /** Sets the clock to a time of 14 March 2026, or to any other time, and looks. */
  readonly lookAt: (time: string) => Promise<void>;
  readonly look: () => Promise<void>;
  readonly say: (...entries: Record<string, unknown>[]) => Receipt[];
  /** The sets in the book, in the order in which they were written down. */
  readonly sets: () => EntryOf<'sheet-issued'>['data'][];
  /** What the log says, by its messages and errors. */
  readonly said: () => string[];
  /** Stops, and begins again as a new process would. */
  readonly restart: (more?: Partial<IssueBeforeSettings>) => Promise<void>;
}

/** Nothing waits: each look acts at once. */
const AT_ONCE: Paces = { lookEvery: 3_600_000, readEvery: 0, between: 0, quiet: 0, again: 0, longest: 0 };

export const aWatch = async (
  { paces = {}, ...more }: Partial<IssueBeforeSettings> = {},
  farm: readonly Record<string, unknown>[] = farmEntries(),
  start = '2026-03-14T12:00:00Z',
): Promise<AWatch> => {
  const clock = handClock(at(start));
  const book = opened(newPath(), { clock });
  tell(book, clock.now(), farm);
  return watching(book, clock, { ...more, paces });
};

export const watching = async (
  book: Book,
  clock: AWatch['clock'],
  more: Partial<IssueBeforeSettings> = {},
): Promise<AWatch> => {
  const lines: string[] = [];
  const log = pino({ base: null }, { write: (line: string) => lines.push(line) });
  const issuing = issuingOf(book);
  const where = more.folder ?? path.join(folder(), 'wall');
  const begin = (again: Partial<IssueBeforeSettings> = {}): IssueBefore => {
    const settings = { book, issuing, log, before: 30 * MINUTE, folder: where, ...more, ...again };
    return issueBefore({ ...settings, paces: { ...AT_ONCE, ...settings.paces } });
  };
  let watch = begin();
  onTestFinished(() => watch.stop());
  await watch.look();
  return {
    book,
    issuing,
    folder: where,
    clock,
    look: () => watch.look(),
    lookAt: async (time) => {
      clock.set(at(time.length > 8 ? time : `2026-03-14T${time}:00Z`));
      await watch.look();
    },
    say: (...entries) => tell(book, clock.now(), entries),
    sets: () =>
      book
        .read()
        .entries.flatMap((entry) =>
          entry.type === 'sheet-issued' ? [entry.data as EntryOf<'sheet-issued'>['data']] : [],
        ),
    said: () => lines.map((line) => String((JSON.parse(line) as { msg?: string }).msg)),
    restart: async (again) => {
      await watch.stop();
      watch = begin(again);
      await watch.look();
    },
  };
};

export const filesIn = (where: string): string[] => (fs.existsSync(where) ? fs.readdirSync(where).sort() : []);

export const paperOn = async (where: string, name: string) => readPdf(fs.readFileSync(path.join(where, name)));
