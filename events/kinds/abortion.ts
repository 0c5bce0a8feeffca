/** Ends the pregnancy; with `milked: true` it begins a lactation as a calving does. */
import { z } from 'zod';
import { name, wholeDays } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({
  milked: z.boolean().optional(),
  daysCarried: wholeDays.optional(),
  group: name.optional(),
});

export type Abortion = z.infer<typeof schema>;

export const abortion = kind({
  type: 'abortion',
  when: 'Recorded when a pregnancy is lost.',
  subject: 'cow',
  schema,
  example: { milked: true, daysCarried: 230 },
});
