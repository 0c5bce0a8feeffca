/** A list of cows under a heading: the number first and large, then columns of which one takes the room that is left. */
import { type Block, stack, text } from './blocks.ts';
import type { Piece } from './pages.ts';
import { continued, cowNumber, heading, numberSize, numberWidth, type Pick, type Setting, table } from './parts.ts';
import { DESK_TEXT, NUMBER_LEAST, TEXT } from './sizes.ts';
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
  const size = made.desk === true ? NUMBER_LEAST : numberSize(numbers);
  const first = numberWidth(numbers, 84, size);
  const gaps = made.columns.length * GAP;
  const fixed = made.columns.reduce((sum, each) => sum + (each.width === 'rest' ? 0 : each.width), 0);
  const rest = width - first - gaps - fixed;
  const columns: Column[] = [
    { title: speech.each(({ labels }) => labels.cow), width: first },
    ...made.columns.map((each) => ({
      title: each.title === null ? [] : speech.each(each.title),
      width: each.width === 'rest' ? rest : each.width,
    })),
  ];
  const over = made.heading;
  const spec = table(setting, made.name, columns, over === null ? undefined : continued(setting, over));
  const head = titles(spec);
  const widths = columns.slice(1).map((each) => each.width);
  const { group } = made;
  const body = made.rows.flatMap((each) => {
    const number = cowNumber(each.cow, size, first);
    const under =
      group === undefined ? [] : [text(group(each), { size: made.desk === true ? DESK_TEXT : TEXT }, first)];
    return row(spec, [stack([number, ...under]), ...made.cells(each, widths)], 1, head);
  });
  return [...(over === null ? [] : [heading(setting, over)]), head, ...body];
};
