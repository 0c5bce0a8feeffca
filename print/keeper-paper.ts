/**
 * The record keeper's papers as PDF: one frame for the register, a cow's history and the statement for a buyer. On every
 * page: farm, what paper it is and for what time, page x of y, book, position and root, when printed, the cautions.
 * The same rows, marks and language give the same bytes.
 */
import { canonicalJson, sha256 } from '../shared/fingerprint.ts';
import { instantText } from '../shared/instant.ts';
import { mustBe } from '../shared/refusal.ts';
import { parseZone } from '../shared/zone.ts';
import { type Block, framed, stack, text } from './blocks.ts';
import type { PaperMarks } from './frame.ts';
import { type Ink, openInk } from './ink.ts';
import { lineOf, textWidth } from './lines.ts';
import { type PageOfPieces, type Piece, paginate } from './pages.ts';
import { DESK_TEXT, MARGIN, PAPERS, type PaperSize, SMALL } from './sizes.ts';
import type { Voice } from './speech.ts';
import { formatFor } from './words/format.ts';
import { wordsFor } from './words.ts';

export interface KeeperMarks extends Pick<PaperMarks, 'bookId' | 'position' | 'root' | 'printedAt' | 'rehearsal'> {
  readonly farm: string;
  readonly timeZone: string;
  readonly paper: 'A4' | 'Letter';
}

/** Where the pieces of a paper go: the width of its body, and the height that no row may exceed. */
export interface Room {
  readonly width: number;
  readonly height: number;
}

export interface KeeperPaper {
  readonly title: string;
  /** Under the title on every page: which time, which cow. */
  readonly about: readonly string[];
  readonly landscape: boolean;
  readonly pieces: (room: Room) => readonly Piece[];
  /** What the paper says, without words, for its hash. */
  readonly content: unknown;
}

/** A language on the farm's clocks; each date with its year, for these papers are read years later. */
export const keeperVoice = (tag: string, timeZone: string): Voice => {
  const words = wordsFor(tag);
  return {
    words,
    labels: words.labels,
    format: formatFor(words, { zone: mustBe(parseZone(timeZone)), unbroken: true }),
  };
};

const TITLE_SIZE = 18;

export const renderKeeper = async (paper: KeeperPaper, voice: Voice, marks: KeeperMarks): Promise<Uint8Array> => {
  const size = sizeOf(paper, marks);
  const width = size.width - 2 * MARGIN;
  const head = headOf(paper, voice, marks, width);
  const footFor = (page: number, pages: number): Block => footOf(voice, marks, width, page, pages);
  // Kept for the longest numbers, so that no page's number can change what fits on it.
  const foot = footFor(888, 888);
  const top = MARGIN + head.height + 8;
  const footTop = size.height - MARGIN - foot.height;
  const height = footTop - 8 - top;
  const pages = paginate(paper.pieces({ width, height }), () => height);
  const ink = openInk(size, {
    title: [paper.title, marks.farm, ...paper.about.slice(0, 1)].join(', '),
    language: voice.words.locale,
    subject: `position ${marks.position}, root ${marks.root}, book ${marks.bookId}`,
    keywords: `content ${sha256(canonicalJson(paper.content))}`,
    made: new Date(marks.printedAt),
  });
  pages.forEach((page, index) => {
    ink.page();
    const drawHead = (): void => head.draw(ink, MARGIN, MARGIN);
    if (index === 0) ink.tagged('H1', drawHead);
    else ink.furniture(drawHead);
    ink.furniture(() => {
      ink.rule(MARGIN, top - 3, width, 1.6);
      ink.rule(MARGIN, footTop - 4, width, 0.8);
      footFor(index + 1, pages.length).draw(ink, MARGIN, footTop);
    });
    drawBody(ink, page, top);
  });
  return ink.finish();
};

const sizeOf = ({ landscape }: KeeperPaper, { paper }: KeeperMarks): PaperSize => {
  const { width, height } = PAPERS[paper];
  return landscape ? { width: height, height: width } : { width, height };
};

const drawBody = (ink: Ink, page: PageOfPieces, top: number): void => {
  for (const { piece, y, repeated } of page.placed) {
    const draw = (): void => piece.draw(ink, MARGIN, top + y);
    if (repeated) ink.furniture(draw);
    else draw();
  }
};

const headOf = (paper: KeeperPaper, { labels }: Voice, marks: KeeperMarks, width: number) => {
  const large = { size: TITLE_SIZE, bold: true };
  const plain = { size: DESK_TEXT };
  const farmWidth = textWidth(marks.farm, plain);
  const beside = textWidth(paper.title, large) + 20 + farmWidth <= width;
  const title = text(paper.title, large, width);
  const named = beside
    ? {
        width,
        height: title.height,
        draw: (ink: Ink, x: number, y: number) => {
          title.draw(ink, x, y);
          ink.line(lineOf(marks.farm, plain), DESK_TEXT, x + width - farmWidth, y + 7);
        },
      }
    : stack([title, text(marks.farm, plain, width)]);
  return stack([
    ...(marks.rehearsal
      ? [framed(text(labels.rehearsal, { size: DESK_TEXT, bold: true }, width - 12), 3, 1.6, width)]
      : []),
    named,
    ...paper.about.map((line) => text(line, plain, width)),
  ]);
};

const footOf = ({ labels, format }: Voice, marks: KeeperMarks, width: number, page: number, pages: number): Block =>
  stack([
    text(labels.page(page, pages), { size: DESK_TEXT }, width),
    text(labels.cautions, { size: SMALL, bold: true }, width),
    text(
      [
        labels.printed(format.time(instantText(marks.printedAt))),
        `${labels.book} ${marks.bookId}`,
        `${labels.position} ${marks.position}`,
        `${labels.root} ${marks.root.slice(0, 32)}`,
        marks.timeZone,
      ].join(' · '),
      { size: SMALL },
      width,
    ),
  ]);
