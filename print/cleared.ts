/** Bands that come off, and cows that were on the last sheet and are not cleared: those are said, and no band comes off. */
import type { ClearedRow, GoneRow } from '../projections/views.ts';
import { flag, stack, text, texts, tick, writeLine } from './blocks.ts';
import { cowTable } from './cow-table.ts';
import type { Piece } from './pages.ts';
import { none, type Setting } from './parts.ts';
import { TEXT } from './sizes.ts';

export const bandsOff = (setting: Setting, rows: readonly ClearedRow[]): Piece[] => {
  if (rows.length === 0) return [none(setting, ({ labels }) => labels.noneCleared)];
  const { speech } = setting;
  return cowTable(setting, {
    name: 'cleared',
    heading: ({ labels, format }) => labels.bandsOff(rows.length, format),
    rows,
    columns: [
      { title: null, width: 'rest' },
      { title: ({ labels }) => labels.bandOff, width: 60 },
      { title: ({ labels }) => labels.initials, width: 70 },
    ],
    cells: (each, [room = 0]) => {
      const { notBefore } = each;
      const first = notBefore === null ? [] : speech.each(({ labels }) => labels.notBefore(notBefore));
      const words = stack([
        ...first.map((word) => flag(word, TEXT, room)),
        text(each.group, { size: TEXT, bold: true }, room),
        texts(
          speech.each(({ labels, format }) => labels.freeSince(format.time(each.since))),
          { size: TEXT },
          room,
        ),
      ]);
      return [words, tick, writeLine(70, 30)];
    },
  });
};

export const gone = (setting: Setting, rows: readonly GoneRow[]): Piece[] => {
  if (rows.length === 0) return [];
  return cowTable(setting, {
    name: 'gone',
    heading: ({ labels }) => labels.gone,
    rows,
    columns: [{ title: null, width: 'rest' }],
    cells: (each, [room = 0]) => [
      texts(
        setting.speech.each(({ labels }) => labels.goneHow[each.how]),
        { size: TEXT, bold: true },
        room,
      ),
    ],
  });
};
