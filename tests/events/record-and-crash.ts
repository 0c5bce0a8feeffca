/** For the crash test: records one dose after another for ever and acknowledges each on standard output once it is in the book. */
import { openBook } from '../../events/book.ts';
import { readValue } from '../../events/door.ts';
import { systemClock } from '../../shared/clock.ts';

const [file = '', from = '0'] = process.argv.slice(2);
const book = openBook(file, { clock: systemClock, create: true });
for (let number = Number(from); ; number += 1) {
  const value = {
    id: `dose-${number}`,
    type: 'treatment',
    subject: '412',
    time: '2026-03-14T16:40:00Z',
    data: { medicine: 'P' },
  };
  const [receipt] = book.record([readValue(value, { source: 'test', author: 'Marta', now: systemClock.now() })]);
  if (receipt?.outcome !== 'refused') process.stdout.write(`${number}\n`);
}
