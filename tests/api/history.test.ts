/** `history COW` as it is typed: text, JSON and PDF, both times of each entry, and a number that meant two cows. */
import { afterAll, expect, test } from 'vitest';
import { readPdf } from '../print/read-pdf.ts';
import { keeperBook, LINES, ROSIE } from './keeper-papers.ts';

const book = keeperBook(LINES);
afterAll(book.remove);

test('each entry stands with when it happened and when this book learnt of it, in text and in JSON', () => {
  const { out } = book.run('history', '101');
  expect(out).toMatch(
    /Fri 13 Mar 2026 06:00 {2}treatment 101 .*quantity: 1 tube.* by Marta {2}\(known here Sat 14 Mar 2026 15:40\)/,
  );
  expect(JSON.parse(book.run('history', '101', '--json').out)[1]).toMatchObject({
    type: 'treatment',
    time: '2026-03-13T06:00:00Z',
    recordedtime: '2026-03-14T15:40:00Z',
    cows: [{ officialId: ROSIE, number: '101' }],
    mayBe: [],
    struck: null,
  });
});

test('R-23 a struck entry says who struck it, when, why and what instead', () => {
  expect(book.run('history', '102').out).toContain(
    'STRUCK by Marta, Sat 14 Mar 2026 15:40: not she; instead: nothing, it never happened',
  );
  const lines: { id: string; struck: unknown }[] = JSON.parse(book.run('history', '102', '--json').out);
  expect(lines.find(({ id }) => id === 'slip')?.struck).toMatchObject({
    by: 'Marta',
    reason: 'not she',
    instead: 'nothing',
  });
});

test('R-25 a number that two cows bear says so, and whose each entry is', () => {
  const { out } = book.run('history', '104');
  expect(out).toContain('Number 104 has meant 2 cows. Each entry says whose it is.');
  expect(out).toMatch(/cow-entered 104 .*\(cow 1\)/);
  expect(out).toMatch(/cow-entered 104 .*\(cow 2\)/);
  expect(out).toContain('Doubts to settle:');
});

test('--pdf writes it for paper, the same bytes each time', async () => {
  expect(book.run('history', '101', '--pdf', 'history.pdf', '--language', 'en')).toMatchObject({
    status: 0,
    out: expect.stringMatching(/^Written to history\.pdf\.$/m),
  });
  const bytes = book.file('history.pdf');
  const { text } = await readPdf(bytes);
  expect(text).toContain('History of cow 101');
  expect(text).toContain('this book learnt of it');
  book.run('history', '101', '--pdf', 'history.pdf', '--language', 'en');
  expect(book.file('history.pdf').equals(bytes)).toBe(true);
});

test('R-90 the alerts that stand head the text', () => {
  expect(book.run('history', '102').out).toMatch(/^ALERTS \(1\):\n {2}! 103 left /);
});

test('nothing written about a number is a sentence, and no paper', () => {
  const { status, err } = book.run('history', '888', '--pdf', 'none.pdf');
  expect([status, err]).toEqual([1, expect.stringContaining('Nothing is written about a cow 888')]);
  expect(() => book.file('none.pdf')).toThrow('ENOENT');
});
