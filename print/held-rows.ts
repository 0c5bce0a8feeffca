/**
 * Rows of held cows: number, why and where the milk goes, the quarter, and the milking from which it may go in the tank.
 * One set of columns for all groups, so that the eye finds the same thing at the same place down the whole sheet.
 */
import type { HeldRow, HoldCause, HoldReason, Views } from '../projections/views.ts';
import { type Block, flag, framed, nothing, stack, text, texts } from './blocks.ts';
import type { Piece } from './pages.ts';
import { continued, cowNumber, heading, numberSize, numberWidth, type Pick, type Setting, table } from './parts.ts';
import { quarterNames, udderOf } from './quarters.ts';
import { TEXT } from './sizes.ts';
import type { Voice } from './speech.ts';
import { type Column, GAP, row, titles } from './table.ts';
import { sayToCrew } from './words.ts';

/** Makes the rows of one group under its heading; the columns' titles stand over the first, and again on each new page. */
export const heldRows = (setting: Setting, rows: readonly HeldRow[]) => {
  const { speech, width } = setting;
  const numbers = rows.map((each) => each.cow);
  const size = numberSize(numbers);
  const plan = rows.some((each) => quartersOf(each).length > 0) ? udderOf(speech, []).width : 0;
  const first = numberWidth(numbers, 84);
  const last = 112;
  const why = width - first - last - 2 * GAP - (plan > 0 ? plan + GAP : 0);
  const columns: Column[] = [
    { title: speech.each(({ labels }) => labels.cow), width: first },
    { title: speech.each(({ labels }) => labels.why), width: why },
    ...(plan > 0 ? [{ title: [], width: plan }] : []),
    { title: speech.each(({ labels }) => labels.inTheTank), width: last },
  ];
  let titled = false;
  return (some: readonly HeldRow[], pick: Pick): Piece[] => {
    const spec = table(setting, `held ${some[0]?.group ?? ''}`, columns, continued(setting, pick));
    const head = titles(spec);
    const body = some.flatMap((each) => {
      const quarters = quartersOf(each);
      const cells = [
        numberCell(setting, each, size, first),
        whyCell(setting, each, why),
        ...(plan > 0 ? [quarters.length > 0 ? udderOf(speech, quarters) : nothing] : []),
        tankCell(setting, each, last),
      ];
      return row(spec, cells, 1, head);
    });
    const over = titled ? [] : [head];
    titled = true;
    return [heading(setting, pick), ...over, ...body];
  };
};

const quartersOf = (row: HeldRow): string[] => [...new Set(row.reasons.flatMap((reason) => reason.quarters ?? []))];

const numberCell = (setting: Setting, row: HeldRow, size: number, width: number): Block =>
  stack([
    cowNumber(row.cow, size, width),
    ...(row.isNew ? setting.speech.each(({ labels }) => labels.isNew).map((word) => flag(word)) : []),
  ]);

const whyCell = (setting: Setting, row: HeldRow, width: number): Block => {
  const { speech } = setting;
  const first = row.ask
    ? [
        framed(
          texts(
            speech.each(({ labels }) => labels.askFirst),
            { size: TEXT, bold: true },
            width - 10,
          ),
          4,
          1.6,
        ),
      ]
    : [];
  const reasons = speech.voices.flatMap((voice) =>
    row.reasons.flatMap((reason) => reasonLines(voice, reason, setting.views.farm.milkTo, width)),
  );
  return stack([...first, ...reasons]);
};

/** A reason: what it is in bold, then the quarter, the last dose and where the milk goes. */
const reasonLines = (
  { labels, format, words }: Voice,
  reason: HoldReason,
  milkTo: Views['farm']['milkTo'],
  width: number,
): Block[] => {
  const place = placeOf(milkTo, reason.cause);
  const more = [
    format.list(quarterNames(labels, reason.quarters ?? [])),
    reason.lastDose === undefined ? '' : labels.lastDose(format.time(reason.lastDose)),
    place === null ? labels.keepApart : labels.milkTo(place),
  ];
  return [
    text(`${labels.causes[reason.cause]}: ${sayToCrew(words, reason, format)}`, { size: TEXT, bold: true }, width),
    text(more.filter((each) => each !== '').join('; '), { size: TEXT }, width),
  ];
};

const placeOf = (milkTo: Views['farm']['milkTo'], cause: HoldCause): string | null => {
  if (cause === 'treated' || cause === 'fresh' || cause === 'abnormal') return milkTo[cause];
  return null;
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
      ? texts(
          speech.each(({ labels, format }) => labels.afterTime(format.time(until))),
          bold,
          width,
        )
      : stack(
          speech.voices.flatMap(({ format }, index) => [
            ...(index > 0 && sameDay(speech.voices, tankFrom)
              ? []
              : [text(format.day(tankFrom.slice(0, 10)), bold, width)]),
            text(format.milkingName(tankFrom.slice(11)), bold, width),
          ]),
        );
  const left =
    milkingsLeft === null
      ? nothing
      : texts(
          speech.each(({ labels, format }) => labels.milkingsLeft(milkingsLeft, format)),
          { size: TEXT },
          width,
        );
  return stack([from, left]);
};

const sameDay = (voices: readonly Voice[], milking: string): boolean =>
  new Set(voices.map(({ format }) => format.day(milking.slice(0, 10)))).size === 1;
