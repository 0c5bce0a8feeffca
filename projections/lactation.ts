/** When a cow is in milk, in which lactation, and how each dry period began. */
import type { EntryOf } from '../events/entry.ts';
import type { Instant } from '../shared/instant.ts';
import { daysBetween, type LocalDay } from '../shared/local-day.ts';
import { cameAs } from './came-as.ts';
import { type Cow, type Hers, presentAt } from './cow.ts';
import { backFromDry, calvedFromDry, type NotDriedOff, neitherSaid } from './not-dried-off.ts';
import type { Schedule } from './schedule.ts';
import { type DryStart, ONE_CALVING, type Stretch } from './stretch.ts';

export interface Lactations {
  readonly stretches: readonly Stretch[];
  readonly dryStarts: readonly DryStart[];
  /** `cow-entered` entries where being in milk had to be taken from her group. */
  readonly assumed: readonly EntryOf<'cow-entered'>[];
  /** Dry-offs of a cow that was not in milk. */
  readonly dryOffWhenDry: readonly EntryOf<'dry-off'>[];
  /** Calvings of a cow that had not been dried off. */
  readonly calvedInMilk: readonly Hers<'calving'>[];
  /** Times that she may have been dry with no dry-off written down. */
  readonly notDriedOff: readonly NotDriedOff[];
}

type Step =
  | { at: Instant; what: 'entered'; entry: EntryOf<'cow-entered'> }
  | { at: Instant; what: 'calving'; hers: Hers<'calving'> }
  | { at: Instant; what: 'abortion'; hers: Hers<'abortion'> }
  | { at: Instant; what: 'dry-off'; entry: EntryOf<'dry-off'> }
  | { at: Instant; what: 'left' };

const WHAT_ORDER = ['entered', 'calving', 'abortion', 'dry-off', 'left'];

