/**
 * What stands on every page: the farm, the sheet, the one milking that it is for, when it was printed, which page of how
 * many, how many lines; at the foot the cautions, and small, what the record keeper needs to find this set again.
 */
import QRCode from 'qrcode';
import type { Views } from '../projections/views.ts';
import { type Instant, instantText } from '../shared/instant.ts';
import { type Block, framed, nothing, stack, text, texts } from './blocks.ts';
import type { Ink } from './ink.ts';
import { lineOf, textWidth } from './lines.ts';
import { HEADING, MARGIN, mm, type PaperSize, SMALL, TEXT, TITLE } from './sizes.ts';
import type { Speech } from './speech.ts';

/** What the paper says about itself besides the rows. */
export interface PaperMarks {
  /** Short code of the issued set; null while it is only looked at. */
  readonly ref: string | null;
  readonly bookId: string;
  /** Entries of the log that were used. */
  readonly position: number;
  /** Root of the log's tree, 64 hex digits. */
  readonly root: string;
  readonly printedAt: Instant;
  readonly rehearsal: boolean;
  /** Signed checkpoint for the QR code. */
  readonly checkpoint: string | null;
  /** Ref of the set that this one replaces. */
  readonly replaces?: string;
}

export interface Frame {
  readonly top: number;
  /** Room for rows on a page, counted from 0: the first also has the code of the checkpoint at its foot. */
  readonly bodyHeight: (page: number) => number;
  readonly left: number;
  readonly width: number;
  readonly draw: (ink: Ink, page: PageMarks) => void;
}

export interface PageMarks {
  /** First page of this set of languages. */
  readonly first: boolean;
  /** Counted from 1 through the whole document. */
  readonly page: number;
  readonly pages: number;
  readonly linesHere: number;
  readonly lines: number;
}

export interface FrameSpec {
  readonly title: (labels: Speech['voices'][number]['labels']) => string;
  readonly paper: PaperSize;
  readonly views: Views;
  readonly marks: PaperMarks;
  readonly speech: Speech;
}

const QR = mm(26);

export const frameOf = (spec: FrameSpec): Frame => {
  const { paper, marks, speech } = spec;
  const left = MARGIN;
  const width = paper.width - 2 * MARGIN;
  const head = headBlock(spec, width);
  const code = marks.checkpoint === null ? undefined : qrCode(marks.checkpoint);
  const withCode = code === undefined ? width : width - QR - 10;
  const firstFoot = footBlock(spec, withCode);
  const foot = footBlock(spec, width);
  const firstHeight = Math.max(firstFoot.height, code === undefined ? 0 : QR);
  const countsOf = (page: PageMarks): Block =>
    texts(
      speech.each(({ labels }) =>
        [
          labels.takeOldDown,
          `${labels.page(page.page, page.pages)} · ${labels.linesHere(page.linesHere, page.lines)}`,
        ].join(' '),
      ),
      { size: TEXT },
      width,
    );
  // Kept for the longest counts, so that no page's number can change what fits on it.
  const room = countsOf({ first: true, page: 888, pages: 888, linesHere: 888, lines: 8888 }).height;
  const top = MARGIN + head.height + room + 6;
  const footTop = (first: boolean): number => paper.height - MARGIN - (first ? firstHeight : foot.height);
  return {
    top,
    bodyHeight: (page) => footTop(page === 0) - 6 - top,
    left,
    width,
    draw: (ink, page) => {
      const draw = (): void => {
        head.draw(ink, left, MARGIN);
        countsOf(page).draw(ink, left, MARGIN + head.height);
      };
      if (page.first) ink.tagged('H1', draw);
      else ink.furniture(draw);
      ink.furniture(() => {
        const at = footTop(page.first);
        ink.rule(left, top - 3, width, 2.2);
        ink.rule(left, at - 4, page.first ? withCode : width, 0.8);
        (page.first ? firstFoot : foot).draw(ink, left, at);
        if (code !== undefined && page.first) drawCode(ink, code, left + width - QR, at);
      });
    },
  };
};

