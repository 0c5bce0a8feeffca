/** Ends the running milking. */
import { z } from 'zod';
import { milking } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({ milking });

export type MilkingFinished = z.infer<typeof schema>;

export const milkingFinished = kind({
  type: 'milking-finished',
  when: 'Recorded when the last cow of a milking is out.',
  subject: 'farm',
  schema,
  example: { milking: '2026-03-14/afternoon' },
});
