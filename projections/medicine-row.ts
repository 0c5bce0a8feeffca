/** One row of the register of medicines: a treatment with all that the law asks for, and what of it is not filled in. */
import { type Instant, instantText, later } from '../shared/instant.ts';
import type { Because, OffLabelCause } from './because.ts';
import type { Dosing } from './dosing.ts';
import type { Known } from './know.ts';
import { type Quantity, rounded } from './medicine-stock.ts';
import { supplyOf } from './medicine-supply.ts';

/** What a law asks for and the farm has not filled in. */
export type MissingField =
  | 'amount'
  | 'route'
  | 'batch'
  | 'reason'
  | 'given-by'
  | 'prescribed-by'
  | 'official-number'
  | 'supplier'
  | 'proof'
  | 'active';

export interface RegisterRow {
  readonly rule: 'R-95';
  readonly entries: readonly string[];
  readonly medicine: string;
  readonly active: string | null;
  readonly firstDose: string;
  readonly lastDose: string;
  readonly doses: number;
  readonly given: readonly DoseOnRegister[];
  /** Given in all, by unit. */
  readonly quantities: readonly Quantity[];
  readonly routes: readonly string[];
  readonly batches: readonly string[];
  /** Barn number at the last dose, as written where no cow of the herd bore it. */
  readonly cow: string;
  /** Her barn number now, where it is another and no official number says who she is. */
  readonly cowNow: string | null;
  readonly officialId: string | null;
  readonly placed: boolean;
  readonly reasons: readonly string[];
  readonly givenBy: readonly string[];
  readonly prescribedBy: readonly string[];
  readonly offLabel: readonly OffLabelCause[];
  readonly milkHold: HoldOnRegister;
  readonly meatHold: HoldOnRegister;
  /** From the deliveries of the batches used; where several suppliers or proofs stand behind them, all, with `; ` between. */
  readonly supplier: string | null;
  readonly supplierAddress: string | null;
  readonly proof: string | null;
  /** When the last of its doses was written down in this book. */
  readonly writtenDown: string;
  readonly missing: readonly MissingField[];
}

export interface DoseOnRegister {
  readonly entry: string;
  readonly at: string;
  readonly amount: Quantity | null;
  readonly writtenDown: string;
}

/** `until` equal to the last dose is a hold of zero, which is written all the same; null is without end. */
export interface HoldOnRegister {
  readonly until: string | null;
  readonly zero: boolean;
  /** Over at the time the register is made for. */
  readonly ended: boolean;
  readonly because: readonly Because[];
}

/** The label in force at the last dose, else the first one after it. */
export const labelOf = (known: Known, dosing: Dosing) => {
  const listings = known.farm.listings.get(dosing.medicineKey) ?? [];
  return (listings.findLast((listing) => listing.at <= dosing.last.at) ?? listings[0])?.data;
};

/** What follows from the animal. */
export interface Filled {
  readonly cow: string;
  readonly cowNow: string | null;
  readonly officialId: string | null;
  readonly placed: boolean;
  readonly causes: readonly OffLabelCause[];
  readonly milk: HoldOnRegister;
  readonly meat: HoldOnRegister;
}

const distinct = (values: readonly (string | undefined)[]): string[] => [
  ...new Set(values.filter((value): value is string => value !== undefined)),
];

export const rowOf = (known: Known, dosing: Dosing, filled: Filled): RegisterRow => {
  const { doses, last } = dosing;
  const batches = distinct(doses.map((dose) => dose.data.batch));
  const supply = supplyOf(known, dosing);
  const row = {
    rule: 'R-95' as const,
    entries: [...doses.map((dose) => dose.id), ...dosing.vet.entries],
    medicine: dosing.medicine,
    active: labelOf(known, dosing)?.active ?? null,
    firstDose: instantText(doses[0].at),
    lastDose: instantText(last.at),
    doses: doses.length,
    given: doses.map((dose) => ({
      entry: dose.id,
      at: instantText(dose.at),
      amount: dose.data.amount ?? null,
      writtenDown: instantText(dose.recordedAt),
    })),
    quantities: sumByUnit(doses.flatMap((dose) => dose.data.amount ?? [])),
    routes: distinct(doses.map((dose) => dose.data.route)),
    batches,
    cow: filled.cow,
    cowNow: filled.officialId === null && filled.cowNow !== filled.cow ? filled.cowNow : null,
    officialId: filled.officialId,
    placed: filled.placed,
    reasons: distinct(doses.map((dose) => dose.data.reason)),
    givenBy: distinct(doses.map((dose) => dose.data.givenBy ?? (dose.author === '' ? undefined : dose.author))),
    prescribedBy: distinct([...doses.map((dose) => dose.data.prescribedBy), dosing.vet.prescribedBy]),
    offLabel: filled.causes,
    milkHold: filled.milk,
    meatHold: filled.meat,
    supplier: supply.supplier,
    supplierAddress: supply.supplierAddress,
    proof: supply.proof,
    writtenDown: instantText(
      doses.reduce<Instant>((latest, dose) => later(dose.recordedAt, latest), doses[0].recordedAt),
    ),
  };
  return { ...row, missing: missingIn(row, doses, supply.complete) };
};

const sumByUnit = (amounts: readonly Quantity[]): Quantity[] => {
  const sums = new Map<string, number>();
  for (const { value, unit } of amounts) sums.set(unit, (sums.get(unit) ?? 0) + value);
  return [...sums].map(([unit, value]) => ({ value: rounded(value), unit }));
};

/**
 * Regulation (EU) 2019/6, Article 108(2), and the batch that the British rules of 2013 ask for. What is asked of each dose
 * is missing where one of them lacks it: a total of some doses is not the quantity.
 */
const missingIn = (
  row: Omit<RegisterRow, 'missing'>,
  doses: Dosing['doses'],
  supply: { readonly supplier: boolean; readonly proof: boolean },
): MissingField[] => {
  const missing: MissingField[] = [];
  const want = (field: MissingField, filled: boolean): void => {
    if (!filled) missing.push(field);
  };
  want(
    'amount',
    doses.every(({ data }) => data.amount !== undefined),
  );
  want(
    'route',
    doses.every(({ data }) => data.route !== undefined),
  );
  want(
    'batch',
    doses.every(({ data }) => data.batch !== undefined),
  );
  want('reason', row.reasons.length > 0);
  want('given-by', row.givenBy.length > 0);
  want('prescribed-by', row.prescribedBy.length > 0);
  want('official-number', row.officialId !== null);
  want('supplier', supply.supplier);
  want('proof', supply.proof);
  want('active', row.active !== null);
  return missing;
};