const headBlock = ({ title, views, marks, speech }: FrameSpec, width: number): Block => {
  const { farm, milking } = views;
  const when = speech.each(({ labels, format }) =>
    labels.onlyFor(
      `${format.longDay(milking.id.slice(0, 10))}, ${format.milkingName(milking.id.slice(11))} ${format.clock(milking.start)}`,
    ),
  );
  return stack([
    ...(marks.rehearsal ? [rehearsal(speech, width)] : []),
    ...(marks.replaces === undefined ? [] : [replacing(marks.replaces, speech, width)]),
    titleBlock(
      speech.joined(({ labels }) => title(labels)),
      farm.name,
      width,
    ),
    texts(when, { size: HEADING, bold: true }, width),
  ]);
};

const rehearsal = (speech: Speech, width: number): Block =>
  framed(
    texts(
      speech.each(({ labels }) => labels.rehearsal),
      { size: HEADING, bold: true },
      width - 12,
    ),
    4,
    2.5,
    width,
  );

/** Two papers on one wall are worse than one that is wrong: which must come down is said as large as the sheet's name. */
const replacing = (ref: string, speech: Speech, width: number): Block =>
  framed(
    texts(
      speech.each(({ labels, words }) => labels.replaces(ref).toLocaleUpperCase(words.locale)),
      { size: TITLE, bold: true },
      width - 12,
    ),
    4,
    2.5,
    width,
  );

/** The sheet's name large, the farm's to the right of it, or below where there is no room. */
const titleBlock = (name: string, farm: string, width: number): Block => {
  const large = { size: TITLE, bold: true };
  const heading = text(name, large, width);
  const farmWidth = textWidth(farm, { size: TEXT });
  if (textWidth(name, large) + 20 + farmWidth > width) return stack([heading, text(farm, { size: TEXT }, width)]);
  return {
    width,
    height: heading.height,
    draw: (ink, x, y) => {
      heading.draw(ink, x, y);
      ink.line(lineOf(farm, { size: TEXT }), TEXT, x + width - farmWidth, y + 8);
    },
  };
};

const footBlock = ({ views, marks, speech }: FrameSpec, width: number): Block => {
  const small = { size: SMALL };
  const marksText = speech.voices[0];
  if (marksText === undefined) return nothing;
  const { labels, format } = marksText;
  const record = [
    marks.ref ?? labels.notIssued,
    labels.printed(format.time(instantText(marks.printedAt))),
    `${labels.book} ${marks.bookId}`,
    `${labels.position} ${marks.position}`,
    `${labels.root} ${marks.root.slice(0, 32)}`,
    views.farm.timeZone,
  ].join(' · ');
  return stack([
    texts(
      speech.each((voice) => voice.labels.whenUnsure),
      { size: TEXT, bold: true },
      width,
    ),
    texts(
      speech.each((voice) => voice.labels.cautions),
      small,
      width,
    ),
    text(record, small, width),
  ]);
};

interface Code {
  readonly size: number;
  readonly dark: (row: number, column: number) => boolean;
}

const qrCode = (content: string): Code => {
  const { modules } = QRCode.create(content, { errorCorrectionLevel: 'M' });
  return { size: modules.size, dark: (row, column) => modules.get(row, column) === 1 };
};

/** Runs of dark squares drawn as one rectangle each, so that no hairline shows between them. */
const drawCode = (ink: Ink, code: Code, x: number, y: number): void => {
  const module = QR / code.size;
  for (let row = 0; row < code.size; row += 1) {
    let start = -1;
    for (let at = 0; at <= code.size; at += 1) {
      const dark = at < code.size && code.dark(row, at);
      if (dark && start < 0) start = at;
      if (!dark && start >= 0) {
        ink.fill(x + start * module, y + row * module, (at - start) * module, module);
        start = -1;
      }
    }
  }
};
