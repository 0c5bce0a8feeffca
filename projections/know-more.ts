/**
 * What is known with some entries more, without reading the rest again: who is meant is asked anew only among numbers
 * that the new ones may concern, files are opened anew only for those cows, and all else stays the very same. The answer
 * is the one that `know` gives of all the entries; a law in the tests holds them to it.
 */
import type { Aside, Entry } from '../events/entry.ts';
import { type FarmEntries, farmEntries, farmEntriesWith, foldFarm } from './farm.ts';
import { byFoldOrder, inFoldOrder, mergedBy } from './fold-order.ts';
import { groupLookup } from './groups.ts';
import type { Corrections } from './instead.ts';
import { type Part, type Parts, partsOf, partsWith } from './kin.ts';
import { filesOf, type Known, unsettled } from './know.ts';
import { liveEntries } from './live.ts';
import { strikesWith } from './strikes.ts';
import { type Herd, sortHerd } from './who.ts';

/** What makes it quick to know more: worked out once from what is known, then carried on beside it. */
interface Grounds {
  readonly parts: Parts;
  readonly farm: FarmEntries;
}

const carried = new WeakMap<Known, Grounds>();

const groundsOf = (known: Known): Grounds => {
  const have = carried.get(known);
  if (have !== undefined) return have;
  const live = liveEntries(known.strikes.live);
  const grounds = {
    parts: partsOf(live),
    farm: farmEntries(live),
  };
  carried.set(known, grounds);
  return grounds;
};

/**
 * What is known with `news` besides; `asides` are all that are set aside by then. `before` stays as it is and may be
 * asked again, with other news. It must be what `know` or this gave, not a copy of it.
 */
export const knowMore = (before: Known, news: readonly Entry[], asides: readonly Aside[]): Known => {
  const grounds = groundsOf(before);
  const more = inFoldOrder(news);
  const ids = before.ids.with(more);
  const strikes = strikesWith(before.strikes, more, ids);
  const struckBefore = new Set(before.strikes.struck.map(({ entry }) => entry));
  const struckNow = new Set(strikes.struck.flatMap(({ entry }) => (struckBefore.has(entry) ? [] : [entry])));
  const added = more.filter((entry) => !struckNow.has(entry));
  const farmOf = farmEntriesWith(grounds.farm, added, struckNow);
  const farm = foldFarm(farmOf, { entries: grounds.farm, farm: before.farm });
  const { schedule } = farm;
  const { parts, before: partsBefore, after: partsAfter } = partsWith(grounds.parts, added, struckNow, ids);
  const herd = herdWith(before.herd, strikes.corrections, partsBefore, partsAfter);
  const known: Known = {
    farm,
    strikes,
    herd,
    files: filesOf(herd, farm, before),
    lookup:
      schedule === before.farm.schedule ? before.lookup : schedule === undefined ? undefined : groupLookup(schedule),
    asides: unsettled(asides, farm),
    ids,
  };
  carried.set(known, { parts, farm: farmOf });
  return known;
};

const herdWith = (before: Herd, corrections: Corrections, gone: ReadonlySet<Part>, come: ReadonlySet<Part>): Herd => {
  if (gone.size === 0 && come.size === 0) return before;
  const again = [...come].map(({ entries }) => sortHerd(entries, corrections));
  const asked = new Set([...gone].flatMap(({ entries }) => entries));
  const both = <T>(of: (herd: Herd) => readonly T[], entryOf: (each: T) => Entry): readonly T[] =>
    mergedBy(
      of(before).filter((each) => !asked.has(entryOf(each))),
      again.flatMap(of).sort((a, b) => byFoldOrder(entryOf(a), entryOf(b))),
      entryOf,
    );
  const itsEntry = ({ entry }: { readonly entry: Entry }): Entry => entry;
  return {
    animals: both(
      ({ animals }) => animals,
      ({ enteredBy }) => enteredBy,
    ),
    unplaced: both(({ unplaced }) => unplaced, itsEntry),
    ambiguous: both(({ ambiguous }) => ambiguous, itsEntry),
    afterLeaving: both(({ afterLeaving }) => afterLeaving, itsEntry),
    afterRenumbering: both(({ afterRenumbering }) => afterRenumbering, itsEntry),
    numberInUse: both(({ numberInUse }) => numberInUse, itsEntry),
    enteredAgain: both(({ enteredAgain }) => enteredAgain, itsEntry),
    vetElsewhere: both(({ vetElsewhere }) => vetElsewhere, itsEntry),
  };
};
