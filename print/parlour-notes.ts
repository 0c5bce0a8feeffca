/** What the wall sheet carries besides cows: rows to write on, what to do with a band and no line, and when held milk went in. */
import { space, text, texts, writeLine } from './blocks.ts';
import type { Piece } from './pages.ts';
import { framedNote, heading, type Setting, table } from './parts.ts';
import { TEXT } from './sizes.ts';
import { blankRows, type Column, GAP, titles } from './table.ts';

export const byHand = (setting: Setting, count = 3): Piece[] => {
  const { speech, width } = setting;
  const [first, sign] = [110, 70];
  const why = width - first - sign - 2 * GAP;
  const columns: Column[] = [
    { title: speech.each(({ labels }) => labels.cow), width: first },
    { title: speech.each(({ labels }) => labels.byHandWhat), width: why },
    { title: speech.each(({ labels }) => labels.initials), width: sign },
  ];
  const spec = table(setting, 'by hand', columns);
  const head = titles(spec);
  return [
    heading(setting, ({ labels }) => labels.byHand),
    head,
    ...blankRows(spec, () => [writeLine(first, 32), writeLine(why, 32), writeLine(sign, 32)], count),
  ];
};

/** The farm's own numbers stand in it; without any, the line to write one on. */
export const emergency = (setting: Setting): Piece[] => {
  const { speech, width, views } = setting;
  const inner = width - 14;
  const { phones } = views.farm;
  const ring =
    phones.length === 0
      ? [writeLine(inner, 30)]
      : phones.map(({ who, number }) => text(`${who}: ${number}`, { size: 18, bold: true }, inner));
  return [
    framedNote(setting, [
      texts(
        speech.each(({ labels }) => labels.bandNoLine),
        { size: TEXT, bold: true },
        inner,
      ),
      space(6),
      texts(
        speech.each(({ labels }) => labels.milkWentIn),
        { size: TEXT, bold: true },
        inner,
      ),
      ...ring,
    ]),
  ];
};
