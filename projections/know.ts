/** What the whole log says, once: strikes sorted out, the farm, the herd, every cow's file. Nothing here knows a milking. */
import type { Aside, Entry } from '../events/entry.ts';
import { byCowNumber } from '../shared/cow-number.ts';
import { byText } from '../shared/text-order.ts';
import { carryColumns } from './columns.ts';
import { type CowFile, fileOf } from './cow-file.ts';
import { type Farm, farmEntries, foldFarm, type Labels } from './farm.ts';
import { inFoldOrder } from './fold-order.ts';
import { type GroupLookup, groupLookup } from './groups.ts';
import { type Ids, idsOf } from './ids.ts';
import { liveEntries } from './live.ts';
import { type Strikes, sortStrikes } from './strikes.ts';
import { type Animal, type Herd, sortHerd } from './who.ts';

export interface Known {
  readonly farm: Farm;
  readonly strikes: Strikes;
  readonly herd: Herd;
  /** In the order of the herd's animals. */
  readonly files: readonly CowFile[];
  readonly lookup: GroupLookup | undefined;
  /** Set aside and not yet settled. */
  readonly asides: readonly Aside[];
  /** Every entry by its id; those that stand in the book with more than one content are its `twice`. */
  readonly ids: Ids;
}

/** `entries` in any order; the same entries give the same knowledge. */
export const know = (entries: readonly Entry[], asides: readonly Aside[]): Known => {
  const inOrder = inFoldOrder(entries);
  const ids = idsOf(inOrder);
  const strikes = sortStrikes(inOrder);
  const live = liveEntries(strikes.live);
  const farm = foldFarm(farmEntries(live));
  const herd = sortHerd(live);
  const { schedule } = farm;
  return {
    farm,
    strikes,
    herd,
    files: filesOf(herd, farm),
    lookup: schedule === undefined ? undefined : groupLookup(schedule),
    asides: unsettled(asides, farm),
    ids,
  };
};

/** The files of all animals, in their order. One that was opened by the same set-ups and labels is not opened again. */
export const filesOf = (
  { animals }: Herd,
  { schedule, listings }: Farm,
  before?: Pick<Known, 'farm' | 'herd' | 'files'>,
): readonly CowFile[] => {
  if (schedule === undefined) return [];
  const isSameFarm = before?.farm.schedule === schedule && before.farm.listings === listings;
  const files = animals.map((animal, index) => {
    // Most stand where they stood.
    const stood = isSameFarm && before.herd.animals[index] === animal ? before.files[index] : undefined;
    if (stood !== undefined) return stood;
    const have = opened.get(animal);
    if (have?.schedule === schedule && have.listings === listings) return have.file;
    const file = fileOf(animal, schedule);
    opened.set(animal, { schedule, listings, file });
    return file;
  });
  if (isSameFarm) carryColumns(before.files, files);
  return files;
};

interface Opened extends Labels {
  readonly file: CowFile;
}

/** What follows from a file is kept with it, by the labels too: other labels, another file. */
const opened = new WeakMap<Animal, Opened>();

/** Their cows in the order of their numbers: in which order they were found is another in every book. */
export const unsettled = (asides: readonly Aside[], farm: Farm): readonly Aside[] =>
  asides
    .filter((aside) => !farm.settled.has(aside.key))
    .map((aside) => (aside.cows.length < 2 ? aside : { ...aside, cows: aside.cows.toSorted(byCowNumber) }))
    .sort((a, b) => byText(a.key, b.key));