export const lactationsOf = (cow: Cow, schedule: Schedule): Lactations => {
  const steps: Step[] = [
    ...cow.entered.map((entry): Step => ({ at: entry.at, what: 'entered', entry })),
    ...cow.calvings.map((hers): Step => ({ at: hers.entry.at, what: 'calving', hers })),
    ...cow.abortions
      .filter((hers) => hers.entry.data.milked === true)
      .map((hers): Step => ({ at: hers.entry.at, what: 'abortion', hers })),
    ...cow.dryOffs.map((entry): Step => ({ at: entry.at, what: 'dry-off', entry })),
    ...cow.left.map((entry): Step => ({ at: entry.at, what: 'left' })),
  ].sort((a, b) => a.at - b.at || WHAT_ORDER.indexOf(a.what) - WHAT_ORDER.indexOf(b.what));

  const stretches: Stretch[] = [];
  const dryStarts: DryStart[] = [];
  const assumed: EntryOf<'cow-entered'>[] = [];
  const dryOffWhenDry: EntryOf<'dry-off'>[] = [];
  const calvedInMilk: Hers<'calving'>[] = [];
  const notDriedOff: NotDriedOff[] = [];
  let lactation = 0;
  /** Since when she is in milk by what is certain; undefined while she is dry. */
  let inMilkSince: Instant | undefined;

  const running = (): Stretch | undefined => {
    const last = stretches.at(-1);
    return last !== undefined && last.to === null ? last : undefined;
  };
  const end = (at: Instant) => {
    const open = running();
    if (open !== undefined) open.to = at;
  };

  const calve = (at: Instant, begun: 'calving' | 'abortion', id: string, mayBe: boolean) => {
    const before = stretches.at(-1);
    const day = schedule.dayOf(at);
    if (
      before?.calved != null &&
      before.begun !== 'abortion' &&
      begun === 'calving' &&
      at - (before.calvedEarliest ?? before.calved) <= ONE_CALVING
    ) {
      stretches[stretches.length - 1] = {
        ...before,
        calved: (before.calved > at ? before.calved : at) as Instant,
        calvedEarliest: at,
        calvedDay: day,
        calvedOn: before.calved > at ? before.calvedOn : null,
        entries: [...before.entries, id],
        mayBe: before.mayBe && mayBe,
        // In milk from this calving, whatever was said between the two.
        to: null,
      };
      if (!mayBe) inMilkSince = at;
      return;
    }
    end(at);
    const undried = inMilkSince === undefined ? undefined : calvedFromDry(cow, schedule, inMilkSince, at, id);
    if (undried !== undefined && !notDriedOff.some(({ earliest }) => earliest === undried.earliest)) {
      notDriedOff.push(undried);
    }
    if (!mayBe) inMilkSince = at;
    lactation += 1;
    stretches.push({
      begun,
      from: at,
      calved: at,
      calvedEarliest: at,
      calvedDay: day,
      calvedOn: null,
      lactation,
      entries: [id],
      mayBe,
      to: null,
    });
  };

  for (const step of steps) {
    switch (step.what) {
      case 'entered':
        enter(step.entry);
        break;
      case 'calving':
        if (running() !== undefined && step.at - (running()?.calved ?? running()?.from ?? 0) > ONE_CALVING) {
          calvedInMilk.push(step.hers);
        }
        calve(step.at, 'calving', step.hers.entry.id, step.hers.mayBe !== undefined);
        break;
      case 'abortion':
        calve(step.at, 'abortion', step.hers.entry.id, step.hers.mayBe !== undefined);
        break;
      case 'dry-off': {
        if (running() === undefined) dryOffWhenDry.push(step.entry);
        end(step.at);
        inMilkSince = undefined;
        const { id, at, data } = step.entry;
        dryStarts.push({ entry: id, at, earliest: at, day: schedule.dayOf(at), product: data.product });
        break;
      }
      case 'left':
        end(step.at);
        inMilkSince = undefined;
        break;
    }
  }

  function enter(entry: EntryOf<'cow-entered'>): void {
    end(entry.at);
    const came = cameAs(entry, schedule);
    dryStarts.push(...came.dryStarts);
    // Lactation as entered counts the calving that came with it.
    lactation = entry.data.lactation;
    inMilkSince = came.stretch?.from;
    if (came.stretch === undefined) return;
    if (came.stretch.begun === 'entered') {
      stretches.push({ ...came.stretch, lactation });
      return;
    }
    assumed.push(entry);
    const before = stretches.findLast((stretch) => stretch.lactation === entry.data.lactation);
    stretches.push({ ...came.stretch, lactation, calvedDay: before?.calvedDay ?? null });
  }

  for (const stretch of stretches) {
    notDriedOff.push(...backFromDry(cow, schedule, stretch));
    const neither = neitherSaid(cow, schedule, stretch);
    if (neither !== undefined) notDriedOff.push(neither);
  }
  return { stretches, dryStarts, assumed, dryOffWhenDry, calvedInMilk, notDriedOff };
};

/** The stretch in milk at an instant. The very minute of a dry-off still counts as in milk: the safe reading. */
export const stretchAt = (lactations: Lactations, at: Instant): Stretch | undefined => {
  const stretch = lactations.stretches.findLast((each) => each.from <= at);
  return stretch !== undefined && (stretch.to === null || at <= stretch.to) ? stretch : undefined;
};

/** The last stretch begun by an instant, running or not. */
export const lastStretch = (lactations: Lactations, at: Instant): Stretch | undefined =>
  lactations.stretches.findLast((each) => each.from <= at);

/** Lactation number at an instant: as entered, one more at each calving. */
export const lactationAt = (cow: Cow, lactations: Lactations, at: Instant): number => {
  const stretch = lastStretch(lactations, at);
  const entered = cow.entered.findLast((entry) => entry.at <= at) ?? cow.entered[0];
  if (stretch === undefined) return entered?.data.lactation ?? 0;
  return entered !== undefined && entered.at > stretch.from
    ? Math.max(entered.data.lactation, stretch.lactation)
    : stretch.lactation;
};

/** Days in milk on a farm-local date: whole dates since calving, calving day is 0. Null where the calving is not known. */
export const daysInMilkOn = (stretch: Stretch | undefined, day: LocalDay): number | null =>
  stretch?.calvedDay == null ? null : Math.max(0, daysBetween(stretch.calvedDay, day));

/** In the herd, and in milk. */
export const inMilkAt = (cow: Cow, lactations: Lactations, at: Instant): boolean =>
  presentAt(cow, at) && stretchAt(lactations, at) !== undefined;
