/** Lines written fast are the lines that PDFKit itself writes, and no paper is changed by what was drawn before it. */
import { fc, test } from '@fast-check/vitest';
import PDFDocument from 'pdfkit';
import { describe, expect, vi } from 'vitest';
import { embeddable } from '../../print/embedding.ts';
import { FACES, fontOf, openedAnew, scaleOf } from '../../print/faces.ts';
import { letteringOn } from '../../print/lettering.ts';
import { type Line, lineOf, textWidth, wrap } from '../../print/lines.ts';
import { sha256 } from '../../shared/fingerprint.ts';
import { keptBy } from '../../shared/kept.ts';
import { herdOf, MARKS } from './printed.ts';

/** Letters of the five languages and others, ligatures, marks that stand on a letter, signs that no face has. */
const TEXT = fc
  .array(
    fc.constantFrom(
      ...'AVTo17 -.;fiffi→ŁóżéñœПривітїЇNguyễnß·“”µμΩ',
      'q\u0301',
      'и\u0301',
      'e\u0302\u0323',
      'j\u0301',
      'i\u0328\u0301',
      '\u00ad',
      'ﬁ',
      '🐄',
      '\n',
    ),
    {
      minLength: 1,
      maxLength: 24,
    },
  )
  .map((characters) => characters.join(''));

/** Narrower than the line that it stands on. */
const WORD = fc.stringMatching(/^[A-Za-z0-9Łóąї.,;-]{1,12}$/).map((word) => word.normalize('NFC'));

interface Said {
  readonly text: string;
  readonly bold: boolean;
  readonly size: number;
}
const lineSaid = ({ text, ...style }: Said): Line => lineOf(text, style);

const openDocument = (): PDFKit.PDFDocument =>
  new PDFDocument({ size: 'A4', margin: 0, compress: false, info: { CreationDate: new Date(0) } });

const bytesOf = (doc: PDFKit.PDFDocument): Promise<Buffer> =>
  new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    doc.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    doc.on('end', () => resolve(Buffer.concat(chunks)));
    doc.on('error', reject);
    doc.end();
  });

const writtenHere = (said: readonly Said[]): Promise<Buffer> => {
  const doc = openDocument();
  for (const face of FACES) doc.registerFont(face, embeddable(face));
  const letter = letteringOn(doc);
  for (const [index, each] of said.entries()) letter(lineSaid(each), each.size, 30.5, 40 + 31.7 * index);
  return bytesOf(doc);
};

/** With fonts that no other document has used, and PDFKit's own `text`. */
const writtenByPdfKit = (said: readonly Said[]): Promise<Buffer> => {
  const doc = openDocument();
  for (const face of FACES) doc.registerFont(face, openedAnew(face));
  for (const [index, each] of said.entries()) {
    let at = 30.5;
    for (const { face, text, width } of lineSaid(each).runs) {
      doc
        .font(face)
        .fontSize(each.size * scaleOf(face))
        .text(text, at, 40 + 31.7 * index, { lineBreak: false, baseline: 'alphabetic' });
      at += width;
    }
  }
  return bytesOf(doc);
};

describe('a line', () => {
  test.prop(
    [fc.array(fc.record({ text: TEXT, bold: fc.boolean(), size: fc.constantFrom(8, 14.9, 37.1) }), { maxLength: 20 })],
    { numRuns: 60, seed: 26 },
  )('is written byte for byte as PDFKit itself writes it, whatever was written before', async (said) => {
    expect((await writtenHere(said)).toString('latin1')).toBe((await writtenByPdfKit(said)).toString('latin1'));
  });

  test.prop([fc.array(TEXT, { minLength: 2, maxLength: 12 }), fc.boolean()], { numRuns: 200, seed: 27 })(
    'is never wider than its words measured one by one',
    (words, bold) => {
      const style = { size: 20, bold };
      const apart = words.map((word, index) => textWidth(index === 0 ? word : ` ${word}`, style));
      expect(textWidth(words.join(' '), style)).toBeLessThan(apart.reduce((sum, each) => sum + each, 0) + 0.001);
    },
  );

  test.prop([fc.array(WORD, { minLength: 2, maxLength: 40 }), fc.boolean()], { numRuns: 200, seed: 28 })(
    'takes every word that it has room for',
    (words, bold) => {
      const [style, width] = [{ size: 14.9, bold }, 260];
      const lines = wrap(words.join(' '), style, width).map(({ runs }) => runs.map(({ text }) => text).join(''));
      for (const [index, line] of lines.slice(0, -1).entries()) {
        const next = lines[index + 1]?.split(' ')[0] ?? '';
        expect(textWidth(`${line} ${next}`, style)).toBeGreaterThan(width);
      }
    },
  );

  test('letters and signs of plain English stand in the letter face, its figures in the figure face', () => {
    for (let code = 0x20; code < 0x7f; code += 1) {
      for (const face of ['letters', 'letters-bold', 'figures', 'figures-bold'] as const)
        expect(fontOf(face).hasGlyphForCodePoint(code), `${face} ${String.fromCodePoint(code)}`).toBe(true);
    }
  });
});

describe('no paper is changed by what was drawn before it', () => {
  const oddly = 'Ölü µ μ Ω - \u2010 \u2011 e\u0301 q\u0301 i\u0301 ﬁ fi Nguyễn и\u0301 j\u0301 ȷ ı 🐄';
  const herds = [
    herdOf(40, { name: oddly, languages: ['uk', 'pl'] }),
    herdOf(60, { languages: ['en', 'es'] }),
    herdOf(20, { name: [...oddly].reverse().join(''), paper: 'Letter', languages: ['fr'] }),
  ];

  /** Hashes of the wall set of each herd, drawn in that order by a program that has drawn nothing yet. */
  const drawn = async (order: readonly number[]): Promise<Map<number, string[]>> => {
    vi.resetModules();
    const { renderWall } = await import('../../print/sheets.ts');
    const hashes = new Map<number, string[]>();
    for (const index of order) {
      const views = herds[index];
      if (views === undefined) throw new Error('There is no such herd');
      hashes.set(index, [...(hashes.get(index) ?? []), sha256(await renderWall(views, MARKS))]);
    }
    return hashes;
  };

  test('wall sets have the same bytes in either order, and when they are drawn again', async () => {
    const first = await drawn([0, 1, 2]);
    expect(new Set([...first.values()].flat()).size).toBe(3);
    for (const [order, twice] of [
      [[2, 1, 0], false],
      [[1, 0, 1, 2, 0, 2], true],
    ] as const) {
      const again = await drawn(order);
      for (const [index, [hash]] of first) {
        expect(again.get(index)).toEqual(twice ? [hash, hash] : [hash]);
      }
    }
  });

  test('what is remembered is bounded, and worked out again once it was forgotten', () => {
    let made = 0;
    const remembered = keptBy<string, number>(3);
    const lengthOf = (word: string): number =>
      remembered(word, () => {
        made += 1;
        return word.length;
      });
    expect(['a', 'bb', 'a', 'ccc', 'bb'].map(lengthOf)).toEqual([1, 2, 1, 3, 2]);
    expect(made).toBe(3);
    expect(['dddd', 'a', 'dddd'].map(lengthOf)).toEqual([4, 1, 4]);
    expect(made).toBe(5);
  });
});
