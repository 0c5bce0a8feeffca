/**
 * The sheet on the parlour wall: whose milk stays out of the tank, why, and from which milking it may go in.
 * What must be found comes first; every row of the view is printed once; every group is named, also with none on hold.
 */
import type { MilkHoldSheet, UnplacedRow } from '../projections/views.ts';
import { texts } from './blocks.ts';
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
  numberColumn,
  type Pick,
  remark,
  type Setting,
  table,
  total,
} from './parts.ts';
import { TEXT } from './sizes.ts';
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
  const { width: first, over } = numberColumn(
    setting,
    rows.map((each) => each.number ?? ''),
  );
  const room = over ? setting.width : setting.width - first - GAP;
  const columns: Column[] = [
    { title: [], width: first },
    { title: [], width: room },
  ];
  const pick: Pick = ({ labels }) => labels.find;
  const spec = table(setting, 'unplaced', columns, continued(setting, pick), over);
  const head = titles(spec);
  const body = rows.flatMap((each) => {
    const number =
      each.number === null
        ? texts(
            speech.each(({ labels }) => labels.unreadable),
            { size: TEXT, bold: true },
            first,
          )
        : cowNumber(each.number, first);
    return row(spec, [number, texts(speech.crewSays(each.because), { size: TEXT }, room)], 1, head);
  });
  return [heading(setting, pick), remark(setting, ({ labels }) => labels.findHow), ...body];
};

const held = (setting: Setting, sheet: MilkHoldSheet): Piece[] => {
  const rows = sheet.held;
  const made: Piece[] = [
    rows.length === 0
      ? total(setting, ({ labels }) => (sheet.unplaced.length > 0 ? labels.noneHeldButFind : labels.noneHeld))
      : total(setting, ({ labels, format }) => labels.milkOut(rows.length, format)),
  ];
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
