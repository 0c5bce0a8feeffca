/** How many to expect from each group, who came and went since the last issued count sheet, and counts that differ. */
import type { EntryOf } from '../events/entry.ts';
import { byCowNumber } from '../shared/cow-number.ts';
import { type Instant, instantText } from '../shared/instant.ts';
import type { Known } from './know.ts';
import { lastCounts } from './last-issue.ts';
import { type Moment, openFrom } from './moment.ts';
import { remembered } from './remembered.ts';
import type { Standing } from './standing.ts';
import { thereAt } from './there.ts';
import type { CountsRow, CountsSheet } from './views.ts';

export const countsSheet = (known: Known, moment: Moment, standings: readonly Standing[]): CountsSheet => {
  const before = lastCounts(known, moment);
  const groups = moment.groups.map((group): CountsRow => {
    const standing = standings.filter((each) => each.group.name === group.name);
    const came =
      before === undefined ? [] : standing.filter((each) => before.get(each.file.cow.key)?.group !== group.name);
    const here = new Set(standing.map((each) => each.file.cow.key));
    const went =
      before === undefined ? [] : [...before].filter(([key, stood]) => stood.group === group.name && !here.has(key));
    const count = lastCount(known, moment, group.name);
    return {
      group: group.name,
      head: standing.length,
      inMilk: standing.filter((each) => each.inMilk).length,
      held: standing.filter((each) => each.held && each.inMilk).length,
      in: came.map((each) => each.number),
      out: went.map(([, stood]) => stood.number).sort(byCowNumber),
      lastCount: count?.data.count ?? null,
      lastCountAt: count === undefined ? null : instantText(count.at),
      countedDifference: count === undefined ? null : count.data.count - headAt(known, group.name, count.at),
      capacity: group.capacity ?? null,
      milked: moment.lookup.isMilked(group.name, moment.milking),
      cows: standing.map((each) => each.number),
    };
  });
  const sum = (of: (row: CountsRow) => number): number => groups.reduce((total, row) => total + of(row), 0);
  return {
    groups,
    total: { head: sum((row) => row.head), inMilk: sum((row) => row.inMilk), held: sum((row) => row.held) },
  };
};

export const lastCount = (known: Known, moment: Moment, group: string): EntryOf<'head-count'> | undefined =>
  known.farm.headCounts.findLast((count) => count.data.group === group && count.at <= moment.windowEnd);

/** Head of a group by the book at an instant. */
export const headAt = (known: Known, group: string, at: Instant): number => headsOf(known.files)(at).get(group) ?? 0;

/** Heads of all groups at an instant, by the files. */
const headsOf = remembered((files: Known['files']) => {
  const kept = new Map<Instant, ReadonlyMap<string, number>>();
  return (at: Instant): ReadonlyMap<string, number> => {
    const have = kept.get(at);
    if (have !== undefined) return have;
    const heads = new Map<string, number>();
    for (const file of openFrom(files, at)) {
      const group = thereAt(file, at)?.group;
      if (group !== undefined) heads.set(group, (heads.get(group) ?? 0) + 1);
    }
    kept.set(at, heads);
    return heads;
  };
});
