/**
 * Sizes on paper, from what an eye can read: points for a capital or figure of so many millimetres, sheets and margins.
 * Figures on the wall are read at 1.5 m, the rest at 0.7 m, through a copier that shrinks to 94 % (`print/paper.md`).
 */
export const POINTS_PER_MM = 72 / 25.4;
export const mm = (millimetres: number): number => millimetres * POINTS_PER_MM;

/** Height of capitals and figures in the faces used, as a part of the type size; a test reads it from the fonts. */
export const CAPITAL = 0.668;

/** Type size in points whose capitals and figures are that high. Rounded up to a tenth, so never smaller. */
export const sizeForCapital = (millimetres: number): number => Math.ceil((mm(millimetres) / CAPITAL) * 10) / 10;

/** Cow numbers on the wall and at the gates: 20 arc-minutes at 1.5 m. On desk lists and for head counts: 16, on a shrunken copy. */
export const NUMBER_AIM = sizeForCapital(8.73);
export const NUMBER_LEAST = sizeForCapital(7.5);
/** Everything else that the crew act on: 16 arc-minutes at 0.7 m on a shrunken copy. */
export const TEXT = sizeForCapital(3.5);
export const HEADING = 18;
export const TITLE = 24;
export const TOTAL = 30;
/** Lists read at a desk, 0.5 m: 16 arc-minutes on a shrunken copy. */
export const DESK_TEXT = sizeForCapital(2.5);
/** For the record keeper, at reading distance. */
export const SMALL = 8;

export const LINE = 1.2;

export interface PaperSize {
  readonly width: number;
  readonly height: number;
}
export const PAPERS: Readonly<Record<'A4' | 'Letter', PaperSize>> = {
  A4: { width: 595.28, height: 841.89 },
  Letter: { width: 612, height: 792 },
};
export const MARGIN = mm(10);
