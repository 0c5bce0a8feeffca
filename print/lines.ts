/** Text broken into lines that fit: at spaces, or inside a word too long for the line. Nothing is ever cut off. */
import { type Run, runsOf, runWidth } from './faces.ts';
import { remembering } from './remember.ts';

export interface Style {
  readonly size: number;
  readonly bold?: boolean;
  /** Letters too in the face of one width: for cow numbers. */
  readonly figures?: boolean;
}

export interface Line {
  readonly runs: readonly (Run & { readonly width: number })[];
  readonly width: number;
}

/** Most of a sheet says the same words again, and a paragraph is measured anew with each word that joins it. */
const MOST_LINES = 5_000;
const known = remembering<Line>(MOST_LINES);

export const lineOf = (text: string, { size, bold = false, figures = false }: Style): Line =>
  known(`${size} ${bold} ${figures} ${text}`, () => {
    // A space that held two words together is drawn as any other.
    const runs = runsOf(text.replaceAll('\u00a0', ' '), bold, figures).map((run) => ({
      ...run,
      width: runWidth(run, size),
    }));
    return { runs, width: runs.reduce((sum, run) => sum + run.width, 0) };
  });

export const textWidth = (text: string, style: Style): number => lineOf(text, style).width;

/** A stretch of a paragraph in one weight. */
export interface Part {
  readonly text: string;
  readonly bold: boolean;
}

/** At least one line, the empty text included. */
export const wrap = (text: string, style: Style, width: number): Line[] =>
  wrapParts([{ text, bold: style.bold ?? false }], style, width);

/** A paragraph of several weights, broken at spaces. */
export const wrapParts = (parts: readonly Part[], style: Style, width: number): Line[] => {
  const words = parts.flatMap(wordsOf);
  const whole = lineOfParts(words.reduce(further, []), style);
  if (whole.width <= width) return [whole];
  const lines: Line[] = [];
  let current: readonly Part[] = [];
  for (const word of words.flatMap((each) => partedToFit(each, style, width))) {
    const longer = further(current, word);
    if (lineOfParts(longer, style).width <= width) {
      current = longer;
      continue;
    }
    if (current.length > 0) lines.push(lineOfParts(current, style));
    let rest = word.text;
    while (textWidth(rest, { ...style, bold: word.bold }) > width) {
      const kept = longestFitting(rest, { ...style, bold: word.bold }, width);
      lines.push(lineOf(kept, { ...style, bold: word.bold }));
      rest = rest.slice(kept.length);
    }
    current = rest === '' ? [] : [{ text: rest, bold: word.bold }];
  }
  if (current.length > 0 || lines.length === 0) lines.push(lineOfParts(current, style));
  return lines;
};

/** One more word on a line, with a space of its own weight before it; neighbours of one weight are one text. */
const further = (line: readonly Part[], { text, bold }: Part): readonly Part[] => {
  const last = line.at(-1);
  if (last === undefined) return [{ text, bold }];
  const words = ` ${text}`;
  return last.bold === bold
    ? [...line.slice(0, -1), { text: last.text + words, bold }]
    : [...line, { text: words, bold }];
};

const wordsOf = ({ text, bold }: Part): Part[] =>
  text
    .split(/ +/)
    .filter((word) => word !== '')
    .map((word) => ({ text: word, bold }));

/** Words held together by unbreaking spaces come apart at these where the line cannot hold them. */
const partedToFit = (word: Part, style: Style, width: number): Part[] =>
  word.text.includes('\u00a0') && textWidth(word.text, { ...style, bold: word.bold }) > width
    ? word.text.split('\u00a0').map((text) => ({ text, bold: word.bold }))
    : [word];

const lineOfParts = (parts: readonly Part[], style: Style): Line => {
  const lines = parts.map(({ text, bold }) => lineOf(text, { ...style, bold }));
  const [only] = lines;
  if (lines.length === 1 && only !== undefined) return only;
  return { runs: lines.flatMap((line) => line.runs), width: lines.reduce((sum, line) => sum + line.width, 0) };
};

/** The longest beginning of a word that fits, one character at least. */
const longestFitting = (word: string, style: Style, width: number): string => {
  const characters = [...word];
  let count = 1;
  while (count < characters.length && textWidth(characters.slice(0, count + 1).join(''), style) <= width) count += 1;
  return characters.slice(0, count).join('');
};
