/**
 * A program for `crash.test.ts`: records doses in batches for ever, with a refused line and a printed paper now and
 * then, and says on standard output what it has been told is recorded, until it is killed.
 */
import fs from 'node:fs';
import { openBook } from '../../events/book.ts';
import { readLine } from '../../events/door.ts';
import { systemClock } from '../../shared/clock.ts';

const [, , file = '', round = ''] = process.argv;
const book = openBook(file, { clock: systemClock, create: true });
const door = { source: 'office', author: 'Marta', now: systemClock.now() };

const doseLine = (id: string, cow: number): string =>
  JSON.stringify({
    id,
    type: 'treatment',
    subject: String(cow),
    time: '2026-03-14T16:40:00Z',
    data: { medicine: 'Penicillin G procaine, udder' },
  });

for (let batch = 0; ; batch += 1) {
  const lines = Array.from({ length: 1 + (batch % 40) }, (_, index) =>
    doseLine(`${round}-${batch}-${index}`, (batch * 7 + index) % 300),
  );
  lines.push(`{"subject":"77","round":"${round}","batch":${batch}`);
  const receipts = book.record(lines.map((line) => readLine(line, door)));
  const paper = batch % 5 === 0 ? book.keepPaper(Buffer.from(`paper ${round} ${batch} `.repeat(500))) : null;
  fs.writeSync(1, `${JSON.stringify({ receipts, paper })}\n`);
}
