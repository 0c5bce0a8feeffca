/** What the whole log says, once: strikes sorted out, the farm, the herd, every cow's file. Nothing here knows a milking. */
import type { Aside, Entry } from '../events/entry.ts';
import { byText } from '../shared/text-order.ts';
import { foldCow } from './cow.ts';
import { type Farm, foldFarm } from './farm.ts';
import { byFoldOrder } from './fold-order.ts';
import { type GroupLookup, groupLookup } from './groups.ts';
import { type CowFile, openFile } from './moment.ts';
import type { Schedule } from './schedule.ts';
import { type Strikes, sortStrikes } from './strikes.ts';
import { type Herd, sortHerd } from './who.ts';

export interface Known {
  readonly farm: Farm;
  readonly strikes: Strikes;
  readonly herd: Herd;
  readonly files: readonly CowFile[];
  readonly lookup: GroupLookup | undefined;
  /** Set aside and not yet settled. */
  readonly asides: readonly Aside[];
  /** Ids that stand in the book with more than one content. */
  readonly twofold: readonly string[];
}

/** `entries` in any order; the same entries give the same knowledge. */
export const know = (entries: readonly Entry[], asides: readonly Aside[]): Known => {
  const inOrder = [...entries].sort(byFoldOrder);
  const strikes = sortStrikes(inOrder);
  const farm = foldFarm(strikes.live);
  const herd = sortHerd(strikes.live);
  const { schedule } = farm;
  return {
    farm,
    strikes,
    herd,
    files: schedule === undefined ? [] : filesOf(herd, schedule),
    lookup: schedule === undefined ? undefined : groupLookup(schedule),
    asides: asides.filter((aside) => !farm.settled.has(aside.key)).sort((a, b) => byText(a.key, b.key)),
    twofold: twofoldIds(inOrder),
  };
};

const filesOf = (herd: Herd, schedule: Schedule): CowFile[] =>
  herd.animals.map((animal) => openFile(foldCow(animal), schedule));

const twofoldIds = (entries: readonly Entry[]): string[] => {
  const ids = new Set<string>();
  for (const { id } of entries) ids.add(id);
  if (ids.size === entries.length) return [];
  const seen = new Set<string>();
  const twice = new Set<string>();
  for (const { id } of entries) {
    if (seen.has(id)) twice.add(id);
    seen.add(id);
  }
  return [...twice];
};
