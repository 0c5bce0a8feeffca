/** The fresh pen: who leaves it and for where, who comes in, who stays and why, and what to look at on each cow in it. */
import type { FreshOutRow, FreshPenRow } from '../projections/views.ts';
import { type Block, stack, texts, tick, writeLine } from './blocks.ts';
import { cowTable } from './cow-table.ts';
import type { Piece } from './pages.ts';
import { none, type Setting } from './parts.ts';
import { TEXT } from './sizes.ts';

export const freshMoves = (setting: Setting): Piece[] => {
  const { out, stay, in: incoming, pen } = setting.views.sheets['fresh-moves'];
  const { speech } = setting;
  const bold = { size: TEXT, bold: true };
  const because = (each: { readonly because: FreshOutRow['because'] }, room: number): Block =>
    texts(speech.says(each.because), { size: TEXT }, room);
  return [
    ...(out.length === 0
      ? [none(setting, ({ labels }) => labels.noneOut)]
      : cowTable(setting, {
          name: 'out',
          heading: ({ labels, format }) => labels.movesOut(out.length, format),
          rows: out,
          columns: [
            { title: null, width: 'rest' },
            { title: ({ labels }) => labels.done, width: 46 },
          ],
          cells: (each, [room = 0]) => [
            stack([
              texts(
                speech.each(({ labels }) => `${labels.from(each.from)} ${labels.goesTo(each.to)}`),
                bold,
                room,
              ),
              ...each.warnings.map((warning) =>
                texts(
                  speech.says(warning).map((words) => `! ${words}`),
                  bold,
                  room,
                ),
              ),
              because(each, room),
            ]),
            tick,
          ],
        })),
    ...(incoming.length === 0
      ? [none(setting, ({ labels }) => labels.noneIn)]
      : cowTable(setting, {
          name: 'in',
          heading: ({ labels }) => labels.comesIn,
          rows: incoming,
          columns: [
            { title: ({ labels }) => labels.why, width: 'rest' },
            { title: ({ labels }) => labels.done, width: 46 },
          ],
          cells: (each, [room = 0]) => [because(each, room), tick],
        })),
    ...(stay.length === 0
      ? [none(setting, ({ labels }) => labels.noneStay)]
      : cowTable(setting, {
          name: 'stay',
          heading: ({ labels }) => labels.stays,
          rows: stay,
          columns: [{ title: ({ labels }) => labels.why, width: 'rest' }],
          cells: (each, [room = 0]) => [because(each, room)],
        })),
    ...(pen.length === 0
      ? [none(setting, ({ labels }) => labels.nonePen)]
      : cowTable(setting, {
          name: 'pen',
          heading: ({ labels }) => labels.pen,
          rows: pen,
          columns: [
            { title: null, width: 'rest' },
            { title: ({ labels }) => labels.temperature, width: 96 },
            { title: ({ labels }) => labels.milkCheckedBy, width: 96 },
          ],
          cells: (each, [room = 0]) => [penCell(setting, each, room), writeLine(96, 32), writeLine(96, 32)],
        })),
  ];
};

const penCell = ({ speech }: Setting, each: FreshPenRow, width: number): Block => {
  const { calved, milkingsSince, ease } = each;
  const first = speech.each(({ labels, format }) =>
    calved === null ? labels.notCalved : labels.calved(format.calving({ ...each, calved })),
  );
  const second = speech.each(({ labels, format }) =>
    [
      milkingsSince === null ? '' : labels.milkingsSince(milkingsSince, format),
      ease === null ? '' : labels.ease(ease),
      ...each.calves.map((calf) => labels.calf(calf.sex, calf.alive, calf.number)),
    ]
      .filter((part) => part !== '')
      .join('; '),
  );
  return stack([
    texts(first, { size: TEXT, bold: true }, width),
    texts(
      second.filter((words) => words !== ''),
      { size: TEXT },
      width,
    ),
  ]);
};
