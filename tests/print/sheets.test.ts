/** Never wrong on paper: read back from the PDF by a reader that knows nothing of how it was drawn. */
import { spawnSync } from 'node:child_process';
import { beforeAll, describe, expect, test } from 'vitest';
import { fontOf } from '../../print/faces.ts';
import { PRINTED_NAMES, renderSheet } from '../../print/sheets.ts';
import { CAPITAL } from '../../print/sizes.ts';
import type { Views } from '../../projections/views.ts';
import { sha256 } from '../../shared/fingerprint.ts';
import { CUPBOARD, dose, evening, farm, milker } from '../projections/evening.ts';
import { faultsOf, herdOf, MARKS, printed } from './printed.ts';

const SIZES = [0, 1, 40, 400] as const;
const herds = new Map<number, Views>();
beforeAll(() => {
  for (const size of SIZES) herds.set(size, herdOf(size));
});
const herd = (size: (typeof SIZES)[number]): Views => herds.get(size) ?? herdOf(size);

/** Millimetres of a capital or figure set in so many points. */
const capital = (points: number): number => (points * CAPITAL * 25.4) / 72;

describe('every sheet', () => {
  test.each(SIZES.flatMap((size) => PRINTED_NAMES.map((sheet) => [sheet, size] as const)))(
    '%s of a herd of %i: no text leaves the page or lies over another, and every page counts itself',
    async (sheet, size) => {
      const { pages } = await printed(sheet, herd(size));
      pages.forEach((page, index) => {
        expect(faultsOf(page)).toEqual([]);
        expect(page.lines.join('\n')).toContain(`Page ${index + 1} of ${pages.length}`);
        expect(page.lines.join('\n')).toContain('Only for Saturday 14 March 2026, afternoon 16:30');
      });
    },
  );

  test('the milk-hold sheet of 4,000 cows stands on its pages like any other, and loses no cow', {
    timeout: 120_000,
  }, async () => {
    const views = herdOf(4_000);
    const { pages } = await printed('milk-hold', views);
    for (const page of pages) expect(faultsOf(page)).toEqual([]);
    const large = pages.flatMap((page) => page.boxes.filter(({ size }) => capital(size) >= 8.73));
    const shown = new Set(large.map(({ text }) => text));
    const lost = views.sheets['milk-hold'].held.filter(({ cow }) => !shown.has(cow));
    expect(views.sheets['milk-hold'].held.length).toBeGreaterThan(1_300);
    expect(lost.map(({ cow }) => cow)).toEqual([]);
  });

  test.each(
    (['A4', 'Letter'] as const).flatMap((paper) => [
      [paper, 'of ten characters', 8.73] as const,
      [paper, 'of up to four figures', 8.73] as const,
    ]),
  )('on %s, cow numbers %s are at least %f mm high', async (paper, characters, least) => {
    const views = herdOf(40, { paper }, characters === 'of ten characters');
    for (const sheet of ['milk-hold', 'sort'] as const) {
      const { pages } = await printed(sheet, views);
      const large = new Set(
        pages.flatMap((page) => page.boxes.filter(({ size }) => capital(size) >= least).map(({ text }) => text)),
      );
      const rows = sheet === 'sort' ? views.sheets.sort.cows : views.sheets['milk-hold'].held;
      expect(rows.length).toBeGreaterThan(2);
      expect(rows.map(({ cow }) => cow).filter((cow) => !large.has(cow))).toEqual([]);
    }
  });

  test('all that the crew act on is at least 3.5 mm high; only the foot is smaller', async () => {
    for (const sheet of PRINTED_NAMES.filter((name) => name !== 'office' && name !== 'beef-hold')) {
      const { pages } = await printed(sheet, herd(40));
      for (const page of pages) {
        const foot =
          page.boxes.filter(({ text }) => text.includes('When unsure')).map(({ baseline }) => baseline)[0] ??
          page.height;
        const small = page.boxes.filter(({ size, baseline }) => baseline < foot - 20 && capital(size) < 3.5 - 1e-6);
        expect(small.map(({ text }) => text)).toEqual([]);
      }
    }
  });

  test.each(['milk-hold', 'sort', 'beef-hold'] as const)(
    '%s: no row is split, each page says how many rows it has, and no heading stands alone at a foot',
    async (sheet) => {
      const { pages } = await printed(sheet, herdOf(400, {}, false));
      let rows = 0;
      let all = 0;
      for (const page of pages) {
        const said = /lines on this page: (\d+) of (\d+)/.exec(page.lines.join('\n'));
        const numbers = page.boxes.filter(({ x, size, text }) => x < 60 && capital(size) > 4 && /^\d{1,4}$/.test(text));
        const foot = page.boxes.find(({ text }) => text.startsWith('When unsure'))?.baseline ?? page.height;
        const last = page.boxes
          .filter(({ baseline }) => baseline < foot - 12)
          .sort((a, b) => a.baseline - b.baseline)
          .at(-1);
        rows += Number(said?.[1]);
        all = Number(said?.[2]);
        // The total in its frame begins with a figure too.
        expect([Number(said?.[1]), Number(said?.[1]) + 1]).toContain(numbers.length);
        expect(last?.text).not.toMatch(/on hold \(continued\)|: \d+ on hold$|^(cow|why|medicine|where to)$/);
      }
      expect(rows).toBe(all);
    },
  );

  test('the capital height that sizes are worked out with is the one in the faces', () => {
    for (const face of ['letters', 'letters-bold', 'figures', 'figures-bold'] as const) {
      const font = fontOf(face);
      expect(font.capHeight / font.unitsPerEm).toBeGreaterThanOrEqual(CAPITAL - 1e-9);
    }
  });

  test('figures are of one width, and 1 I l, 0 O, 6 8 are different shapes', () => {
    const font = fontOf('figures-bold');
    const widths = new Set(
      [...'0123456789'].map((figure) => font.glyphForCodePoint(figure.codePointAt(0) ?? 0).advanceWidth),
    );
    expect(widths.size).toBe(1);
    const outline = (letter: string): string => font.glyphForCodePoint(letter.codePointAt(0) ?? 0).path.toSVG();
    expect(new Set([...'1Il0O68'].map(outline)).size).toBe(7);
  });
});

