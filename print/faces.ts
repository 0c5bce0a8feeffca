/**
 * The embedded type faces, measured with the same shaping that PDFKit draws with.
 * Letters: Atkinson Hyperlegible Next, which keeps 1 I l, 0 O and 6 8 apart. Figures: its Mono, where all are of one width.
 * Letters that neither has (Cyrillic, Vietnamese): DejaVu Sans Condensed, set smaller so that its capitals are as high.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { create, type Font } from 'fontkit';

export const FACES = ['letters', 'letters-bold', 'figures', 'figures-bold', 'others', 'others-bold'] as const;
export type Face = (typeof FACES)[number];

const ATKINSON = '@expo-google-fonts/atkinson-hyperlegible';
const FILES: Readonly<Record<Face, string>> = {
  letters: `${ATKINSON}-next/400Regular/AtkinsonHyperlegibleNext_400Regular.ttf`,
  'letters-bold': `${ATKINSON}-next/700Bold/AtkinsonHyperlegibleNext_700Bold.ttf`,
  figures: `${ATKINSON}-mono/400Regular/AtkinsonHyperlegibleMono_400Regular.ttf`,
  'figures-bold': `${ATKINSON}-mono/700Bold/AtkinsonHyperlegibleMono_700Bold.ttf`,
  others: 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf',
  'others-bold': 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf',
};

/** 0.668 (Atkinson's capitals) over 0.729 (DejaVu's). */
const OTHERS_SCALE = 0.668 / 0.729;

export const scaleOf = (face: Face): number => (face.startsWith('others') ? OTHERS_SCALE : 1);

const require = createRequire(import.meta.url);
const opened = new Map<Face, { readonly bytes: Buffer; readonly font: Font }>();

const open = (face: Face) => {
  const have = opened.get(face);
  if (have !== undefined) return have;
  const bytes = readFileSync(require.resolve(FILES[face]));
  const font = create(bytes);
  if (!('layout' in font)) throw new Error(`${FILES[face]} holds several fonts; one is wanted`);
  const made = { bytes, font };
  opened.set(face, made);
  return made;
};

/** The font file's bytes, for embedding. */
export const fontFile = (face: Face): Buffer => open(face).bytes;

/** The font itself, for tests that read its metrics. */
export const fontOf = (face: Face): Font => open(face).font;

/** A stretch of text in one face. */
export interface Run {
  readonly face: Face;
  readonly text: string;
}

const faceOf = (character: string, bold: boolean): Face => {
  if (/[0-9]/.test(character)) return bold ? 'figures-bold' : 'figures';
  const letters: Face = bold ? 'letters-bold' : 'letters';
  if (fontOf(letters).hasGlyphForCodePoint(character.codePointAt(0) ?? 0)) return letters;
  return bold ? 'others-bold' : 'others';
};

/** Figures in the figure face, letters in the letter face, the rest in the face that has them; combining marks stay with their letter. */
export const runsOf = (text: string, bold: boolean, figuresOnly = false): Run[] => {
  const runs: { face: Face; text: string }[] = [];
  for (const character of clusters(text.normalize('NFC'))) {
    const face = figuresOnly ? (bold ? 'figures-bold' : 'figures') : faceOf(character, bold);
    const last = runs.at(-1);
    const joins = last?.face === face || (character === ' ' && last?.face.startsWith('others'));
    if (last !== undefined && joins) last.text += character;
    else runs.push({ face, text: character });
  }
  return runs;
};

const segmenter = new Intl.Segmenter('en', { granularity: 'grapheme' });
const PLAIN = /^[\x20-\x7e]*$/;
const clusters = (text: string): Iterable<string> =>
  PLAIN.test(text) ? text : Array.from(segmenter.segment(text), (each) => each.segment);

const widths = new Map<string, number>();

/** Width of a run at that type size, in points. */
export const runWidth = (run: Run, size: number): number => {
  const scaled = size * scaleOf(run.face);
  let sum = 0;
  for (const word of run.text.split(/(?<= )/)) {
    const key = `${run.face} ${word}`;
    let width = widths.get(key);
    if (width === undefined) {
      const { font } = open(run.face);
      width = font.layout(word).advanceWidth / font.unitsPerEm;
      widths.set(key, width);
    }
    sum += width * scaled;
  }
  return sum;
};
