/** Who is dried off and when, with boxes for what is done to each quarter; and who is long in milk and undecided. */
import type { DryOffRow } from '../projections/views.ts';
import { type Block, beside, flag, stack, texts, tick, tickFor, writeLine } from './blocks.ts';
import { cowTable } from './cow-table.ts';
import type { Piece } from './pages.ts';
import { none, type Setting, sentence, total } from './parts.ts';
import { TEXT } from './sizes.ts';

export const dryOff = (setting: Setting): Piece[] => {
  const { due, undecided } = setting.views.sheets['dry-off'];
  const { speech } = setting;
  const list =
    due.length === 0
      ? [total(setting, ({ labels }) => labels.noneToDryOff)]
      : [
          total(setting, ({ labels, format }) => labels.dryOffCount(due.length, format)),
          sentence(setting, ({ labels }) => labels.dryOffRule),
          ...cowTable(setting, {
            name: 'due',
            heading: null,
            rows: due,
            group: (each) => each.group,
            columns: [
              { title: ({ labels }) => labels.why, width: 'rest' },
              { title: ({ labels }) => labels.quartersDone, width: 172 },
            ],
            cells: (each, [room = 0, done = 0]) => [whyCell(setting, each, room), doneCell(setting, each, done)],
          }),
        ];
  const open =
    undecided.length === 0
      ? [none(setting, ({ labels }) => labels.noneUndecided)]
      : cowTable(setting, {
          name: 'undecided',
          heading: ({ labels }) => labels.undecided,
          rows: undecided,
          group: (each) => each.group,
          columns: [
            { title: ({ labels }) => labels.why, width: 'rest' },
            { title: ({ labels }) => labels.decision, width: 150 },
          ],
          cells: (each, [room = 0, decision = 0]) => [
            texts(speech.says(each.because), { size: TEXT }, room),
            writeLine(decision, 30),
          ],
        });
  return [...list, ...open];
};

const whyCell = ({ speech }: Setting, each: DryOffRow, width: number): Block => {
  const bold = { size: TEXT, bold: true };
  const overdue =
    each.daysOverdue === 0
      ? []
      : speech
          .each(({ labels, format }) => labels.overdue(each.daysOverdue, format))
          .map((word) => flag(word, TEXT, width));
  return stack([
    ...overdue,
    texts(
      speech.each(({ labels, format }) => labels.dryOffOn(format.day(each.dryOffOn))),
      bold,
      width,
    ),
    texts(
      speech.each(({ labels, format }) => labels.calvingDue(format.day(each.calvingDue))),
      { size: TEXT },
      width,
    ),
    ...each.warnings.map((warning) =>
      texts(
        speech.says(warning).map((words) => `! ${words}`),
        bold,
        width,
      ),
    ),
  ]);
};

/** Four squares as the udder stands, and beside them sealant and band, each to tick. */
const doneCell = ({ speech }: Setting, each: DryOffRow, width: number): Block => {
  const words = width - QUARTERS.width - 14;
  return stack([
    texts(
      speech.each(({ labels }) => `${labels.product}: ${each.product ?? ''}`),
      { size: TEXT },
      width,
    ),
    ...(each.product === null ? [writeLine(width, 22)] : []),
    beside(
      [
        QUARTERS,
        stack([
          tickFor(
            speech.joined(({ labels }) => labels.sealant),
            words,
          ),
          tickFor(
            speech.joined(({ labels }) => labels.band),
            words,
          ),
        ]),
      ],
      14,
    ),
  ]);
};

const QUARTERS: Block = {
  width: 2 * tick.width + 4,
  height: 2 * tick.height + 8,
  draw: (ink, x, y) => {
    for (const column of [0, 1]) {
      for (const line of [0, 1]) tick.draw(ink, x + column * (tick.width + 4), y + 2 + line * (tick.height + 4));
    }
  },
};
