/** Stock in: what came, from whom, with which proof of purchase. */
import { z } from 'zod';
import { date, name, quantity, text } from '../fields.ts';
import { kind } from '../kind.ts';

const schema = z.strictObject({
  medicine: name,
  quantity,
  batch: text(60).optional(),
  expires: date.optional(),
  supplier: text(120).optional(),
  supplierAddress: text(200).optional(),
  proof: text(120).optional(),
});

export type MedicineReceived = z.infer<typeof schema>;

export const medicineReceived = kind({
  type: 'medicine-received',
  when: 'Recorded when a delivery of medicine is put on the shelf.',
  subject: 'farm',
  schema,
  example: {
    medicine: 'Penicillin G procaine, udder',
    quantity: { value: 24, unit: 'tube' },
    batch: 'B-0417',
    expires: '2027-05-31',
  },
});
