/**
 * The printed register of medicines: each treatment with every field that is asked for, zeros written, what nobody
 * wrote down said in its place, struck treatments in theirs with a line through them; then other corrections and the stock.
 */
import type { RegisterRow } from '../projections/medicine-row.ts';
import type { StruckDose } from '../projections/struck-records.ts';
import type { WholeRegister } from '../projections/whole-register.ts';
import type { Block } from './blocks.ts';
import { columnsOf, notePiece, smallTitles } from './keeper-cells.ts';
import type { KeeperPaper, Room } from './keeper-paper.ts';
import type { Piece } from './pages.ts';
import { struckCells, treatmentCells } from './register-cells.ts';
import { correctionPieces, stockPieces } from './register-rest.ts';
import type { Voice } from './speech.ts';
import { row, type TableSpec } from './table.ts';

export const registerPaper = (made: WholeRegister, voice: Voice): KeeperPaper => {
  const { words, format } = voice;
  const { keeper } = words;
  return {
    title: keeper.register,
    about: [
      [
        periodOf(made, voice),
        keeper.treatments(made.rows.length, format),
        keeper.struckTreatments(made.struck.doses.length, format),
      ].join(' · '),
    ],
    landscape: true,
    content: made,
    pieces: (room) => [
      ...remarks(made, voice, room),
      ...treatmentPieces(made, voice, room),
      ...correctionPieces(made.struck.others, voice, room),
      ...stockPieces(made, voice, room),
    ],
  };
};

const periodOf = ({ from, to }: WholeRegister, { words, format }: Voice): string => {
  const { keeper } = words;
  if (from !== null && to !== null) return keeper.period(format.day(from), format.day(to));
  if (from !== null) return keeper.fromDay(format.day(from));
  return to === null ? keeper.wholeBook : keeper.toDay(format.day(to));
};

const remarks = (made: WholeRegister, { words, format }: Voice, { width }: Room): Piece[] => {
  const { keeper } = words;
  const lacking = made.rows.filter((each) => each.missing.length > 0).length;
  const first =
    made.rows.length === 0
      ? notePiece(keeper.noTreatments, width, { bold: true })
      : notePiece(lacking === 0 ? keeper.noneLacking : keeper.lacking(lacking, format), width);
  if (made.setAside === 0) return [first];
  return [first, notePiece(keeper.maybeTreatments(made.setAside, format), width, { bold: true })];
};

/** In the order of their first doses, the struck ones where they stood. */
const treatmentPieces = (made: WholeRegister, voice: Voice, room: Room): Piece[] => {
  const { labels, words } = voice;
  const { keeper } = words;
  const columns = columnsOf(room.width, [
    { title: keeper.animal, part: 11.5 },
    { title: keeper.medicineColumn, part: 14.5 },
    { title: keeper.dosesColumn, part: 14.5 },
    { title: keeper.whyColumn, part: 15 },
    { title: labels.milkHold, part: 16.5 },
    { title: labels.beefHold, part: 16.5 },
    { title: keeper.supplyColumn, part: 11.5 },
  ]);
  const spec: TableSpec = {
    name: 'register',
    columns,
    over: false,
    width: room.width,
    bodyHeight: room.height,
    partLabel: (part, parts) => [labels.part(part, parts)],
  };
  const head = smallTitles(spec);
  const widths = columns.map((column) => column.width);
  const lines = [
    ...made.rows.map((each) => ({
      at: each.firstDose,
      cells: () => treatmentCells(each, whomOf(each, made), voice, widths),
    })),
    ...made.struck.doses.map((each: StruckDose) => ({
      at: each.given,
      cells: (): Block[] => struckCells(each, voice, widths),
    })),
  ].sort((a, b) => Date.parse(a.at) - Date.parse(b.at));
  return lines.length === 0 ? [] : [head, ...lines.flatMap(({ cells }) => row(spec, cells(), 1, head))];
};

const whomOf = ({ entries }: RegisterRow, { mayBeOf }: WholeRegister): readonly string[] => [
  ...new Set(entries.flatMap((entry) => mayBeOf[entry] ?? [])),
];