describe('what must be said', () => {
  test('an empty list is a sentence, and each group without a cow on hold is named', async () => {
    const { text } = await printed('milk-hold', herd(0));
    expect(text.replace(/\s+/g, ' ')).toContain('No cow is on milk hold at this milking.');
    for (const group of ['Cows', 'Heifers', 'Fresh', 'Hospital']) expect(text).toContain(`${group}: none on hold`);
    for (const [sheet, sentence] of [
      ['dry-off', 'No cow is due'],
      ['sort', 'No cow is to be sorted'],
      ['beef-hold', 'No cow is on meat hold'],
    ] as const) {
      expect((await printed(sheet, herd(0))).text).toContain(sentence);
    }
  });

  test('R-25 where numbers are still to be found, nothing on the sheet says that nobody is on hold', async () => {
    const views = evening([farm(), milker('1'), dose('99', '2026-03-14T05:40:00Z')]).at('2026-03-14/afternoon');
    expect(views.sheets['milk-hold'].held).toEqual([]);
    for (const [language, sentence] of [
      ['en', 'the cows above are still to be found'],
      ['es', 'faltan por encontrar las de arriba'],
      ['fr', 'restent à trouver'],
      ['pl', 'trzeba jeszcze znaleźć'],
      ['uk', 'ще треба знайти'],
    ] as const) {
      const { text } = await printed('milk-hold', { ...views, farm: { ...views.farm, languages: [language] } });
      expect(text.replace(/\s+/g, ' ')).toContain(sentence);
    }
  });

  test('R-14 the office sees each hold without an end, and by what it is without one', async () => {
    const book = evening([
      farm(),
      ...CUPBOARD,
      milker('1'),
      milker('2', { milkHoldUntil: 'unknown' }),
      milker('3'),
      dose('1', '2026-03-14T05:40:00Z', { medicine: 'Nobody knows it' }),
      dose('3', '2026-03-14T05:40:00Z'),
    ]);
    const text = (await printed('office', book.at('2026-03-14/afternoon'))).text.replace(/\s+/g, ' ');
    const open = text.slice(text.indexOf('On hold until somebody says more'), text.indexOf('Sets not'));
    expect(open).toContain('Nobody knows it');
    expect(open).toContain('without a word on milk hold');
    expect(open).not.toContain('Sixty hours');
    const free = evening([farm(), milker('1')]).at('2026-03-14/afternoon');
    expect((await printed('office', free)).text).toContain('No other cow is on hold without a known end');
  });

  test('the wall says how many in all, what to do in doubt, whom to ring, and the cautions', async () => {
    const { text } = await printed('milk-hold', herd(40));
    expect(text).toContain('14 cows: milk out of the tank');
    for (const said of [
      'Take the old sheet down',
      'STOP milking into it',
      'Łukasz, herd manager',
      'NEW',
      'in the tank from',
      'When unsure: milk out of the tank',
      'Written by hand since printing',
    ])
      expect(text).toContain(said);
  });

  test('nothing is cut off with dots: the longest reason stands whole', async () => {
    const { text } = await printed('sort', herd(40));
    expect(text.replace(/\s+/g, ' ')).toContain('warm to the hand');
    expect(text).not.toContain('…');
  });

  test('a rehearsal says so on every page, and a set that replaces another names it', async () => {
    const { pages } = await printed('milk-hold', herd(40), { ...MARKS, rehearsal: true, replaces: 'XYWT-3479-H' });
    for (const page of pages) expect(page.lines.join(' ')).toContain('REHEARSAL');
    expect(pages[0]?.lines.join(' ')).toContain('XYWT-3479-H');
  });

  test('each page carries ref, book, position and 32 digits of the root', async () => {
    const { pages } = await printed('milk-hold', herd(40));
    for (const page of pages) {
      const said = page.lines.join(' ').replace(/\s+/g, ' ');
      for (const mark of [MARKS.ref ?? '', 'position 1841', MARKS.root.slice(0, 32)]) expect(said).toContain(mark);
    }
  });

  test('the document has a title, a language and a tagged structure', async () => {
    const read = await printed('milk-hold', herd(1));
    expect([read.language, read.tagged, String(read.info.Title)]).toEqual([
      'en-GB',
      true,
      expect.stringContaining('Milk hold'),
    ]);
  });
});

