/** Ends the hold it names, or all of hers that people set; ends nothing else. */
import { z } from 'zod';
import { entryId, text } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({ reason: text(200), hold: entryId.optional() });

export type MilkHoldLifted = z.infer<typeof schema>;

export const milkHoldLifted = kind({
  type: 'milk-hold-lifted',
  when: 'Recorded when a milk hold that a person set is over.',
  subject: 'cow',
  schema,
  example: { reason: 'milk normal at two milkings' },
});
