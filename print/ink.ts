/**
 * Opens a PDFKit document, puts lines of text and shapes at given places, tags its structure. Nothing else knows PDFKit but
 * `lettering.ts`, which writes the lines, and `embedding.ts`, which hands it the fonts.
 * The same calls give the same bytes: the date is given, nothing is random, fonts are embedded once.
 */
import PDFDocument from 'pdfkit';
import { embeddable } from './embedding.ts';
import { FACES } from './faces.ts';
import { letteringOn } from './lettering.ts';
import type { Line } from './lines.ts';
import { CAPITAL, type PaperSize } from './sizes.ts';

export interface About {
  readonly title: string;
  /** BCP 47. */
  readonly language: string;
  readonly subject: string;
  readonly keywords: string;
  readonly made: Date;
}

export interface Ink {
  readonly page: () => void;
  /** The line's capitals hang from `top`; the letters' tails reach below. */
  readonly line: (line: Line, size: number, x: number, top: number) => void;
  readonly rule: (x: number, y: number, width: number, thickness: number) => void;
  readonly box: (x: number, y: number, width: number, height: number, thickness: number) => void;
  /** A filled part of a drawing: never behind text. */
  readonly fill: (x: number, y: number, width: number, height: number) => void;
  readonly stroke: (x1: number, y1: number, x2: number, y2: number, thickness: number) => void;
  /** What a reader of the tags hears: `H1`, `P`; within a table `cell`. */
  readonly tagged: (tag: Tag, draw: () => void) => void;
  readonly row: (table: string, cells: readonly RowCell[]) => void;
  /** Page furniture that a reader of the tags skips. */
  readonly furniture: (draw: () => void) => void;
  readonly finish: () => Promise<Uint8Array>;
}

export type Tag = 'H1' | 'H2' | 'H3' | 'P';
export interface RowCell {
  readonly heading?: 'Row' | 'Column' | undefined;
  readonly draw: () => void;
}

export const openInk = (paper: PaperSize, about: About): Ink => {
  const doc = new PDFDocument({
    size: [paper.width, paper.height],
    margin: 0,
    autoFirstPage: false,
    compress: true,
    pdfVersion: '1.7',
    tagged: true,
    lang: about.language,
    displayTitle: true,
    info: {
      Title: about.title,
      Subject: about.subject,
      Keywords: about.keywords,
      Creator: 'Byrebook',
      Producer: 'Byrebook, PDFKit',
      CreationDate: about.made,
      ModDate: about.made,
    },
  });
  const written: Uint8Array[] = [];
  // Taken page by page: PDFKit hands over thousands of small pieces, which would all be kept until the end.
  const take = (): void => {
    const some: unknown = doc.read();
    if (some instanceof Uint8Array) written.push(some);
  };
  for (const face of FACES) doc.registerFont(face, embeddable(face));
  const letter = letteringOn(doc);

  const root = doc.struct('Document');
  doc.addStructure(root);
  let quiet = false;
  let table: { readonly name: string; readonly element: PDFKit.PDFStructureElement } | undefined;
  const endTable = (): void => {
    table?.element.end();
    table = undefined;
  };
  const tableNamed = (name: string): PDFKit.PDFStructureElement => {
    if (table?.name === name) return table.element;
    endTable();
    const element = doc.struct('Table');
    root.add(element);
    table = { name, element };
    return element;
  };

  return {
    page: () => {
      doc.addPage();
      take();
    },
    line: (line, size, x, top) => {
      letter(line, size, x, top + CAPITAL * size);
    },
    rule: (x, y, width, thickness) => {
      doc
        .lineWidth(thickness)
        .moveTo(x, y)
        .lineTo(x + width, y)
        .stroke('black');
    },
    box: (x, y, width, height, thickness) => {
      doc.lineWidth(thickness).rect(x, y, width, height).stroke('black');
    },
    fill: (x, y, width, height) => {
      doc.rect(x, y, width, height).fill('black');
    },
    stroke: (x1, y1, x2, y2, thickness) => {
      doc.lineWidth(thickness).moveTo(x1, y1).lineTo(x2, y2).stroke('black');
    },
    tagged: (tag, draw) => {
      if (quiet) return draw();
      endTable();
      root.add(doc.struct(tag, {}, [draw]));
    },
    row: (name, cells) => {
      if (quiet) {
        for (const cell of cells) cell.draw();
        return;
      }
      const row = doc.struct('TR');
      tableNamed(name).add(row);
      for (const cell of cells) {
        if (cell.heading === undefined) row.add(doc.struct('TD', {}, [cell.draw]));
        else {
          // PDFKit writes the scope; its published types do not know it yet.
          const heading: NonNullable<Parameters<typeof doc.struct>[1]> & { scope: string } = { scope: cell.heading };
          row.add(doc.struct('TH', heading, [cell.draw]));
        }
      }
      row.end();
    },
    furniture: (draw) => {
      quiet = true;
      doc.markContent('Artifact', { type: 'Pagination' });
      draw();
      doc.endMarkedContent();
      quiet = false;
    },
    finish: async () => {
      endTable();
      root.end();
      doc.end();
      take();
      return Buffer.concat(written);
    },
  };
};
