/** The farm's own facts and rules; several in a row are the history of how the farm was run. */
import { z } from 'zod';
import { WEEKDAYS } from '../../shared/local-day.ts';
import { date, days, hours, name, someHours, someMilkings, text, timeZone, wallTime, wholeDays } from '../fields.ts';
import { kind } from '../kind.ts';

export const GROUP_KINDS = ['milking', 'fresh', 'hospital', 'dry', 'close-up'] as const;

const group = z.strictObject({
  name,
  kind: z.enum(GROUP_KINDS),
  /** Names that it bore before: who was put there then stands in it. */
  was: z.array(name).min(1).max(20).optional(),
  takes: z.enum(['first-lactation', 'later-lactations', 'any']).optional(),
  order: z.number().optional(),
  capacity: z.number().int().min(0).optional(),
  milkedAt: z.array(name).optional(),
});

const schema = z
  .strictObject({
    name,
    timeZone,
    from: date.optional(),
    paper: z.enum(['A4', 'Letter']).optional(),
    languages: z.array(text(35)).min(1).max(4).optional(),
    milkings: z
      .array(
        z.strictObject({ name: name.refine((value) => !value.includes('/'), 'must not contain "/"'), start: wallTime }),
      )
      .min(1, 'needs at least one milking')
      .max(4, 'has more than four milkings a day'),
    parlour: z.strictObject({
      stalls: z.number().int('must be a whole number').min(1, 'must be at least 1').max(1_000),
      turnMinutes: z.number().gt(0, 'must be more than 0').max(240),
      slowFromMinutes: z.number().gt(0).max(240).optional(),
      slowExtraMinutes: z.number().min(0).max(240).optional(),
    }),
    groups: z.array(group).min(1, 'needs at least one group'),
    mark: text(60).optional(),
    freshHold: z
      .strictObject({
        milkings: someMilkings.optional(),
        hours: someHours.optional(),
        daysBeforeDue: wholeDays.optional(),
      })
      .optional(),
    freshPenHours: hours.optional(),
    freshHoldMayMove: z.boolean().optional(),
    dryOff: z
      .strictObject({
        days: wholeDays.optional(),
        minimumDays: wholeDays.optional(),
        weekday: z.enum(WEEKDAYS).optional(),
        lookAheadDays: wholeDays.optional(),
        longMilkingDays: wholeDays.optional(),
        product: text(80).optional(),
      })
      .optional(),
    gestationDays: days.int().min(200).max(400).optional(),
    offLabel: z.enum(['vet', 'eu-2019-6']).optional(),
    milkTo: z
      .union([
        text(120),
        z.strictObject({ treated: text(120).optional(), fresh: text(120).optional(), abnormal: text(120).optional() }),
      ])
      .optional(),
    chores: z.strictObject({ before: z.array(text(200)).optional(), after: z.array(text(200)).optional() }).optional(),
    footBath: z.array(z.enum(WEEKDAYS)).optional(),
    phones: z.array(z.strictObject({ who: text(80), number: text(40) })).optional(),
  })
  .superRefine((farm, context) => {
    const milkings = farm.milkings.map((milking) => milking.name);
    const refuse = (path: (string | number)[], message: string) => context.addIssue({ code: 'custom', path, message });
    if (new Set(milkings).size < milkings.length) refuse(['milkings'], 'names one milking twice');
    const starts = farm.milkings.map((milking) => milking.start);
    if (new Set(starts).size < starts.length) refuse(['milkings'], 'has two milkings at the same time');
    const groups = farm.groups.map((each) => each.name);
    if (new Set(groups).size < groups.length) refuse(['groups'], 'names one group twice');
    const olds = farm.groups.flatMap((each) => [...new Set(each.was)]);
    farm.groups.forEach((each, index) => {
      const still = each.was?.find((old) => groups.includes(old));
      if (still !== undefined) refuse(['groups', index, 'was'], `names "${still}", which is a group of its own`);
      const twice = each.was?.find((old) => olds.filter((other) => other === old).length > 1);
      if (twice !== undefined) refuse(['groups', index, 'was'], `names "${twice}", which another group was as well`);
      const strange = each.milkedAt?.find((at) => !milkings.includes(at));
      if (strange !== undefined) {
        refuse(
          ['groups', index, 'milkedAt'],
          `names "${strange}", which is not one of the milkings (${milkings.join(', ')})`,
        );
      }
    });
  });

export type FarmSetUp = z.infer<typeof schema>;
export type GroupKind = (typeof GROUP_KINDS)[number];

export const farmSetUp = kind({
  type: 'farm-set-up',
  when: 'Recorded when a farm starts its book, and again whenever its milkings, groups or own rules change.',
  subject: 'farm',
  schema,
  example: {
    name: 'Windmill Dairy',
    timeZone: 'Europe/Dublin',
    languages: ['en'],
    milkings: [
      { name: 'morning', start: '05:00' },
      { name: 'afternoon', start: '16:30' },
    ],
    parlour: { stalls: 24, turnMinutes: 12, slowFromMinutes: 10, slowExtraMinutes: 4 },
    groups: [
      { name: 'Heifers', kind: 'milking', takes: 'first-lactation', order: 1 },
      { name: 'Cows', kind: 'milking', takes: 'later-lactations', order: 2 },
      { name: 'Fresh', kind: 'fresh', order: 3 },
      { name: 'Hospital', kind: 'hospital' },
      { name: 'Dry', kind: 'dry' },
      { name: 'Close-up', kind: 'close-up' },
    ],
    mark: 'yellow leg band',
    freshHold: { milkings: 8 },
    freshPenHours: 36,
    dryOff: { days: 60, minimumDays: 45, weekday: 'thursday', lookAheadDays: 7, longMilkingDays: 305 },
    offLabel: 'vet',
  },
});
