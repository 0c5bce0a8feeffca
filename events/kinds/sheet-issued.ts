/** A set of sheets as it went to the wall: rows without words, and the hash of every PDF. Written by the book alone, never struck. */
import { z } from 'zod';
import { milking, text } from '../fields.ts';
import { kind } from '../kind.ts';

const sha256Hex = z.string().regex(/^[0-9a-f]{64}$/, 'must be 64 hex digits');

const schema = z.strictObject({
  ref: text(20),
  book: text(60),
  milking,
  position: z.number().int().min(0),
  root: sha256Hex,
  sheets: z.array(z.strictObject({ sheet: text(40), content: z.json(), contentHash: sha256Hex, pdfHash: sha256Hex })),
  program: text(60),
  timeZoneData: text(40),
  /** When the rows were worked out: overdue doses depend on it. */
  asOf: text(40).optional(),
});

export type SheetIssued = z.infer<typeof schema>;

export const sheetIssued = kind({
  type: 'sheet-issued',
  when: 'Recorded by the book when a set of sheets is issued for a milking.',
  subject: 'farm',
  bookOnly: true,
  schema,
  example: {
    ref: 'ACEF-3479-K',
    book: '0190b6d2-0000-7000-8000-00000000b00c',
    milking: '2026-03-14/afternoon',
    position: 1841,
    root: '0'.repeat(64),
    sheets: [{ sheet: 'milk-hold', content: { held: [] }, contentHash: '0'.repeat(64), pdfHash: '0'.repeat(64) }],
    program: 'byrebook 0.1.0',
    timeZoneData: '2025b',
  },
});
