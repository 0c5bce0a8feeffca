/** Its minutes say who is slow. */
import { z } from 'zod';
import { milking } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({
  milking,
  kg: z.number().min(0, 'must not be negative').max(200),
  minutes: z.number().gt(0).max(240).optional(),
  peakFlow: z.number().min(0).max(50).optional(),
});

export type MilkRecord = z.infer<typeof schema>;

export const milkRecord = kind({
  type: 'milk-record',
  when: "Recorded when a cow's milk was weighed at a milking.",
  subject: 'cow',
  schema,
  example: { milking: '2026-03-14/afternoon', kg: 17.4, minutes: 6.5, peakFlow: 3.9 },
});
