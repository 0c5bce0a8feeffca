/**
 * An issued set as lines to write up, in the order in which they stand on the paper: read back from the rows that the book
 * kept, never worked out anew. A sheet that can't be read is named, and stops no other.
 */
import { z } from 'zod';
import type { EntryOf } from '../../../events/entry.ts';
import { QUARTERS } from '../../../events/fields.ts';
import type { Because } from '../../../projections/because.ts';
import { sayable } from './sayable.ts';

interface OfCow {
  /** Name of the line's tick in the form. */
  readonly field: string;
  readonly cow: string;
  readonly group: string;
}

export interface DoseLine extends OfCow {
  readonly kind: 'dose';
  readonly medicine: string;
  readonly dose: number;
  readonly of: number;
  readonly amount: { readonly value: number; readonly unit: string } | null;
  readonly route: string | null;
  readonly quarters: readonly (typeof QUARTERS)[number][];
  readonly overdue: boolean;
  /** Ids of the doses before it. */
  readonly before: readonly string[];
}
export interface BandLine extends OfCow {
  readonly kind: 'band';
}
export interface DryLine extends OfCow {
  readonly kind: 'dry';
  readonly dryOffOn: string;
  readonly daysOverdue: number;
  readonly product: string | null;
  readonly warnings: readonly Because[];
}
export interface UndecidedLine extends OfCow {
  readonly kind: 'undecided';
  readonly daysInMilk: number;
}
export interface OutLine extends OfCow {
  readonly kind: 'out';
  readonly to: string;
}
export interface InLine extends OfCow {
  readonly kind: 'in';
  readonly why: Because;
}
export interface PenLine extends OfCow {
  readonly kind: 'pen';
}
export interface SortLine extends OfCow {
  readonly kind: 'sort';
  readonly reasons: readonly Because[];
  readonly to: readonly string[];
}
export interface CountLine {
  readonly kind: 'count';
  readonly field: string;
  readonly group: string;
  /** Expected by the book when the sheet was issued. */
  readonly head: number;
}

export type PaperLine =
  | DoseLine
  | BandLine
  | DryLine
  | UndecidedLine
  | OutLine
  | InLine
  | PenLine
  | SortLine
  | CountLine;

export interface OnPaper {
  readonly lines: readonly PaperLine[];
  /** Sheets of the set whose rows this version can't read. */
  readonly unreadable: readonly WrittenUp[];
}

const ofCow = { cow: z.string(), group: z.string() };
const reason = z.custom<Because>(sayable);
const amount = z.looseObject({ value: z.number(), unit: z.string() }).transform(({ value, unit }) => ({ value, unit }));

const milkHold = z
  .looseObject({
    treat: z.array(
      z.looseObject({
        ...ofCow,
        medicine: z.string(),
        dose: z.number(),
        of: z.number(),
        amount: amount.nullable(),
        route: z.string().nullable(),
        quarters: z.array(z.enum(QUARTERS)),
        overdue: z.boolean(),
        because: z.looseObject({ entries: z.array(z.string()) }),
      }),
    ),
    cleared: z.array(z.looseObject(ofCow)),
  })
  .transform(({ treat, cleared }): PaperLine[] => [
    ...treat.map(
      ({ cow, group, medicine, dose, of, amount, route, quarters, overdue, because }, n): DoseLine => ({
        kind: 'dose',
        field: `dose.${n}`,
        ...{ cow, group, medicine, dose, of, amount, route, quarters, overdue },
        before: because.entries,
      }),
    ),
    ...cleared.map(({ cow, group }, n): BandLine => ({ kind: 'band', field: `band.${n}`, cow, group })),
  ]);

const dryOff = z
  .looseObject({
    due: z.array(
      z.looseObject({
        ...ofCow,
        dryOffOn: z.string(),
        daysOverdue: z.number(),
        product: z.string().nullable(),
        warnings: z.array(reason),
      }),
    ),
    undecided: z.array(z.looseObject({ ...ofCow, daysInMilk: z.number() })),
  })
  .transform(({ due, undecided }): PaperLine[] => [
    ...due.map(
      ({ cow, group, dryOffOn, daysOverdue, product, warnings }, n): DryLine => ({
        kind: 'dry',
        field: `dry.${n}`,
        ...{ cow, group, dryOffOn, daysOverdue, product, warnings },
      }),
    ),
    ...undecided.map(
      ({ cow, group, daysInMilk }, n): UndecidedLine => ({
        kind: 'undecided',
        field: `decided.${n}`,
        ...{ cow, group, daysInMilk },
      }),
    ),
  ]);

const freshMoves = z
  .looseObject({
    out: z.array(z.looseObject({ cow: z.string(), from: z.string(), to: z.string() })),
    in: z.array(z.looseObject({ ...ofCow, because: reason })),
    pen: z.array(z.looseObject(ofCow)),
  })
  .transform((rows): PaperLine[] => [
    ...rows.out.map(({ cow, from, to }, n): OutLine => ({ kind: 'out', field: `out.${n}`, cow, group: from, to })),
    ...rows.in.map(
      ({ cow, group, because }, n): InLine => ({ kind: 'in', field: `in.${n}`, cow, group, why: because }),
    ),
    ...rows.pen.map(({ cow, group }, n): PenLine => ({ kind: 'pen', field: `pen.${n}`, cow, group })),
  ]);

const sort = z
  .looseObject({ cows: z.array(z.looseObject({ ...ofCow, reasons: z.array(reason), to: z.array(z.string()) })) })
  .transform(({ cows }): PaperLine[] =>
    cows.map(
      ({ cow, group, reasons, to }, n): SortLine => ({ kind: 'sort', field: `sort.${n}`, cow, group, reasons, to }),
    ),
  );

const counts = z
  .looseObject({ groups: z.array(z.looseObject({ group: z.string(), head: z.number() })) })
  .transform(({ groups }): PaperLine[] =>
    groups.map(({ group, head }, n): CountLine => ({ kind: 'count', field: `count.${n}`, group, head })),
  );

/** The sheets with something to write up, in the order in which a set is printed. */
export type WrittenUp = keyof typeof SHEETS;
const SHEETS = { 'milk-hold': milkHold, 'dry-off': dryOff, 'fresh-moves': freshMoves, sort, counts } as const;
const WRITTEN_UP = ['milk-hold', 'dry-off', 'fresh-moves', 'sort', 'counts'] as const satisfies readonly WrittenUp[];

export const onPaper = (set: EntryOf<'sheet-issued'>): OnPaper => {
  const lines: PaperLine[] = [];
  const unreadable: WrittenUp[] = [];
  for (const sheet of WRITTEN_UP) {
    const stored = set.data.sheets.find((each) => each.sheet === sheet);
    if (stored === undefined) continue;
    const read = SHEETS[sheet].safeParse(stored.content);
    if (read.success) lines.push(...read.data);
    else unreadable.push(sheet);
  }
  return { lines, unreadable };
};
