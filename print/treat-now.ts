/** Doses due at this milking: what, how much, where, which dose of how many; a box to tick and a place to initial each. */
import type { TreatRow } from '../projections/views.ts';
import { type Block, flag, nothing, stack, text, texts, tick, writeLine } from './blocks.ts';
import { type CowColumn, cowTable } from './cow-table.ts';
import type { Piece } from './pages.ts';
import { none, type Setting } from './parts.ts';
import { quarterNames, udderOf } from './quarters.ts';
import { TEXT } from './sizes.ts';

export const treatNow = (setting: Setting, rows: readonly TreatRow[]): Piece[] => {
  if (rows.length === 0) return [none(setting, ({ labels }) => labels.noneToTreat)];
  const plan = rows.some((each) => each.quarters.length > 0) ? udderOf(setting.speech, []).width : 0;
  const planColumn: CowColumn[] = plan > 0 ? [{ title: null, width: plan }] : [];
  return cowTable(setting, {
    name: 'treat',
    heading: ({ labels, format }) => labels.treatNow(rows.length, format),
    rows,
    group: (each) => each.group,
    columns: [
      { title: ({ labels }) => labels.medicine, width: 'rest' },
      ...planColumn,
      { title: ({ labels }) => labels.done, width: 46 },
      { title: ({ labels }) => labels.initials, width: 70 },
    ],
    cells: (each, [room = 0]) => [
      whatCell(setting, each, room),
      ...(plan > 0 ? [each.quarters.length > 0 ? udderOf(setting.speech, each.quarters) : nothing] : []),
      tick,
      writeLine(70, 30),
    ],
  });
};

const whatCell = ({ speech }: Setting, each: TreatRow, width: number): Block => {
  const overdue = each.overdue
    ? speech.each(({ labels }) => labels.askBeforeGiving).map((word) => flag(word, TEXT, width))
    : [];
  const how = speech.each(({ labels, format }) =>
    [
      each.amount === null ? '' : labels.amount(format.number(each.amount.value), each.amount.unit),
      each.route ?? '',
      format.list(quarterNames(labels, each.quarters)),
    ]
      .filter((part) => part !== '')
      .join(', '),
  );
  return stack([
    ...overdue,
    text(each.medicine, { size: TEXT, bold: true }, width),
    texts(
      speech.each(({ labels }) => labels.dose(each.dose, each.of)),
      { size: TEXT, bold: true },
      width,
    ),
    texts(
      how.filter((words) => words !== ''),
      { size: TEXT },
      width,
    ),
    texts(speech.crewSays(each.because), { size: TEXT }, width),
  ]);
};
