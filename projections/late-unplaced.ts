/**
 * Late news of cows that nobody can tell: a dose or a hold for no cow of the herd, one that was struck without saying
 * who had it, something refused in which no cow can be read. Whoever it was may have been milked with the others.
 */
import { DAY, type Instant } from '../shared/instant.ts';
import { holdsMilk } from './bearing.ts';
import { isSaidInstead } from './instead.ts';
import type { Known } from './know.ts';
import type { Moment } from './moment.ts';
import { struckKey, unplacedKey } from './notice-keys.ts';
import type { Milking } from './schedule.ts';
import { aboutOf, endForAnyCow, STRUCK_MATTERS, unplacedRows } from './unplaced.ts';
import type { UnplacedRow } from './views.ts';

/** A row that may head the sheets of some milkings. */
export interface Nobodys {
  readonly key: string;
  /** In a word: the medicine, the kind, or what was wrong with the line. */
  readonly about: string;
  readonly since: Instant;
  /** No milking that starts later is concerned; rather too late than too early. */
  readonly until: number;
}

/** A milking more or less makes no hold days longer. */
const TO_BE_SURE = 2 * DAY;

export const nobodysOf = (known: Known, now: Moment): readonly Nobodys[] => {
  const { struck, corrections } = known.strikes;
  const unsaid = struck.filter(
    ({ entry }) => STRUCK_MATTERS.has(entry.type) && !isSaidInstead(entry, corrections, known.ids.find(entry.id)),
  );
  const given = [
    ...known.herd.unplaced.flatMap(({ entry }) =>
      holdsMilk(entry) && entry.type !== 'vet-hold-time' ? [{ key: unplacedKey(entry.id), entry }] : [],
    ),
    ...unsaid.map(({ entry }) => ({ key: struckKey(entry.id), entry })),
  ].filter(({ key }) => !known.farm.settled.has(key));
  return [
    ...given.map(({ key, entry }): Nobodys => {
      const end = endForAnyCow(entry, known, now);
      const until = end === null ? Number.POSITIVE_INFINITY : end + TO_BE_SURE;
      return { key, about: aboutOf(entry), since: entry.at, until };
    }),
    ...known.asides
      .filter(({ cows }) => cows.length === 0)
      .map(({ key, problem, since, recordedAt }): Nobodys => {
        return { key, about: problem, since: since ?? recordedAt, until: Number.POSITIVE_INFINITY };
      }),
  ];
};

export interface LateRow extends Nobodys {
  readonly row: UnplacedRow;
}

/** Those that bear on a milking and are not on its sheet. `listed`: keys of the rows at the head of it. */
export const lateRows = (
  known: Known,
  nobodys: readonly Nobodys[],
  { start }: Milking,
  listed: () => ReadonlySet<string>,
  momentOf: () => Moment,
): readonly LateRow[] => {
  const near = nobodys.filter(({ since, until }) => since <= start + DAY && until >= start);
  if (near.length === 0) return [];
  const had = listed();
  const open = near.filter(({ key }) => !had.has(key));
  if (open.length === 0) return [];
  const moment = momentOf();
  const rows = new Map(unplacedRows(known, moment).map((row) => [row.key, row]));
  return open.flatMap((each): LateRow[] => {
    const row = rows.get(each.key);
    return row === undefined || each.since > moment.windowEnd ? [] : [{ ...each, row }];
  });
};
