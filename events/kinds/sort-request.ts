/** On the sort list until done, struck, past `until`, or she left. */
import { z } from 'zod';
import { date, instant, milking, text } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({
  reason: text(200),
  to: text(80).optional(),
  forWhom: text(80).optional(),
  from: milking.optional(),
  until: z
    .union([milking, date, instant], {
      error: 'must be a milking such as 2026-03-14/afternoon, a date, or a time with its zone',
    })
    .optional(),
});

export type SortRequest = z.infer<typeof schema>;

export const sortRequest = kind({
  type: 'sort-request',
  when: 'Recorded when somebody wants a cow sorted out at the gate.',
  subject: 'cow',
  schema,
  example: { reason: 'lame, left hind', to: 'Hospital', forWhom: 'the hoof trimmer', from: '2026-03-14/afternoon' },
});
