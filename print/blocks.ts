/**
 * What a cell is made of: text, boxes to tick, lines to write on, drawings. A block knows its size before it is drawn,
 * so that a row is never started on a page that cannot hold it.
 */
import type { Ink } from './ink.ts';
import { type Line, type Part, type Style, textWidth, wrap, wrapParts } from './lines.ts';
import { CAPITAL, LINE, TEXT } from './sizes.ts';

export interface Block {
  readonly width: number;
  readonly height: number;
  readonly draw: (ink: Ink, x: number, y: number) => void;
  /** The block as a pile of smaller ones, for a row taller than a page. */
  readonly pile?: readonly Block[];
}

export const nothing: Block = { width: 0, height: 0, draw: () => {} };

/** One text, broken into lines of that width. */
export const text = (words: string, style: Style, width: number): Block => pileOf(wrap(words, style, width), style);

/** One paragraph in two weights. */
export const paragraph = (parts: readonly Part[], style: Style, width: number): Block =>
  pileOf(wrapParts(parts, style, width), style);

const pileOf = (lines: readonly Line[], style: Style): Block => {
  const step = style.size * LINE;
  const single = lines.map(
    (line): Block => ({
      width: line.width,
      height: step,
      draw: (ink, x, y) => ink.line(line, style.size, x, y + (step - CAPITAL * style.size) / 2),
    }),
  );
  return stack(single);
};

/** Several texts, one under the other; what was said once is not said again. */
export const texts = (words: readonly string[], style: Style, width: number): Block =>
  stack([...new Set(words)].map((each) => text(each, style, width)));

export const stack = (blocks: readonly Block[], gap = 0): Block => {
  const pile = blocks.filter((block) => block.height > 0).flatMap((block) => block.pile ?? [block]);
  return {
    width: Math.max(0, ...pile.map((block) => block.width)),
    height: pile.reduce((sum, block) => sum + block.height, 0) + gap * Math.max(0, pile.length - 1),
    pile,
    draw: (ink, x, y) => {
      let at = y;
      for (const block of pile) {
        block.draw(ink, x, at);
        at += block.height + gap;
      }
    },
  };
};

export const beside = (blocks: readonly Block[], gap: number): Block => ({
  width: blocks.reduce((sum, block) => sum + block.width, 0) + gap * Math.max(0, blocks.length - 1),
  height: Math.max(0, ...blocks.map((block) => block.height)),
  draw: (ink, x, y) => {
    let at = x;
    for (const block of blocks) {
      block.draw(ink, at, y);
      at += block.width + gap;
    }
  },
});

/** Room around a block, within a frame of that thickness. */
export const framed = (inner: Block, padding: number, thickness: number, width?: number): Block => {
  const outer = width ?? inner.width + 2 * padding;
  return {
    width: outer,
    height: inner.height + 2 * padding,
    draw: (ink, x, y) => {
      ink.box(
        x + thickness / 2,
        y + thickness / 2,
        outer - thickness,
        inner.height + 2 * padding - thickness,
        thickness,
      );
      inner.draw(ink, x + padding, y + padding);
    },
  };
};

export const space = (height: number): Block => ({ width: 0, height, draw: () => {} });

/** A word in a frame, as NEW; broken into lines where it is wider than its room. */
export const flag = (word: string, size = TEXT, room = Number.POSITIVE_INFINITY): Block => {
  const style = { size, bold: true };
  return framed(text(word, style, Math.min(room - 8, textWidth(word, style) + 1)), 3, 1.6);
};

export const TICK = 20;
/** An empty square to tick. */
export const tick: Block = {
  width: TICK,
  height: TICK,
  draw: (ink, x, y) => ink.box(x + 0.7, y + 0.7, TICK - 1.4, TICK - 1.4, 1.4),
};

/** A square to tick with its word beside it. */
export const tickFor = (word: string, width: number, style: Style = { size: TEXT }): Block => {
  const label = text(word, style, width - TICK - 5);
  return {
    width: TICK + 5 + label.width,
    height: Math.max(TICK, label.height) + 3,
    draw: (ink, x, y) => {
      tick.draw(ink, x, y + 1.5);
      label.draw(ink, x + TICK + 5, y + 1.5 + (label.height <= TICK ? (TICK - label.height) / 2 : 0));
    },
  };
};

/** A line to write on, with a word under or before nothing: the column's title says what. */
export const writeLine = (width: number, height = 24): Block => ({
  width,
  height,
  draw: (ink, x, y) => ink.rule(x, y + height - 2, width, 0.8),
});

/** A box to write a number in. */
export const writeBox = (width: number, height: number): Block => ({
  width,
  height,
  draw: (ink, x, y) => ink.box(x + 0.6, y + 0.6, width - 1.2, height - 1.2, 1.2),
});
