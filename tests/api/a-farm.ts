/** A farm with a real book in a folder of its own, a clock that the test moves, and its sheets issued as the command does. */
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { type Issued, issue } from '../../api/issue.ts';
import { type Question, tonight } from '../../api/tonight.ts';
import { type Book, openBook, type Receipt } from '../../events/book.ts';
import { readValue } from '../../events/door.ts';
import type { Views } from '../../projections/views.ts';
import { type Instant, mustBeInstant } from '../../shared/instant.ts';
import { PENICILLIN, SET_UP } from './alder-bank.ts';

export { PENICILLIN };

export interface AFarm {
  readonly book: Book;
  readonly folder: string;
  readonly at: (time: string) => void;
  readonly say: (type: string, time: string, subject: string | undefined, data: unknown, id?: string) => Receipt;
  readonly print: (question?: Question) => Views;
  readonly issue: (milking?: string) => Promise<Issued>;
  readonly close: () => void;
}

export const CEPHAPIRIN = 'Cephapirin sodium, udder';

/** Milked 05:00 and 16:30 UTC; cows 101 to 106 in milk on no hold; the clock at 1 March 2026, noon. */
export const aFarm = (): AFarm => {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'byrebook-'));
  let now: Instant = mustBeInstant('2026-03-01T12:00:00Z');
  const book = openBook(path.join(folder, 'farm.book'), { clock: { now: () => now, fixed: true }, create: true });
  const say: AFarm['say'] = (type, time, subject, data, id) => {
    const value = {
      type,
      time,
      ...(subject === undefined ? {} : { subject }),
      data,
      ...(id === undefined ? {} : { id }),
    };
    const [receipt] = book.record([readValue(value, { source: 'office', author: 'Marta', now })]);
    if (receipt === undefined) throw new Error('one entry has one receipt');
    return receipt;
  };
  const early = '2026-02-01T12:00:00Z';
  say('farm-set-up', early, undefined, SET_UP);
  say(
    'medicine-listed',
    early,
    undefined,
    { name: PENICILLIN, milkHold: { hours: 60 }, meatDays: 3 },
    'penicillin-label',
  );
  say('medicine-listed', early, undefined, { name: CEPHAPIRIN, milkHold: { hours: 96 }, meatDays: 4 });
  for (const cow of ['101', '102', '103', '104', '105', '106']) {
    say('cow-entered', early, cow, {
      group: 'Milkers',
      lactation: 2,
      calvedOn: '2025-12-01',
      milkHoldUntil: 'none',
      meatHoldUntil: 'none',
    });
  }
  const print: AFarm['print'] = (question = {}) => tonight(book, question).views;
  return {
    book,
    folder,
    at: (time) => {
      now = mustBeInstant(time);
    },
    say,
    print,
    issue: async (milking) => (await issue(book, { milking })).issued,
    close: () => {
      book.close();
      fs.rmSync(folder, { recursive: true, force: true });
    },
  };
};
