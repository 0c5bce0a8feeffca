/** A positive one of a cow holds her until a later clear one. */
import { z } from 'zod';
import { instant, text } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({
  result: z.enum(['clear', 'positive']),
  of: z.enum(['cow', 'tank']),
  method: text(80).optional(),
  sampledAt: instant.optional(),
});

export type ResidueTest = z.infer<typeof schema>;

export const residueTest = kind({
  type: 'residue-test',
  when: "Recorded when a residue test of a cow's milk or of the tank has its result.",
  subject: 'either',
  schema,
  example: { result: 'clear', of: 'cow', sampledAt: '2026-03-14T05:20:00Z' },
});
