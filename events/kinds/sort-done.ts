/** Ends the request it names. */
import { z } from 'zod';
import { entryId } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({ request: entryId });

export type SortDone = z.infer<typeof schema>;

export const sortDone = kind({
  type: 'sort-done',
  when: 'Recorded when a sorted cow has been dealt with.',
  subject: 'cow',
  schema,
  example: { request: '0190b6d2-0000-7000-8000-000000000777' },
});
