/** The sort gate: who is caught, why, for whom, where to and back to which group; those who won't come stand apart. */
import type { SortRow } from '../projections/views.ts';
import { type Block, flag, stack, texts, tick } from './blocks.ts';
import { cowTable } from './cow-table.ts';
import type { Piece } from './pages.ts';
import { type Setting, sentence, total } from './parts.ts';
import { HEADING, TEXT } from './sizes.ts';

export const sort = (setting: Setting): Piece[] => {
  const { cows, cannot } = setting.views.sheets.sort;
  const { speech } = setting;
  const list =
    cows.length === 0
      ? [total(setting, ({ labels }) => labels.noneToSort)]
      : [
          total(setting, ({ labels, format }) => labels.sortCount(cows.length, format)),
          ...cowTable(setting, {
            name: 'sort',
            heading: null,
            rows: cows,
            columns: [
              { title: ({ labels }) => labels.why, width: 'rest' },
              { title: ({ labels }) => labels.whereTo, width: 170 },
              { title: ({ labels }) => labels.done, width: 46 },
            ],
            cells: (each, [room = 0, where = 0]) => [
              texts(each.reasons.flatMap(speech.crewSays), { size: TEXT }, room),
              whereCell(setting, each, where),
              tick,
            ],
          }),
          sentence(setting, ({ labels, format }) => labels.tally(cows.length, format), true),
        ];
  const apart =
    cannot.length === 0
      ? []
      : cowTable(setting, {
          name: 'cannot',
          heading: ({ labels }) => labels.cannotCome,
          rows: cannot,
          columns: [{ title: ({ labels }) => labels.why, width: 'rest' }],
          cells: (each, [room = 0]) => [
            stack([
              texts(speech.says(each.because), { size: TEXT, bold: true }, room),
              ...each.reasons.map((reason) => texts(speech.says(reason), { size: TEXT }, room)),
            ]),
          ],
        });
  return [...list, ...apart];
};

const whereCell = ({ speech }: Setting, each: SortRow, width: number): Block => {
  const large = { size: HEADING, bold: true };
  const places =
    each.to.length === 0
      ? [
          texts(
            speech.each(({ labels }) => labels.noPlace),
            { size: TEXT, bold: true },
            width,
          ),
        ]
      : each.to.map((place) =>
          texts(
            speech.each(({ labels }) => labels.to(place)),
            large,
            width,
          ),
        );
  const differ =
    each.to.length > 1 ? speech.each(({ labels }) => labels.placesDiffer).map((word) => flag(word, TEXT, width)) : [];
  return stack([
    ...differ,
    ...places,
    texts(
      speech.each(({ labels }) => (comesBack(each) ? labels.backTo(each.group) : labels.from(each.group))),
      { size: TEXT },
      width,
    ),
  ]);
};

/** A cow that is dried off or leaves the fresh pen does not go back to where she came from. */
const comesBack = (each: SortRow): boolean =>
  !each.reasons.some((reason) => reason.key === 'sort.dry-off' || reason.key === 'sort.fresh-move');
