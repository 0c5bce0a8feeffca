/**
 * The sheet on the parlour wall: whose milk stays out of the tank, why, and from which milking it may go in.
 * What must be found comes first; every row of the view is printed once; every group is named, also with none on hold.
 */
import type { MilkHoldSheet, UnplacedRow } from '../projections/views.ts';
import { type Block, stack, texts } from './blocks.ts';
import { bandsOff, gone } from './cleared.ts';
import { heldRows } from './held-rows.ts';
import type { Piece } from './pages.ts';
import { byHand, emergency } from './parlour-notes.ts';
import {
  byGroup,
  continued,
  cowNumber,
  heading,
  none,
  numberSize,
  numberWidth,
  type Pick,
  remark,
  type Setting,
  sentence,
  table,
  total,
} from './parts.ts';
import { NUMBER_LEAST, TEXT } from './sizes.ts';
import { type Column, GAP, row, titles } from './table.ts';
import { treatNow } from './treat-now.ts';

export const milkHold = (setting: Setting): Piece[] => {
  const sheet = setting.views.sheets['milk-hold'];
  return [
    ...unplaced(setting, sheet.unplaced),
    ...held(setting, sheet),
    ...treatNow(setting, sheet.treat),
    ...bandsOff(setting, sheet.cleared),
    ...gone(setting, sheet.gone),
    ...byHand(setting),
    ...emergency(setting),
  ];
};

const unplaced = (setting: Setting, rows: readonly UnplacedRow[]): Piece[] => {
  if (rows.length === 0) return [];
  const { speech } = setting;
  const numbers = rows.map((each) => each.number ?? '');
  // An official number is too long for a column of its own: it stands on a line above its words.
  const stacked = numbers.some((number) => number.length > 10);
  const first = stacked ? setting.width : numberWidth(numbers, 110);
  const columns: Column[] = stacked
    ? [{ title: [], width: first }]
    : [
        { title: [], width: first },
        { title: [], width: setting.width - first - GAP },
      ];
  const pick: Pick = ({ labels }) => labels.find;
  const spec = table(setting, 'unplaced', columns, continued(setting, pick));
  const size = stacked ? NUMBER_LEAST : numberSize(numbers);
  const heads = [heading(setting, pick), remark(setting, ({ labels }) => labels.findHow)];
  const body = rows.flatMap((each) => {
    const number: Block =
      each.number === null
        ? texts(
            speech.each(({ labels }) => labels.unreadable),
            { size: TEXT, bold: true },
            first,
          )
        : cowNumber(each.number, size, first);
    const words = texts(speech.crewSays(each.because), { size: TEXT }, stacked ? first : setting.width - first - GAP);
    return row(spec, stacked ? [stack([number, words])] : [number, words], 1, titles(spec));
  });
  return [...heads, ...body];
};

const held = (setting: Setting, sheet: MilkHoldSheet): Piece[] => {
  const { mark } = setting.views.farm;
  const rows = sheet.held;
  const made: Piece[] = [
    rows.length === 0
      ? total(setting, ({ labels }) => labels.noneHeld)
      : total(setting, ({ labels, format }) => labels.milkOut(rows.length, format)),
  ];
  if (rows.length > 0 && mark !== null) made.push(sentence(setting, ({ labels }) => labels.wears(mark)));
  const make = heldRows(setting, rows);
  const strayed = rows.filter((each) => each.dryInMilkedGroup);
  if (strayed.length > 0) made.push(...make(strayed, ({ labels }) => labels.dryAmongMilkers));
  const groups = byGroup(rows.filter((each) => !each.dryInMilkedGroup));
  const named = new Set(sheet.groups.map((each) => each.group));
  // Groups of the milking in its order, then any other group that a held cow stands in: no row is left out.
  for (const group of [...named, ...[...groups.keys()].filter((each) => !named.has(each))]) {
    const inGroup = groups.get(group) ?? [];
    if (inGroup.length === 0) {
      const some = strayed.some((each) => each.group === group);
      if (!some) made.push(none(setting, ({ labels }) => labels.groupNone(group)));
    } else made.push(...make(inGroup, ({ labels, format }) => labels.groupHeld(group, inGroup.length, format)));
  }
  return made;
};
