/** The parts that several sheets are made of: headings, sentences, the total, a cow's number, the columns of a table. */
import type { Views } from '../projections/views.ts';
import { type Block, framed, stack, text, texts } from './blocks.ts';
import { textWidth } from './lines.ts';
import type { Piece } from './pages.ts';
import { HEADING, NUMBER_AIM, NUMBER_LEAST, TEXT, TOTAL } from './sizes.ts';
import type { Speech, Voice } from './speech.ts';
import { type Column, piece, type TableSpec } from './table.ts';

/** What a sheet is made with. */
export interface Setting {
  readonly views: Views;
  readonly speech: Speech;
  readonly width: number;
  readonly bodyHeight: number;
}

export type Pick = (voice: Voice) => string;

/** A heading over rows, with a heavy rule above it. */
export const heading = (setting: Setting, pick: Pick): Piece =>
  piece('heading', 'H2', texts(setting.speech.each(pick), { size: HEADING, bold: true }, setting.width), {
    above: 10,
    below: 1,
    rule: 1.8,
    width: setting.width,
  });

/** The name of a group or a like part within a section. */
export const subheading = (setting: Setting, pick: Pick): Piece =>
  piece('heading', 'H3', texts(setting.speech.each(pick), { size: HEADING, bold: true }, setting.width), { above: 5 });

/** A sentence that stands by itself; an empty list is one of these. */
export const sentence = (setting: Setting, pick: Pick, bold = false): Piece =>
  piece('note', 'P', texts(setting.speech.each(pick), { size: TEXT, bold }, setting.width), { above: 3, below: 3 });

/** An empty list, said as loud as a heading. */
export const none = (setting: Setting, pick: Pick): Piece =>
  piece('note', 'P', texts(setting.speech.each(pick), { size: HEADING, bold: true }, setting.width), {
    above: 10,
    below: 4,
    rule: 1.8,
    width: setting.width,
  });

/** A remark under a heading that must not stand alone either. */
export const remark = (setting: Setting, pick: Pick): Piece =>
  piece('heading', 'P', texts(setting.speech.each(pick), { size: TEXT }, setting.width), { below: 2 });

/** The total of a sheet, in large figures, framed. */
export const total = (setting: Setting, pick: Pick): Piece =>
  piece(
    'note',
    'P',
    framed(texts(setting.speech.each(pick), { size: TOTAL, bold: true }, setting.width - 16), 6, 2.5, setting.width),
    { above: 6, below: 2 },
  );

/** A block across the sheet in a frame of its own. */
export const framedNote = (setting: Setting, blocks: readonly Block[]): Piece =>
  piece('note', 'P', framed(stack(blocks), 7, 2, setting.width), { above: 8, below: 2 });

/** The size of the cow numbers of one table: 8.7 mm where the longest leaves room for the rest, else 7.5 mm. */
export const numberSize = (numbers: readonly string[]): number =>
  numbers.every((number) => number.length <= 6) ? NUMBER_AIM : NUMBER_LEAST;

export const numberStyle = (size: number) => ({ size, bold: true, figures: true });

/** A width that holds every number of a table, and what stands under them. */
export const numberWidth = (numbers: readonly string[], least = 0, size = numberSize(numbers)): number => {
  const style = numberStyle(size);
  return Math.max(least, ...numbers.map((number) => Math.ceil(textWidth(number, style)) + 2));
};

/** A cow's number, large, and nothing else near its size. */
export const cowNumber = (number: string, size: number, width: number): Block => {
  const inner = text(number, numberStyle(size), width);
  // The line's room above the figures is not needed, and below only as much as a letter's tail takes.
  const above = size * 0.2;
  const height = inner.height - above - size * 0.06;
  return {
    width: inner.width,
    height,
    draw: (ink, x, y) => inner.draw(ink, x, y - above),
  };
};

export const table = (setting: Setting, name: string, columns: readonly Column[], headingPiece?: Piece): TableSpec => ({
  name,
  columns,
  bodyHeight: setting.bodyHeight,
  heading: headingPiece,
  partLabel: (part, parts) => setting.speech.each(({ labels }) => labels.part(part, parts)),
});

/** A heading as it is said again on the next page. */
export const continued = (setting: Setting, pick: Pick): Piece =>
  subheading(setting, (voice) => `${pick(voice)} (${voice.labels.continued})`);

/** Rows of a list under the group that each stands in, in the order given. */
export const byGroup = <R extends { readonly group: string }>(rows: readonly R[]): Map<string, R[]> => {
  const groups = new Map<string, R[]>();
  for (const row of rows) {
    const have = groups.get(row.group);
    if (have === undefined) groups.set(row.group, [row]);
    else have.push(row);
  }
  return groups;
};
