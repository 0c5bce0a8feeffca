/**
 * A bad printer and a bad copier: the wall sheet in pure black and white at 150 dots an inch, shrunk to 94 %, and every cow
 * number on it still read right by a machine that has only the picture (tesseract, one line, digits only), and the
 * checkpoint's code by one that reads codes (zbarimg).
 */
import { execFileSync, spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { renderWall } from '../../print/sheets.ts';
import { MARKS } from '../print/printed.ts';
import { readPdf, type TextBox } from '../print/read-pdf.ts';
import { CUPBOARD, dose, evening, farm, milker } from '../projections/evening.ts';

const DPI = Math.round(150 * 0.94);
const PIXELS = DPI / 72;

/** Figures that are easily taken for one another, alone and side by side. */
const NUMBERS = [
  '1',
  '7',
  '4',
  '6',
  '8',
  '9',
  '0',
  '11',
  '17',
  '71',
  '69',
  '96',
  '68',
  '86',
  '88',
  '80',
  '08',
  '111',
  '117',
  '171',
  '608',
  '680',
  '806',
  '868',
  '386',
  '338',
  '833',
  '569',
  '659',
  '956',
  '1711',
  '1177',
  '6088',
  '8066',
  '3568',
  '5386',
  '9966',
  '4417',
];

let folder = '';
beforeAll(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'byrebook-'));
});
afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

const picture = (file: string, page: number, box: TextBox): string => {
  const pad = 10;
  const cut = [
    ['-x', box.x - pad],
    ['-y', box.baseline - box.size * 0.75 - pad],
    ['-W', box.width + 2 * pad],
    ['-H', box.size * 0.8 + 2 * pad],
  ].flatMap(([option, points]) => [String(option), String(Math.round(Number(points) * PIXELS))]);
  const stem = path.join(folder, `${page}-${Math.round(box.x)}-${Math.round(box.baseline)}`);
  execFileSync('pdftoppm', [
    '-r',
    String(DPI),
    '-mono',
    '-f',
    String(page),
    '-l',
    String(page),
    '-singlefile',
    ...cut,
    file,
    stem,
  ]);
  return `${stem}.pbm`;
};

const read = (image: string): string => {
  const made = spawnSync('tesseract', [image, '-', '--psm', '7', '-c', 'tessedit_char_whitelist=0123456789'], {
    encoding: 'utf8',
  });
  if (made.error !== undefined) throw made.error;
  return made.stdout.trim();
};

test('every cow number on a shrunken black-and-white copy of the wall sheet is read right', async () => {
  const cows = NUMBERS.flatMap((cow) => [milker(cow), dose(cow, '2026-03-14T05:40:00Z')]);
  const views = evening([farm(), ...CUPBOARD, ...cows]).at('2026-03-14/afternoon');
  const bytes = await renderWall(views, MARKS);
  const file = path.join(folder, 'wall.pdf');
  fs.writeFileSync(file, bytes);
  const { pages } = await readPdf(bytes);
  const held = new Set(views.sheets['milk-hold'].held.map(({ cow }) => cow));
  const found = pages.flatMap((page, index) =>
    page.boxes
      .filter(({ text, x, size }) => x < 60 && size > 25 && held.has(text))
      .map((box) => ({ page: index + 1, box })),
  );
  expect(new Set(found.map(({ box }) => box.text))).toEqual(held);
  const wrong = found
    .map(({ page, box }) => ({ printed: box.text, seen: read(picture(file, page, box)) }))
    .filter(({ printed, seen }) => printed !== seen);
  expect(wrong).toEqual([]);
});

test('the code on a shrunken black-and-white copy holds the signed checkpoint, to the byte', async () => {
  const checkpoint = [
    'byrebook/0190b6d2-0000-7000-8000-00000000b00c',
    '1841',
    'Xcnaeacg1mpVZy3Ad7Zoqudgjqi9JYM/jcO/0YEMyg4=',
    '',
    `— byrebook/0190b6d2-0000-7000-8000-00000000b00c ${'Ab+/'.repeat(22)}AAAA`,
    '',
  ].join('\n');
  const views = evening([farm(), ...CUPBOARD, milker('412')]).at('2026-03-14/afternoon');
  const stem = path.join(folder, 'code');
  fs.writeFileSync(`${stem}.pdf`, await renderWall(views, { ...MARKS, checkpoint }));
  execFileSync('pdftoppm', ['-r', String(DPI), '-mono', '-f', '1', '-l', '1', '-singlefile', `${stem}.pdf`, stem]);
  const seen = execFileSync('zbarimg', ['--raw', '--quiet', '-Sdisable', '-Sqrcode.enable', `${stem}.pbm`], {
    encoding: 'utf8',
    // zbarimg tells of a missing message bus, which it does not need.
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  expect(seen).toBe(`${checkpoint}\n`);
});
