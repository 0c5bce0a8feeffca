/** Sheets of farms made for the purpose, printed and read back by an independent reader. */
import type { DataOf } from '../../events/kinds.ts';
import { type PaperMarks, type PrintedName, renderSheet } from '../../print/sheets.ts';
import type { Views } from '../../projections/views.ts';
import { mustBeInstant } from '../../shared/instant.ts';
import { about, CUPBOARD, dose, evening, farm, milker, type Saying } from '../projections/evening.ts';
import { type ReadPage, type ReadPdf, readPdf, type TextBox } from './read-pdf.ts';

export const MARKS: PaperMarks = {
  ref: 'ACEF-3479-K',
  bookId: '0190b6d2-0000-7000-8000-00000000b00c',
  position: 1841,
  root: '5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328',
  printedAt: mustBeInstant('2026-03-14T15:40:00Z'),
  rehearsal: false,
  checkpoint: 'byrebook/demo\n1841\nXcnaeacGWamtVZy3Ad7ZoqudgjqtL0lgz+Nw7/RgQyg=\n\n— byrebook/demo AAAA\n',
};

const LONG =
  'clots in the milk of the left front quarter since the evening before, and a swollen udder that is warm to the hand';

/** A farm with so many cows, every third of them on hold, with long names, long reasons and numbers of ten characters. */
export const herdOf = (cows: number, wish: Partial<DataOf<'farm-set-up'>> = {}, longNumbers = true): Views => {
  const sayings: Saying[] = [
    farm({ mark: 'yellow leg band, left hind', phones: [{ who: 'Łukasz, herd manager', number: '000 000' }], ...wish }),
    ...CUPBOARD,
  ];
  for (let index = 0; index < cows; index += 1) {
    const cow = longNumbers && index % 10 === 0 ? `C-${String(index).padStart(8, '0')}` : String(index + 1);
    sayings.push(milker(cow, { group: index % 2 === 0 ? 'Cows' : 'Heifers', lactation: index % 2 === 0 ? 3 : 1 }));
    if (index % 3 === 0)
      sayings.push(
        dose(cow, '2026-03-14T05:40:00Z', {
          quarters: ['left-front', 'right-hind'],
          route: 'udder',
          amount: { value: 1, unit: 'tube' },
          course: { id: `course-${index}`, dose: 1, of: 3, everyHours: 12 },
        }),
      );
    if (index % 12 === 0) sayings.push(about(cow, 'milk-hold', '2026-03-13T18:00:00Z', { reason: LONG }));
    if (index % 9 === 0)
      sayings.push(
        about(cow, 'sort-request', '2026-03-13T18:00:00Z', {
          reason: LONG,
          to: 'Crush',
          forWhom: 'Íñigo, the hoof trimmer',
        }),
      );
  }
  return evening(sayings).at('2026-03-14/afternoon', '2026-03-14T14:00:00Z');
};

export const printed = async (sheet: PrintedName, views: Views, marks: PaperMarks = MARKS): Promise<ReadPdf> =>
  readPdf(await renderSheet(sheet, views, marks));

const EDGE = 0.6;

const bounds = (box: TextBox) => ({
  left: box.x,
  right: box.x + box.width,
  top: box.baseline - box.size * 0.66,
  bottom: box.baseline,
});

/** Pairs of texts that lie over each other, and texts that leave the page; empty where the page is right. */
export const faultsOf = (page: ReadPage): string[] => {
  const boxes = page.boxes.map((box) => ({ box, ...bounds(box) })).sort((a, b) => a.top - b.top);
  const faults = boxes
    .filter(({ left, right, top, bottom }) => left < 8 || right > page.width - 8 || top < 8 || bottom > page.height - 8)
    .map(({ box }) => `outside: ${box.text}`);
  boxes.forEach((a, index) => {
    for (let next = index + 1; next < boxes.length; next += 1) {
      const b = boxes[next];
      if (b === undefined || b.top > a.bottom - EDGE) break;
      if (a.left < b.right - EDGE && b.left < a.right - EDGE && a.top < b.bottom - EDGE)
        faults.push(`over each other: "${a.box.text}" and "${b.box.text}"`);
    }
  });
  return faults;
};
