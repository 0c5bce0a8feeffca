/** Closes a tank load. */
import { z } from 'zod';
import { text } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({
  tank: text(40).optional(),
  litres: z.number().min(0, 'must not be negative').optional(),
  ticket: text(60).optional(),
  residueTest: z.enum(['clear', 'positive', 'waiting']).optional(),
});

export type TankCollection = z.infer<typeof schema>;

export const tankCollection = kind({
  type: 'tank-collection',
  when: 'Recorded when the tanker took the milk.',
  subject: 'farm',
  schema,
  example: { tank: '1', litres: 10450, ticket: 'T-2201', residueTest: 'waiting' },
});
