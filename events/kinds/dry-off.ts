/** Ends the lactation; names the dry-cow product or states `"none"`. */
import { z } from 'zod';
import { name, text } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({ product: text(80).optional(), group: name.optional() });

export type DryOff = z.infer<typeof schema>;

export const dryOff = kind({
  type: 'dry-off',
  when: 'Recorded when a cow is milked for the last time in her lactation.',
  subject: 'cow',
  schema,
  example: { product: 'none', group: 'Dry' },
});
