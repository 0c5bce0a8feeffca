/** What the wall says of a held cow: each medicine once, one place for her milk, the milking from which the tank may have it. */
import { describe, expect, test } from 'vitest';
import { groundsOf, milkPlace } from '../../print/grounds.ts';
import { renderSheet } from '../../print/sheets.ts';
import { speechFor } from '../../print/speech.ts';
import { because } from '../../projections/because.ts';
import type { HeldRow, HoldReason, Views } from '../../projections/views.ts';
import { EMPTY, fresh, heldRow, MARKS, notListed, RICH, treated } from './example-views.ts';
import { readPdf } from './read-pdf.ts';

const MILK_TO = { treated: 'slurry', fresh: 'calves', abnormal: 'slurry by hand' };
const caused = (cause: HoldReason['cause']): HoldReason => ({ ...fresh, cause });

describe('where the milk goes', () => {
  test.each([
    [['fresh'], 'calves'],
    [['treated', 'fresh'], 'slurry'],
    [['fresh', 'treated'], 'slurry'],
    [['abnormal'], 'slurry by hand'],
    [['abnormal', 'fresh'], 'slurry by hand'],
    [['unknown', 'fresh'], null],
    [['dry', 'fresh'], null],
    [['unknown', 'treated'], 'slurry'],
  ] as const)('a cow held as %j sends her milk to %s', (causes, place) => {
    expect(milkPlace(MILK_TO, causes.map(caused))).toBe(place);
  });
});

const [voice] = speechFor(['en'], EMPTY).voices;
if (voice === undefined) throw new Error('English is spoken');

describe('why she is held', () => {
  test('a medicine given twice stands once, with the later dose and both quarters', () => {
    const first = { ...treated('Amoxicillin, udder', ['left-front']), lastDose: '2026-03-13T05:10:00Z' };
    const second = { ...treated('Amoxicillin, udder', ['right-hind']), lastDose: '2026-03-14T05:10:00Z' };
    for (const reasons of [
      [first, second],
      [second, first],
    ]) {
      expect(groundsOf(voice, reasons)).toMatchObject([
        { words: ['Amoxicillin, udder'], lastDose: '2026-03-14T05:10:00Z' },
      ]);
      expect(new Set(groundsOf(voice, reasons)[0]?.quarters)).toEqual(new Set(['left-front', 'right-hind']));
    }
  });

  test('R-17 what is doubtful of a medicine is said beside it, not hidden by its other dose', () => {
    const missing: HoldReason = {
      ...because('R-17', 'hold.dose-not-recorded', { medicine: 'Amoxicillin, udder', dose: 3, of: 3, due: null }, [
        'x',
      ]),
      cause: 'treated',
      until: null,
    };
    const [ground] = groundsOf(voice, [treated('Amoxicillin, udder'), missing]);
    expect(ground?.words).toEqual(['Amoxicillin, udder', 'dose 3 of 3 not written down: was it given?']);
  });

  test('two medicines and a calving stand apart', () => {
    const grounds = groundsOf(voice, [treated(), notListed, fresh]);
    expect(grounds.map(({ words }) => words[0]?.replaceAll('\u00a0', ' '))).toEqual([
      'Penicillin G procaine, udder',
      'Tylosin, injection',
      'calved Fri 13 Mar 22:10',
    ]);
  });
});

const wallOf = async (row: HeldRow, wish: Partial<Views['farm']> = {}): Promise<string> => {
  const sheet = { ...EMPTY.sheets['milk-hold'], held: [row], groups: [{ group: row.group, held: 1 }] };
  const views = { ...EMPTY, farm: { ...EMPTY.farm, ...wish }, sheets: { ...EMPTY.sheets, 'milk-hold': sheet } };
  const { pages } = await readPdf(await renderSheet('milk-hold', views, MARKS));
  return pages
    .flatMap(({ boxes }) => boxes.map(({ text }) => text))
    .join(' ')
    .replace(/\s+/g, ' ');
};

describe('the row', () => {
  test('R-10 names the milking from which her milk may go in the tank by day and name, and the milkings left', async () => {
    const text = await wallOf(heldRow('233', 'Cows'));
    for (const said of ['Tue 17 Mar', 'morning', '5 milkings left']) expect(text).toContain(said);
  });

  test('the last milking out is called that, not "1 milkings left"', async () => {
    expect(await wallOf({ ...heldRow('233', 'Cows'), milkingsLeft: 1 })).toContain('this milking only');
  });

  test('R-14 without an end it says KEEP OUT and to ask, and names no milking', async () => {
    const text = await wallOf(heldRow('274', 'Cows', [notListed]));
    expect(text).toContain('KEEP OUT');
    expect(text).not.toContain('milkings left');
  });

  test('R-24 a dry cow among the milkers is kept out whatever end her other holds have', async () => {
    const text = await wallOf({ ...heldRow('438', 'Cows'), dryInMilkedGroup: true });
    expect(text).toContain('Dry cow among the milkers');
    expect(text).toContain('KEEP OUT. She is dry');
    expect(text).not.toContain('Tue 17 Mar');
  });

  test('R-04 an entry inside this milking asks whether she was milked first', async () => {
    expect(await wallOf({ ...heldRow('233', 'Cows'), ask: true })).toContain('ask whether she was milked first');
  });

  test('the quarter stands in words, with a plan of the udder beside it', async () => {
    const text = await wallOf(heldRow('233', 'Cows', [treated('Amoxicillin, udder', ['right-rear'])]));
    for (const said of ['right rear', 'front', 'L', 'R']) expect(text).toContain(said);
    expect(await wallOf(heldRow('512', 'Cows', [fresh]))).not.toContain('front');
  });

  test('in two languages each reason is said in both', async () => {
    const text = await wallOf(heldRow('512', 'Fresh', [fresh]), { languages: ['en', 'es'] });
    for (const said of ['Fresh: calved', 'Recién parida: parió']) expect(text).toContain(said);
  });
});

test('R-05 a cow free within the hour before the start says from when, and R-26 a struck entry takes no band off', async () => {
  const { text } = await readPdf(await renderSheet('milk-hold', RICH, MARKS));
  expect(text).toContain('not before 16:05');
  expect(text).toContain('ask before the band comes off');
});
