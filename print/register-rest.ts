/** What follows the treatments in the printed register: corrections of other entries, and the stock by batch. */
import type { StockRow } from '../projections/medicine-stock.ts';
import type { Struck, StruckOther } from '../projections/struck-records.ts';
import { type Block, nothing, stack } from './blocks.ts';
import { columnsOf, headingPiece, notePiece, say, smallTitles } from './keeper-cells.ts';
import type { Room } from './keeper-paper.ts';
import type { Piece } from './pages.ts';
import type { Voice } from './speech.ts';
import { row, type TableSpec } from './table.ts';

/** Who struck it, when and why; what is true instead. */
export const correctionLines = (
  each: Struck,
  voice: Voice,
  width: number,
  which: 'struck' | 'instead' | 'both' = 'both',
): Block[] => {
  const { words, format } = voice;
  const { keeper } = words;
  return [
    ...(which === 'instead'
      ? []
      : [say(keeper.struckBy(each.by, format.time(each.at), each.reason), width, { bold: true })]),
    ...(which === 'struck' ? [] : [say(insteadText(each, voice), width)]),
  ];
};

const insteadText = (each: Struck, { words, format }: Voice): string => {
  const { keeper } = words;
  if (each.instead === null) return keeper.insteadNotSaid;
  if (each.instead === 'nothing') return keeper.insteadNothing;
  const right = each.insteadIs;
  if (right === null) return keeper.instead(each.instead);
  const cow = right.cow === null ? '' : ` ${right.cow}`;
  return keeper.instead(
    `${format.about(right.type)}${cow}, ${format.time(right.at)} (${keeper.atPosition(right.position)})`,
  );
};

const tableOf = (name: string, columns: TableSpec['columns'], room: Room, voice: Voice): TableSpec => ({
  name,
  columns,
  over: false,
  width: room.width,
  bodyHeight: room.height,
  partLabel: (part, parts) => [voice.labels.part(part, parts)],
});

export const correctionPieces = (others: readonly StruckOther[], voice: Voice, room: Room): Piece[] => {
  const { words, format } = voice;
  const { keeper } = words;
  if (others.length === 0) return [notePiece(keeper.noOtherCorrections, room.width)];
  const columns = columnsOf(room.width, [
    { title: keeper.what, part: 40 },
    { title: keeper.correction, part: 60 },
  ]);
  const [what = 0, correction = 0] = columns.map((column) => column.width);
  const spec = tableOf('corrections', columns, room, voice);
  const head = smallTitles(spec);
  const rows = others.flatMap((each) => {
    const written = keeper.writtenDownAt(format.time(each.writtenDown));
    const about = [format.about(each.type), each.medicine, each.cow].filter((part) => part !== null).join(', ');
    return row(
      spec,
      [
        stack([
          say(`${about}, ${format.time(each.happened)}`, what, { struck: true }),
          say(`${each.writtenBy}, ${written}`, what, { struck: true }),
        ]),
        stack(correctionLines(each, voice, correction)),
      ],
      1,
      head,
    );
  });
  return [headingPiece(keeper.otherCorrections, room.width), head, ...rows];
};

interface StockMade {
  readonly stock: readonly StockRow[];
  readonly dosesWithoutQuantity: number;
  readonly asOf: string;
}

export const stockPieces = ({ stock, dosesWithoutQuantity, asOf }: StockMade, voice: Voice, room: Room): Piece[] => {
  const { words, format } = voice;
  const { keeper } = words;
  const without =
    dosesWithoutQuantity === 0
      ? []
      : [notePiece(keeper.withoutQuantity(dosesWithoutQuantity, format), room.width, { bold: true })];
  const heading = headingPiece(keeper.stock(format.time(asOf)), room.width);
  if (stock.length === 0) return [heading, notePiece(keeper.noStock, room.width), ...without];
  const columns = columnsOf(room.width, [
    { title: voice.labels.medicine, part: 30 },
    { title: keeper.batch, part: 18 },
    { title: keeper.expires, part: 12 },
    { title: keeper.received, part: 9 },
    { title: keeper.used, part: 9 },
    { title: keeper.disposed, part: 9 },
    { title: keeper.left, part: 13 },
  ]);
  const widths = columns.map((column) => column.width);
  const spec = tableOf('stock', columns, room, voice);
  const head = smallTitles(spec);
  const rows = stock.flatMap((each) => {
    const [medicine = 0, batch = 0, expires = 0, received = 0, used = 0, disposed = 0, left = 0] = widths;
    const amount = (value: number): string => voice.labels.amount(format.number(value), each.unit);
    return row(
      spec,
      [
        say(each.medicine, medicine, { bold: true }),
        say(each.batch ?? keeper.notWrittenDown, batch, { bold: each.batch === null }),
        each.expires === null
          ? each.received > 0
            ? say(keeper.notWrittenDown, expires)
            : nothing
          : say(format.day(each.expires), expires),
        say(amount(each.received), received),
        say(amount(each.used), used),
        say(amount(each.disposed), disposed),
        stack([
          say(amount(each.left), left, { bold: true }),
          ...(each.left < 0 ? [say(keeper.moreOut, left, { bold: true })] : []),
          ...(each.dosesWithoutAmount === 0
            ? []
            : [say(keeper.notTakenOff(each.dosesWithoutAmount, format), left, { bold: true })]),
        ]),
      ],
      1,
      head,
    );
  });
  return [heading, head, ...rows, ...without];
};
