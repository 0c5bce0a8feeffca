/**
 * The one table engine: columns at computed places, rows that grow to hold what they say, titles said again on each page.
 * A row taller than a page becomes several whole rows, each with the cow's number and "part 1 of 2".
 */
import { type Block, nothing, stack, texts } from './blocks.ts';
import type { Tag } from './ink.ts';
import type { Piece } from './pages.ts';
import { TEXT } from './sizes.ts';

export interface Column {
  readonly title: readonly string[];
  readonly width: number;
}

export interface TableSpec {
  /** Tables of one name are one table to a reader of the tags. */
  readonly name: string;
  readonly columns: readonly Column[];
  /** The first column stands on a line of its own over the others, for numbers too long to stand beside them. */
  readonly over: boolean;
  readonly width: number;
  /** Body of a page: no row may be taller. */
  readonly bodyHeight: number;
  /** Said above the column titles on a page that the table goes on to. */
  readonly heading?: Piece | undefined;
  readonly partLabel: (part: number, parts: number) => readonly string[];
}

export const GAP = 9;
const PADDING = 4;
/** Between a number that stands over its row and the row. */
const UNDER = 4;

/** Where each column begins, from the table's left edge. */
export const placesOf = ({ columns, over }: TableSpec): number[] => {
  let at = 0;
  return columns.map((column, index) => {
    const here = at;
    if (index > 0 || !over) at += column.width + GAP;
    return here;
  });
};

/** The row of titles; a number that stands over the others needs none. */
export const titles = (spec: TableSpec): Piece => {
  const style = { size: TEXT, bold: false };
  const blocks = spec.columns.map((column, index) =>
    spec.over && index === 0 ? nothing : texts(column.title, style, column.width),
  );
  const height = Math.max(0, ...blocks.map((block) => block.height)) + 3;
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
          draw: () => block.draw(ink, x + (places[index] ?? 0), y + height - 2 - block.height),
        })),
      );
    },
  };
};

/** A row; several where it would not fit on one page. `lines` is 0 for rows to write on. */
export const row = (spec: TableSpec, cells: readonly Block[], lines = 1, heading: Piece = titles(spec)): Piece[] => {
  const again = spec.heading === undefined ? [heading] : [spec.heading, heading];
  const room = spec.bodyHeight - again.reduce((sum, piece) => sum + piece.height, 0) - 2 * PADDING - 2;
  if (heightOf(spec, cells) <= room) return [rowPiece(spec, cells, lines, again, lines > 0)];
  const parts = partsOf(spec, cells, room);
  return parts.map((part, index) => rowPiece(spec, part, index === 0 ? lines : 0, again, lines > 0));
};

const rowPiece = (
  spec: TableSpec,
  cells: readonly Block[],
  lines: number,
  again: readonly Piece[],
  ruled: boolean,
): Piece => {
  const places = placesOf(spec);
  const height = heightOf(spec, cells) + 2 * PADDING;
  const under = spec.over ? (cells[0]?.height ?? 0) + UNDER : 0;
  return {
    kind: 'row',
    lines,
    height,
    again,
    draw: (ink, x, y) => {
      ink.row(
        spec.name,
        cells.map((cell, index) => ({
          heading: index === 0 ? 'Row' : undefined,
          draw: () => {
            if (index === 0 && ruled) ink.rule(x, y, spec.width, 0.8);
            cell.draw(ink, x + (places[index] ?? 0), y + PADDING + (index === 0 ? 0 : under));
          },
        })),
      );
    },
  };
};

const heightOf = ({ over }: TableSpec, [first = nothing, ...rest]: readonly Block[]): number => {
  const tallest = Math.max(0, ...rest.map((cell) => cell.height));
  return over ? first.height + UNDER + tallest : Math.max(first.height, tallest);
};

const partsOf = (spec: TableSpec, [first = nothing, ...rest]: readonly Block[], room: number): Block[][] => {
  const labelled = (part: number, parts: number): Block =>
    stack([first, texts(spec.partLabel(part, parts), { size: TEXT }, spec.columns[0]?.width ?? 0)]);
  const left = spec.over ? room - labelled(8, 8).height - UNDER : room;
  const piles = rest.map((cell) => chunks(cell, left));
  const count = Math.max(1, ...piles.map((pile) => pile.length));
  return Array.from({ length: count }, (_, part) => [
    labelled(part + 1, count),
    ...piles.map((pile) => pile[part] ?? nothing),
  ]);
};

const chunks = (block: Block, room: number): Block[] => {
  const made: Block[][] = [[]];
  let used = 0;
  for (const each of block.pile ?? [block]) {
    if (used > 0 && used + each.height > room) {
      made.push([]);
      used = 0;
    }
    made.at(-1)?.push(each);
    used += each.height;
  }
  return made.map((pile) => stack(pile));
};

/** Rows to write on, ruled and boxed by the caller's cells. */
export const blankRows = (spec: TableSpec, cells: () => readonly Block[], count: number): Piece[] => {
  const heading = titles(spec);
  return Array.from({ length: count }, () => row(spec, cells(), 0, heading)).flat();
};

export interface Around {
  readonly above?: number;
  readonly below?: number;
  /** Thickness of a rule above it. */
  readonly rule?: number;
  readonly width?: number;
}

/** A heading or a note of one block, outside of any table. */
export const piece = (
  kind: 'heading' | 'note',
  tag: Tag,
  block: Block,
  { above = 0, below = 0, rule = 0, width = 0 }: Around = {},
): Piece => ({
  kind,
  lines: 0,
  height: block.height + above + below,
  draw: (ink, x, y) => {
    ink.tagged(tag, () => {
      if (rule > 0) ink.rule(x, y + above / 2, width, rule);
      block.draw(ink, x, y + above);
    });
  },
  ...(above === 0 ? {} : { atTop: piece(kind, tag, block, { above: 0, below }) }),
});
