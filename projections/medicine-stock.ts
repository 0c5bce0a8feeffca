/** The stock of medicines that follows from what was received, used and disposed of. Plain JSON. */
import type { Entry } from '../events/entry.ts';
import { byText } from '../shared/text-order.ts';
import { medicineKey } from './farm.ts';
import type { Known } from './know.ts';
import { liveEntries } from './live.ts';
import { type DoseWithoutAmount, dosesWithoutAmount } from './no-amount.ts';

export interface Quantity {
  readonly value: number;
  readonly unit: string;
}

/** Sums of decimals as people wrote them: to a millionth, so that 0.1 + 0.2 is 0.3. */
export const rounded = (value: number): number => Math.round(value * 1e6) / 1e6;

export interface StockRow {
  readonly rule: 'R-95';
  /** As it is listed; where it is not, as it was first written. */
  readonly medicine: string;
  /** Null where none was written down. */
  readonly batch: string | null;
  readonly unit: string;
  readonly received: number;
  readonly used: number;
  readonly disposed: number;
  /** Received less used less disposed; below zero says that something was not written down. */
  readonly left: number;
  /** Doses that say no amount, of this batch or of none by name: they are not taken off. */
  readonly dosesWithoutAmount: number;
  readonly expires: string | null;
  readonly entries: readonly string[];
}

/** Stock by medicine, batch and unit. Units are never converted into one another. */
export const medicineStock = (known: Known): readonly StockRow[] => {
  const rows = new Map<string, { -readonly [K in keyof StockRow]: StockRow[K] } & { entries: string[] }>();
  const names = new Map([...known.farm.listings].map(([key, listings]) => [key, listings.at(-1)?.data.name ?? key]));
  const add = (
    entry: Entry,
    medicine: string,
    batch: string | undefined,
    amount: Quantity,
    column: 'received' | 'used' | 'disposed',
    expires?: string,
  ): void => {
    if (!names.has(medicineKey(medicine))) names.set(medicineKey(medicine), medicine);
    const key = [medicineKey(medicine), batch ?? '', amount.unit].join('\n');
    const row = rows.get(key) ?? {
      rule: 'R-95' as const,
      medicine: names.get(medicineKey(medicine)) ?? medicine,
      batch: batch ?? null,
      unit: amount.unit,
      received: 0,
      used: 0,
      disposed: 0,
      left: 0,
      dosesWithoutAmount: 0,
      expires: null,
      entries: [],
    };
    row[column] = rounded(row[column] + amount.value);
    row.left = rounded(row.received - row.used - row.disposed);
    row.expires = expires ?? row.expires;
    row.entries.push(entry.id);
    rows.set(key, row);
  };
  const live = liveEntries(known.strikes.live);
  for (const entry of live) {
    if (entry.type === 'medicine-received')
      add(entry, entry.data.medicine, entry.data.batch, entry.data.quantity, 'received', entry.data.expires);
    if (entry.type === 'medicine-disposed')
      add(entry, entry.data.medicine, entry.data.batch, entry.data.quantity, 'disposed');
    if (entry.type === 'treatment' && entry.data.amount !== undefined)
      add(entry, entry.data.medicine, entry.data.batch, entry.data.amount, 'used');
  }
  const without = new Map<string, DoseWithoutAmount[]>();
  for (const dose of dosesWithoutAmount(live)) {
    const have = without.get(dose.medicineKey);
    if (have === undefined) without.set(dose.medicineKey, [dose]);
    else have.push(dose);
  }
  for (const row of rows.values()) {
    for (const dose of without.get(medicineKey(row.medicine)) ?? []) {
      if ((dose.batch ?? row.batch) !== row.batch) continue;
      row.dosesWithoutAmount += 1;
      row.entries.push(dose.entry);
    }
  }
  return [...rows.values()].sort(
    (a, b) =>
      byText(medicineKey(a.medicine), medicineKey(b.medicine)) ||
      byText(a.batch ?? '', b.batch ?? '') ||
      byText(a.unit, b.unit),
  );
};
