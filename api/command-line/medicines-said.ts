/** The register and the stock in a few lines each for a terminal, and the words that its CSV shares. */
import type { HoldOnRegister, RegisterRow } from '../../projections/medicine-row.ts';
import type { Quantity, StockRow } from '../../projections/medicine-stock.ts';
import type { Register } from '../../projections/medicines.ts';
import type { mayBeOf } from '../../projections/whole-register.ts';
import { out, plural } from './settings.ts';

/** A time on the farm's clocks; null is without end. */
export type Times = (instant: string | null) => string;
/** Whom doses may be of that are not certainly one cow's. */
export type MayBe = ReturnType<typeof mayBeOf>;

export const amounts = (quantities: readonly Quantity[]): string =>
  quantities.map(({ value, unit }) => `${value} ${unit}`).join(' + ');

/** Zero is written as zero (GB VMR 2013; US milk ordinance 15r; EU 2019/6 Article 108). */
export const holdText = (hold: HoldOnRegister, times: Times): string =>
  hold.zero ? '0 (none)' : `${times(hold.until)}${hold.ended ? ' (over)' : ''}`;

const untilText = (hold: HoldOnRegister, times: Times): string =>
  `${hold.zero || hold.until === null ? '' : 'until '}${holdText(hold, times)}`;

export const useOf = (row: RegisterRow): string =>
  row.offLabel.length === 0 ? 'label' : `off-label (${row.offLabel.join(', ')})`;

/** A cow that bears another number now, and has no official one. */
export const nowOf = (row: RegisterRow): string => (row.cowNow === null ? '' : ` (now ${row.cowNow})`);

/** Of a dose that is not certainly one cow's: whose it may be, or that no such cow is known. */
export const unsureOf = (row: RegisterRow, mayBe: MayBe): string => {
  if (row.placed) return '';
  const cows = row.entries.flatMap((entry) => mayBe[entry] ?? []);
  return cows.length === 0 ? ' (no such cow in the herd)' : ` (may be ${[...new Set(cows)].join(' or ')})`;
};

export const sayRegister = (register: Register, times: Times, mayBe: MayBe): void => {
  out(`${plural(register.rows.length, 'treatment')}, ${plural(register.corrections.length, 'struck treatment')}`);
  for (const row of register.rows) {
    out('');
    out(
      `${row.cow}${nowOf(row)}${row.officialId === null ? '' : ` (${row.officialId})`}${unsureOf(row, mayBe)}: ${row.medicine}${row.active === null ? '' : `, ${row.active}`}`,
    );
    out(
      `  ${plural(row.doses, 'dose')}, ${times(row.firstDose)}${row.doses > 1 ? ` to ${times(row.lastDose)}` : ''}; ${amounts(row.quantities) || 'quantity not written down'}; ${row.routes.join(', ') || 'route not written down'}; batch ${row.batches.join(', ') || 'not written down'}`,
    );
    out(
      `  for ${row.reasons.join('; ') || 'a reason not written down'}; given by ${row.givenBy.join(', ') || 'not written down'}; prescribed by ${row.prescribedBy.join(', ') || 'not written down'}; ${useOf(row)}`,
    );
    out(
      `  milk hold ${untilText(row.milkHold, times)}; meat hold ${untilText(row.meatHold, times)}; written down ${times(row.writtenDown)}`,
    );
    if (row.missing.length > 0) out(`  not filled in: ${row.missing.join(', ')}`);
  }
  for (const row of register.corrections) {
    out('');
    out(`STRUCK ${row.cow}: ${row.medicine}, ${times(row.given)}, written down ${times(row.writtenDown)}`);
    out(`  struck by ${row.struckBy}, ${times(row.struckAt)}: ${row.reason}; instead ${row.instead ?? 'not said'}`);
  }
};

export const sayStock = (stock: readonly StockRow[], dosesWithoutAmount: number): void => {
  if (stock.length === 0) out('Nothing was received, used or disposed of with a quantity.');
  for (const row of stock) {
    out(
      `${row.medicine}, batch ${row.batch ?? 'not written down'}: ${row.left} ${row.unit} left (received ${row.received}, used ${row.used}, disposed ${row.disposed})${row.expires === null ? '' : `, expires ${row.expires}`}${row.left < 0 ? '  ! more went out than came in' : ''}${row.dosesWithoutAmount === 0 ? '' : `  ! ${plural(row.dosesWithoutAmount, 'dose')} with no amount written down, not taken off`}`,
    );
  }
  if (dosesWithoutAmount > 0)
    out(`${plural(dosesWithoutAmount, 'dose')} in all with no amount written down: the stock does not count them.`);
};
