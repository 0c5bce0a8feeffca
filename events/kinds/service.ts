/** What a pregnancy check later confirms. */
import { z } from 'zod';
import { text } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({ how: z.enum(['insemination', 'natural', 'embryo']), sire: text(80).optional() });

export type Service = z.infer<typeof schema>;

export const service = kind({
  type: 'service',
  when: 'Recorded when a cow is served or gets an embryo.',
  subject: 'cow',
  schema,
  example: { how: 'insemination' },
});
