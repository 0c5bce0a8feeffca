/**
 * The shape of what is known for one milking: rows with rules, keys, values and entries, without a word of any language.
 * `print/` turns them into paper and into `print --json`; an issued set stores them as its content.
 * Instants are RFC 3339 text in UTC; days `YYYY-MM-DD`; milkings their ids. Plain JSON throughout.
 */
import type { Because } from './because.ts';

/** Where her milk is to go follows from the cause. */
export type HoldCause = 'treated' | 'fresh' | 'abnormal' | 'dry' | 'unknown';

export type HoldReason = Because & {
  readonly cause: HoldCause;
  /** Null: without end. */
  readonly until: string | null;
  readonly medicine?: string;
  readonly quarters?: readonly string[];
  readonly lastDose?: string;
};

export interface HeldRow {
  readonly cow: string;
  readonly group: string;
  readonly until: string | null;
  readonly tankFrom: string | null;
  /** Counts this milking too. */
  readonly milkingsLeft: number | null;
  readonly reasons: readonly HoldReason[];
  readonly isNew: boolean;
  /** Dry cow in a milked group: heads the list. */
  readonly dryInMilkedGroup: boolean;
  /** True where an entry timed inside this milking may have come before or after she was milked. */
  readonly ask: boolean;
}

export interface ClearedRow {
  readonly cow: string;
  readonly group: string;
  /** When her last hold ended. */
  readonly since: string;
  /** Wall time `HH:MM` before which she must not be milked for the tank, when the hold ended within the hour before. */
  readonly notBefore: string | null;
  readonly reasons: readonly HoldReason[];
}

export interface TreatRow {
  readonly cow: string;
  readonly group: string;
  readonly medicine: string;
  readonly dose: number;
  readonly of: number;
  readonly amount: { readonly value: number; readonly unit: string } | null;
  readonly route: string | null;
  readonly quarters: readonly string[];
  /** Due at an earlier milking and not recorded: ask before giving. */
  readonly overdue: boolean;
  readonly because: Because;
}

export interface UnplacedRow {
  /** As written; null where no number could be read. */
  readonly number: string | null;
  readonly because: Because;
  /** What a `settled` entry names to end it. */
  readonly key: string;
}

/** Cows on the last issued sheet that are neither held nor cleared now: dried off, left, struck. Said, never a band off. */
export interface GoneRow {
  readonly cow: string;
  readonly how: 'dried-off' | 'left' | 'struck' | 'not-milked-now';
}

export interface MilkHoldSheet {
  readonly unplaced: readonly UnplacedRow[];
  readonly held: readonly HeldRow[];
  readonly cleared: readonly ClearedRow[];
  readonly gone: readonly GoneRow[];
  readonly treat: readonly TreatRow[];
  /** Groups milked at this milking, in milking order, each with how many are held: "none on hold" is said by name. */
  readonly groups: readonly { readonly group: string; readonly held: number }[];
}

export interface DryOffRow {
  readonly cow: string;
  readonly group: string;
  readonly dryOffOn: string;
  readonly calvingDue: string;
  readonly daysOverdue: number;
  readonly warnings: readonly Because[];
  readonly because: Because;
  /** The farm's usual product, where set. */
  readonly product: string | null;
}

export interface DryOffSheet {
  readonly due: readonly DryOffRow[];
  readonly undecided: readonly {
    readonly cow: string;
    readonly group: string;
    readonly daysInMilk: number;
    readonly because: Because;
  }[];
}

export interface FreshOutRow {
  readonly cow: string;
  readonly from: string;
  readonly to: string;
  readonly because: Because;
  readonly warnings: readonly Because[];
}

/** What the crew see of a cow in the fresh pen. */
export interface FreshPenRow {
  readonly cow: string;
  readonly group: string;
  readonly calved: string | null;
  /** Where only the date is known. */
  readonly calvedOn?: string;
  readonly milkingsSince: number | null;
  readonly ease: number | null;
  readonly calves: readonly { readonly sex: string; readonly alive: boolean; readonly number?: string | undefined }[];
}

