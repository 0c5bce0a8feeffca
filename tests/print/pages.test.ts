/** Laying pieces onto pages, for any pieces and any page. */
import { fc, test } from '@fast-check/vitest';
import { expect } from 'vitest';
import { type Piece, paginate } from '../../print/pages.ts';

const piece = (kind: Piece['kind'], height: number, again: readonly Piece[] = []): Piece => ({
  kind,
  height,
  lines: kind === 'row' ? 1 : 0,
  again,
  draw: () => {},
});
const TITLES = piece('titles', 15);
const CONTINUED = piece('heading', 20);

const anyPiece = fc.oneof(
  fc.integer({ min: 20, max: 200 }).map((height) => piece('row', height, [CONTINUED, TITLES])),
  fc.integer({ min: 10, max: 60 }).map((height) => piece('note', height)),
  fc.integer({ min: 10, max: 40 }).map((height) => piece('heading', height)),
);
const sheets = fc.array(anyPiece, { minLength: 1, maxLength: 80 }).filter((pieces) => {
  // A sheet's headings come in ones, with something under each.
  const kinds = pieces.map(({ kind }) => kind);
  return (
    kinds.at(-1) !== 'heading' && kinds.every((kind, index) => kind !== 'heading' || kinds[index + 1] !== 'heading')
  );
});
const ROOM = 400;

test.prop([sheets], { numRuns: 300, seed: 14 })(
  'each piece is placed once, in order, whole, and on no other',
  (pieces) => {
    const pages = paginate(pieces, (page) => (page === 0 ? ROOM - 60 : ROOM));
    const placed = pages.flatMap((page) => page.placed);
    expect(placed.filter(({ repeated }) => !repeated).map(({ piece: each }) => each)).toEqual(pieces);
    pages.forEach((page, index) => {
      let bottom = 0;
      for (const { piece: each, y } of page.placed) {
        expect(y).toBe(bottom);
        bottom = y + each.height;
      }
      expect(bottom).toBeLessThanOrEqual(index === 0 ? ROOM - 60 : ROOM);
    });
  },
);

test.prop([sheets], { numRuns: 300, seed: 14 })(
  'no heading is the last thing on a page, and no page is empty',
  (pieces) => {
    for (const page of paginate(pieces, () => ROOM)) {
      expect(page.placed.at(-1)?.piece.kind).not.toBe('heading');
      expect(page.placed.length).toBeGreaterThan(0);
    }
  },
);

test.prop([sheets], { numRuns: 300, seed: 14 })(
  'a row that begins a page has its heading and titles over it',
  (pieces) => {
    const [, ...later] = paginate(pieces, () => ROOM);
    for (const page of later) {
      const own = page.placed.find(({ repeated }) => !repeated);
      if (own?.piece.kind !== 'row') continue;
      expect(page.placed.slice(0, 2).map(({ piece: each }) => each)).toEqual([CONTINUED, TITLES]);
    }
  },
);

test.prop([sheets], { numRuns: 100, seed: 14 })('the lines of all pages together are the rows', (pieces) => {
  const pages = paginate(pieces, () => ROOM);
  expect(pages.reduce((sum, { lines }) => sum + lines, 0)).toBe(pieces.filter(({ kind }) => kind === 'row').length);
});
