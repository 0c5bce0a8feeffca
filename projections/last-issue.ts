/** What the last issued sheets said, read back from their stored rows. */
import { z } from 'zod';
import { DAY, type Instant } from '../shared/instant.ts';
import type { Known } from './know.ts';
import type { Moment } from './moment.ts';
import type { Milking } from './schedule.ts';
import { bearersOnSheet } from './standing.ts';
import type { SheetName } from './views.ts';

const heldRows = z.looseObject({
  held: z.array(z.looseObject({ cow: z.string(), reasons: z.array(z.looseObject({ entries: z.array(z.string()) })) })),
});
const countRows = z.looseObject({ groups: z.array(z.looseObject({ group: z.string(), cows: z.array(z.string()) })) });

export interface OnLastSheet {
  readonly number: string;
  /** Keys of the cows that number meant then. */
  readonly cows: readonly string[];
  /** Entries behind her row. */
  readonly entries: readonly string[];
}

/** What hung in the parlour before this sheet. */
export interface HeldBefore {
  /** On the last sheet of an earlier milking, which is what the crew have done; undefined where there is none. */
  readonly earlier: readonly OnLastSheet[] | undefined;
  /** These, and whoever is on a sheet of this milking that is to be replaced: she may have her band. The latest row of each number. */
  readonly all: readonly OnLastSheet[];
}

/** Undefined while no milk-hold sheet was issued for this or an earlier milking. */
export const heldBefore = (known: Known, moment: Moment): HeldBefore | undefined => {
  const [ofThis, last] = contents(known, moment, 'milk-hold');
  const earlier = last === undefined ? undefined : rowsOf(known, moment, last);
  const replaced = ofThis.flatMap((each) => {
    const rows = rowsOf(known, moment, each);
    return rows === undefined ? [] : [rows];
  });
  if (earlier === undefined && replaced.length === 0) return undefined;
  const all: OnLastSheet[] = [];
  for (const rows of [...replaced, earlier ?? []]) {
    const have = new Set(all.map(({ number }) => number));
    all.push(...rows.filter(({ number }) => !have.has(number)));
  }
  return { earlier, all };
};

/**
 * The last sheet that the crew of a group had, where it is not milked at every milking: what came off on a sheet between was
 * nothing to be done by anybody. Undefined where the last sheet of an earlier milking is that one.
 */
export const heldWhenMilked = (known: Known, moment: Moment, group: string): readonly OnLastSheet[] | undefined => {
  const isTheirs = (milking: Milking): boolean => moment.lookup.isMilked(group, milking);
  const [, last] = contents(known, moment, 'milk-hold');
  if (last === undefined || isTheirs(last.milking)) return undefined;
  const [, theirs] = contents(known, moment, 'milk-hold', isTheirs);
  return theirs === undefined ? undefined : rowsOf(known, moment, theirs);
};

const rowsOf = (known: Known, moment: Moment, { content, milking, made }: Content): OnLastSheet[] | undefined => {
  const rows = heldRows.safeParse(content);
  if (!rows.success) return undefined;
  return rows.data.held.map((row) => ({
    number: row.cow,
    cows: bearersOnSheet(known, moment.schedule, row.cow, milking, made),
    entries: row.reasons.flatMap((reason) => reason.entries),
  }));
};

/** Who stood in which group on the last count sheet of an earlier milking, by cow key. */
export const lastCounts = (
  known: Known,
  moment: Moment,
): ReadonlyMap<string, { readonly group: string; readonly number: string }> | undefined => {
  const [, last] = contents(known, moment, 'counts');
  const rows = last === undefined ? undefined : countRows.safeParse(last.content);
  if (last === undefined || rows?.success !== true) return undefined;
  const stood = new Map<string, { group: string; number: string }>();
  for (const { group, cows } of rows.data.groups) {
    for (const number of cows)
      for (const key of bearersOnSheet(known, moment.schedule, number, last.milking, last.made))
        stood.set(key, { group, number });
  }
  return stood;
};

interface Content {
  readonly content: unknown;
  readonly milking: Milking;
  /** When it was issued: its numbers are those of then. */
  readonly made: Instant;
}

/** A sheet in the sets of this milking, the latest first, and in the last set of an earlier one. */
const contents = (
  known: Known,
  moment: Moment,
  sheet: SheetName,
  isMeant?: (milking: Milking) => boolean,
): readonly [ofThis: readonly Content[], earlier: Content | undefined] => {
  const { start } = moment.milking;
  const ofThis: Content[] = [];
  let earlier: Content | undefined;
  const { issued } = known.farm;
  for (let place = issued.length - 1; place >= 0; place -= 1) {
    const issue = issued[place] as (typeof issued)[number];
    // No set of this milking hangs for longer; years of sets are not gone through.
    if ((earlier !== undefined || isMeant !== undefined) && issue.at < start - 7 * DAY) break;
    const milking = moment.schedule.findEver(issue.data.milking);
    const found = issue.data.sheets.find((each) => each.sheet === sheet);
    if (milking === undefined || found === undefined || milking.start > start) continue;
    const content = { content: found.content, milking, made: issue.at };
    if (milking.start === start) ofThis.push(content);
    else if (isMeant?.(milking) !== false) earlier ??= content;
  }
  return [ofThis, earlier];
};
