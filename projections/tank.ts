/** Which milkings are in which tank load. */
import type { EntryOf } from '../events/entry.ts';
import type { Instant } from '../shared/instant.ts';
import type { Known } from './know.ts';
import { lastLive } from './live.ts';
import type { Milking, Schedule } from './schedule.ts';
import { windowEndOf } from './window.ts';

export interface TankLoad {
  readonly tank: string;
  /** The collection that took it; null while it is still here. */
  readonly collection: EntryOf<'tank-collection'> | null;
  readonly milkings: readonly Milking[];
}

/** Where the collection does not name its tank. */
export const ONLY_TANK = '1';

/**
 * The loads that hold a milking's milk: every tank's first collection at or after its start, and the next one too after
 * each that fell into the milking. A load nobody has fetched is still here.
 */
export const loadsOf = (known: Known, schedule: Schedule, milking: Milking): readonly TankLoad[] => {
  const end = windowEndOf(known, schedule, milking);
  return tanksOf(known).flatMap((tank): TankLoad[] => {
    const collections = known.farm.collections.filter((each) => tankOf(each) === tank);
    const during = collections.filter((each) => each.at >= milking.start && each.at <= end);
    const next = collections.find((each) => each.at > end) ?? null;
    return [...during, next].map((each) =>
      loadBefore(known, schedule, tank, collections, each === null ? null : collections.indexOf(each)),
    );
  });
};

const tankOf = (collection: EntryOf<'tank-collection'>): string => collection.data.tank ?? ONLY_TANK;

const tanksOf = (known: Known): readonly string[] => {
  const tanks = [...new Set(known.farm.collections.map(tankOf))].sort();
  return tanks.length === 0 ? [ONLY_TANK] : tanks;
};

/** The load that ends at a collection (by its place among the tank's), or the one still here. */
const loadBefore = (
  known: Known,
  schedule: Schedule,
  tank: string,
  collections: readonly EntryOf<'tank-collection'>[],
  place: number | null,
): TankLoad => {
  const until = place === null ? undefined : collections[place];
  const from = place === null ? collections.at(-1) : collections[place - 1];
  const milkings: Milking[] = [];
  // A milking that the earlier collection fell into belongs to this load too.
  const running = from === undefined ? undefined : schedule.startedBy(from.at);
  if (running !== undefined && from !== undefined && windowEndOf(known, schedule, running) >= from.at)
    milkings.push(running);
  const begin = from?.at ?? ((schedule.setUps[0]?.at ?? 0) as Instant);
  const end = until?.at ?? lastKnown(known);
  for (const milking of schedule.after(begin)) {
    if (milking.start > end) break;
    milkings.push(milking);
  }
  return { tank, collection: until ?? null, milkings };
};

/** The latest instant the book speaks of: entries stand in the order of their times. */
const lastKnown = (known: Known): Instant => lastLive(known.strikes.live) ?? (0 as Instant);

/** The load that a collection took. */
export const loadOfCollection = (
  known: Known,
  schedule: Schedule,
  collection: EntryOf<'tank-collection'>,
): TankLoad => {
  const collections = known.farm.collections.filter((each) => tankOf(each) === tankOf(collection));
  return loadBefore(known, schedule, tankOf(collection), collections, collections.indexOf(collection));
};

/** The last load that was fetched from each tank before an instant, if not longer ago than `within` milliseconds. */
export const loadsFetched = (known: Known, schedule: Schedule, at: Instant, within: number): readonly TankLoad[] =>
  tanksOf(known).flatMap((tank) => {
    const collections = known.farm.collections.filter((each) => tankOf(each) === tank);
    const last = collections.findLastIndex((each) => each.at < at);
    const collection = collections[last];
    if (collection === undefined || at - collection.at > within) return [];
    return [loadBefore(known, schedule, tank, collections, last)];
  });

/** The load that stood in each tank at an instant, by the tank's name. */
export const openLoads = (known: Known, schedule: Schedule, at: Instant): readonly TankLoad[] =>
  tanksOf(known).map((tank) => {
    const collections = known.farm.collections.filter((each) => tankOf(each) === tank);
    const next = collections.findIndex((each) => each.at >= at);
    return loadBefore(known, schedule, tank, collections, next < 0 ? null : next);
  });
