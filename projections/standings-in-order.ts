/**
 * The standings in the order of paper, and what is said of them in that order. After an entry nearly all of them stand where
 * they stood: the list is the one of before with a few taken out and put in, and what was said of the others is said again
 * without looking at them.
 */
import { byCowNumber } from '../shared/cow-number.ts';
import { columnAbout } from './columns.ts';
import type { CowFile } from './cow-file.ts';
import { type Group, groupPlace } from './groups.ts';
import { isStillOver, type Worked, workingAt } from './kept-for-cow.ts';
import { asFarAsCowsGo } from './kept-for-herd.ts';
import type { CowMoment } from './moment.ts';
import { remembered } from './remembered.ts';
import type { Standing } from './standing.ts';

type ByPlace = readonly (Standing | undefined)[];

interface InOrder {
  /** The standings by the places of their files in the list of all files. */
  readonly byPlace: ByPlace;
  /** Those places in the order of paper. */
  readonly places: readonly number[];
  readonly standings: readonly Standing[];
}

interface Places extends Pick<InOrder, 'places'> {
  readonly files: readonly CowFile[];
  /**
   * Places of cows that stand as they do by more than their files and the milking: something set aside may concern them, or
   * it hangs on which milkings are over. What is said of them is asked each time.
   */
  readonly apart: ReadonlySet<number>;
}

const placesOf = new WeakMap<readonly Standing[], Places>();

/** Groups in milking order, then by number as a number; two of one number as their files stand. */
export const standingsInOrder = (
  files: readonly CowFile[],
  byPlace: ByPlace,
  groups: readonly Group[],
  apart: ReadonlySet<number>,
): readonly Standing[] => {
  const kept = lastInOrder(groups);
  const now = inOrderLike(kept.last, byPlace, groups);
  kept.last = now;
  placesOf.set(now.standings, { files, places: now.places, apart });
  return now.standings;
};

/** What was put in order last, by the same groups. */
const lastInOrder = remembered((_: readonly Group[]): { last?: InOrder } => ({}));

/** With more of them new than this, all are put in order anew. */
const FEW = 100;

const inOrderLike = (before: InOrder | undefined, byPlace: ByPlace, groups: readonly Group[]): InOrder => {
  const come: number[] = [];
  for (let place = 0; place < byPlace.length; place += 1) {
    if (byPlace[place] !== undefined && byPlace[place] !== before?.byPlace[place]) come.push(place);
  }
  const compare = (a: number, b: number): number => {
    const [first, second] = [byPlace[a] as Standing, byPlace[b] as Standing];
    return groupPlace(groups, first.group.name, second.group.name) || byCowNumber(first.number, second.number) || a - b;
  };
  const stay = (before?.places ?? []).filter((place) => byPlace[place] === before?.byPlace[place]);
  if (before !== undefined && come.length === 0 && stay.length === before.places.length) return before;
  const places = come.length > FEW ? [...stay, ...come].sort(compare) : withFew(stay, come, compare);
  return { byPlace, places, standings: places.map((place) => byPlace[place] as Standing) };
};

/** An ordered list with a few more, each put where it belongs. */
const withFew = (
  ordered: readonly number[],
  more: readonly number[],
  compare: (a: number, b: number) => number,
): readonly number[] => {
  const all = [...ordered];
  for (const place of more) {
    let [low, high] = [0, all.length];
    while (low < high) {
      const middle = (low + high) >>> 1;
      if (compare(all[middle] as number, place) < 0) low = middle + 1;
      else high = middle;
    }
    all.splice(low, 0, place);
  }
  return all;
};

/**
 * What is said of the cows there, in the order of the standings, by work that goes by how each stands and by no more of the
 * moment than a cow's file may. `besides` is one thing more that it goes by; that must never change.
 */
export const saidOfStandings = <Said, Besides extends readonly object[] = []>(
  name: string,
  work: (standing: Standing, moment: CowMoment, ...besides: Besides) => readonly Said[],
): ((standings: readonly Standing[], moment: CowMoment, ...besides: Besides) => readonly Said[]) => {
  const columnAt = columnAbout<Worked<readonly Said[]>>(name, MOST);
  const nothing: Worked<readonly Said[]> = { over: [], answer: [] };
  return (standings, moment, ...besides) => {
    const where = placesOf.get(standings);
    if (where === undefined) return standings.flatMap((standing) => work(standing, moment, ...besides));
    const { files, places, apart } = where;
    const kept = columnAt(files, asFarAsCowsGo(moment, besides[0]));
    const worked = workingAt(moment);
    const all: Said[] = [];
    for (let index = 0; index < places.length; index += 1) {
      const place = places[index] as number;
      if (apart.size > 0 && apart.has(place)) {
        all.push(...work(standings[index] as Standing, moment, ...besides));
        continue;
      }
      const have = kept[place];
      if (have === nothing) continue;
      if (have !== undefined && isStillOver(have, moment)) {
        all.push(...have.answer);
        continue;
      }
      const standing = standings[index] as Standing;
      const now = worked((asked) => work(standing, asked, ...besides));
      kept[place] = now.answer.length === 0 && now.over.length === 0 ? nothing : now;
      all.push(...now.answer);
    }
    return all;
  };
};

/** Columns of a kind: the sheets of two milkings may be asked for in turns. */
const MOST = 2;

export interface GroupStanding {
  readonly kind: Group['kind'];
  readonly cows: readonly Standing[];
  readonly inMilk: number;
  /** On the milk-hold list: in milk and held, or dry in a milked group. */
  readonly held: number;
}

/** The standings of each group that has any, by its name. */
export const byGroup = remembered((standings: readonly Standing[]): ReadonlyMap<string, GroupStanding> => {
  const groups = new Map<string, Standing[]>();
  for (const standing of standings) {
    const have = groups.get(standing.group.name);
    if (have === undefined) groups.set(standing.group.name, [standing]);
    else have.push(standing);
  }
  return new Map(
    [...groups].map(([name, cows]) => [
      name,
      {
        kind: cows[0]?.group.kind ?? 'unknown',
        cows,
        inMilk: cows.filter((each) => each.inMilk).length,
        held: cows.filter((each) => each.held).length,
      },
    ]),
  );
});
