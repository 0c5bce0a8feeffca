/** Open until it is lifted. */
import { z } from 'zod';
import { text } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({ reason: text(200) });

export type MilkHold = z.infer<typeof schema>;

export const milkHold = kind({
  type: 'milk-hold',
  when: "Recorded when a cow's milk must stay out of the tank for a reason that is not a medicine.",
  subject: 'cow',
  schema,
  example: { reason: 'clots in the milk' },
});
