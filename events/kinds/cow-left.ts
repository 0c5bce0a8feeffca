/** Her number is free from then on; leaving on a hold is an alert. */
import { z } from 'zod';
import { text } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({
  reason: z.enum(['sold-for-beef', 'sold-for-milking', 'died', 'other']),
  to: text(120).optional(),
});

export type CowLeft = z.infer<typeof schema>;

export const cowLeft = kind({
  type: 'cow-left',
  when: 'Recorded when a cow leaves the herd, alive or dead.',
  subject: 'cow',
  schema,
  example: { reason: 'sold-for-milking' },
});
