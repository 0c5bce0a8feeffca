/** `leaving COW` as it is typed: the statement for the buyer as text, JSON and PDF, and which cows it refuses. */
import { afterAll, expect, test } from 'vitest';
import { readPdf } from '../print/read-pdf.ts';
import { DAISY, keeperBook, LINES, ROSIE } from './keeper-papers.ts';

const book = keeperBook(LINES);
afterAll(book.remove);

test('R-90 about to leave on hold: who she is, both holds with their ends, the treatment behind them, the cautions', () => {
  const { status, out } = book.run('leaving', '101');
  expect(status).toBe(0);
  for (const says of [
    'Statement for the buyer of a cow: Alder Bank',
    `official number: ${ROSIE}`,
    'barn number: 101',
    'Milk hold: until Sun 15 Mar 2026 18:00',
    'Meat hold: until Mon 16 Mar 2026 06:00',
    'active ingredient: penicillin G procaine; batch: B-17; route: not written down',
    'Fri 13 Mar 2026 06:00, 1 tube',
    'It is not a guarantee.',
    "Follow the label and the vet's directions. Local rules govern.",
  ])
    expect(out).toContain(says);
});

test('R-90 nothing on hold is said, with what that rests on', () => {
  const { out } = book.run('leaving', DAISY);
  expect(out).toContain('Nothing in the book holds her milk or her meat.');
  expect(out).toContain('That rests on 1 entry about her since Sat 10 Jan 2026 12:00.');
  expect(out).toContain('No treatment of hers is in the book.');
});

test('R-90 a cow that has left: the holds of when she left, as JSON and on paper, the same bytes each time', async () => {
  const { out } = book.run('leaving', '103', '--json', '--pdf', 'sold.pdf', '--language', 'en');
  expect(JSON.parse(out)).toMatchObject({
    rule: 'R-90',
    cow: '103',
    left: { at: '2026-03-11T09:00:00Z', reason: 'sold-for-beef', to: null },
    milk: { held: true, until: '2026-03-12T18:00:00Z' },
    meat: { held: true, until: '2026-03-13T06:00:00Z' },
  });
  const bytes = book.file('sold.pdf');
  const { text } = await readPdf(bytes);
  expect(text).toContain('Holds when she left, Wed 11 Mar 2026 09:00');
  expect(text).toContain('Stated by');
  book.run('leaving', '103', '--pdf', 'sold.pdf', '--language', 'en');
  expect(book.file('sold.pdf').equals(bytes)).toBe(true);
});

test('R-90 alerts about other cows are told to the farm beside the statement, and are not in it', () => {
  const { out, err } = book.run('leaving', '101');
  expect(err).toMatch(/^ALERTS \(1\):\n {2}! 103 left /);
  expect(out).not.toContain('103');
});

test.each([
  [['104'], 1, /104 means 2 cows: 999000000000404, .*; 999000000000505, .*official number, or with --on and a date/],
  [['0101'], 1, /There is no cow 0101 in this book; is it 101\?/],
  [['888'], 1, /There is no cow 888 in this book; check the number/],
  [['101', '--on', '2020-01-01'], 1, /There is no cow 101 in this book on that date/],
  [['101', '--on', 'march'], 2, /--on:/],
])('R-25 %j is refused with a sentence that says what to do', (words, code, says) => {
  const { status, out, err } = book.run('leaving', ...words, '--pdf', 'refused.pdf');
  expect([status, out, err]).toEqual([code, '', expect.stringMatching(says)]);
  expect(() => book.file('refused.pdf')).toThrow('ENOENT');
});