export interface FreshMovesSheet {
  readonly out: readonly FreshOutRow[];
  readonly stay: readonly { readonly cow: string; readonly group: string; readonly because: Because }[];
  readonly in: readonly { readonly cow: string; readonly group: string; readonly because: Because }[];
  readonly pen: readonly FreshPenRow[];
}

export interface SortRow {
  readonly cow: string;
  readonly group: string;
  readonly reasons: readonly Because[];
  /** All places named; usually one. */
  readonly to: readonly string[];
}

export interface SortSheet {
  readonly cows: readonly SortRow[];
  readonly cannot: readonly { readonly cow: string; readonly because: Because; readonly reasons: readonly Because[] }[];
}

export interface CountsRow {
  readonly group: string;
  readonly head: number;
  readonly inMilk: number;
  /** Those of its cows that the milk-hold list has. */
  readonly held: number;
  readonly in: readonly string[];
  readonly out: readonly string[];
  readonly lastCount: number | null;
  readonly lastCountAt: string | null;
  /** Counted minus book, at the time of the last count; null where never counted. */
  readonly countedDifference: number | null;
  readonly capacity: number | null;
  /** Milked at this milking. */
  readonly milked: boolean;
  /** Who stands in it, so that the next issue can say who came and went. */
  readonly cows: readonly string[];
}

export interface CountsSheet {
  readonly groups: readonly CountsRow[];
  readonly total: { readonly head: number; readonly inMilk: number; readonly held: number };
}

export interface PlanRow {
  readonly group: string;
  readonly cows: number;
  readonly turns: number;
  readonly start: string;
  readonly minutes: number;
}

export interface PlanSheet {
  readonly groups: readonly PlanRow[];
  readonly minutes: number;
  readonly ends: string;
  readonly slow: readonly string[];
}

export interface BeefHoldRow {
  readonly cow: string;
  readonly group: string;
  readonly until: string | null;
  readonly reasons: readonly (Because & { readonly until: string | null })[];
}

export interface BeefHoldSheet {
  readonly cows: readonly BeefHoldRow[];
}

export interface Sheets {
  readonly 'milk-hold': MilkHoldSheet;
  readonly 'dry-off': DryOffSheet;
  readonly 'fresh-moves': FreshMovesSheet;
  readonly sort: SortSheet;
  readonly counts: CountsSheet;
  readonly 'milking-plan': PlanSheet;
  readonly 'beef-hold': BeefHoldSheet;
}

export type SheetName = keyof Sheets;
/** In the order of the paper; a sheet that is missing here does not compile. */
const IN_ORDER: Readonly<Record<SheetName, true>> = {
  'milk-hold': true,
  'dry-off': true,
  'fresh-moves': true,
  sort: true,
  counts: true,
  'milking-plan': true,
  'beef-hold': true,
};
export const SHEET_NAMES = Object.keys(IN_ORDER) as readonly SheetName[];

/** A doubt or an alert: ended by a `settled` entry about its key. */
export interface Notice {
  readonly key: string;
  readonly because: Because;
}

/** The farm's own words and rules that the paper needs, as in force for the milking. */
export interface FarmOnPaper {
  readonly name: string;
  readonly timeZone: string;
  readonly paper: 'A4' | 'Letter';
  readonly languages: readonly string[];
  readonly mark: string | null;
  readonly milkTo: { readonly treated: string | null; readonly fresh: string | null; readonly abnormal: string | null };
  readonly chores: { readonly before: readonly string[]; readonly after: readonly string[] };
  readonly footBath: boolean;
  readonly phones: readonly { readonly who: string; readonly number: string }[];
}

export interface Views {
  readonly milking: { readonly id: string; readonly start: string };
  /** The milking after this one. */
  readonly nextMilking: { readonly id: string; readonly start: string } | null;
  /** When the rows were worked out. */
  readonly asOf: string;
  /** Entries of the log that were used. */
  readonly position: number;
  readonly farm: FarmOnPaper;
  readonly alerts: readonly Notice[];
  readonly doubts: readonly Notice[];
  readonly sheets: Sheets;
  /** Sets issued for milkings before this one and not written up since. */
  readonly notReturned: readonly { readonly ref: string; readonly milking: string }[];
}
