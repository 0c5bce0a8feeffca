/** Text broken into lines that fit: at spaces, or inside a word too long for the line. Nothing is ever cut off. */

import { keptBy } from '../shared/kept.ts';
import { type Run, runsOf, runWidth } from './faces.ts';

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
const known = keptBy<string, Line>(MOST_LINES);

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

/** Clear of the edge, in points: more than what is lost where widths are added in another order. */
const CLEAR = 0.001;

/** A paragraph of several weights, broken at spaces. */
export const wrapParts = (parts: readonly Part[], style: Style, width: number): Line[] => {
  const [plain, bold] = [
    { ...style, bold: false },
    { ...style, bold: true },
  ] as const;
  const styleOf = (part: Part): Style => (part.bold ? bold : plain);
  const lineWith = (words: readonly Part[]): Line => lineOfParts(joined(words), styleOf);
  const all = parts.flatMap(wordsOf);
  const whole = lineWith(all);
  if (whole.width <= width) return [whole];
  const lines: Line[] = [];
  let current: Part[] = [];
  // The words of a line one by one are never narrower than the line, so that few lines are measured more than once.
  let apart = 0;
  for (const word of all.flatMap((each) => partedToFit(each, styleOf(each), width))) {
    const more = textWidth(current.length === 0 ? word.text : ` ${word.text}`, styleOf(word));
    if (apart + more < width - CLEAR || lineWith([...current, word]).width <= width) {
      current.push(word);
      apart += more;
      continue;
    }
    if (current.length > 0) lines.push(lineWith(current));
    let rest = word.text;
    while (textWidth(rest, styleOf(word)) > width) {
      const kept = longestFitting(rest, styleOf(word), width);
      lines.push(lineOf(kept, styleOf(word)));
      rest = rest.slice(kept.length);
    }
    current = rest === '' ? [] : [{ text: rest, bold: word.bold }];
    apart = textWidth(rest, styleOf(word));
  }
  if (current.length > 0 || lines.length === 0) lines.push(lineWith(current));
  return lines;
};

/** The words of a line with spaces between; neighbours of one weight are one text, so that fewer pieces are drawn. */
const joined = (words: readonly Part[]): readonly Part[] => {
  const line: { text: string; bold: boolean }[] = [];
  let last: { text: string; bold: boolean } | undefined;
  for (const { text, bold } of words) {
    if (last?.bold === bold) last.text += ` ${text}`;
    else {
      last = { text: last === undefined ? text : ` ${text}`, bold };
      line.push(last);
    }
  }
  return line;
};

const wordsOf = ({ text, bold }: Part): Part[] =>
  text
    .split(/ +/)
    .filter((word) => word !== '')
    .map((word) => ({ text: word, bold }));

/** Words held together by unbreaking spaces come apart at these where the line cannot hold them. */
const partedToFit = (word: Part, style: Style, width: number): Part[] =>
  word.text.includes('\u00a0') && textWidth(word.text, style) > width
    ? word.text.split('\u00a0').map((text) => ({ text, bold: word.bold }))
    : [word];

const lineOfParts = (parts: readonly Part[], styleOf: (part: Part) => Style): Line => {
  const [only, ...more] = parts;
  if (only !== undefined && more.length === 0) return lineOf(only.text, styleOf(only));
  const lines = parts.map((part) => lineOf(part.text, styleOf(part)));
  return { runs: lines.flatMap((line) => line.runs), width: lines.reduce((sum, line) => sum + line.width, 0) };
};

/** The longest beginning of a word that fits, one character at least. */
const longestFitting = (word: string, style: Style, width: number): string => {
  const characters = [...word];
  let count = 1;
  while (count < characters.length && textWidth(characters.slice(0, count + 1).join(''), style) <= width) count += 1;
  return characters.slice(0, count).join('');
};
