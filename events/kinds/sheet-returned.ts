/** Closes an issued set. */
import { z } from 'zod';
import { text } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({ ref: text(20), by: text(80).optional(), note: text(500).optional() });

export type SheetReturned = z.infer<typeof schema>;

export const sheetReturned = kind({
  type: 'sheet-returned',
  when: 'Recorded when a set of sheets came back from the barn and was written up.',
  subject: 'farm',
  schema,
  example: { ref: 'ACEF-3479-K', by: 'Marta' },
});
