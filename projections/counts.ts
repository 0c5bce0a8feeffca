/** How many to expect from each group, who came and went since the last issued count sheet, and counts that differ. */
import type { EntryOf } from '../events/entry.ts';
import { byCowNumber } from '../shared/cow-number.ts';
import { type Instant, instantText } from '../shared/instant.ts';
import { kept } from '../shared/kept.ts';
import { columnAbout } from './columns.ts';
import type { CowFile } from './cow-file.ts';
import { type Group, groupNamed, groupsInOrder, isNamed } from './groups.ts';
import { forOpen } from './kept-for-herd.ts';
import type { Known } from './know.ts';
import { lastCounts } from './last-issue.ts';
import type { Moment } from './moment.ts';
import { remembered } from './remembered.ts';
import type { Standing } from './standing.ts';
import { byGroup } from './standings-in-order.ts';
import { thereAt } from './there.ts';
import type { CountsRow, CountsSheet } from './views.ts';

export const countsSheet = (known: Known, moment: Moment, standings: readonly Standing[]): CountsSheet => {
  const before = lastCounts(known, moment);
  const standingIn = byGroup(standings);
  const groups = moment.groups.map((group): CountsRow => {
    const { cows: standing, inMilk, held } = standingIn.get(group.name) ?? NOBODY;
    const came =
      before === undefined ? [] : standing.filter((each) => !isNamed(group, before.get(each.file.cow.key)?.group));
    const here = new Set(before === undefined ? [] : standing.map((each) => each.file.cow.key));
    const went =
      before === undefined ? [] : [...before].filter(([key, stood]) => isNamed(group, stood.group) && !here.has(key));
    const count = lastCount(known, moment, group);
    return {
      group: group.name,
      head: standing.length,
      inMilk,
      held,
      in: came.map((each) => each.number),
      out: went.map(([, stood]) => stood.number).sort(byCowNumber),
      lastCount: count?.data.count ?? null,
      lastCountAt: count === undefined ? null : instantText(count.at),
      countedDifference: count === undefined ? null : count.data.count - headAt(known, group, count.at),
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

const NOBODY = { cows: [], inMilk: 0, held: 0 };

export const lastCount = (known: Known, moment: Moment, group: Group): EntryOf<'head-count'> | undefined =>
  known.farm.headCounts.findLast((count) => isNamed(group, count.data.group) && count.at <= moment.windowEnd);

/** Head of a group by the book at an instant. */
export const headAt = (known: Known, { name, was }: Pick<Group, 'name' | 'was'>, at: Instant): number => {
  const heads = headsOf(known.files)(at);
  return [name, ...was].reduce((head, each) => head + (heads.get(each) ?? 0), 0);
};

/** Head of the group that goes by a name at an instant. */
export const headOfNamed = (known: Known, name: string, at: Instant): number => {
  const { schedule } = known.farm;
  return headAt(known, groupNamed(schedule === undefined ? [] : groupsInOrder(schedule.inForceAt(at).data), name), at);
};

/** Instants of counts for which it is kept who stood where. */
const MOST_COUNTS = 6;

/** Heads of all groups at an instant, by the files. */
const headsOf = remembered((files: Known['files']) => {
  const found = new Map<Instant, ReadonlyMap<string, number>>();
  return (at: Instant): ReadonlyMap<string, number> => {
    const have = found.get(at);
    if (have !== undefined) return have;
    const heads = new Map<string, number>();
    const stood = groupColumn(files, instantAsked(at));
    forOpen(files, at, (place) => {
      const group = stood[place] ?? thereAt(files[place] as CowFile, at)?.group ?? '';
      stood[place] = group;
      if (group !== '') heads.set(group, (heads.get(group) ?? 0) + 1);
    });
    found.set(at, heads);
    return heads;
  };
});

/** Where each cow stood at an instant; empty where she was not there. The groups of a farm are counted at several. */
const groupColumn = columnAbout<string>('stood in', MOST_COUNTS);
const instantAsked = kept(64, (at: Instant): object => ({ at }));
