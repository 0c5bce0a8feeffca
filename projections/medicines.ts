/**
 * The register of medicines: every treatment with what the law asks to be written down, holds even when zero, and
 * every correction; and the stock that follows from it. Rows without words, plain JSON.
 */
import type { Entry, EntryOf } from '../events/entry.ts';
import { type Instant, instantText, later } from '../shared/instant.ts';
import { byText } from '../shared/text-order.ts';
import type { Because, OffLabelCause } from './because.ts';
import { numberAt } from './cow.ts';
import { type Dosing, dosingsOf } from './dosing.ts';
import { dryCowPieces } from './dry-cow-hold.ts';
import { medicineKey } from './farm.ts';
import { endText, latestEnd } from './hold-piece.ts';
import type { Known } from './know.ts';
import { dosingMeat } from './meat-hold.ts';
import { dosedAnimal, dosingPieces, sampledAt } from './milk-hold.ts';
import { nthMilkingFor } from './milking-count.ts';
import { type CowFile, countsFor, type Moment } from './moment.ts';
import { offLabelCauses } from './off-label.ts';

export interface Quantity {
  readonly value: number;
  readonly unit: string;
}

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
  /** Given in all, by unit. */
  readonly quantities: readonly Quantity[];
  readonly routes: readonly string[];
  readonly batches: readonly string[];
  /** Barn number at the last dose, as written where no cow of the herd bore it. */
  readonly cow: string;
  readonly officialId: string | null;
  readonly placed: boolean;
  readonly reasons: readonly string[];
  readonly givenBy: readonly string[];
  readonly prescribedBy: readonly string[];
  readonly offLabel: readonly OffLabelCause[];
  readonly milkHold: HoldOnRegister;
  readonly meatHold: HoldOnRegister;
  readonly supplier: string | null;
  readonly supplierAddress: string | null;
  readonly proof: string | null;
  /** When the last of its doses was written down in this book. */
  readonly writtenDown: string;
  readonly missing: readonly MissingField[];
}

/** `until` equal to the last dose is a hold of zero, which is written all the same; null is without end. */
export interface HoldOnRegister {
  readonly until: string | null;
  readonly zero: boolean;
  /** Over at the time the register is made for. */
  readonly ended: boolean;
  readonly because: readonly Because[];
}

/** A treatment struck: it stands in the register, struck through. */
export interface CorrectionRow {
  readonly rule: 'R-23';
  readonly entry: string;
  readonly medicine: string;
  readonly cow: string;
  readonly given: string;
  readonly writtenDown: string;
  readonly struckBy: string;
  readonly struckAt: string;
  readonly reason: string;
  readonly instead: string | null;
}

export interface Register {
  readonly rows: readonly RegisterRow[];
  readonly corrections: readonly CorrectionRow[];
}

export interface RegisterPeriod {
  /** Treatments with a dose at or after this. */
  readonly from?: Instant | undefined;
  /** Treatments with a dose at or before this. */
  readonly to?: Instant | undefined;
}

/** The register as of a moment (its `asOf` says which holds are over). */
export const medicineRegister = (known: Known, moment: Moment, period: RegisterPeriod = {}): Register => {
  const within = (at: Instant): boolean =>
    (period.from === undefined || at >= period.from) && (period.to === undefined || at <= period.to);
  const rows = [...known.files.flatMap((file) => rowsOfCow(known, moment, file)), ...rowsOfNobody(known, moment)]
    .filter(({ dosing }) => dosing.doses.some((dose) => within(dose.at)))
    .sort(
      (a, b) =>
        a.dosing.doses[0].at - b.dosing.doses[0].at ||
        byText(a.row.cow, b.row.cow) ||
        byText(a.row.entries[0] ?? '', b.row.entries[0] ?? ''),
    )
    .map(({ row }) => row);
  const corrections = known.strikes.struck.flatMap(({ entry, by }): CorrectionRow[] => {
    if (entry.type !== 'treatment' || !within(entry.at)) return [];
    return [
      {
        rule: 'R-23',
        entry: entry.id,
        medicine: entry.data.medicine,
        cow: entry.subject ?? '',
        given: instantText(entry.at),
        writtenDown: instantText(entry.recordedAt),
        struckBy: by.author,
        struckAt: instantText(by.recordedAt),
        reason: by.data.reason,
        instead: by.data.instead ?? null,
      },
    ];
  });
  return { rows, corrections };
};

interface Made {
  readonly dosing: Dosing;
  readonly row: RegisterRow;
}

