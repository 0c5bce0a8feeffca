/**
 * The faces as documents embed them. Fonts are opened once a process. A word whose every character stands as its own glyph
 * is the same in each document, and is shaped once a process too; any other is shaped by a font that its document alone
 * uses, for there the characters behind a glyph hang on what was drawn before.
 */
import type { Font, Glyph, GlyphPosition } from 'fontkit';
import { keptBy } from '../shared/kept.ts';
import { FACES, type Face, fontOf, openedAnew } from './faces.ts';

const MOST_SHAPES = 5_000;
const shapes = keptBy<string, Shape>(MOST_SHAPES);
const outlines = keptBy<string, Font>(FACES.length);

/** A font for one document, as PDFKit asks one: what it measures, its outlines, and words as glyphs. */
export const embeddable = (face: Face): Font => {
  // Not the font that shapes: from taking outlines it would keep glyphs that know none of their characters.
  const drawn = outlines(face, () => openedAnew(face));
  let own: Font | undefined;
  const layout = (word: string) => {
    const shape = shapes(`${face} ${word}`, () => shapeOf(word, fontOf(face)));
    if (shape.ofOneGlyphEach) return laidOut(shape);
    own ??= openedAnew(face);
    return own.layout(word);
  };
  const font: Font = Object.create(drawn, {
    layout: { value: layout },
    // Glyphs that are kept belong to the font of all documents, not to this one.
    getGlyph: { value: (id: number) => drawn.getGlyph(id) },
    createSubset: { value: () => drawn.createSubset() },
  });
  return font;
};

interface Shape {
  readonly ofOneGlyphEach: boolean;
  readonly glyphs: readonly Pick<Glyph, 'id' | 'advanceWidth' | 'codePoints'>[];
  readonly positions: readonly GlyphPosition[];
}

const shapeOf = (word: string, font: Font): Shape => {
  const characters = [...word].map((character) => character.codePointAt(0) ?? 0);
  const { glyphs, positions } = font.layout(word);
  return {
    ofOneGlyphEach:
      glyphs.length === characters.length &&
      glyphs.every(({ id }, index) => id === font.glyphForCodePoint(characters[index] ?? 0).id),
    glyphs: glyphs.map(({ id, advanceWidth }, index) => ({ id, advanceWidth, codePoints: [characters[index] ?? 0] })),
    positions,
  };
};

/** PDFKit scales the positions where they lie, so each time it is given others; the width is asked for after that. */
const laidOut = ({ glyphs, positions: unscaled }: Shape) => {
  const positions = unscaled.map(({ xAdvance, yAdvance, xOffset, yOffset }) => ({
    xAdvance,
    yAdvance,
    xOffset,
    yOffset,
  }));
  return {
    glyphs,
    positions,
    get advanceWidth() {
      return positions.reduce((sum, { xAdvance }) => sum + xAdvance, 0);
    },
  };
};
