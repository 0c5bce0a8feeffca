/** The parts that several sheets are made of: headings, sentences, the total, a cow's number, the columns of a table. */
import type { Views } from '../projections/views.ts';
import { type Block, framed, stack, text, texts } from './blocks.ts';
import { textWidth } from './lines.ts';
import type { Piece } from './pages.ts';
import { HEADING, NUMBER_AIM, TEXT, TOTAL } from './sizes.ts';
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

/** Cow numbers on the wall and at the gates; lists at a desk take the least size instead. */
export const numberStyle = (size = NUMBER_AIM) => ({ size, bold: true, figures: true });

/** A width that holds every number of a list, and what stands under them. */
export const numberWidth = (numbers: readonly string[], least = 84, size = NUMBER_AIM): number =>
  Math.max(least, ...numbers.map((number) => Math.ceil(textWidth(number, numberStyle(size))) + 2));

/** Numbers wider than this stand on a line of their own, over the row's words, and leave these the whole width. */
const BESIDE = 110;

export interface NumberColumn {
  readonly width: number;
  /** Over the other columns, not beside them. */
  readonly over: boolean;
}

export const numberColumn = (setting: Setting, numbers: readonly string[], size = NUMBER_AIM): NumberColumn => {
  const width = numberWidth(numbers, 84, size);
  return width <= BESIDE ? { width, over: false } : { width: setting.width, over: true };
};

/** A cow's number, large, and nothing else near its size. */
export const cowNumber = (number: string, width: number, size = NUMBER_AIM): Block => {
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

export const table = (
  setting: Setting,
  name: string,
  columns: readonly Column[],
  headingPiece?: Piece,
  over = false,
): TableSpec => ({
  name,
  columns,
  over,
  width: setting.width,
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
