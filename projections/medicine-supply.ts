/** Where a medicine that was given came from, as far as the book can prove it: by medicine and batch. */
import type { EntryOf } from '../events/entry.ts';
import type { Dosing } from './dosing.ts';
import { medicineKey } from './farm.ts';
import type { Known } from './know.ts';

type Delivery = EntryOf<'medicine-received'>;

export interface Supply {
  readonly supplier: string | null;
  readonly supplierAddress: string | null;
  readonly proof: string | null;
  /** Stated for every batch that was used; the supplier with the address. */
  readonly complete: { readonly supplier: boolean; readonly proof: boolean };
}

/**
 * Each batch by its own deliveries. A dose without a batch is only known to come from what had been delivered by then, so
 * it has a supplier or a proof only where all of that has the same one: the register does not guess.
 */
export const supplyOf = (known: Known, dosing: Dosing): Supply => {
  const deliveries = known.farm.received.filter((each) => medicineKey(each.data.medicine) === dosing.medicineKey);
  const batches = [...new Set(dosing.doses.map((dose) => dose.data.batch))];
  const sources = batches.map((batch) =>
    batch === undefined
      ? deliveries.filter((each) => each.at <= dosing.last.at)
      : deliveries.filter((each) => each.data.batch === batch),
  );
  const said = (of: (delivery: Delivery) => string | undefined): { all: string[]; complete: boolean } => {
    const each = sources.map((source, index) => statedIn(source.map(of), batches[index] !== undefined));
    return { all: [...new Set(each.flat())], complete: each.every((some) => some.length > 0) };
  };
  const supplier = said((each) => each.data.supplier);
  const address = said((each) => each.data.supplierAddress);
  const proof = said((each) => each.data.proof);
  const text = ({ all }: { all: string[] }): string | null => (all.length === 0 ? null : all.join('; '));
  return {
    supplier: text(supplier),
    supplierAddress: text(address),
    proof: text(proof),
    complete: { supplier: supplier.complete && address.complete, proof: proof.complete },
  };
};

/** `byBatch`: any delivery of the batch may state it; else all must state the same. */
const statedIn = (values: readonly (string | undefined)[], byBatch: boolean): string[] => {
  const distinct = [...new Set(values)];
  const stated = distinct.filter((value): value is string => value !== undefined);
  return byBatch || distinct.length === 1 ? stated : [];
};
