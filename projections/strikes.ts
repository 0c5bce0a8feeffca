/** Which entries count: a struck one counts for nothing in any fold, whatever its time. Strikes and issued sheets cannot be struck. */
import type { Entry, EntryOf } from '../events/entry.ts';
import { inFoldOrder, merged } from './fold-order.ts';
import type { Ids } from './ids.ts';
import { type Corrections, correctionsOf } from './instead.ts';
import { type Live, liveOf, liveWith } from './live.ts';

export interface Strikes {
  /** Every strike, in fold order. */
  readonly strikes: readonly EntryOf<'entry-struck'>[];
  /** Entries that count, in fold order. */
  readonly live: Live;
  /** Struck entries with the strike that ended them. */
  readonly struck: readonly { readonly entry: Entry; readonly by: EntryOf<'entry-struck'> }[];
  /** Strikes that name nothing in this book (yet). */
  readonly ofNothing: readonly EntryOf<'entry-struck'>[];
  /** Strikes that name a strike or an issued sheet; they do nothing. */
  readonly ofStrikes: readonly EntryOf<'entry-struck'>[];
  /** What is true instead of what was struck, as far as it is said and in the book. */
  readonly corrections: Corrections;
}

export const strikesIn = (entries: readonly Entry[]): readonly EntryOf<'entry-struck'>[] =>
  entries.filter((entry) => entry.type === 'entry-struck');

const NEVER_STRUCK = new Set(['entry-struck', 'sheet-issued', 'book-continued']);

/** `entries`: in fold order. */
export const sortStrikes = (entries: readonly Entry[]): Strikes => {
  const strikes = strikesIn(entries);
  // Only what a strike names is looked up.
  const byId = new Map<string, Entry[]>(namedBy(strikes).map((id) => [id, []]));
  if (byId.size > 0) for (const entry of entries) byId.get(entry.id)?.push(entry);
  const struckBy = new Map<Entry, EntryOf<'entry-struck'>>();
  const ofNothing: EntryOf<'entry-struck'>[] = [];
  const ofStrikes: EntryOf<'entry-struck'>[] = [];
  for (const entry of strikes) {
    const named = byId.get(entry.data.entry) ?? [];
    if (named.length === 0) ofNothing.push(entry);
    if (named.some((each) => NEVER_STRUCK.has(each.type))) ofStrikes.push(entry);
    for (const each of named) {
      // Of several strikes of one entry, the one that says what was true instead is worth most.
      if (NEVER_STRUCK.has(each.type)) continue;
      const before = struckBy.get(each);
      if (before === undefined || before.data.instead === undefined) struckBy.set(each, entry);
    }
  }
  return {
    strikes,
    // As long as it is and no longer: a list that was filtered keeps room for more.
    live: liveOf(entries.filter((entry) => !struckBy.has(entry)).slice()),
    struck: [...struckBy].map(([entry, by]) => ({ entry, by })),
    ofNothing,
    ofStrikes,
    corrections: correctionsOf(
      strikes,
      (id) => byId.get(id) ?? [],
      (entry) => struckBy.has(entry),
    ),
  };
};

/** The ids that strikes speak of: what they strike, and what they say is true instead. */
const namedBy = (strikes: readonly EntryOf<'entry-struck'>[]): readonly string[] =>
  strikes.flatMap(({ data }) => [data.entry, ...(data.instead === undefined ? [] : [data.instead])]);

/** What the strikes come to with some entries more, in fold order. `ids` knows them too. */
export const strikesWith = (before: Strikes, more: readonly Entry[], ids: Ids): Strikes => {
  const strikes = strikesIn(merged(before.strikes, strikesIn(more)));
  const named = new Set(namedBy(strikes));
  if (!more.some((entry) => entry.type === 'entry-struck' || named.has(entry.id)))
    return { ...before, live: liveWith(before.live, more, NONE) };
  // Nothing but strikes and what they name can come out otherwise.
  const concerned = new Set<Entry>([...strikes, ...[...named].flatMap((id) => ids.find(id))]);
  const again = sortStrikes(inFoldOrder([...concerned]));
  const struck = new Set(again.struck.map(({ entry }) => entry));
  return { ...again, live: liveWith(before.live, more, struck) };
};

const NONE: ReadonlySet<Entry> = new Set();
