/** Ends what its key names. */
import { z } from 'zod';
import { text } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({ about: text(300), how: text(500) });

export type Settled = z.infer<typeof schema>;

export const settled = kind({
  type: 'settled',
  when: 'Recorded when a person has dealt with a doubt, an alert or an entry set aside.',
  subject: 'either',
  schema,
  example: {
    about: 'unplaced:0190b6d2-0000-7000-8000-000000000099',
    how: 'it was 421, entered again under her number',
  },
});
