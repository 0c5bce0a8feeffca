/** Straight lines that a page draws, and whether its texts stand clear: for papers on which a line through a text says that it is struck. */
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { ReadPage, TextBox } from './read-pdf.ts';

/** A stroke that runs across, in points from the left and the top edge. */
export interface Across {
  readonly from: number;
  readonly to: number;
  readonly y: number;
}

/** Every stroke that runs straight across, by page. */
export const linesAcross = async (bytes: Uint8Array): Promise<readonly (readonly Across[])[]> => {
  const task = getDocument({ data: new Uint8Array(bytes), verbosity: 0 });
  const document = await task.promise;
  const pages: Across[][] = [];
  for (let number = 1; number <= document.numPages; number += 1) {
    const { fnArray, argsArray } = await (await document.getPage(number)).getOperatorList();
    const found: Across[] = [];
    fnArray.forEach((code: number, index: number) => {
      const args: unknown = argsArray[index];
      if (code !== OPS.constructPath || !Array.isArray(args) || args[0] !== OPS.stroke) return;
      // The document is drawn with its y axis turned over, so that its own numbers count from the top edge.
      const [from = 0, top = 0, to = 0, bottom = 0] = Array.from(args[2] as ArrayLike<number>);
      if (bottom - top < 0.01) found.push({ from, to, y: top });
    });
    pages.push(found);
  }
  await task.destroy();
  return pages;
};

/** Has a line through its small letters, from its first to its last? */
export const isStruck = (box: TextBox, lines: readonly Across[]): boolean =>
  lines.some(
    ({ from, to, y }) =>
      from <= box.x + 0.5 &&
      to >= box.x + box.width - 0.5 &&
      y < box.baseline - 0.1 * box.size &&
      y > box.baseline - 0.6 * box.size,
  );

const EDGE = 28;
/** Part of the size above the baseline, and below: a letter with its accent, and with its tail. */
const [ABOVE, BELOW] = [0.75, 0.22];

/** Texts outside the margins or over one another. */
export const faults = ({ boxes, width, height }: ReadPage): string[] => {
  const sorted = [...boxes].sort((a, b) => a.baseline - b.baseline);
  const outside = boxes.filter(
    (box) =>
      box.x < EDGE ||
      box.x + box.width > width - EDGE ||
      box.baseline - ABOVE * box.size < EDGE ||
      box.baseline + BELOW * box.size > height - EDGE + 2,
  );
  const over = sorted.flatMap((box, index) =>
    sorted
      .slice(index + 1)
      .filter((other) => {
        const across = Math.min(box.x + box.width, other.x + other.width) - Math.max(box.x, other.x);
        const bottom = Math.min(box.baseline + BELOW * box.size, other.baseline + BELOW * other.size);
        const top = Math.max(box.baseline - ABOVE * box.size, other.baseline - ABOVE * other.size);
        return across > 0.5 && bottom - top > 0.5;
      })
      .map((other) => `over each other: ${box.text} | ${other.text}`),
  );
  return [...outside.map(({ text }) => `outside: ${text}`), ...over];
};
