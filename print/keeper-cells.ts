/** What the record keeper's tables are made of: small text, a name with its value, text with a line through it, titles of columns. */
import { type Block, nothing, stack } from './blocks.ts';
import { type Line, type Part, wrapParts } from './lines.ts';
import type { Piece } from './pages.ts';
import { CAPITAL, LINE, sizeForCapital } from './sizes.ts';
import { GAP, piece, placesOf, type TableSpec } from './table.ts';

/** Read in the hand, at 0.4 m: 16 arc-minutes are 1.86 mm, kept on a copy shrunk to 94 %. */
export const HAND = sizeForCapital(2);
export const HAND_HEADING = 12;

/** How a cell's text is set: `struck` draws a line through every line of it. */
export interface Hand {
  readonly size?: number;
  readonly bold?: boolean;
  readonly struck?: boolean;
}

export const say = (words: string, width: number, hand: Hand = {}): Block =>
  sayParts([{ text: words, bold: hand.bold ?? false }], width, hand);

/** One paragraph in two weights. */
export const sayParts = (parts: readonly Part[], width: number, hand: Hand = {}): Block => {
  const size = hand.size ?? HAND;
  return stack(wrapParts(parts, { size }, width).map((line) => lined(line, size, hand.struck ?? false)));
};

/** A line of text; struck, with a rule through the middle of its small letters, from its first to its last. */
const lined = (line: Line, size: number, struck: boolean): Block => {
  const step = size * LINE;
  const top = (step - CAPITAL * size) / 2;
  return {
    width: line.width,
    height: step,
    draw: (ink, x, y) => {
      ink.line(line, size, x, y + top);
      if (struck && line.width > 0) ink.rule(x, y + top + CAPITAL * size * 0.62, line.width, 0.8);
    },
  };
};

/** `batch: B-17`, the value set apart by its weight where `loud`. */
export const named = (
  name: string,
  value: string,
  width: number,
  hand: Hand & { readonly loud?: boolean } = {},
): Block =>
  sayParts(
    [
      { text: `${name}:`, bold: false },
      { text: value, bold: hand.loud ?? false },
    ],
    width,
    hand,
  );

/** The row of titles in the hand's size. */
export const smallTitles = (spec: TableSpec): Piece => {
  const blocks = spec.columns.map((column) =>
    column.title.length === 0 ? nothing : stack(column.title.map((title) => say(title, column.width, { bold: true }))),
  );
  const height = Math.max(0, ...blocks.map((block) => block.height)) + 4;
  const places = placesOf(spec);
  return {
    kind: 'titles',
    lines: 0,
    height,
    draw: (ink, x, y) => {
      ink.row(
        spec.name,
        blocks.map((block, index) => ({
          heading: 'Column',
          draw: () => block.draw(ink, x + (places[index] ?? 0), y + height - 3 - block.height),
        })),
      );
    },
  };
};

/** Columns that share a width by parts, with the table's gaps between them. */
export const columnsOf = (
  width: number,
  columns: readonly { readonly title: string; readonly part: number }[],
): TableSpec['columns'] => {
  const free = width - GAP * (columns.length - 1);
  const parts = columns.reduce((sum, column) => sum + column.part, 0);
  return columns.map(({ title, part }) => ({ title: [title], width: (free * part) / parts }));
};

export const headingPiece = (words: string, width: number): Piece =>
  piece('heading', 'H2', say(words, width, { size: HAND_HEADING, bold: true }), {
    above: 12,
    below: 2,
    rule: 1.2,
    width,
  });

export const notePiece = (words: string, width: number, hand: Hand = {}): Piece =>
  piece('note', 'P', say(words, width, hand), { above: 3, below: 3 });