const rowsOfCow = (known: Known, moment: Moment, file: CowFile): Made[] => {
  const nth = nthMilkingFor(moment.schedule, moment.milking.start, countsFor(file, moment));
  const animal = dosedAnimal(file, moment, nth);
  return file.dosings
    .filter((dosing) => dosing.mayBe === undefined)
    .map((dosing) => {
      const label = labelOf(known, dosing);
      const causes =
        label === undefined
          ? saidOnly(dosing)
          : offLabelCauses(dosing, label, animal.patient, animal.dosesOf(dosing.medicineKey));
      return {
        dosing,
        row: rowOf(known, dosing, {
          cow: numberAt(file.cow, dosing.last.at),
          officialId: file.cow.officialId ?? null,
          placed: true,
          causes,
          milk: holdOf(dosing, moment, [
            ...dosingPieces(dosing, moment, animal),
            ...dryCowPieces({ farm: known.farm, file, moment, dosing, nth, sampledAt }),
          ]),
          meat: holdOf(dosing, moment, dosingMeat(dosing, file, moment, animal)),
        }),
      };
    });
};

/** Doses for no known cow, or for one that is not certain: they were given all the same. */
const rowsOfNobody = (known: Known, moment: Moment): Made[] => {
  const entries = [...known.herd.unplaced.map(({ entry }) => entry), ...known.herd.ambiguous.map(({ entry }) => entry)];
  const treatments = entries.flatMap((entry) => (entry.type === 'treatment' ? [{ entry }] : []));
  const vetTimes = entries.flatMap((entry) => (entry.type === 'vet-hold-time' ? [entry] : []));
  const nth = nthMilkingFor(moment.schedule, moment.milking.start, () => true);
  const patient = { classAt: () => null, born: undefined, dayOf: moment.schedule.dayOf };
  const dosings = dosingsOf({ treatments, vetTimes, courseEnds: [] });
  return dosings.map((dosing) => {
    const animal = { nth, patient, dosesOf: () => [...dosing.doses] };
    const label = labelOf(known, dosing);
    return {
      dosing,
      row: rowOf(known, dosing, {
        cow: dosing.last.subject ?? '',
        officialId: null,
        placed: false,
        causes: label === undefined ? saidOnly(dosing) : offLabelCauses(dosing, label, patient, dosing.doses),
        milk: holdOf(dosing, moment, dosingPieces(dosing, moment, animal)),
        meat: holdOf(dosing, moment, dosingMeat(dosing, undefined, moment, animal)),
      }),
    };
  });
};

const labelOf = (known: Known, dosing: Dosing) => {
  const listings = known.farm.listings.get(dosing.medicineKey) ?? [];
  return (listings.findLast((listing) => listing.at <= dosing.last.at) ?? listings[0])?.data;
};

const saidOnly = (dosing: Dosing): OffLabelCause[] =>
  dosing.doses.some((dose) => dose.data.offLabel === true) ? ['said'] : [];

const holdOf = (
  dosing: Dosing,
  moment: Moment,
  pieces: readonly { readonly end: Instant | null; readonly because: Because }[],
): HoldOnRegister => {
  const end = latestEnd(pieces);
  if (end === undefined) return { until: instantText(dosing.last.at), zero: true, ended: true, because: [] };
  return {
    until: endText(end),
    zero: false,
    ended: end !== null && end < moment.asOf,
    because: pieces.map((piece) => piece.because),
  };
};

interface Filled {
  readonly cow: string;
  readonly officialId: string | null;
  readonly placed: boolean;
  readonly causes: readonly OffLabelCause[];
  readonly milk: HoldOnRegister;
  readonly meat: HoldOnRegister;
}

const distinct = (values: readonly (string | undefined)[]): string[] => [
  ...new Set(values.filter((value): value is string => value !== undefined)),
];

const rowOf = (known: Known, dosing: Dosing, filled: Filled): RegisterRow => {
  const { doses, last } = dosing;
  const batches = distinct(doses.map((dose) => dose.data.batch));
  const delivery = deliveryOf(known, dosing.medicineKey, batches);
  const row = {
    rule: 'R-95' as const,
    entries: [...doses.map((dose) => dose.id), ...dosing.vet.entries],
    medicine: dosing.medicine,
    active: labelOf(known, dosing)?.active ?? null,
    firstDose: instantText(doses[0].at),
    lastDose: instantText(last.at),
    doses: doses.length,
    quantities: sumByUnit(doses.flatMap((dose) => dose.data.amount ?? [])),
    routes: distinct(doses.map((dose) => dose.data.route)),
    batches,
    cow: filled.cow,
    officialId: filled.officialId,
    placed: filled.placed,
    reasons: distinct(doses.map((dose) => dose.data.reason)),
    givenBy: distinct(doses.map((dose) => dose.data.givenBy ?? (dose.author === '' ? undefined : dose.author))),
    prescribedBy: distinct([...doses.map((dose) => dose.data.prescribedBy), dosing.vet.prescribedBy]),
    offLabel: filled.causes,
    milkHold: filled.milk,
    meatHold: filled.meat,
    supplier: delivery?.data.supplier ?? null,
    supplierAddress: delivery?.data.supplierAddress ?? null,
    proof: delivery?.data.proof ?? null,
    writtenDown: instantText(
      doses.reduce<Instant>((latest, dose) => later(dose.recordedAt, latest), doses[0].recordedAt),
    ),
  };
  return { ...row, missing: missingIn(row) };
};

