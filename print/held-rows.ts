/**
 * Rows of held cows: number, why and where the milk goes, the quarter, and the milking from which it may go in the tank.
 * One set of columns for all groups, so that the eye finds the same thing at the same place down the whole sheet.
 */
import type { HeldRow } from '../projections/views.ts';
import { type Block, beside, flag, framed, nothing, paragraph, stack, text, texts } from './blocks.ts';
import { type Ground, groundsOf, milkPlace } from './grounds.ts';
import type { Piece } from './pages.ts';
import { continued, cowNumber, heading, numberColumn, type Pick, type Setting, table } from './parts.ts';
import { quarterNames, udderOf } from './quarters.ts';
import { TEXT } from './sizes.ts';
import type { Voice } from './speech.ts';
import { type Column, GAP, row, titles } from './table.ts';

const TANK_WIDTH = 118;

/**
 * Makes the rows of one group under its heading. The columns' titles, with the mark to look for, stand over the first
 * group and again at the head of each page, whether a group begins there or goes on.
 */
export const heldRows = (setting: Setting, rows: readonly HeldRow[]) => {
  const { speech, width, views } = setting;
  const { mark } = views.farm;
  const numbers = rows.map((each) => each.cow);
  const plan = rows.some((each) => quartersOf(each).length > 0) ? udderOf(speech, []).width : 0;
  const { width: first, over } = numberColumn(setting, numbers);
  const why = width - (over ? 0 : first + GAP) - TANK_WIDTH - GAP - (plan > 0 ? plan + GAP : 0);
  const columns: Column[] = [
    { title: speech.each(({ labels }) => labels.cow), width: first },
    { title: speech.each(({ labels }) => (mark === null ? labels.why : labels.wears(mark))), width: why },
    ...(plan > 0 ? [{ title: [], width: plan }] : []),
    { title: speech.each(({ labels }) => labels.inTheTank), width: TANK_WIDTH },
  ];
  let titled = false;
  return (some: readonly HeldRow[], pick: Pick): Piece[] => {
    const spec = table(setting, `held ${some[0]?.group ?? ''}`, columns, continued(setting, pick), over);
    const head = titles(spec);
    const body = some.flatMap((each) => {
      const quarters = quartersOf(each);
      const cells = [
        numberCell(setting, each, first, over),
        // Where there is no plan of the udder, the words take its room.
        whyCell(setting, each, quarters.length > 0 ? why : why + (plan > 0 ? plan + GAP : 0)),
        ...(plan > 0 ? [quarters.length > 0 ? udderOf(speech, quarters) : nothing] : []),
        tankCell(setting, each, TANK_WIDTH),
      ];
      return row(spec, cells, 1, head);
    });
    const named = heading(setting, pick);
    const isFirst = !titled;
    titled = true;
    return isFirst ? [named, head, ...body] : [{ ...named, atTop: together(named.atTop ?? named, head) }, ...body];
  };
};

const together = (over: Piece, under: Piece): Piece => ({
  kind: 'heading',
  lines: 0,
  height: over.height + under.height,
  draw: (ink, x, y) => {
    over.draw(ink, x, y);
    under.draw(ink, x, y + over.height);
  },
});

const quartersOf = (row: HeldRow): string[] => [...new Set(row.reasons.flatMap((reason) => reason.quarters ?? []))];

const numberCell = ({ speech }: Setting, row: HeldRow, width: number, over: boolean): Block => {
  const number = cowNumber(row.cow, width);
  const news = row.isNew ? speech.each(({ labels }) => labels.isNew).map((word) => flag(word)) : [];
  return over ? beside([number, ...news], 12) : stack([number, ...news]);
};

const whyCell = ({ speech, views }: Setting, row: HeldRow, width: number): Block => {
  const bold = { size: TEXT, bold: true };
  const asks = row.ask ? speech.each(({ labels }) => labels.askFirst) : [];
  const place = milkPlace(views.farm.milkTo, row.reasons);
  return stack([
    ...asks.map((words) => framed(text(words, bold, width - 10), 4, 1.6)),
    ...speech.voices.flatMap((voice) => groundsOf(voice, row.reasons).map((ground) => said(voice, ground, width))),
    texts(
      speech.each(({ labels }) => (place === null ? labels.keepApart : labels.milkTo(place))),
      { size: TEXT },
      width,
    ),
  ]);
};

/** What it is in bold, then the quarter and the last dose. */
const said = ({ labels, format }: Voice, ground: Ground, width: number): Block => {
  const more = [
    format.list(quarterNames(labels, ground.quarters)),
    ground.lastDose === null ? '' : labels.lastDose(format.time(ground.lastDose)),
  ].filter((each) => each !== '');
  const loud = `${labels.causes[ground.cause]}: ${ground.words.join('; ').replaceAll('?;', '?')}${more.length === 0 ? '' : ';'}`;
  return paragraph(
    [
      { text: loud, bold: true },
      { text: more.join('; '), bold: false },
    ],
    { size: TEXT },
    width,
  );
};

/** The day and the milking by name from which the tank may have it, and how many milkings still go elsewhere. */
const tankCell = ({ speech }: Setting, row: HeldRow, width: number): Block => {
  const bold = { size: TEXT, bold: true };
  const { tankFrom, until, milkingsLeft } = row;
  if (until === null || row.dryInMilkedGroup) {
    return texts(
      speech.each(({ labels }) => (row.dryInMilkedGroup ? labels.keepOutDry : labels.keepOut)),
      bold,
      width,
    );
  }
  const from =
    tankFrom === null
      ? speech.each(({ labels, format }) => labels.afterTime(format.time(until)))
      : speech.voices.flatMap(({ format }) => [
          format.day(tankFrom.slice(0, 10)),
          format.milkingName(tankFrom.slice(11)),
        ]);
  const left =
    milkingsLeft === null ? [] : speech.each(({ labels, format }) => labels.milkingsLeft(milkingsLeft, format));
  return stack([texts(from, bold, width), texts(left, { size: TEXT }, width)]);
};
