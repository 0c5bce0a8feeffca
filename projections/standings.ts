/** All cows as they stand at one milking, in the order of paper. */
import { forOpen, keptForHerd } from './kept-for-herd.ts';
import type { Known } from './know.ts';
import { isThere, type Moment } from './moment.ts';
import { remembered } from './remembered.ts';
import { asidesByCow, type Standing, standingAlone, standingOf } from './standing.ts';
import { standingsInOrder } from './standings-in-order.ts';

/** All cows in the herd at the milking: groups in milking order, then by number as a number. */
export const standingsAt = (known: Known, moment: Moment): readonly Standing[] => {
  const kept = standingsKept(moment);
  const have = kept.get(known.asides);
  if (have !== undefined) return have;
  const standings = standingsFound(known, moment);
  kept.set(known.asides, standings);
  return standings;
};

/** By what is set aside: a moment is of one farm and herd. */
const standingsKept = remembered((_: Moment): WeakMap<Known['asides'], readonly Standing[]> => new WeakMap());

const standingsFound = (known: Known, moment: Moment): readonly Standing[] => {
  const { files } = known;
  const concerned = asidesByCow(known);
  const at = thereAt(files, moment);
  const byPlace = Array.from<Standing | undefined>({ length: files.length });
  const apart = new Set<number>();
  forOpen(files, moment.milking.start, (place) => {
    const { answer: there, over } = at(place);
    if (there === null) return;
    const asides = concerned.size === 0 ? undefined : concerned.get(there.file.cow.key);
    if (asides !== undefined || over.length > 0) apart.add(place);
    byPlace[place] = asides === undefined ? there : standingOf(there.file, moment, asides);
  });
  return standingsInOrder(files, byPlace, moment.groups, apart);
};

/** Null where she is not in the herd at this milking. */
const thereAt = keptForHerd('standing', (file, moment) =>
  isThere(file.cow, moment) ? standingAlone(file, moment) : null,
);
