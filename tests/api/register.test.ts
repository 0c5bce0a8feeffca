/** `medicines` as it is typed: the register as text, CSV and PDF, and what it refuses. */
import fs from 'node:fs';
import path from 'node:path';
import { parse } from 'csv-parse/sync';
import { afterAll, expect, test } from 'vitest';
import { readPdf } from '../print/read-pdf.ts';
import { keeperBook, LINES } from './keeper-papers.ts';

const book = keeperBook(LINES);
afterAll(book.remove);

test('R-95 --pdf writes the register in the farm’s first language, the same bytes each time, and says where', async () => {
  const first = book.run('medicines', '--from', '2026-03-01', '--to', '2026-03-31', '--pdf', 'register.pdf');
  expect([first.status, first.err, first.out]).toEqual([0, '', expect.stringMatching(/^Written to register\.pdf\.$/m)]);
  const bytes = book.file('register.pdf');
  const { text } = await readPdf(bytes);
  expect(text).toContain('Rejestr leków');
  expect(text).toContain('Alder Bank');
  expect(text).toContain('2 leczenia · 1 skreślone');
  book.run('medicines', '--from', '2026-03-01', '--to', '2026-03-31', '--pdf', 'register.pdf');
  expect(book.file('register.pdf').equals(bytes)).toBe(true);
});

test('R-95 --language says it in another language, and --json stays JSON alone beside the PDF', async () => {
  const { status, out } = book.run('medicines', '--pdf', 'other.pdf', '--language', 'uk', '--json');
  expect([status, JSON.parse(out).rows.length]).toEqual([0, 2]);
  expect((await readPdf(book.file('other.pdf'))).text).toContain('Журнал ліків');
});

test('R-23 R-95 the CSV has the struck treatment with all that was written, who struck it and why, and no cell is a formula', () => {
  const { out } = book.run('medicines', '--format', 'csv');
  const rows: Record<string, string>[] = parse(out, { columns: true, bom: true });
  expect(rows.map((row) => [row.cow, row['struck by'], row['struck because'], row.batch, row.instead])).toEqual([
    ['103', '', '', '', ''],
    ['101', '', '', 'B-17', ''],
    ['102', 'Marta', 'not she', 'B-99', 'nothing'],
  ]);
  expect(rows[1]?.reason).toBe("'=1+1");
  expect(rows[0]?.['not filled in']).toContain('batch');
});

test('R-90 the alerts that stand head what a person reads, and are no part of JSON, CSV or paper', async () => {
  expect(book.run('medicines').out).toMatch(/^ALERTS \(1\):\n {2}! 103 left /);
  expect(book.run('medicines', '--stock').out).toMatch(/^ALERTS/);
  expect(book.run('medicines', '--format', 'csv').out).not.toContain('ALERTS');
  book.run('medicines', '--pdf', 'alerts.pdf', '--language', 'en');
  expect((await readPdf(book.file('alerts.pdf'))).text).not.toContain('tell the buyer');
});

test('R-95 the stock says how many doses had no amount written down, on the row and in all', () => {
  const without = keeperBook([
    ...LINES,
    {
      type: 'medicine-received',
      time: '2026-03-01T09:00:00Z',
      data: { medicine: 'Bramblecillin', quantity: { value: 10, unit: 'tube' }, batch: 'B-1' },
    },
    ...['B-1', undefined].map((batch) => ({
      type: 'treatment',
      time: '2026-03-02T09:00:00Z',
      subject: '101',
      data: { medicine: 'bramblecillin', ...(batch === undefined ? {} : { batch }) },
    })),
  ]);
  const { out } = without.run('medicines', '--stock');
  expect(out).toMatch(
    /^Bramblecillin, batch B-1: 10 tube left .* ! 2 doses with no amount written down, not taken off$/m,
  );
  expect(out).toMatch(/^\d+ doses in all with no amount written down: the stock does not count them\.$/m);
  const rows: Record<string, string>[] = parse(without.run('medicines', '--stock', '--format', 'csv').out, {
    columns: true,
    bom: true,
  });
  expect(rows.find(({ medicine }) => medicine === 'Bramblecillin')?.['doses without an amount']).toBe('2');
  without.remove();
});

test('the paper never goes over the book or any other file that is not a PDF', () => {
  const before = book.file('farm.book');
  const { status, err } = book.run('medicines', '--pdf', 'farm.book');
  expect([status, err]).toEqual([1, expect.stringContaining('farm.book is there already and is not a PDF')]);
  expect(book.file('farm.book').equals(before)).toBe(true);
});

test.each([
  [['--pdf', 'x.pdf', '--language', 'tlh'], 2, 'there are no words in "tlh"; name one of en, es, fr, pl, uk'],
  [['--pdf', 'x.pdf', '--stock'], 2, 'leave --stock out'],
  [['--pdf', 'nowhere/x.pdf'], 1, 'nowhere/x.pdf cannot be written (ENOENT)'],
  [['--from', 'march', '--pdf', 'x.pdf'], 2, '--from:'],
])('%j is refused with a sentence', (words, code, says) => {
  const { status, err } = book.run('medicines', ...words);
  expect([status, err]).toEqual([code, expect.stringContaining(says)]);
  expect(err).not.toMatch(/^\s+at /m);
  expect(fs.existsSync(path.join(book.folder, 'x.pdf'))).toBe(false);
});
