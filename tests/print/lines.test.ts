/** Breaking text into lines: nothing is lost, no line is too wide, and a date is not torn from its time. */
import { fc, test } from '@fast-check/vitest';
import { describe, expect } from 'vitest';
import { type Line, lineOf, wrap, wrapParts } from '../../print/lines.ts';
import { TEXT } from '../../print/sizes.ts';

const STYLE = { size: TEXT };
const said = (line: Line): string => line.runs.map(({ text }) => text).join('');
const letters = fc.stringMatching(/^[A-Za-z0-9ŁóąПривіт.,:;?-]{1,30}$/);

describe('lines', () => {
  test.prop([fc.array(letters, { minLength: 1, maxLength: 40 }), fc.integer({ min: 60, max: 500 })], {
    numRuns: 200,
    seed: 14,
  })('every character stands on some line, in order, and no line is wider than its room', (words, width) => {
    const lines = wrap(words.join(' '), STYLE, width);
    expect(lines.map(said).join('').replaceAll(' ', '')).toBe(words.join('').normalize('NFC'));
    for (const line of lines) expect(line.width).toBeLessThanOrEqual(width + 0.001);
  });

  test('a date stays with its time on one line', () => {
    const date = 'Sun\u00a029\u00a0Mar\u00a005:20';
    for (let width = 140; width < 320; width += 7) {
      const lines = wrap(`right hind; last dose ${date}; milk to the slurry`, STYLE, width).map(said);
      expect(lines.filter((line) => line.includes('Sun 29 Mar 05:20'))).toHaveLength(1);
    }
  });

  test('where the line cannot hold a date and its time, they part at a space, not inside a word', () => {
    expect(wrap('Sun\u00a029\u00a0Mar\u00a005:20', STYLE, 90).map(said)).toEqual(['Sun 29 Mar', '05:20']);
  });

  test('two weights in one paragraph keep their order and their words', () => {
    const parts = [
      { text: 'Treated: Amoxicillin, udder;', bold: true },
      { text: 'left front; last dose this morning', bold: false },
    ];
    const lines = wrapParts(parts, STYLE, 150);
    expect(lines.map(said).join(' ')).toBe('Treated: Amoxicillin, udder; left front; last dose this morning');
    expect(lines[0]?.runs.every(({ face }) => face.endsWith('bold'))).toBe(true);
    expect(lines.at(-1)?.runs.some(({ face }) => face.endsWith('bold'))).toBe(false);
  });

  test('the empty text is one empty line', () => {
    expect(wrap('', STYLE, 100)).toHaveLength(1);
    expect(lineOf('', STYLE).width).toBe(0);
  });
});
