/** Which entries count: a struck one counts for nothing in any fold, whatever its time. Strikes and issued sheets cannot be struck. */
import type { Entry, EntryOf } from '../events/entry.ts';

export interface Strikes {
  /** Entries that count, in the order given. */
  readonly live: readonly Entry[];
  /** Struck entries with the strike that ended them. */
  readonly struck: readonly { readonly entry: Entry; readonly by: EntryOf<'entry-struck'> }[];
  /** Strikes that name nothing in this book (yet). */
  readonly ofNothing: readonly EntryOf<'entry-struck'>[];
  /** Strikes that name a strike or an issued sheet; they do nothing. */
  readonly ofStrikes: readonly EntryOf<'entry-struck'>[];
}

const NEVER_STRUCK = new Set(['entry-struck', 'sheet-issued', 'book-continued']);

export const sortStrikes = (entries: readonly Entry[]): Strikes => {
  const strikes = entries.filter((entry): entry is EntryOf<'entry-struck'> => entry.type === 'entry-struck');
  // Only what a strike names is looked up.
  const byId = new Map<string, Entry[]>(strikes.map((strike) => [strike.data.entry, []]));
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
    live: entries.filter((entry) => !struckBy.has(entry)),
    struck: [...struckBy].map(([entry, by]) => ({ entry, by })),
    ofNothing,
    ofStrikes,
  };
};
