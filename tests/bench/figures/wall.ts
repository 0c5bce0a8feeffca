/** The wall set of a big herd as PDF, beside bare PDFKit with as many runs of text and rules, and two other ways to print it. */
import { spawnSync } from 'node:child_process';
import path from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import zlib from 'node:zlib';
import PDFDocument from 'pdfkit';
import { tonight } from '../../../api/tonight.ts';
import { renderWall } from '../../../print/sheets.ts';
import { type Figure, millisecondsOf, plainFigure, sideBySide, timeFigure, whole } from '../measure.ts';
import { herdBook, type Setting } from '../setting.ts';

const FACE = fileURLToPath(new URL('../../../node_modules/dejavu-fonts-ttf/ttf/DejaVuSans.ttf', import.meta.url));

export const wallFigure = async (setting: Setting): Promise<Figure[]> => {
  const herd = herdBook(setting, setting.wall);
  const book = herd.open();
  const { views } = tonight(book, { milking: herd.milking });
  const marks = {
    ref: null,
    bookId: book.bookId,
    position: herd.entries,
    root: book.head().root,
    printedAt: herd.lastRecorded,
    rehearsal: true,
    checkpoint: null,
  };
  let bytes: Uint8Array = new Uint8Array();
  const product = () =>
    millisecondsOf(async () => {
      bytes = await renderWall(views, marks);
    });
  await product();
  const drawn = countDrawn(bytes);
  const taken = await sideBySide(setting.runs, product, () => millisecondsOf(() => bareDrawing(drawn)));
  book.close();
  const held = views.sheets['milk-hold'].held.length;
  const on = `${whole(setting.wall.cows)} cows, ${whole(held)} held; ${drawn.pages} pages, ${whole(drawn.texts)} runs of text, ${whole(drawn.strokes)} rules`;
  const list = views.sheets['milk-hold'].held.map((row) => [row.cow, row.group, row.until ?? '', row.tankFrom ?? '']);
  return [
    timeFigure(
      {
        figure: 'wall set as PDF',
        on,
        against: 'PDFKit writing as many runs and rules bare, one embedded face',
        most: 1.5,
      },
      taken,
    ),
    ...peer(setting, on, 'pdfmake, the held cows alone as a table of four columns', 'pdfmake.mjs', list, taken.product),
    ...peer(setting, on, 'a headless browser printing them as an HTML table', 'browser.mjs', list, taken.product),
  ];
};

interface Drawn {
  readonly pages: number;
  readonly texts: number;
  readonly strokes: number;
}

/** Counts what a PDF draws, by the operators in its streams. */
const countDrawn = (bytes: Uint8Array): Drawn => {
  const file = Buffer.from(bytes);
  let [texts, strokes] = [0, 0];
  for (let at = file.indexOf('stream\n'); at >= 0; at = file.indexOf('stream\n', at + 7)) {
    const text = inflated(file.subarray(at + 7));
    texts += text.match(/\bT[jJ]\b/g)?.length ?? 0;
    strokes += text.match(/(^|\s)(S|f|B)\s/g)?.length ?? 0;
  }
  return { pages: file.toString('latin1').match(/\/Type \/Page\b/g)?.length ?? 1, texts, strokes };
};

/** A content stream as text; nothing for what is none. */
const inflated = (from: Buffer): string => {
  try {
    const end = from.indexOf('endstream');
    const text = zlib.inflateSync(from.subarray(0, end)).toString('latin1');
    return text.includes('BT') || /\d (l|re)\s/.test(text) ? text : '';
  } catch {
    return '';
  }
};

const bareDrawing = ({ pages, texts, strokes }: Drawn): Promise<number> =>
  new Promise((resolve, reject) => {
    const document = new PDFDocument({ autoFirstPage: false, size: 'A4' });
    let size = 0;
    document.on('data', (piece: Uint8Array) => {
      size += piece.length;
    });
    document.on('end', () => resolve(size));
    document.on('error', reject);
    document.registerFont('face', FACE);
    for (let page = 0; page < pages; page += 1) {
      document.addPage().font('face').fontSize(11);
      for (let text = 0; text < texts / pages; text += 1) {
        document.text(String(1_000 + text * 7), 40 + (text % 6) * 80, 40 + (text % 60) * 12, { lineBreak: false });
      }
      for (let stroke = 0; stroke < strokes / pages; stroke += 1) {
        document
          .moveTo(40, 40 + (stroke % 60) * 12)
          .lineTo(550, 40 + (stroke % 60) * 12)
          .stroke();
      }
    }
    document.end();
  });

/** Another way to print it, in a process of its own that tells the milliseconds it took without its start. */
const peer = (
  setting: Setting,
  on: string,
  name: string,
  script: string,
  rows: readonly (readonly string[])[],
  ours: number,
): Figure[] => {
  if (setting.peers === undefined) return [plainFigure(`  beside ${name}`, on, '', PEERS_MISSING)];
  const run = spawnSync(
    process.execPath,
    [fileURLToPath(new URL(`../peers/${script}`, import.meta.url)), path.join(setting.peers, 'package.json')],
    { input: JSON.stringify(rows), encoding: 'utf8', timeout: 120_000 },
  );
  const milliseconds = Number(run.stdout.trim().split('\n').at(-1));
  if (run.status !== 0 || !(milliseconds > 0)) {
    return [
      plainFigure(`  beside ${name}`, on, '', `skipped: ${run.stderr.trim().split('\n').at(-1) ?? 'it did not run'}`),
    ];
  }
  return [timeFigure({ figure: '  the same beside', on, against: name }, { product: ours, baseline: milliseconds })];
};

export const PEERS_MISSING = 'skipped: the peers are not installed (node tests/bench/install-peers.mjs)';
