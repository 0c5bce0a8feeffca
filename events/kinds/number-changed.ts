/** From this time on the new number means her. */
import { z } from 'zod';
import { barnNumber } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({ to: barnNumber });

export type NumberChanged = z.infer<typeof schema>;

export const numberChanged = kind({
  type: 'number-changed',
  when: 'Recorded when a cow gets another barn number; `subject` is the old one.',
  subject: 'cow',
  schema,
  example: { to: '1412' },
});
