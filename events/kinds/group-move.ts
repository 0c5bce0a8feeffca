/** Where she stands from then on. */
import { z } from 'zod';
import { name } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({ to: name });

export type GroupMove = z.infer<typeof schema>;

export const groupMove = kind({
  type: 'group-move',
  when: 'Recorded when a cow goes to another group.',
  subject: 'cow',
  schema,
  example: { to: 'Cows' },
});
