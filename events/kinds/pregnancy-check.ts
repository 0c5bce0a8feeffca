/** Confirms a service and so the calving date. */
import { z } from 'zod';
import { date } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({
  result: z.enum(['pregnant', 'twins', 'empty', 'unsure']),
  servedOn: date.optional(),
  dueOn: date.optional(),
});

export type PregnancyCheck = z.infer<typeof schema>;

export const pregnancyCheck = kind({
  type: 'pregnancy-check',
  when: 'Recorded when the vet or the technician says whether she is in calf.',
  subject: 'cow',
  schema,
  example: { result: 'pregnant', servedOn: '2026-01-02' },
});
