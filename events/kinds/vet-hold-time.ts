/** Lengthens a label, never shortens it; gives an open hold its end. */
import { z } from 'zod';
import { days, entryId, hours, text } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z
  .strictObject({ treatment: entryId, milkHours: hours.optional(), meatDays: days.optional(), prescribedBy: text(80) })
  .refine(
    (value) => value.milkHours !== undefined || value.meatDays !== undefined,
    'gives no time; give milkHours, meatDays or both',
  );

export type VetHoldTime = z.infer<typeof schema>;

export const vetHoldTime = kind({
  type: 'vet-hold-time',
  when: 'Recorded when the vet gives a hold time for a treatment already in the book.',
  subject: 'cow',
  schema,
  example: { treatment: '0190b6d2-0000-7000-8000-000000000412', milkHours: 96, prescribedBy: 'Dr Okafor' },
});
