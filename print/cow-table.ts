/** A list of cows under a heading: the number first and large, then columns of which one takes the room that is left. */
import { type Block, beside, stack, text } from './blocks.ts';
import type { Piece } from './pages.ts';
import { continued, cowNumber, heading, numberColumn, type Pick, type Setting, table } from './parts.ts';
import { DESK_TEXT, NUMBER_AIM, NUMBER_LEAST, TEXT } from './sizes.ts';
import { type Column, GAP, row, titles } from './table.ts';

export interface CowColumn {
  /** Null: a column that needs no title. */
  readonly title: Pick | null;
  readonly width: number | 'rest';
}

export interface CowTable<R> {
  /** To the reader of the tags, and unlike every other table's of the sheet. */
  readonly name: string;
  /** Null: the sheet's title says it. */
  readonly heading: Pick | null;
  readonly rows: readonly R[];
  readonly columns: readonly CowColumn[];
  /** The cells after the number, each with the width it may take. */
  readonly cells: (row: R, widths: readonly number[]) => readonly Block[];
  /** Under the number: her group, where the sheet is not ordered by it. */
  readonly group?: (row: R) => string;
  /** Read at a desk: the least number and smaller words. */
  readonly desk?: boolean;
}

export const cowTable = <R extends { readonly cow: string }>(setting: Setting, made: CowTable<R>): Piece[] => {
  const { speech, width } = setting;
  const numbers = made.rows.map((each) => each.cow);
  const size = made.desk === true ? NUMBER_LEAST : NUMBER_AIM;
  const { width: first, over } = numberColumn(setting, numbers, size);
  const gaps = (made.columns.length - (over ? 1 : 0)) * GAP;
  const fixed = made.columns.reduce((sum, each) => sum + (each.width === 'rest' ? 0 : each.width), 0);
  const rest = width - (over ? 0 : first) - gaps - fixed;
  const columns: Column[] = [
    { title: speech.each(({ labels }) => labels.cow), width: first },
    ...made.columns.map((each) => ({
      title: each.title === null ? [] : speech.each(each.title),
      width: each.width === 'rest' ? rest : each.width,
    })),
  ];
  const pick = made.heading;
  const spec = table(setting, made.name, columns, pick === null ? undefined : continued(setting, pick), over);
  const head = titles(spec);
  const widths = columns.slice(1).map((each) => each.width);
  const body = made.rows.flatMap((each) => {
    const number = numberCell(each, made, first, over);
    return row(spec, [number, ...made.cells(each, widths)], 1, head);
  });
  return [...(pick === null ? [] : [heading(setting, pick)]), head, ...body];
};

/** Her number with her group under it, or beside it where the number has a line of its own. */
const numberCell = <R extends { readonly cow: string }>(
  each: R,
  { desk = false, group }: CowTable<R>,
  width: number,
  over: boolean,
): Block => {
  const number = cowNumber(each.cow, width, desk ? NUMBER_LEAST : NUMBER_AIM);
  if (group === undefined) return number;
  const room = over ? width - number.width - 12 : width;
  const name = text(group(each), { size: desk ? DESK_TEXT : TEXT }, room);
  return over ? beside([number, name], 12) : stack([number, name]);
};
