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
  const runs = runsOf(text, style.bold ?? false, style.figures ?? false);
  return { runs, width: runs.reduce((sum, run) => sum + runWidth(run, style.size), 0) };
};

export const textWidth = (text: string, style: Style): number => lineOf(text, style).width;

/** At least one line, the empty text included. */
export const wrap = (text: string, style: Style, width: number): Line[] => {
  const lines: Line[] = [];
  let current = '';
  for (const word of text.split(/ +/)) {
    const longer = current === '' ? word : `${current} ${word}`;
    if (textWidth(longer, style) <= width) {
      current = longer;
      continue;
    }
    if (current !== '') lines.push(lineOf(current, style));
    current = word;
    while (textWidth(current, style) > width) {
      const kept = longestFitting(current, style, width);
      lines.push(lineOf(kept, style));
      current = current.slice(kept.length);
    }
  }
  lines.push(lineOf(current, style));
  return lines;
};

/** The longest beginning of a word that fits, one character at least. */
const longestFitting = (word: string, style: Style, width: number): string => {
  const characters = [...word];
  let count = 1;
  while (count < characters.length && textWidth(characters.slice(0, count + 1).join(''), style) <= width) count += 1;
  return characters.slice(0, count).join('');
};
