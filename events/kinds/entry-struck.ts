/** The struck entry counts for nothing from then on; replay still shows it. */
import { z } from 'zod';
import { entryId, text } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({ entry: entryId, reason: text(300), instead: entryId.optional() });

export type EntryStruck = z.infer<typeof schema>;

export const entryStruck = kind({
  type: 'entry-struck',
  when: 'Recorded when an entry was wrong and is withdrawn.',
  subject: 'either',
  schema,
  example: {
    entry: '0190b6d2-0000-7000-8000-000000000412',
    reason: 'wrong cow',
    instead: '0190b6d2-0000-7000-8000-000000000421',
  },
});
