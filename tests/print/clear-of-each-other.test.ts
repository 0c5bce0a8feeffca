/** Nothing is clipped, overlaps or is lost, for one of everything and for the longest of everything: proved from the text boxes that a reader finds. */
import { describe, expect, test } from 'vitest';
import { PRINTED_NAMES, renderSheet, renderWall } from '../../print/sheets.ts';
import type { Views } from '../../projections/views.ts';
import { EMPTY, herdOf, MARKS, RICH } from './example-views.ts';
import { type ReadPage, readPdf, type TextBox, tagsOf } from './read-pdf.ts';

const EDGE = 28;
/** Part of the size that stands above the baseline, and below: a letter with its accent, and with its tail. */
const [ABOVE, BELOW] = [0.75, 0.22];

/** Boxes that lie outside the margins. */
const outside = ({ boxes, width, height }: ReadPage): TextBox[] =>
  boxes.filter(
    (box) =>
      box.x < EDGE ||
      box.x + box.width > width - EDGE ||
      box.baseline - ABOVE * box.size < EDGE ||
      box.baseline + BELOW * box.size > height - EDGE + 2,
  );

/** Pairs of boxes of which one lies over the other. */
const overlapping = ({ boxes }: ReadPage): [TextBox, TextBox][] => {
  const sorted = [...boxes].sort((a, b) => a.baseline - b.baseline);
  return sorted.flatMap((box, index) =>
    sorted.slice(index + 1).flatMap((other): [TextBox, TextBox][] => {
      const across = Math.min(box.x + box.width, other.x + other.width) - Math.max(box.x, other.x);
      const bottom = Math.min(box.baseline + BELOW * box.size, other.baseline + BELOW * other.size);
      const top = Math.max(box.baseline - ABOVE * box.size, other.baseline - ABOVE * other.size);
      return across > 0.5 && bottom - top > 0.5 ? [[box, other]] : [];
    }),
  );
};

const checkPages = (pages: readonly ReadPage[]): void => {
  for (const page of pages) {
    expect(outside(page)).toEqual([]);
    expect(overlapping(page)).toEqual([]);
  }
};

const HERDS: readonly (readonly [string, Views])[] = [
  ['a farm with nothing on any list', EMPTY],
  ['one of everything', RICH],
  ['a herd of 40 with long numbers, names and reasons', herdOf(40, true)],
];

describe.each(HERDS)('%s', (_, views) => {
  test.each([...PRINTED_NAMES, 'wall'] as const)(
    'no text on the %s sheet lies over another or outside the page',
    async (name) => {
      for (const paper of ['A4', 'Letter'] as const) {
        const made = { ...views, farm: { ...views.farm, paper } };
        const bytes = name === 'wall' ? await renderWall(made, MARKS) : await renderSheet(name, made, MARKS);
        const { pages } = await readPdf(bytes);
        expect(pages.length).toBeGreaterThan(0);
        checkPages(pages);
      }
    },
  );
});

/** Each number as often as it stands in large figures. */
const tally = (pages: readonly ReadPage[]): Map<string, number> => {
  const counts = new Map<string, number>();
  for (const { text, size, font } of pages.flatMap(({ boxes }) => boxes)) {
    if (size > 31 && font.includes('Mono-Bold')) counts.set(text, (counts.get(text) ?? 0) + 1);
  }
  return counts;
};

test('R-10 every held cow of a herd of 400 stands on the milk-hold sheet in large figures, once', async () => {
  const views = herdOf(400);
  const { pages } = await readPdf(await renderSheet('milk-hold', views, MARKS));
  const counts = tally(pages);
  const wrong = views.sheets['milk-hold'].held.filter(({ cow }) => counts.get(cow) !== 1);
  expect(wrong.map(({ cow }) => cow)).toEqual([]);
  checkPages(pages);
});

test('every page of the milk-hold sheet that has a held cow says what its columns are and which mark to look for', async () => {
  const { pages } = await readPdf(await renderSheet('milk-hold', herdOf(40, true), MARKS));
  const held = new Set(herdOf(40, true).sheets['milk-hold'].held.map(({ cow }) => cow));
  const withCows = pages.filter(({ boxes }) => boxes.some(({ text, x }) => x < 60 && held.has(text)));
  expect(withCows.length).toBeGreaterThan(10);
  for (const page of withCows) {
    expect(page.lines.join(' ').replace(/\s+/g, ' ')).toContain('Each wears: yellow leg band');
    expect(page.lines.join(' ')).toContain('in the tank');
  }
});

test('a held cow whose group is not milked now is still printed', async () => {
  const [first] = RICH.sheets['milk-hold'].held.slice(1);
  if (first === undefined) throw new Error('The example has a held cow');
  const sheet = { ...RICH.sheets['milk-hold'], held: [{ ...first, cow: '999', group: 'Nowhere' }], groups: [] };
  const { text } = await readPdf(
    await renderSheet('milk-hold', { ...RICH, sheets: { ...RICH.sheets, 'milk-hold': sheet } }, MARKS),
  );
  expect(text).toContain('999');
  expect(text).toContain('Nowhere: 1 on hold');
});

test('a row taller than a page becomes parts that each carry the number, and no word of it is lost', async () => {
  const [row] = herdOf(1, true).sheets['milk-hold'].held;
  if (row === undefined) throw new Error('The example has a held cow');
  const person = row.reasons[1];
  if (person?.key !== 'hold.set-by-person') throw new Error('The second reason is a person’s');
  const many = Array.from({ length: 12 }, (_, index) => ({
    ...person,
    values: { ...person.values, reason: `reason ${index + 1} begins ${'with many words '.repeat(25)} ends` },
  }));
  const views = herdOf(0);
  const made = {
    ...views,
    sheets: {
      ...views.sheets,
      'milk-hold': { ...views.sheets['milk-hold'], held: [{ ...row, cow: '777', reasons: many }] },
    },
  };
  const { pages, text } = await readPdf(await renderSheet('milk-hold', made, MARKS));
  checkPages(pages);
  const parts = Number(/part 1 of (\d+)/.exec(text)?.[1]);
  expect(parts).toBeGreaterThan(1);
  expect(tally(pages).get('777')).toBe(parts);
  const words = pages.flatMap(({ boxes }) => boxes.map((box) => box.text)).join(' ');
  expect(words.match(/begins/g)).toHaveLength(12);
  expect(words.match(/many/g)).toHaveLength(12 * 25);
  expect(words).not.toContain('…');
});

test('the tags of a page hold its heading, and each cow as a row of a table with her number at its head', async () => {
  const tags = await tagsOf(await renderSheet('milk-hold', RICH, MARKS));
  expect(tags.filter((tag) => tag === 'H1')).toHaveLength(1);
  // Two to find and the three cows on the first page, each of the latter under the table's row of titles.
  expect(tags.filter((tag) => tag === 'TR').length).toBeGreaterThanOrEqual(5);
  expect(tags.join(' ')).toContain('Table TR TH TD');
});
