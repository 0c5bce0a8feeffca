/** Text broken into lines that fit: at spaces, or inside a word too long for the line. Nothing is ever cut off. */
import { type Run, runsOf, runWidth } from './faces.ts';

export interface Style {
  readonly size: number;
  readonly bold?: boolean;
  /** Letters too in the face of one width: for cow numbers. */
  readonly figures?: boolean;
}

export interface Line {
  readonly runs: readonly Run[];
  readonly width: number;
}

export const lineOf = (text: string, style: Style): Line => {
  // A space that held two words together is drawn as any other.
  const runs = runsOf(text.replaceAll('\u00a0', ' '), style.bold ?? false, style.figures ?? false);
  return { runs, width: runs.reduce((sum, run) => sum + runWidth(run, style.size), 0) };
};

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
  const lines: Line[] = [];
  let current: Part[] = [];
  for (const word of parts.flatMap(wordsOf).flatMap((each) => partedToFit(each, style, width))) {
    const longer = [...current, ...(current.length === 0 ? [] : [{ text: ' ', bold: word.bold }]), word];
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

/** Neighbours of one weight are one text, so that fewer pieces are drawn. */
const lineOfParts = (parts: readonly Part[], style: Style): Line => {
  const joined: Part[] = [];
  for (const part of parts) {
    const last = joined.at(-1);
    if (last?.bold === part.bold) joined[joined.length - 1] = { text: last.text + part.text, bold: part.bold };
    else joined.push(part);
  }
  const lines = joined.map((part) => lineOf(part.text, { ...style, bold: part.bold }));
  return { runs: lines.flatMap((line) => line.runs), width: lines.reduce((sum, line) => sum + line.width, 0) };
};

/** The longest beginning of a word that fits, one character at least. */
const longestFitting = (word: string, style: Style, width: number): string => {
  const characters = [...word];
  let count = 1;
  while (count < characters.length && textWidth(characters.slice(0, count + 1).join(''), style) <= width) count += 1;
  return characters.slice(0, count).join('');
};
