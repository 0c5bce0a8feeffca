/** Head counts: how many stand in each group by the book, who came and went, and a box for what was counted. */
import type { CountsRow } from '../projections/views.ts';
import { type Block, stack, text, texts, writeBox, writeLine } from './blocks.ts';
import type { Piece } from './pages.ts';
import { continued, heading, none, type Pick, type Setting, sentence, table, total } from './parts.ts';
import { HEADING, NUMBER_LEAST, TEXT } from './sizes.ts';
import { type Column, GAP, row, titles } from './table.ts';

const [HEAD, MILK, HELD, COUNT, SIGN] = [92, 70, 66, 80, 64];

export const counts = (setting: Setting): Piece[] => {
  const { groups, total: all } = setting.views.sheets.counts;
  if (groups.length === 0) return [total(setting, ({ labels }) => labels.noGroups)];
  const { speech, width } = setting;
  const name = width - HEAD - MILK - HELD - COUNT - SIGN - 5 * GAP;
  const columns: Column[] = [
    { title: speech.each(({ labels }) => labels.group), width: name },
    { title: speech.each(({ labels }) => labels.expected), width: HEAD },
    { title: speech.each(({ labels }) => labels.inMilk), width: MILK },
    { title: speech.each(({ labels }) => labels.held), width: HELD },
    { title: speech.each(({ labels }) => labels.counted), width: COUNT },
    { title: speech.each(({ labels }) => labels.initials), width: SIGN },
  ];
  const pick: Pick = ({ labels }) => labels.counts;
  const spec = table(setting, 'counts', columns, continued(setting, pick));
  const head = titles(spec);
  const figures = (value: number, size: number): Block => text(String(value), { size, bold: true, figures: true }, 200);
  const line = (label: Block, head_: number, inMilk: number, held: number): Block[] => [
    label,
    figures(head_, NUMBER_LEAST),
    figures(inMilk, HEADING),
    figures(held, HEADING),
    writeBox(COUNT, 34),
    writeLine(SIGN, 34),
  ];
  const body = groups.flatMap((group) =>
    row(spec, line(groupCell(setting, group, name), group.head, group.inMilk, group.held), 1, head),
  );
  const last = row(
    spec,
    line(
      texts(
        speech.each(({ labels }) => labels.allGroups),
        { size: HEADING, bold: true },
        name,
      ),
      all.head,
      all.inMilk,
      all.held,
    ),
    0,
    head,
  );
  return [heading(setting, pick), head, ...body, ...last, ...movements(setting, groups)];
};

const groupCell = ({ speech }: Setting, group: CountsRow, width: number): Block => {
  const { capacity } = group;
  return stack([
    text(group.group, { size: HEADING, bold: true }, width),
    ...(group.milked
      ? []
      : [
          texts(
            speech.each(({ labels }) => labels.notMilkedNow),
            { size: TEXT },
            width,
          ),
        ]),
    ...(capacity === null || group.head <= capacity
      ? []
      : [
          texts(
            speech.each(({ labels }) => labels.capacity(capacity)),
            { size: TEXT, bold: true },
            width,
          ),
        ]),
  ]);
};

/** Who came and went, and a last count that did not agree, in words under the table: a paragraph a group. */
const movements = (setting: Setting, groups: readonly CountsRow[]): Piece[] => {
  const said = groups.flatMap((group) => {
    const { in: came, out: went, lastCount, lastCountAt, countedDifference } = group;
    const parts: Pick[] = [];
    if (came.length > 0) parts.push(({ labels, format }) => `${labels.cameIn} ${format.list(came)}`);
    if (went.length > 0) parts.push(({ labels, format }) => `${labels.wentOut} ${format.list(went)}`);
    if (lastCount !== null && countedDifference !== null && countedDifference !== 0) {
      parts.push(({ labels, format }) => labels.lastCount(lastCount, lastCountAt, countedDifference, format));
    }
    return parts.length === 0
      ? []
      : [sentence(setting, (voice) => `${group.group}: ${parts.map((part) => part(voice)).join('; ')}`)];
  });
  return said.length === 0
    ? [none(setting, ({ labels }) => labels.nobodyMoved)]
    : [heading(setting, ({ labels }) => labels.movements), ...said];
};
