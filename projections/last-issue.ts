/** What the last issued sheets said, read back from their stored rows. */
import { z } from 'zod';
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

/** The cows on the last issued milk-hold sheet of this or an earlier milking; undefined when none was ever issued. */
export const lastHeld = (known: Known, moment: Moment): readonly OnLastSheet[] | undefined => {
  const last = lastContent(known, moment, 'milk-hold');
  const rows = last === undefined ? undefined : heldRows.safeParse(last.content);
  if (last === undefined || rows?.success !== true) return undefined;
  return rows.data.held.map((row) => ({
    number: row.cow,
    cows: bearersOnSheet(known, moment.schedule, row.cow, last.milking),
    entries: row.reasons.flatMap((reason) => reason.entries),
  }));
};

/** Who stood in which group on the last issued count sheet, by cow key. */
export const lastCounts = (
  known: Known,
  moment: Moment,
): ReadonlyMap<string, { readonly group: string; readonly number: string }> | undefined => {
  const last = lastContent(known, moment, 'counts');
  const rows = last === undefined ? undefined : countRows.safeParse(last.content);
  if (last === undefined || rows?.success !== true) return undefined;
  const stood = new Map<string, { group: string; number: string }>();
  for (const { group, cows } of rows.data.groups) {
    for (const number of cows)
      for (const key of bearersOnSheet(known, moment.schedule, number, last.milking)) stood.set(key, { group, number });
  }
  return stood;
};

const lastContent = (
  known: Known,
  moment: Moment,
  sheet: SheetName,
): { content: unknown; milking: Milking } | undefined => {
  for (const issue of known.farm.issued.toReversed()) {
    const milking = moment.schedule.findEver(issue.data.milking);
    const found = issue.data.sheets.find((each) => each.sheet === sheet);
    if (milking === undefined || found === undefined || milking.start > moment.milking.start) continue;
    return { content: found.content, milking };
  }
  return undefined;
};
