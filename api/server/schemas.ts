/** The shapes that go over the wire, as Zod schemas: checked where they come in, written into the OpenAPI document. */
import { z } from 'zod';
import { ENTRY_TYPES } from '../../events/kinds.ts';
import { refusalSaid } from '../../events/refused-elsewhere.ts';
import { PRINTED_NAMES } from '../../print/sheets.ts';

/** An entry as devices say it; which `data` goes with which `type` stands under the kinds. */
export const entry = z
  .looseObject({
    specversion: z.literal('1.0').optional().describe('filled in when absent'),
    id: z.string().max(100).optional().describe('filled in when absent: from source and content'),
    source: z.string().optional().describe("the device's own name; filled in when absent"),
    type: z
      .enum(ENTRY_TYPES as [string, ...string[]])
      .describe('what happened; its data is under the schema of that name'),
    subject: z.string().optional().describe("the cow's number as used then, or her 15-digit official number"),
    time: z.string().describe('when it happened: RFC 3339 with its zone'),
    author: z.string().optional().describe('who says it'),
    data: z.record(z.string(), z.unknown()),
  })
  .meta({ id: 'Entry', description: 'One entry, a CloudEvents 1.0 envelope' });

export const receipt = z
  .strictObject({
    id: z.string().nullable(),
    outcome: z.enum(['recorded', 'already-known', 'refused']),
    position: z.number().int().optional().describe("its place in this book's order"),
    problem: z.string().optional().describe('why it was refused, and what to do'),
    pointer: z.string().optional().describe('JSON Pointer to the field at fault'),
    struck: z.boolean().optional().describe('known already, and struck since'),
    key: z.string().optional().describe('what a settled entry names to end the hold of what was set aside'),
    skewSeconds: z.number().optional().describe("how far the device's clock is ahead of this book's"),
  })
  .meta({ id: 'Receipt', description: 'What became of one entry. A refused one is kept aside and holds its cow.' });

export const receiptsSchema = z.strictObject({
  time: z.string().describe("this book's time"),
  book: z.string(),
  position: z.number().int(),
  skewSeconds: z.number().optional(),
  receipts: z.array(receipt),
});

export const refusal = refusalSaid.meta({
  id: 'Refusal',
  description: 'What a book refused, and what bears on whom it holds',
});

export const refusedPage = z.strictObject({
  book: z.string(),
  before: z
    .string()
    .describe('chain value in front of the first: what a client keeps as `chain`, if this is what it read'),
  refused: z.array(refusal),
  number: z.number().int().describe('of the last one here; the next is asked for behind it'),
  chain: z
    .string()
    .describe('chain value of the last one here: another one later, and the book was replaced or rolled back'),
  last: z.number().int().describe('how many there are in all'),
});

export const carriedSchema = z.strictObject({
  book: z.string(),
  number: z.number().int().describe('how many are set aside there now'),
  chain: z.string().describe('the chain value of the last of them'),
  receipts: z.array(
    z.strictObject({
      outcome: z.enum(['set-aside', 'already-known']),
      key: z.string().describe('what a settled entry names to end the hold'),
    }),
  ),
});

export const standing = z.strictObject({
  time: z.string(),
  book: z.string(),
  farm: z.string().nullable().describe('null until a farm is set up'),
  rehearsal: z.boolean(),
  position: z.number().int(),
  verifierKey: z.string(),
  checkpoint: z.string(),
});

export type Standing = z.infer<typeof standing>;

export const problem = z
  .looseObject({
    type: z.string(),
    title: z.string(),
    status: z.number().int(),
    detail: z.string(),
    pointer: z.string().optional(),
    requestId: z.string(),
  })
  .meta({ id: 'Problem', description: 'RFC 9457' });

/** Sheets that can be asked for by name. */
export const sheetName = z.enum([...PRINTED_NAMES, 'wall'], {
  error: `must be one of ${[...PRINTED_NAMES, 'wall'].join(', ')}`,
});
