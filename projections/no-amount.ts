/** Doses that say no amount: they cannot be taken off the stock. */
import type { Entry } from '../events/entry.ts';
import { medicineKey } from './farm.ts';
import { TWO_DAYS } from './stretch.ts';

export interface DoseWithoutAmount {
  readonly entry: string;
  readonly medicineKey: string;
  /** Null where none was written down: it may be of any. */
  readonly batch: string | null;
}

/** Of a treatment, or given at a dry-off with no treatment beside it that tells of the same. */
export const dosesWithoutAmount = (entries: readonly Entry[]): readonly DoseWithoutAmount[] => {
  const given = new Map<string, number[]>();
  for (const entry of entries) {
    if (entry.type !== 'treatment') continue;
    const key = keyOf(entry.subject, entry.data.medicine);
    const have = given.get(key);
    if (have === undefined) given.set(key, [entry.at]);
    else have.push(entry.at);
  }
  return entries.flatMap((entry): DoseWithoutAmount[] => {
    if (entry.type === 'treatment' && entry.data.amount === undefined) {
      const { medicine, batch } = entry.data;
      return [{ entry: entry.id, medicineKey: medicineKey(medicine), batch: batch ?? null }];
    }
    if (entry.type !== 'dry-off') return [];
    const { product } = entry.data;
    if (product === undefined || product === 'none') return [];
    const isTold = given.get(keyOf(entry.subject, product))?.some((at) => Math.abs(at - entry.at) <= TWO_DAYS);
    return isTold === true ? [] : [{ entry: entry.id, medicineKey: medicineKey(product), batch: null }];
  });
};

const keyOf = (cow: string | undefined, medicine: string): string => `${cow ?? ''}\n${medicineKey(medicine)}`;
