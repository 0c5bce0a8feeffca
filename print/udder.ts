/**
 * A plan of the udder as seen from behind the cow, her head up: the quarters meant are black.
 * It is a second saying of words that stand beside it, never the only one. Left and right are the cow's own.
 */
import type { Block } from './blocks.ts';
import { lineOf } from './lines.ts';
import { TEXT } from './sizes.ts';

export interface UdderWords {
  readonly front: string;
  readonly left: string;
  readonly right: string;
}

const QUARTER = 17;
const GAP = 3;
const SQUARE = 2 * QUARTER + GAP;
const STYLE = { size: TEXT, bold: true };

const PLACES: readonly { readonly names: readonly string[]; readonly column: number; readonly row: number }[] = [
  { names: ['left-front'], column: 0, row: 0 },
  { names: ['right-front'], column: 1, row: 0 },
  { names: ['left-hind', 'left-rear'], column: 0, row: 1 },
  { names: ['right-hind', 'right-rear'], column: 1, row: 1 },
];

export const udder = (quarters: readonly string[], words: UdderWords): Block => {
  const front = lineOf(words.front, STYLE);
  const left = lineOf(words.left, STYLE);
  const right = lineOf(words.right, STYLE);
  const side = Math.max(left.width, right.width) + 4;
  const width = Math.max(front.width, SQUARE + 2 * side);
  const top = TEXT * 0.95;
  return {
    width,
    height: top + SQUARE,
    draw: (ink, x, y) => {
      const start = x + (width - SQUARE) / 2;
      const middle = y + top + (SQUARE - TEXT * 0.668) / 2;
      ink.line(front, TEXT, x + (width - front.width) / 2, y);
      ink.line(left, TEXT, start - 4 - left.width, middle);
      ink.line(right, TEXT, start + SQUARE + 4, middle);
      for (const place of PLACES) {
        const px = start + place.column * (QUARTER + GAP);
        const py = y + top + place.row * (QUARTER + GAP);
        if (place.names.some((name) => quarters.includes(name))) ink.fill(px, py, QUARTER, QUARTER);
        else ink.box(px + 0.5, py + 0.5, QUARTER - 1, QUARTER - 1, 1);
      }
    },
  };
};
