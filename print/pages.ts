/**
 * Pieces of a sheet laid onto pages: no piece is split, no heading stands last on a page, and what heads a table
 * is said again on each page that it goes on to.
 */
import type { Ink } from './ink.ts';

export interface Piece {
  readonly kind: 'heading' | 'row' | 'note' | 'titles';
  readonly height: number;
  readonly draw: (ink: Ink, x: number, y: number) => void;
  /** How many of the sheet's lines it is: 1 for a cow's row, 0 for the rest. */
  readonly lines: number;
  /** What is drawn above it when it comes first on a page: its group's name, its columns' titles. */
  readonly again?: readonly Piece[];
  /** The same without the room and the rule above it, for the head of a page. */
  readonly atTop?: Piece;
}

export interface Placed {
  readonly piece: Piece;
  readonly y: number;
  /** Said a second time: skipped by a reader of the tags. */
  readonly repeated: boolean;
}

export interface PageOfPieces {
  readonly placed: readonly Placed[];
  readonly lines: number;
}

/**
 * Lays the pieces out from top to bottom; the first of them is on the first page, and no page is empty.
 * `heightOf` gives the room on a page, counted from 0; no row may be taller than the least.
 */
export const paginate = (pieces: readonly Piece[], heightOf: (page: number) => number): PageOfPieces[] => {
  const pages: Placed[][] = [[]];
  let y = 0;
  for (const together of clusters(pieces)) {
    const wanted = together.reduce((sum, piece) => sum + piece.height, 0);
    let page = pages.at(-1) ?? [];
    if (y > 0 && y + wanted > heightOf(pages.length - 1)) {
      page = [];
      pages.push(page);
      y = 0;
      for (const each of together[0]?.again ?? []) {
        const piece = each.atTop ?? each;
        page.push({ piece, y, repeated: true });
        y += piece.height;
      }
    }
    for (const each of together) {
      const piece = y === 0 ? (each.atTop ?? each) : each;
      page.push({ piece, y, repeated: false });
      y += piece.height;
    }
  }
  return pages.map((placed) => ({
    placed,
    lines: placed.reduce((sum, each) => sum + (each.repeated ? 0 : each.piece.lines), 0),
  }));
};

/** Headings and titles with the row or note that follows them. */
const clusters = (pieces: readonly Piece[]): Piece[][] => {
  const made: Piece[][] = [];
  let open: Piece[] = [];
  for (const piece of pieces) {
    open.push(piece);
    if (piece.kind === 'heading' || piece.kind === 'titles') continue;
    made.push(open);
    open = [];
  }
  if (open.length > 0) made.push(open);
  return made;
};
