/** Who may not leave for slaughter, until when, and why. For the office and whoever loads. */
import type { BeefHoldRow } from '../projections/views.ts';
import { type Block, texts } from './blocks.ts';
import { cowTable } from './cow-table.ts';
import type { Piece } from './pages.ts';
import { type Setting, sentence, total } from './parts.ts';
import { DESK_TEXT, TEXT } from './sizes.ts';

export const beefHold = (setting: Setting): Piece[] => {
  const { cows } = setting.views.sheets['beef-hold'];
  const { speech } = setting;
  if (cows.length === 0) return [total(setting, ({ labels }) => labels.noneBeefHeld)];
  return [
    total(setting, ({ labels, format }) => labels.beefCount(cows.length, format)),
    sentence(setting, ({ labels }) => labels.beefRule, true),
    ...cowTable(setting, {
      name: 'beef',
      heading: null,
      desk: true,
      rows: cows,
      group: (each) => each.group,
      columns: [
        { title: ({ labels }) => labels.until, width: 120 },
        { title: ({ labels }) => labels.why, width: 'rest' },
      ],
      cells: (each, [until = 0, room = 0]) => [
        untilCell(setting, each, until),
        texts(each.reasons.flatMap(speech.says), { size: DESK_TEXT }, room),
      ],
    }),
  ];
};

const untilCell = ({ speech }: Setting, each: BeefHoldRow, width: number): Block => {
  const { until } = each;
  return texts(
    speech.each(({ labels, format }) => (until === null ? labels.noEndKnown : format.time(until))),
    { size: TEXT, bold: true },
    width,
  );
};
