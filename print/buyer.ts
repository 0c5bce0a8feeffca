/**
 * The statement for the buyer of a cow that leaves: who she is, what holds her milk and her meat and until when, the
 * treatments behind it, what is not known, and who says so. What the book knows; not a guarantee.
 */
import type { HoldStated, Leaving } from '../projections/leaving.ts';
import type { RegisterRow } from '../projections/medicine-row.ts';
import { type Block, beside, framed, space, stack, writeLine } from './blocks.ts';
import {
  basisOf,
  dosesOf,
  endOf,
  type Fact,
  factsOf,
  holdsHeading,
  notKnownOf,
  reasonsOf,
  whoSheIs,
} from './buyer-words.ts';
import { columnsOf, headingPiece, named, say, smallTitles } from './keeper-cells.ts';
import type { KeeperPaper, Room } from './keeper-paper.ts';
import type { Piece } from './pages.ts';
import { DESK_TEXT } from './sizes.ts';
import type { Voice } from './speech.ts';
import { piece, row, type TableSpec } from './table.ts';

const WHO = 14;

export const buyerPaper = (leaving: Leaving, voice: Voice): KeeperPaper => {
  const { keeper } = voice.words;
  return {
    title: keeper.statement,
    about: [keeper.whatBookKnows],
    landscape: false,
    content: leaving,
    pieces: (room) => [
      note(stack(whoSheIs(leaving, voice).map((fact) => factBlock(fact, room.width, WHO))), 6),
      ...(leaving.left === null
        ? [note(say(keeper.stillHere(voice.format.time(leaving.at)), room.width, { size: DESK_TEXT }))]
        : []),
      headingPiece(holdsHeading(leaving, voice), room.width),
      ...holdPieces(voice.labels.milkHold, leaving.milk, voice, room),
      ...holdPieces(voice.labels.beefHold, leaving.meat, voice, room),
      ...basisOf(leaving, voice).map((text) => note(say(text, room.width, { size: DESK_TEXT }), 3)),
      note(say(keeper.notGuarantee, room.width, { size: DESK_TEXT, bold: true }), 3),
      ...behindPieces(leaving, voice, room),
      headingPiece(keeper.notKnown, room.width),
      ...notKnownPieces(leaving, voice, room),
      ...signPieces(voice, room),
    ],
  };
};

const note = (block: Block, above = 0): Piece => piece('note', 'P', block, { above, below: 2 });

const factBlock = ({ name, value, loud = true }: Fact, width: number, size: number): Block =>
  named(name, value, width, { size, loud });

/**
 * Framed, with its end as large as who she is: nobody may read past it. Reasons that would fill half a page follow the frame,
 * so that none of them can run off the page.
 */
const holdPieces = (name: string, hold: HoldStated, voice: Voice, { width, height }: Room): Piece[] => {
  const inner = width - 14;
  const end = say(`${name}: ${endOf(hold, voice)}`, inner, { size: WHO, bold: true });
  const reasons = reasonsOf(hold, voice);
  const frame = (blocks: readonly Block[]): Piece => note(framed(stack(blocks), 7, hold.held ? 2 : 1, width), 4);
  const within = reasons.map((reason) => say(reason, inner, { size: DESK_TEXT }));
  const whole = frame([end, ...within]);
  if (whole.height <= height / 2) return [whole];
  return [frame([end]), ...reasons.map((reason) => note(say(reason, width, { size: DESK_TEXT })))];
};

const behindPieces = (leaving: Leaving, voice: Voice, room: Room): Piece[] => {
  const { labels, words } = voice;
  const { keeper } = words;
  if (!leaving.milk.held && !leaving.meat.held) return [];
  const heading = headingPiece(keeper.behind, room.width);
  if (leaving.treatments.length === 0) return [heading, note(say(keeper.noneBehind, room.width, { size: DESK_TEXT }))];
  const columns = columnsOf(room.width, [
    { title: labels.medicine, part: 55 },
    { title: keeper.lastDoseColumn, part: 45 },
  ]);
  const [medicine = 0, doses = 0] = columns.map((column) => column.width);
  const spec: TableSpec = {
    name: 'treatments',
    columns,
    over: false,
    width: room.width,
    bodyHeight: room.height,
    partLabel: (part, parts) => [labels.part(part, parts)],
  };
  const head = smallTitles(spec);
  const cells = (each: RegisterRow): Block[] => [
    stack([
      say(each.medicine, medicine, { size: DESK_TEXT, bold: true }),
      ...factsOf(each, voice).map((fact) => factBlock({ loud: false, ...fact }, medicine, DESK_TEXT)),
    ]),
    stack(dosesOf(each, voice).map((dose) => say(dose, doses, { size: DESK_TEXT }))),
  ];
  return [heading, head, ...leaving.treatments.flatMap((each) => row(spec, cells(each), 1, head))];
};

const notKnownPieces = (leaving: Leaving, voice: Voice, room: Room): Piece[] => {
  const lines = notKnownOf(leaving, voice);
  if (lines.length === 0) return [note(say(voice.words.keeper.nothingMissing, room.width, { size: DESK_TEXT }))];
  return lines.map((line) => note(say(line, room.width, { size: DESK_TEXT })));
};

/** Who states it, and who took it: on one page, whole. */
const signPieces = ({ words }: Voice, room: Room): Piece[] => {
  const { keeper } = words;
  const third = (room.width - 24) / 3;
  const line = (who: string): Block =>
    stack([
      say(who, room.width, { size: DESK_TEXT, bold: true }),
      space(14),
      beside(
        [keeper.name, keeper.signature, keeper.date].map((what) =>
          stack([writeLine(third, 14), fill(say(what, third), third)]),
        ),
        12,
      ),
    ]);
  return [note(stack([line(keeper.statedBy), space(8), line(keeper.receivedBy)]), 14)];
};

/** As wide as its place, whatever it says. */
const fill = (block: Block, width: number): Block => ({ width, height: block.height, draw: block.draw });