/** The delivery of the batch that was used, else the last one of the medicine where no batch was written down. */
const deliveryOf = (
  known: Known,
  medicine: string,
  batches: readonly string[],
): EntryOf<'medicine-received'> | undefined => {
  const received = known.farm.received.filter((each) => medicineKey(each.data.medicine) === medicine);
  return batches.length === 0
    ? received.at(-1)
    : received.findLast((each) => each.data.batch !== undefined && batches.includes(each.data.batch));
};

const sumByUnit = (amounts: readonly Quantity[]): Quantity[] => {
  const sums = new Map<string, number>();
  for (const { value, unit } of amounts) sums.set(unit, (sums.get(unit) ?? 0) + value);
  return [...sums].map(([unit, value]) => ({ value: rounded(value), unit }));
};

/** Sums of decimals as people wrote them: to a millionth, so that 0.1 + 0.2 is 0.3. */
const rounded = (value: number): number => Math.round(value * 1e6) / 1e6;

/** Regulation (EU) 2019/6, Article 108(2), and the batch that the British rules of 2013 ask for. */
const missingIn = (row: Omit<RegisterRow, 'missing'>): MissingField[] => {
  const missing: MissingField[] = [];
  const want = (field: MissingField, filled: boolean): void => {
    if (!filled) missing.push(field);
  };
  want('amount', row.quantities.length > 0);
  want('route', row.routes.length > 0);
  want('batch', row.batches.length > 0);
  want('reason', row.reasons.length > 0);
  want('given-by', row.givenBy.length > 0);
  want('prescribed-by', row.prescribedBy.length > 0);
  want('official-number', row.officialId !== null);
  want('supplier', row.supplier !== null && row.supplierAddress !== null);
  want('proof', row.proof !== null);
  want('active', row.active !== null);
  return missing;
};

export interface StockRow {
  readonly rule: 'R-95';
  readonly medicine: string;
  /** Null where none was written down. */
  readonly batch: string | null;
  readonly unit: string;
  readonly received: number;
  readonly used: number;
  readonly disposed: number;
  /** Received less used less disposed; below zero says that something was not written down. */
  readonly left: number;
  readonly expires: string | null;
  readonly entries: readonly string[];
}

/** Stock by medicine, batch and unit. Units are never converted into one another. */
export const medicineStock = (known: Known): readonly StockRow[] => {
  const rows = new Map<string, { -readonly [K in keyof StockRow]: StockRow[K] } & { entries: string[] }>();
  const add = (
    entry: Entry,
    medicine: string,
    batch: string | undefined,
    amount: Quantity,
    column: 'received' | 'used' | 'disposed',
    expires?: string,
  ): void => {
    const key = [medicineKey(medicine), batch ?? '', amount.unit].join('\n');
    const row = rows.get(key) ?? {
      rule: 'R-95' as const,
      medicine,
      batch: batch ?? null,
      unit: amount.unit,
      received: 0,
      used: 0,
      disposed: 0,
      left: 0,
      expires: null,
      entries: [],
    };
    row[column] = rounded(row[column] + amount.value);
    row.left = rounded(row.received - row.used - row.disposed);
    row.expires = expires ?? row.expires;
    row.entries.push(entry.id);
    rows.set(key, row);
  };
  for (const entry of known.strikes.live) {
    if (entry.type === 'medicine-received')
      add(entry, entry.data.medicine, entry.data.batch, entry.data.quantity, 'received', entry.data.expires);
    if (entry.type === 'medicine-disposed')
      add(entry, entry.data.medicine, entry.data.batch, entry.data.quantity, 'disposed');
    if (entry.type === 'treatment' && entry.data.amount !== undefined)
      add(entry, entry.data.medicine, entry.data.batch, entry.data.amount, 'used');
  }
  return [...rows.values()].sort(
    (a, b) =>
      byText(medicineKey(a.medicine), medicineKey(b.medicine)) ||
      byText(a.batch ?? '', b.batch ?? '') ||
      byText(a.unit, b.unit),
  );
};
