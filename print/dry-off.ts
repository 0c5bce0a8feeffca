/** Who is dried off and when, with boxes for what is done to each quarter; and who is long in milk and undecided. */
import type { DryOffRow } from '../projections/views.ts';
import { type Block, flag, stack, text, texts, tick, tickFor, writeLine } from './blocks.ts';
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
            heading: ({ labels }) => labels.dryOff,
            rows: due,
            group: (each) => each.group,
            columns: [
              { title: ({ labels }) => labels.why, width: 'rest' },
              { title: ({ labels }) => labels.done, width: 170 },
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

/** Four squares as the udder stands, then sealant and band, each to tick. */
const doneCell = ({ speech }: Setting, each: DryOffRow, width: number): Block => {
  const product = each.product ?? '';
  return stack([
    texts(
      speech.each(({ labels }) => `${labels.product}: ${product}`),
      { size: TEXT },
      width,
    ),
    ...(product === '' ? [writeLine(width, 22)] : []),
    quarterBoxes(
      speech.joined(({ labels }) => labels.quartersDone),
      width,
    ),
    tickFor(
      speech.joined(({ labels }) => labels.sealant),
      width,
    ),
    tickFor(
      speech.joined(({ labels }) => labels.band),
      width,
    ),
  ]);
};

const quarterBoxes = (words: string, width: number): Block => {
  const label = text(words, { size: TEXT }, width - 2 * tick.width - 12);
  const height = Math.max(2 * tick.height + 4, label.height) + 4;
  return {
    width,
    height,
    draw: (ink, x, y) => {
      for (const column of [0, 1]) {
        for (const line of [0, 1]) tick.draw(ink, x + column * (tick.width + 4), y + 2 + line * (tick.height + 4));
      }
      label.draw(ink, x + 2 * tick.width + 12, y + (height - label.height) / 2);
    },
  };
};
