/**
 * All that is written about a cow, on paper: both times of each entry, who said so, what was struck with a line through it,
 * whose it is where a number meant several cows, and the doubts that stand.
 */
import type { CowHistory, HistoryLine } from '../projections/history.ts';
import { instantText } from '../shared/instant.ts';
import { type Block, stack } from './blocks.ts';
import { detailOf, type PlaceOf } from './history-words.ts';
import { columnsOf, headingPiece, notePiece, say, smallTitles } from './keeper-cells.ts';
import type { KeeperPaper, Room } from './keeper-paper.ts';
import type { Piece } from './pages.ts';
import type { Voice } from './speech.ts';
import { row, type TableSpec } from './table.ts';
import { say as sayBecause } from './words.ts';

export const historyPaper = (history: CowHistory, placeOf: PlaceOf, voice: Voice): KeeperPaper => {
  const { words, format } = voice;
  const { keeper } = words;
  return {
    title: keeper.history(history.number),
    about: [keeper.entriesCount(history.lines.length, format)],
    landscape: false,
    content: {
      ...history,
      lines: history.lines.map(({ entry, ...line }) => ({ ...line, entry: entry.id, at: entry.at })),
    },
    pieces: (room) => [
      ...animalLines(history, voice).map((line) => notePiece(line, room.width, { bold: true })),
      ...linePieces(history, placeOf, voice, room),
      ...doubtPieces(history, voice, room),
    ],
  };
};

/** Which cow, or which cows, by official number and the barn numbers she bore. */
export const animalLines = ({ number, animals }: CowHistory, { words, format }: Voice): string[] => {
  const { keeper } = words;
  if (animals.length === 0) return [keeper.nobody(number)];
  return [
    ...(animals.length === 1 ? [] : [keeper.manyCows(number, animals.length, format)]),
    ...animals.map((animal, index) => {
      const bore = animal.bore.map((span) =>
        keeper.bore(span.number, format.time(span.from), span.to === null ? null : format.time(span.to)),
      );
      return [
        ...(animals.length === 1 ? [] : [keeper.cowNumbered(index + 1)]),
        `${keeper.officialNumber}: ${animal.officialId ?? keeper.notWrittenDown}`,
        `${keeper.barnNumber}: ${bore.join('; ')}`,
      ].join(' · ');
    }),
  ];
};

/** Whose an entry is: nothing said where there is one cow and it is hers. */
export const whoseText = (line: HistoryLine, { animals }: CowHistory, { words }: Voice): string | undefined => {
  const { keeper } = words;
  const nameOf = (index: number): string => {
    const animal = animals[index];
    const known = animal?.officialId ?? animal?.bore[0]?.number ?? '';
    return animals.length === 1 ? known : keeper.cowNumbered(index + 1);
  };
  if (line.whose.length > 0) return animals.length === 1 ? undefined : line.whose.map(nameOf).join(', ');
  return line.mayBe.length === 0 ? undefined : keeper.mayBe(line.mayBe.map(nameOf).join(' / '));
};

const linePieces = (history: CowHistory, placeOf: PlaceOf, voice: Voice, room: Room): Piece[] => {
  const { keeper } = voice.words;
  const columns = columnsOf(room.width, [
    { title: keeper.happened, part: 21.5 },
    { title: keeper.learnt, part: 20 },
    { title: keeper.what, part: 39.5 },
    { title: keeper.who, part: 19 },
  ]);
  const spec: TableSpec = {
    name: 'history',
    columns,
    over: false,
    width: room.width,
    bodyHeight: room.height,
    partLabel: (part, parts) => [voice.labels.part(part, parts)],
  };
  const head = smallTitles(spec);
  const widths = columns.map((column) => column.width);
  const rows = history.lines.flatMap((line) => row(spec, cellsOf(line, history, placeOf, voice, widths), 1, head));
  return rows.length === 0 ? [] : [head, ...rows];
};

const cellsOf = (
  line: HistoryLine,
  history: CowHistory,
  placeOf: PlaceOf,
  voice: Voice,
  widths: readonly number[],
): Block[] => {
  const { words, format } = voice;
  const { keeper } = words;
  const [happened = 0, learnt = 0, what = 0, who = 0] = widths;
  const { entry, struck } = line;
  const hand = { struck: struck !== undefined };
  const whose = whoseText(line, history, voice);
  return [
    say(format.time(instantText(entry.at)), happened, { ...hand, bold: true }),
    say(format.time(instantText(entry.recordedAt)), learnt, hand),
    stack([
      say(`${format.about(entry.type)} ${entry.subject ?? ''}`.trim(), what, { ...hand, bold: true }),
      ...(whose === undefined ? [] : [say(whose, what, { bold: true })]),
      say(detailOf(entry, voice, placeOf), what, hand),
      ...(struck === undefined
        ? []
        : [
            say(keeper.struckBy(struck.author, format.time(instantText(struck.recordedAt)), struck.data.reason), what, {
              bold: true,
            }),
            say(insteadOf(struck.data.instead, voice, placeOf), what),
          ]),
    ]),
    stack([
      say(keeper.by(entry.author, entry.source), who, hand),
      ...(entry.via === undefined ? [] : [say(keeper.through(entry.via), who, hand)]),
      say(keeper.atPosition(entry.position), who),
    ]),
  ];
};

/** What a strike says was true instead. */
export const insteadOf = (instead: string | undefined, { words }: Voice, placeOf: PlaceOf): string => {
  const { keeper } = words;
  if (instead === undefined) return keeper.insteadNotSaid;
  if (instead === 'nothing') return keeper.insteadNothing;
  const place = placeOf(instead);
  return keeper.instead(place === undefined ? instead : keeper.atPosition(place));
};

const doubtPieces = ({ doubts }: CowHistory, { words, labels, format }: Voice, { width }: Room): Piece[] =>
  doubts.length === 0
    ? [notePiece(labels.noDoubts, width, { bold: true })]
    : [
        headingPiece(labels.doubts, width),
        ...doubts.map(({ because }) => notePiece(sayBecause(words, because, format), width)),
      ];