describe('same view, same bytes', () => {
  test('twice in one process, and once more in another', async () => {
    const views = herd(40);
    const hashes: string[] = [];
    for (const sheet of PRINTED_NAMES) hashes.push(sha256(await renderSheet(sheet, views, MARKS)));
    const again: string[] = [];
    for (const sheet of PRINTED_NAMES) again.push(sha256(await renderSheet(sheet, views, MARKS)));
    expect(again).toEqual(hashes);
    const script = `
      import { herdOf, MARKS } from './tests/print/printed.ts';
      import { PRINTED_NAMES, renderSheet } from './print/sheets.ts';
      import { sha256 } from './shared/fingerprint.ts';
      const views = herdOf(40);
      for (const sheet of PRINTED_NAMES) console.log(sha256(await renderSheet(sheet, views, MARKS)));
    `;
    const other = spawnSync(process.execPath, ['--import', 'tsx', '--input-type=module', '-e', script], {
      encoding: 'utf8',
      env: { ...process.env, TZ: 'Pacific/Apia', LC_ALL: 'C' },
    });
    expect(other.stdout.trim().split('\n')).toEqual(hashes);
  });

  test('two sheets with other rows are two documents', async () => {
    expect(sha256(await renderSheet('milk-hold', herd(1), MARKS))).not.toBe(
      sha256(await renderSheet('milk-hold', herd(40), MARKS)),
    );
  });
});
