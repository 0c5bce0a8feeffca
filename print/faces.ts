/**
 * The embedded type faces, measured with the same shaping that PDFKit draws with.
 * Letters: Atkinson Hyperlegible Next, which keeps 1 I l, 0 O and 6 8 apart. Figures: its Mono, where all are of one width.
 * Letters that neither has (Cyrillic, Vietnamese): DejaVu Sans Condensed, set smaller so that its capitals are as high.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { create, type Font } from 'fontkit';
import { keptBy } from '../shared/kept.ts';

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

/** A font that nobody else uses. */
export const openedAnew = (face: Face): Font => {
  const font = create(readFileSync(require.resolve(FILES[face])));
  if (!('layout' in font)) throw new Error(`${FILES[face]} holds several fonts; one is wanted`);
  return font;
};

const opened = keptBy<string, Font>(FACES.length);

/** The font that words are measured and shaped by. */
export const fontOf = (face: Face): Font => opened(face, () => openedAnew(face));

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
  const figures: Face = bold ? 'figures-bold' : 'figures';
  if (PLAIN.test(text)) {
    if (figuresOnly) return text === '' ? [] : [{ face: figures, text }];
    const letters: Face = bold ? 'letters-bold' : 'letters';
    return (text.match(FIGURES_OR_NONE) ?? []).map((some) => ({
      face: /^[0-9]/.test(some) ? figures : letters,
      text: some,
    }));
  }
  const runs: { face: Face; text: string }[] = [];
  for (const { segment } of segmenter.segment(text.normalize('NFC'))) {
    const face = figuresOnly ? figures : faceOf(segment, bold);
    const last = runs.at(-1);
    const joins = last?.face === face || (segment === ' ' && last?.face.startsWith('others'));
    if (last !== undefined && joins) last.text += segment;
    else runs.push({ face, text: segment });
  }
  return runs;
};

const segmenter = new Intl.Segmenter('en', { granularity: 'grapheme' });
/** Characters that the letter faces and the figure faces all have, each by itself: no other face is wanted for them. */
const PLAIN = /^[\x20-\x7e]*$/;
const FIGURES_OR_NONE = /[0-9]+|[^0-9]+/g;

const MOST_WORDS = 20_000;
const widths = keptBy<string, number>(MOST_WORDS);

/** Width of a run at that type size, in points. */
export const runWidth = ({ face, text }: Run, size: number): number => {
  const scaled = size * scaleOf(face);
  let sum = 0;
  for (let from = 0, to = 0; from < text.length; from = to) {
    to = text.indexOf(' ', from) + 1 || text.length;
    sum += wordWidth(face, text.slice(from, to)) * scaled;
  }
  return sum;
};

/** A word with the space behind it, in parts of the type size. */
const wordWidth = (face: Face, word: string): number =>
  widths(`${face} ${word}`, () => {
    const font = fontOf(face);
    return font.layout(word).advanceWidth / font.unitsPerEm;
  });
