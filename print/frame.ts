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
import { MARGIN, mm, type PaperSize, SMALL, TEXT, TITLE } from './sizes.ts';
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
  readonly bodyHeight: number;
  readonly left: number;
  readonly width: number;
  readonly draw: (ink: Ink, page: number, pages: number, linesHere: number, lines: number) => void;
}

export interface FrameSpec {
  readonly title: (labels: Speech['voices'][number]['labels']) => string;
  readonly paper: PaperSize;
  readonly views: Views;
  readonly marks: PaperMarks;
  readonly speech: Speech;
}

const QR = mm(26);

export const frameOf = ({ title, paper, views, marks, speech }: FrameSpec): Frame => {
  const left = MARGIN;
  const width = paper.width - 2 * MARGIN;
  const head = headBlock(title, views, marks, speech, width);
  const foot = footBlock(views, marks, speech, width - (marks.checkpoint === null ? 0 : QR + 10));
  const footHeight = Math.max(foot.height, marks.checkpoint === null ? 0 : QR);
  // Room for "page x of y" and the count of lines is kept at its longest.
  const countsHeight = TEXT * 1.2 * speech.each(({ labels }) => labels.page(1, 1)).length + 4;
  const top = MARGIN + head.height + countsHeight;
  const footTop = paper.height - MARGIN - footHeight;
  const code = marks.checkpoint === null ? undefined : qrCode(marks.checkpoint);
  return {
    top,
    bodyHeight: footTop - 6 - top,
    left,
    width,
    draw: (ink, page, pages, here, all) => {
      const draw = (): void => {
        head.draw(ink, left, MARGIN);
        const counts = texts(
          speech.each(({ labels }) => `${labels.page(page, pages)} · ${labels.linesHere(here, all)}`),
          { size: TEXT },
          width,
        );
        counts.draw(ink, left, MARGIN + head.height);
      };
      if (page === 1) ink.tagged('H1', draw);
      else ink.furniture(draw);
      ink.furniture(() => {
        ink.rule(left, top - 1.5, width, 1.8);
        ink.rule(left, footTop - 4, code === undefined ? width : width - QR - 10, 0.8);
        foot.draw(ink, left, footTop);
        if (code !== undefined) drawCode(ink, code, left + width - QR, footTop);
      });
    },
  };
};

const headBlock = (
  title: FrameSpec['title'],
  views: Views,
  marks: PaperMarks,
  speech: Speech,
  width: number,
): Block => {
  const large = { size: TITLE, bold: true };
  const name = speech.joined(({ labels }) => title(labels));
  const farm = { size: TEXT, bold: false };
  const farmWidth = textWidth(views.farm.name, farm);
  const beside = textWidth(name, large) + 20 + farmWidth <= width;
  const heading = text(name, large, width);
  const top: Block = beside
    ? {
        width,
        height: heading.height,
        draw: (ink, x, y) => {
          heading.draw(ink, x, y);
          ink.line(lineOf(views.farm.name, farm), TEXT, x + width - farmWidth, y + 8);
        },
      }
    : stack([heading, text(views.farm.name, farm, width)]);
  const when = speech.each(({ labels, format }) =>
    labels.onlyFor(
      `${format.longDay(views.milking.id.slice(0, 10))}, ${format.milkingName(views.milking.id.slice(11))} ${format.clock(views.milking.start)}`,
    ),
  );
  const { replaces } = marks;
  return stack([
    marks.rehearsal
      ? framed(
          texts(
            speech.each(({ labels }) => labels.rehearsal),
            { size: 18, bold: true },
            width - 16,
          ),
          5,
          2.5,
          width,
        )
      : nothing,
    top,
    texts(when, { size: 18, bold: true }, width),
    texts(
      replaces === undefined
        ? speech.each(({ labels }) => labels.takeOldDown)
        : speech.each(({ labels }) => `${labels.takeOldDown} ${labels.replaces(replaces)}`),
      { size: TEXT },
      width,
    ),
  ]);
};

const footBlock = (views: Views, marks: PaperMarks, speech: Speech, width: number): Block => {
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
