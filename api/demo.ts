/**
 * Makes the demo farm's book as it would have come about: every entry recorded when it reached the book, this morning's
 * sheets issued this morning. A rehearsal book with a fixed clock, so it is the same on any day and any machine.
 */
import fs from 'node:fs';
import path from 'node:path';
import { openBook } from '../events/book.ts';
import { type Passed, readLine, readValue, type TurnedAway } from '../events/door.ts';
import { DEMO_EARLIER, DEMO_NOW, demoArrivals, demoRefusedLines } from '../seeds/sixty-days.ts';
import type { Clock } from '../shared/clock.ts';
import { HOUR, type Instant } from '../shared/instant.ts';
import { issue } from './issue.ts';

interface Coming {
  readonly at: Instant;
  readonly read: (now: Instant) => Passed | TurnedAway;
}

/** Writes the demo's book to a file that is not there yet; leaves its clock at the demo's "now". */
export const makeDemoBook = async (file: string): Promise<void> => {
  fs.mkdirSync(path.dirname(file), { recursive: true });
  const settings = { source: 'office', author: 'Byrebook demo' };
  const coming: Coming[] = [
    ...demoArrivals().map(
      ({ said, recordedAt }): Coming => ({ at: recordedAt, read: (now) => readValue(said, { ...settings, now }) }),
    ),
    ...demoRefusedLines.map(
      ({ text, recordedAt }): Coming => ({ at: recordedAt, read: (now) => readLine(text, { ...settings, now }) }),
    ),
  ].sort((a, b) => a.at - b.at);

  let now = coming[0]?.at ?? DEMO_NOW;
  const clock: Clock = { now: () => now, fixed: true };
  const unfinished = `${file}.unfinished`;
  for (const leftOver of [unfinished, `${unfinished}-wal`, `${unfinished}-shm`, `${unfinished}.key`])
    fs.rmSync(leftOver, { force: true });
  const book = openBook(unfinished, { clock, create: true, name: 'demo farm' });
  const recordUntil = (until: Instant): void => {
    while (coming[0] !== undefined && coming[0].at <= until) {
      // An hour's entries in one transaction: the demo is not a benchmark of the disk.
      const hour = Math.floor(coming[0].at / HOUR);
      const batch: Coming[] = [];
      while (coming[0] !== undefined && coming[0].at <= until && Math.floor(coming[0].at / HOUR) === hour)
        batch.push(coming.shift() as Coming);
      now = batch.at(-1)?.at ?? now;
      book.record(batch.map(({ read }) => read(now)));
    }
  };
  try {
    recordUntil(DEMO_EARLIER);
    now = DEMO_EARLIER;
    await issue(book);
    recordUntil(DEMO_NOW);
  } finally {
    book.close();
  }
  // The clock it was given last is the one it keeps; only a whole demo gets the name.
  openBook(unfinished, { clock: { now: () => DEMO_NOW, fixed: true } }).close();
  fs.renameSync(`${unfinished}.key`, `${file}.key`);
  fs.renameSync(unfinished, file);
};
