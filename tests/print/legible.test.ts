/** Sizes as a reader of the PDF finds them, against the heights that an eye needs at the distance of each text. */
import { describe, expect, test } from 'vitest';
import { FACES, fontOf, scaleOf } from '../../print/faces.ts';
import { type PrintedName, renderSheet, renderWall } from '../../print/sheets.ts';
import { CAPITAL, POINTS_PER_MM } from '../../print/sizes.ts';
import type { Views } from '../../projections/views.ts';
import { herdOf, MARKS, RICH } from './example-views.ts';
import { readPdf, type TextBox } from './read-pdf.ts';

const PAPERS = ['A4', 'Letter'] as const;
const onPaper = (views: Views, paper: 'A4' | 'Letter'): Views => ({ ...views, farm: { ...views.farm, paper } });

/** Height of a face's lowest figure (or capital H) in parts of its size, measured on the outlines. */
const heightIn = (characters: string, font: string): number => {
  const face = FACES.find((each) => fontOf(each).postscriptName === font);
  if (face === undefined) throw new Error(`"${font}" is not one of the faces`);
  const open = fontOf(face);
  const heights = [...characters].map((each) => {
    const { bbox } = open.glyphForCodePoint(each.codePointAt(0) ?? 0);
    return (bbox.maxY - Math.max(0, bbox.minY)) / open.unitsPerEm;
  });
  return Math.min(...heights);
};
const millimetres = (box: TextBox, characters: string): number =>
  (heightIn(characters, box.font) * box.size) / POINTS_PER_MM;

const cowBoxes = (boxes: readonly TextBox[], cows: readonly string[]): TextBox[] =>
  boxes.filter((box) => cows.includes(box.text) && box.font.includes('Mono-Bold') && box.size > 20);

describe.each(PAPERS)('on %s', (paper) => {
  test.each(['milk-hold', 'sort', 'wall'] as const)(
    'cow numbers on the %s sheet are at least 8.7 mm high, however long',
    async (name) => {
      for (const views of [RICH, herdOf(40), herdOf(12, true)]) {
        const made = onPaper(views, paper);
        const bytes = name === 'wall' ? await renderWall(made, MARKS) : await renderSheet(name, made, MARKS);
        const { pages } = await readPdf(bytes);
        const { sheets } = made;
        const cows =
          name === 'sort'
            ? [...sheets.sort.cows, ...sheets.sort.cannot].map(({ cow }) => cow)
            : ['held', 'cleared', 'treat', 'gone'].flatMap((list) =>
                sheets['milk-hold'][list as 'held' | 'cleared' | 'treat' | 'gone'].map(({ cow }) => cow),
              );
        const found = pages.flatMap(({ boxes }) => cowBoxes(boxes, cows));
        expect(new Set(found.map(({ text }) => text))).toEqual(new Set(cows));
        for (const box of found) expect(millimetres(box, '0123456789')).toBeGreaterThanOrEqual(8.73);
      }
    },
  );

  test.each(['milk-hold', 'dry-off', 'fresh-moves', 'sort', 'counts', 'milking-plan'] as const)(
    'everything the crew act on on the %s sheet has capitals of at least 3.5 mm',
    async (name: PrintedName) => {
      for (const views of [RICH, herdOf(12, true)]) {
        const { pages } = await readPdf(await renderSheet(name, onPaper(views, paper), MARKS));
        for (const page of pages) {
          // Under the last loud line stand the cautions and the record keeper's marks, small on purpose.
          const foot = Math.max(
            ...page.boxes.filter(({ text }) => text.startsWith('When unsure')).map((box) => box.baseline),
          );
          const acted = page.boxes.filter((box) => box.baseline <= foot);
          expect(acted.length).toBeGreaterThan(5);
          for (const box of acted) expect(millimetres(box, 'H')).toBeGreaterThanOrEqual(3.5);
        }
      }
    },
  );
});

test('figures on paper are set in the figure faces alone', async () => {
  const { pages } = await readPdf(await renderSheet('counts', RICH, MARKS));
  const figures = pages.flatMap(({ boxes }) => boxes).filter(({ text }) => /\d/.test(text));
  expect(figures.length).toBeGreaterThan(10);
  expect(figures.filter(({ font }) => !font.includes('Mono'))).toEqual([]);
});

test('capitals of every face are as high as the sizes are computed with', () => {
  for (const face of FACES) {
    const font = fontOf(face);
    const height = font.glyphForCodePoint(72).bbox.maxY / font.unitsPerEm;
    expect(height * scaleOf(face)).toBeCloseTo(CAPITAL, 2);
  }
});

test.each(['Łukasz', 'Íñigo', 'Ґанна', 'Nguyễn', 'Zoë Ångström', 'Paweł Żółć', 'œuvre', 'щодня їжак'])(
  'a person called %s prints with every letter',
  async (name) => {
    const views = { ...RICH, farm: { ...RICH.farm, phones: [{ who: name, number: '020 910 0001' }] } };
    const { text } = await readPdf(await renderSheet('milk-hold', views, MARKS));
    expect(text.normalize('NFC')).toContain(name.normalize('NFC'));
    for (const character of name.normalize('NFC')) {
      const code = character.codePointAt(0) ?? 0;
      expect(FACES.some((face) => fontOf(face).hasGlyphForCodePoint(code))).toBe(true);
    }
  },
);
