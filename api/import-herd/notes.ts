/** What a herd list leaves unsaid and what follows from that: nothing is wrong, but milk may be held for it. */
import { ONE_CALVING } from '../../projections/stretch.ts';
import type { Instant } from '../../shared/instant.ts';
import type { LocalDay } from '../../shared/local-day.ts';
import type { Columns } from './headings.ts';
import type { ReadRow } from './row.ts';

interface NoteSettings {
  readonly holds?: 'none' | undefined;
  readonly groups: readonly { readonly name: string; readonly kind: string }[];
  readonly asOf: Instant;
  readonly startOfDay: (day: LocalDay) => Instant;
}

export const herdNotes = (rows: readonly ReadRow[], columns: Columns, settings: NoteSettings): string[] => {
  const kindOf = new Map(settings.groups.map((group) => [group.name, group.kind]));
  const hasJustCalved = ({ data: { calvedOn } }: ReadRow): boolean =>
    calvedOn !== undefined && settings.asOf - settings.startOfDay(calvedOn as LocalDay) <= ONE_CALVING;
  const isDry = (each: ReadRow): boolean =>
    /^(dry|close-up)$/.test(kindOf.get(each.data.group) ?? '') && !hasJustCalved(each);
  const notes: string[] = [];
  const say = (cows: readonly ReadRow[], says: string): void => {
    if (cows.length > 0) notes.push(`${says}: ${some(cows)}`);
  };
  say(
    rows.filter(({ data }) => data.milkHoldUntil === 'unknown'),
    'No milk hold is stated, so their milk is held while they are milked (R-28)',
  );
  if (columns.at.has('meatHoldUntil') || settings.holds === 'none') {
    say(
      rows.filter(({ data }) => data.meatHoldUntil === 'unknown'),
      'No meat hold is stated, so they are on meat hold (R-28)',
    );
  } else {
    notes.push(
      'The list has no column for meat holds, so every cow is on meat hold until one is known (R-28); add the column, or state with --holds none that there are none beyond the list',
    );
  }
  if (settings.holds === 'none') {
    say(
      rows.filter(({ data }) => data.milkHoldUntil !== 'none' || data.meatHoldUntil !== 'none'),
      'Stated as without holds, but the columns give these one, and that counts',
    );
  }
  say(
    rows.filter((each) => isDry(each) && each.data.lactation > 0 && each.data.driedOffWith === undefined),
    'Dry, but the dry-cow product is not stated, so their milk is held after calving until it is (R-19)',
  );
  say(
    rows.filter(
      (each) =>
        isDry(each) &&
        each.data.driedOffOn === undefined &&
        each.data.driedOffWith !== undefined &&
        each.data.driedOffWith !== 'none',
    ),
    'Dry, but not since when, so the minimum days of the dry-cow product are counted from the time of the list (R-19)',
  );
  say(
    rows.filter(
      (each) =>
        !isDry(each) &&
        each.data.lactation > 0 &&
        each.data.calvedOn === undefined &&
        each.data.driedOffOn === undefined,
    ),
    'In a milked group without a calving date; taken as in milk (R-06)',
  );
  return notes;
};

const some = (rows: readonly ReadRow[]): string => {
  const numbers = rows.map((each) => each.number);
  return numbers.length <= 12
    ? numbers.join(', ')
    : `${numbers.slice(0, 12).join(', ')} and ${numbers.length - 12} more`;
};
