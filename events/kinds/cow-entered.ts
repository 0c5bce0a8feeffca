/** A cow is her first `cow-entered`; re-entry under the same official number continues her, holds and all. */
import { z } from 'zod';
import { date, name, officialNumber, runningHold, text } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({
  group: name,
  officialId: officialNumber.optional(),
  born: date.optional(),
  lactation: z
    .number()
    .int('must be a whole number')
    .min(0, 'must not be negative')
    .max(30, 'is more than any cow has'),
  calvedOn: date.optional(),
  servedOn: date.optional(),
  dueOn: date.optional(),
  driedOffOn: date.optional(),
  driedOffWith: text(80).optional(),
  milkHoldUntil: runningHold.optional(),
  meatHoldUntil: runningHold.optional(),
  from: text(120).optional(),
});

export type CowEntered = z.infer<typeof schema>;

export const cowEntered = kind({
  type: 'cow-entered',
  when: 'Recorded when a cow or heifer comes into the herd: bought, grown up, or listed when the book starts.',
  subject: 'cow',
  schema,
  example: { group: 'Cows', lactation: 3, calvedOn: '2026-01-20', milkHoldUntil: 'none', meatHoldUntil: 'none' },
});
