/** What a cow came into the book as: dry or in milk, since when, and dried off with what. */
import type { EntryOf } from '../events/entry.ts';
import type { Instant } from '../shared/instant.ts';
import type { LocalDay } from '../shared/local-day.ts';
import { groupNamed, groupsInOrder, isForDry } from './groups.ts';
import { endOfDay, type Schedule } from './schedule.ts';
import { type DryStart, ONE_CALVING, type Stretch } from './stretch.ts';

export interface CameAs {
  readonly dryStarts: readonly DryStart[];
  /** Undefined: dry, or a heifer. */
  readonly stretch: Omit<Stretch, 'lactation'> | undefined;
}

export const cameAs = (entry: EntryOf<'cow-entered'>, schedule: Schedule): CameAs => {
  const { data, at, id } = entry;
  const { zone, data: setUp } = schedule.inForceAt(at);
  const today = schedule.dayOf(at);
  const calvedOn = data.calvedOn as LocalDay | undefined;
  const driedOffOn = data.driedOffOn as LocalDay | undefined;
  const stands = isForDry(groupNamed(groupsInOrder(setUp), data.group));

  const calved = calvedOn !== undefined && calvedOn <= today ? zone.startOfDay(calvedOn) : undefined;
  const saidDry = driedOffOn !== undefined && (calvedOn === undefined || driedOffOn >= calvedOn);
  // She stands with the dry cows, and her last calving is too long ago for her to have been left there since.
  const standsDry =
    stands && (data.lactation > 0 || calvedOn !== undefined) && (calved === undefined || at - calved > ONE_CALVING);
  const isDry = saidDry || standsDry;

  // A date later than the entry that gives it can't be: when it was is not known, the entering is the latest.
  const driedOn = driedOffOn !== undefined && driedOffOn <= today ? driedOffOn : undefined;
  const undated = (when: Instant, product: string | undefined): DryStart => ({
    entry: id,
    at: when,
    earliest: at,
    day: null,
    product,
  });
  const dryStarts: DryStart[] = [];
  if (driedOn !== undefined && (isDry || data.driedOffWith !== undefined)) {
    const from = zone.startOfDay(driedOn);
    dryStarts.push({
      entry: id,
      at: endOfDay(zone, driedOn),
      earliest: from,
      day: driedOn,
      product: data.driedOffWith,
    });
    // Calved since, and dry again: of this time nothing is stated.
    if (!saidDry && standsDry) dryStarts.push(undated(at, undefined));
  } else if (isDry) {
    dryStarts.push(undated(at, data.driedOffWith));
  } else if (data.driedOffWith !== undefined) {
    // A product without its date, on a cow that has calved since: given at the calving itself for all the book knows.
    dryStarts.push(undated(calved ?? at, data.driedOffWith));
  }

  const common = { from: at, entries: [id], mayBe: false, to: null };
  if (!isDry && calvedOn !== undefined) {
    const from = zone.startOfDay(calvedOn);
    const calving = { from, calved: endOfDay(zone, calvedOn), calvedEarliest: from, calvedDay: calvedOn, calvedOn };
    return { dryStarts, stretch: { ...common, ...calving, begun: 'entered' } };
  }
  if (!isDry && data.lactation >= 1) {
    const unknown = { calved: null, calvedEarliest: null, calvedDay: null, calvedOn: null };
    return { dryStarts, stretch: { ...common, ...unknown, begun: 'assumed' } };
  }
  return { dryStarts, stretch: undefined };
};
