/** Stock out without a treatment. */
import { z } from 'zod';
import { name, quantity, text } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({ medicine: name, quantity, batch: text(60).optional(), how: text(200).optional() });

export type MedicineDisposed = z.infer<typeof schema>;

export const medicineDisposed = kind({
  type: 'medicine-disposed',
  when: 'Recorded when medicine leaves the shelf other than by treating: expired, broken, handed back.',
  subject: 'farm',
  schema,
  example: {
    medicine: 'Penicillin G procaine, udder',
    quantity: { value: 2, unit: 'tube' },
    batch: 'B-0417',
    how: 'expired, handed back to the vet',
  },
});
