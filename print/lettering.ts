/**
 * Writes runs of text on a page: byte for byte what PDFKit's own `text` writes of a run on one line, several times faster,
 * for the glyphs of a run are worked out once a document and nothing is measured again. A run whose glyphs do not follow
 * each other on the line is left to PDFKit.
 */
import type { Font } from 'fontkit';
import { type Face, scaleOf } from './faces.ts';
import type { Line } from './lines.ts';

declare global {
  namespace PDFKit {
    /** In PDFKit, and not in its published types. */
    interface PDFDocument {
      readonly _font: EmbeddedFont;
    }
    interface EmbeddedFont {
      readonly id: string;
      readonly ref: () => PDFKitReference;
      /** Glyphs as four hex digits each, and where each goes; takes them into the part of the font that is embedded. */
      readonly encode: (text: string) => [hex: string[], positions: GlyphPlace[]];
    }
    namespace Mixins {
      interface PDFFont {
        registerFont(name: string, font: Font): this;
      }
    }
    interface GlyphPlace {
      readonly advanceWidth: number;
      readonly xAdvance: number;
      readonly xOffset: number;
      readonly yOffset: number;
    }
  }
}

/** Writes a line from `x` on, with its baseline at `y`. */
export type Letter = (line: Line, size: number, x: number, y: number) => void;

export const letteringOn = (doc: PDFKit.PDFDocument): Letter => {
  const faces = new Map<Face, Lettered>();
  const faceNamed = (face: Face): Lettered => {
    const have = faces.get(face);
    if (have !== undefined) return have;
    const made = { font: doc.font(face)._font, shown: new Map<string, string>() };
    faces.set(face, made);
    return made;
  };
  return ({ runs }, size, x, y) => {
    const { page } = doc;
    // PDFKit's pages have their origin at the top; letters would hang upside down there, so each run turns the page back.
    const upright = `q\n1 0 0 -1 0 ${inFile(page.height)} cm\nBT\n1 0 0 1`;
    const baseline = inFile(page.height - y);
    let content = '';
    const write = (): void => {
      if (content !== '') doc.addContent(Buffer.from(content, 'latin1'));
      content = '';
    };
    let at = x;
    for (const { face, text, width } of runs) {
      const { font, shown } = faceNamed(face);
      let glyphs = shown.get(text);
      if (glyphs === undefined) {
        // A text of several lines is several pieces to PDFKit.
        glyphs = text.includes('\n') ? '' : showing(font.encode(text));
        shown.set(text, glyphs);
      }
      const scaled = size * scaleOf(face);
      if (glyphs === '') {
        write();
        doc.font(face).fontSize(scaled).text(text, at, y, { lineBreak: false, baseline: 'alphabetic' });
      } else {
        page.fonts[font.id] ??= font.ref();
        content += `${upright} ${inFile(at)} ${baseline} Tm\n/${font.id} ${inFile(scaled)} Tf\n${glyphs}\nET\nQ\n`;
      }
      at += width;
    }
    write();
  };
};

interface Lettered {
  readonly font: PDFKit.EmbeddedFont;
  /** The operator that shows a text; empty where PDFKit has to. */
  readonly shown: Map<string, string>;
}

/** Glyphs in a row, with a number between two where they stand closer or further apart than by themselves. */
const showing = ([hex, places]: ReturnType<PDFKit.EmbeddedFont['encode']>): string => {
  const pieces: string[] = [];
  let begun = 0;
  for (const [index, { advanceWidth, xAdvance, xOffset, yOffset }] of places.entries()) {
    if (xOffset !== 0 || yOffset !== 0) return '';
    const closer = xAdvance - advanceWidth;
    if (closer === 0 && index < places.length - 1) continue;
    pieces.push(`<${hex.slice(begun, index + 1).join('')}> ${inFile(-closer)}`);
    begun = index + 1;
  }
  return pieces.length === 0 ? '' : `[${pieces.join(' ')}] TJ`;
};

/** As PDFKit writes numbers: to a millionth of a point. */
const inFile = (value: number): number => Math.round(value * 1e6) / 1e6;
