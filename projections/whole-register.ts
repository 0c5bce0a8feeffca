/** Everything that the printed register of medicines says for a period: treatments, what was struck, stock, and what is not certain. */
import { instantText } from '../shared/instant.ts';
import type { Known } from './know.ts';
import { liveEntries } from './live.ts';
import type { RegisterRow } from './medicine-row.ts';
import { medicineStock, type StockRow } from './medicine-stock.ts';
import { medicineRegister, type RegisterPeriod } from './medicines.ts';
import type { Moment } from './moment.ts';
import { dosesWithoutAmount } from './no-amount.ts';
import { type StruckRecords, struckRecords } from './struck-records.ts';

export interface WholeRegister {
  readonly rows: readonly RegisterRow[];
  readonly struck: StruckRecords;
  readonly stock: readonly StockRow[];
  /** Doses that say no quantity: the stock cannot count them. */
  readonly dosesWithoutQuantity: number;
  /** Whom each dose may be of whose number meant several cows: by the dose's entry, official numbers where they have them. */
  readonly mayBeOf: Readonly<Record<string, readonly string[]>>;
  /** Things set aside and not settled: any may be a treatment. */
  readonly setAside: number;
  /** Local days, as asked. */
  readonly from: string | null;
  readonly to: string | null;
  /** When the holds and the stock are worked out for. */
  readonly asOf: string;
}

/** `from`, `to`: the local days that the period was asked by. */
export const wholeRegister = (
  known: Known,
  moment: Moment,
  period: RegisterPeriod & { readonly fromDay?: string | undefined; readonly toDay?: string | undefined } = {},
): WholeRegister => ({
  rows: medicineRegister(known, moment, period).rows,
  struck: struckRecords(known, period),
  stock: medicineStock(known),
  dosesWithoutQuantity: dosesWithoutAmount(liveEntries(known.strikes.live)).length,
  mayBeOf: mayBeOf(known),
  setAside: known.asides.length,
  from: period.fromDay ?? null,
  to: period.toDay ?? null,
  asOf: instantText(moment.asOf),
});

export const mayBeOf = (known: Known): Record<string, readonly string[]> =>
  Object.fromEntries(
    known.herd.ambiguous.map(({ entry, animals }) => [
      entry.id,
      animals.map((animal) => animal.officialId ?? animal.spans.at(-1)?.number ?? ''),
    ]),
  );
