/** Five languages, one dictionary type: every word there, every letter in the faces, plurals as each language has them. */
import { describe, expect, test } from 'vitest';
import { ENTRY_TYPES } from '../../events/kinds.ts';
import { FACES, fontOf } from '../../print/faces.ts';
import { PRINTED_NAMES } from '../../print/sheets.ts';
import { formatFor } from '../../print/words/format.ts';
import { isSpoken, LANGUAGES, wordsFor } from '../../print/words.ts';
import { LANGUAGES as KNOWN } from '../../projections/notices.ts';
import { mustBe } from '../../shared/refusal.ts';
import { parseZone } from '../../shared/zone.ts';
import { faultsOf, herdOf, printed } from './printed.ts';

const zone = mustBe(parseZone('Europe/Dublin'));
const formatOf = (language: string) => formatFor(wordsFor(language), { zone });

describe('languages', () => {
  test('the paper and the doubts know the same languages', () => {
    expect([...LANGUAGES].sort()).toEqual([...KNOWN].sort());
  });

  test.each(LANGUAGES)('in %s every plain label is said, and none has been left in English', (language) => {
    const english = wordsFor('en').labels;
    const labels = wordsFor(language).labels;
    const same = Object.entries(labels).filter(
      ([key, label]) => typeof label === 'string' && label === english[key as keyof typeof english],
    );
    for (const label of Object.values(labels)) if (typeof label === 'string') expect(label.trim()).not.toBe('');
    // Words that two languages share: "position", "minutes", "initials" …
    if (language !== 'en') expect(same.length).toBeLessThan(6);
  });

  test.each(LANGUAGES)('in %s every kind of entry has a name', (language) => {
    const { kinds } = wordsFor(language);
    expect(ENTRY_TYPES.filter((type) => kinds[type] === undefined)).toEqual([]);
  });

  test.each([
    ['en', ['1 cow', '2 cows', '5 cows', '22 cows']],
    ['es', ['1 vaca', '2 vacas', '5 vacas', '22 vacas']],
    ['fr', ['1 vache', '2 vaches', '5 vaches', '22 vaches']],
    ['pl', ['1 krowa', '2 krowy', '5 krów', '22 krowy']],
    ['uk', ['1 корова', '2 корови', '5 корів', '22 корови']],
  ])('in %s plurals follow the language', (language, expected) => {
    const { labels } = wordsFor(language);
    const format = formatOf(language);
    const said = [1, 2, 5, 22].map((count) =>
      labels
        .milkOut(count, format)
        .split(':')[0]
        ?.trim()
        .replace(/\u00a0/g, ' '),
    );
    expect(said).toEqual(expected);
  });

  test.each([
    ['en', 'Saturday'],
    ['es', 'sábado'],
    ['fr', 'samedi'],
    ['pl', 'sobota'],
    ['uk', 'субота'],
  ])('in %s the day is written out', (language, day) => {
    expect(formatOf(language).longDay('2026-03-14').toLowerCase()).toContain(day.toLowerCase());
  });

  test('the faces together have every letter of Łukasz, Íñigo, Ґанна, Nguyễn and of every dictionary', () => {
    const texts = LANGUAGES.flatMap((language) =>
      Object.values(wordsFor(language).labels).filter((label): label is string => typeof label === 'string'),
    );
    const letters = new Set([...['Łukasz Íñigo Ґанна Nguyễn', ...texts].join('')]);
    const missing = [...letters].filter(
      (letter) => !FACES.some((face) => fontOf(face).hasGlyphForCodePoint(letter.codePointAt(0) ?? 0)),
    );
    expect(missing).toEqual([]);
  });

  test.each(
    [['es'], ['fr'], ['pl'], ['uk'], ['en', 'uk'], ['pl', 'es'], ['en', 'es', 'fr']].map((languages) => [languages]),
  )('sheets in %j stand on the page like the English ones, and say nothing undefined', async (languages) => {
    const views = herdOf(40, { languages });
    for (const sheet of PRINTED_NAMES) {
      const { pages, text } = await printed(sheet, views);
      for (const page of pages) expect(faultsOf(page)).toEqual([]);
      expect(text).not.toMatch(/undefined|NaN|\[object/);
    }
  });

  test('a language without a dictionary prints in English', async () => {
    expect(isSpoken('tlh')).toBe(false);
    expect((await printed('sort', herdOf(1, { languages: ['tlh'] }))).text).toContain('Take the old sheet down');
  });
});
