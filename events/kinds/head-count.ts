/** One that differs from the book stays on the sheet until a later one agrees. */
import { z } from 'zod';
import { milking, name } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({
  group: name,
  count: z.number().int('must be a whole number').min(0, 'must not be negative').max(100_000),
  milking: milking.optional(),
});

export type HeadCount = z.infer<typeof schema>;

export const headCount = kind({
  type: 'head-count',
  when: 'Recorded when somebody counted a group.',
  subject: 'farm',
  schema,
  example: { group: 'Cows', count: 118 },
});
