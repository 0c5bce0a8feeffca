/**
 * The one table engine: columns at computed places, rows that grow to hold what they say, titles said again on each page.
 * A row taller than a page becomes several whole rows, each with the cow's number and "part 1 of 2".
 */
import { type Block, stack, text } from './blocks.ts';
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
  /** Body of a page: no row may be taller. */
  readonly bodyHeight: number;
  /** Said above the column titles on a page that the table goes on to. */
  readonly heading?: Piece | undefined;
  readonly partLabel: (part: number, parts: number) => readonly string[];
}

export const GAP = 9;
const PADDING = 4;

export const widthOf = (columns: readonly Column[]): number =>
  columns.reduce((sum, column) => sum + column.width, 0) + GAP * Math.max(0, columns.length - 1);

const placesOf = (columns: readonly Column[]): number[] => {
  let at = 0;
  return columns.map((column) => {
    const here = at;
    at += column.width + GAP;
    return here;
  });
};

/** The row of titles. */
export const titles = (spec: TableSpec): Piece => {
  const style = { size: TEXT, bold: false };
  const blocks = spec.columns.map((column) => stack(column.title.map((each) => text(each, style, column.width))));
  const height = Math.max(0, ...blocks.map((block) => block.height)) + 3;
  const places = placesOf(spec.columns);
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
  const tallest = Math.max(0, ...cells.map((cell) => cell.height));
  if (tallest <= room) return [rowPiece(spec, cells, lines, again, lines > 0)];
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
  const tallest = Math.max(0, ...cells.map((cell) => cell.height));
  const places = placesOf(spec.columns);
  const height = tallest + 2 * PADDING;
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
            if (index === 0 && ruled) ink.rule(x, y, widthOf(spec.columns), 0.8);
            cell.draw(ink, x + (places[index] ?? 0), y + PADDING);
          },
        })),
      );
    },
  };
};

const partsOf = (spec: TableSpec, cells: readonly Block[], room: number): Block[][] => {
  const [first, ...rest] = cells;
  const label = stack(spec.partLabel(8, 8).map((each) => text(each, { size: TEXT }, spec.columns[0]?.width ?? 0)));
  const piles = rest.map((cell) => chunks(cell, room));
  const count = Math.max(1, ...piles.map((pile) => pile.length));
  return Array.from({ length: count }, (_, part) => {
    const says = spec.partLabel(part + 1, count);
    const number = stack([
      ...(first === undefined ? [] : [first]),
      ...says.map((each) => text(each, { size: TEXT }, Math.max(spec.columns[0]?.width ?? 0, label.width))),
    ]);
    return [number, ...piles.map((pile) => pile[part] ?? stack([]))];
  });
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
