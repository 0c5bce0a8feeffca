/** Begins a lactation and the fresh hold. */
import { z } from 'zod';
import { barnNumber, name } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({
  calves: z
    .array(z.strictObject({ sex: z.enum(['female', 'male']), alive: z.boolean(), number: barnNumber.optional() }))
    .max(6, 'has more than six calves'),
  ease: z.number().int().min(1, 'goes from 1 (easy) to 5').max(5, 'goes from 1 (easy) to 5').optional(),
  group: name.optional(),
});

export type Calving = z.infer<typeof schema>;

export const calving = kind({
  type: 'calving',
  when: 'Recorded when a cow or heifer calves.',
  subject: 'cow',
  schema,
  example: { calves: [{ sex: 'female', alive: true, number: 'C-31' }], ease: 1, group: 'Fresh' },
});
