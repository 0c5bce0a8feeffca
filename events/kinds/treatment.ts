/** Holds milk and meat by the label and the vet. */
import { z } from 'zod';
import { days, entryId, hours, name, quantity, quarters, someHours, text } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({
  medicine: name,
  amount: quantity.optional(),
  route: text(40).optional(),
  quarters: quarters.optional(),
  reason: text(200).optional(),
  givenBy: text(80).optional(),
  prescribedBy: text(80).optional(),
  batch: text(60).optional(),
  offLabel: z.boolean().optional(),
  milkHoldHours: hours.optional(),
  meatHoldDays: days.optional(),
  course: z
    .strictObject({
      id: entryId,
      dose: z.number().int().min(1, 'must be at least 1').max(100),
      of: z.number().int().min(1, 'must be at least 1').max(100),
      everyHours: someHours,
    })
    .optional(),
});

export type Treatment = z.infer<typeof schema>;

export const treatment = kind({
  type: 'treatment',
  when: 'Recorded when a dose of medicine has been given, one entry a dose.',
  subject: 'cow',
  schema,
  example: {
    medicine: 'Penicillin G procaine, udder',
    amount: { value: 1, unit: 'tube' },
    route: 'udder',
    quarters: ['left-front'],
    reason: 'mastitis',
    givenBy: 'Marta',
    course: { id: 'course-412-1', dose: 1, of: 3, everyHours: 12 },
  },
});
