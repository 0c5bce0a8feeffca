/** A medicine's label as the farm reads it; medicines are named by active ingredient. Holds follow from it. */
import { z } from 'zod';
import { days, hold, hours, name, someHours, text, wholeDays } from '../fields.ts';
import { kind } from '../kind.ts';

export const ANIMAL_CLASSES = ['milking', 'dry', 'young'] as const;

const meatSteps = z
  .array(z.strictObject({ upToDoses: z.number().int().min(1).optional(), days }))
  .min(1, 'is empty; give a number of days or "unknown"')
  .superRefine((steps, context) => {
    const ascending = steps.every((step, index) => {
      const before = steps[index - 1]?.upToDoses ?? 0;
      return index === steps.length - 1
        ? step.upToDoses === undefined || step.upToDoses > before
        : (step.upToDoses ?? 0) > before;
    });
    if (!ascending) {
      context.addIssue({
        code: 'custom',
        message: 'must go up in doses, and only the last step may leave "upToDoses" out',
      });
    }
  });

const dryCow = z.strictObject({
  minimumDryDays: wholeDays.optional(),
  milkHoldAfterCalving: z.union([hold, z.literal('none')], { error: 'must give hours, milkings or both, or "none"' }),
  meatHoursAfterCalving: hours.optional(),
  earlyCalving: z.enum(['minimum-plus-hold', 'ask-vet']).optional(),
});

const schema = z.strictObject({
  name,
  active: text(120).optional(),
  kind: z.enum(['medicine', 'vaccine', 'sealant', 'not-a-medicine']).optional(),
  route: text(40).optional(),
  for: z.array(z.enum(ANIMAL_CLASSES)).min(1).optional(),
  milkHold: z.union([hold, z.literal('none'), z.literal('unknown'), z.literal('not-for-milking-cows')], {
    error: 'must give hours, milkings or both, or one of "none", "unknown", "not-for-milking-cows"',
  }),
  meatDays: z.union([days, z.literal('unknown'), meatSteps], {
    error: 'must be a number of days, "unknown", or steps such as [{"upToDoses":3,"days":4},{"days":10}]',
  }),
  dryCow: dryCow.optional(),
  maxDoses: z.number().int().min(1).optional(),
  minIntervalHours: someHours.optional(),
  authorisedForMilkAnimals: z.boolean().optional(),
  authorisedForFoodAnimals: z.boolean().optional(),
  notFromAgeMonths: z.number().min(0).max(600).optional(),
  retired: z.boolean().optional(),
});

export type MedicineListed = z.infer<typeof schema>;
export type AnimalClass = (typeof ANIMAL_CLASSES)[number];

export const medicineListed = kind({
  type: 'medicine-listed',
  when: 'Recorded when a medicine comes onto the farm, and again when its label changes.',
  subject: 'farm',
  schema,
  example: {
    name: 'Penicillin G procaine, udder',
    active: 'penicillin G procaine',
    kind: 'medicine',
    route: 'udder',
    for: ['milking'],
    milkHold: { hours: 60 },
    meatDays: 3,
    maxDoses: 3,
    minIntervalHours: 10,
  },
});
