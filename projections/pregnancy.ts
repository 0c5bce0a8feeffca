/**
 * Is she in calf, and when is she due? A positive check or a `dueOn` confirms; a later empty check, service, abortion
 * or calving ends that, and so does a calving that stands only as the `calvedOn` of an entry.
 */

import type { EntryOf } from '../events/entry.ts';
import { earlier, type Instant } from '../shared/instant.ts';
import { addDays, daysBetween, type LocalDay } from '../shared/local-day.ts';
import type { Cow } from './cow.ts';
import { rememberedInRoom } from './remembered.ts';
import { endOfDay, type Schedule } from './schedule.ts';

export interface Pregnancy {
  readonly confirmed: boolean;
  readonly due: LocalDay | null;
  readonly twins: boolean;
  /** A service stands behind the date. */
  readonly served: boolean;
  readonly entries: readonly string[];
}

export interface CalvedEarly {
  readonly entry: string;
  readonly due: LocalDay;
  readonly days: number;
}

const CONFIRMS_AFTER_DAYS = 25;
/**
 * A calving up to so many days before a due date is the one that was due. One that came sooner is early, and a due
 * date stated with it stands: it may be of a pregnancy since, and the hold close to due goes by it.
 */
const EARLY_DAYS = 21;
const GESTATION_DAYS = 283;

interface Carrying {
  services: { day: LocalDay; entry: string }[];
  confirmed: boolean;
  stated: LocalDay | null;
  computed: LocalDay | null;
  twins: boolean;
  served: boolean;
  entries: string[];
}

const empty = (): Carrying => ({
  services: [],
  confirmed: false,
  stated: null,
  computed: null,
  twins: false,
  served: false,
  entries: [],
});

/** Her pregnancy as of an instant, and the calvings before it that came more than 21 days before due. */
export const pregnancyAt = (
  cow: Cow,
  schedule: Schedule,
  at: Instant,
): Pregnancy & { readonly early: readonly CalvedEarly[] } => {
  const steps = stepsOf(cow);
  const after = steps.findLastIndex((entry) => entry.at <= at) + 1;
  const kept = foundFor(cow);
  if (kept.schedule !== schedule) {
    kept.schedule = schedule;
    kept.byCount.clear();
  }
  const have = kept.byCount.get(after);
  if (have !== undefined) return have;
  const found = pregnancyAfter(steps.slice(0, after), schedule);
  kept.byCount.set(after, found);
  return found;
};

type Found = Pregnancy & { readonly early: readonly CalvedEarly[] };

/** What was found after so many of her steps, by one schedule: the same at every instant until the next step. */
const foundFor = rememberedInRoom(
  (_: Cow): { schedule: Schedule | undefined; readonly byCount: Map<number, Found> } => ({
    schedule: undefined,
    byCount: new Map(),
  }),
);

/** What bears on whether she is in calf, in time. */
const stepsOf = rememberedInRoom((cow: Cow) =>
  [
    ...cow.entered,
    ...cow.services,
    ...cow.checks,
    ...cow.calvings.filter((hers) => hers.mayBe === undefined).map((hers) => hers.entry),
    ...cow.abortions.filter((hers) => hers.mayBe === undefined).map((hers) => hers.entry),
  ].sort((a, b) => a.at - b.at),
);

/** A calving that came early may be one no more once an entry tells of one before it. */
export const hasEverCalvedEarly = (cow: Cow, schedule: Schedule): boolean => {
  const first = stepsOf(cow)[0]?.at ?? cow.lastAt;
  const before = cow.entered.flatMap(({ at }) => (at > first ? [(at - 1) as Instant] : []));
  return [...before, cow.lastAt].some((at) => pregnancyAt(cow, schedule, at).early.length > 0);
};

type Step = ReturnType<typeof stepsOf>[number];
interface CalvedOn {
  readonly type: 'calved-on';
  readonly id: string;
  readonly at: Instant;
  readonly day: LocalDay;
}

/** A day later than the entry that gives it can't be. */
const calvedOnIn = ({ data, at }: EntryOf<'cow-entered'>, schedule: Schedule): LocalDay | undefined =>
  data.calvedOn !== undefined && data.calvedOn <= schedule.dayOf(at) ? (data.calvedOn as LocalDay) : undefined;

/** With the calvings that entries tell of in their places: at the end of their day, and before the entry itself. */
const withCalvedOn = (steps: readonly Step[], schedule: Schedule): readonly (Step | CalvedOn)[] => {
  // Before the first step there is nothing that a calving could end.
  const told = steps.slice(1).flatMap((entry): CalvedOn[] => {
    const day = entry.type === 'cow-entered' ? calvedOnIn(entry, schedule) : undefined;
    if (day === undefined) return [];
    const at = earlier(endOfDay(schedule.inForceAt(entry.at).zone, day), entry.at);
    return [{ type: 'calved-on', id: entry.id, at, day }];
  });
  return told.length === 0 ? steps : [...told, ...steps].sort((a, b) => a.at - b.at);
};

const pregnancyAfter = (steps: readonly Step[], schedule: Schedule): Found => {
  const early: CalvedEarly[] = [];
  let now = empty();
  let calved: LocalDay | undefined;
  const dueAfter = (served: LocalDay): LocalDay =>
    addDays(served, schedule.inForceOn(served).data.gestationDays ?? GESTATION_DAYS);
  const due = (): LocalDay | null => now.stated ?? now.computed;

  const calve = (id: string, day: LocalDay): void => {
    const expected = due();
    if (now.confirmed && expected !== null) {
      const days = daysBetween(day, expected);
      if (days > EARLY_DAYS) early.push({ entry: id, due: expected, days });
    }
    calved = day;
    now = empty();
  };

  for (const entry of withCalvedOn(steps, schedule)) {
    switch (entry.type) {
      case 'calved-on':
        calve(entry.id, entry.day);
        break;
      case 'cow-entered': {
        calved = laterOf(calved, calvedOnIn(entry, schedule));
        // What it says of the pregnancy that ended with that calving is over.
        const servedOn = sinceCalving(entry.data.servedOn, calved, 0);
        const dueOn = sinceCalving(entry.data.dueOn, calved, EARLY_DAYS);
        if (servedOn !== undefined) now.services.push({ day: servedOn, entry: entry.id });
        if (dueOn !== undefined) {
          now = {
            ...now,
            confirmed: true,
            stated: dueOn,
            served: entry.data.servedOn !== undefined,
            entries: [entry.id],
          };
        }
        break;
      }
      case 'service':
        now = { ...empty(), services: [...now.services, { day: schedule.dayOf(entry.at), entry: entry.id }] };
        break;
      case 'pregnancy-check': {
        const { result, servedOn, dueOn } = entry.data;
        if (result === 'unsure') break;
        if (result === 'empty') {
          now = { ...empty(), services: now.services };
          break;
        }
        const checked = schedule.dayOf(entry.at);
        const confirmed = now.services.findLast((each) => daysBetween(each.day, checked) >= CONFIRMS_AFTER_DAYS);
        const service = servedOn === undefined ? confirmed : { day: servedOn as LocalDay, entry: entry.id };
        now = {
          ...now,
          confirmed: true,
          stated: dueOn === undefined ? now.stated : (dueOn as LocalDay),
          computed: service === undefined ? now.computed : dueAfter(service.day),
          twins: now.twins || result === 'twins',
          served: now.served || service !== undefined,
          entries: [
            ...now.entries,
            ...(service === undefined || service.entry === entry.id ? [] : [service.entry]),
            entry.id,
          ],
        };
        break;
      }
      case 'calving':
        calve(entry.id, schedule.dayOf(entry.at));
        break;
      case 'abortion':
        now = empty();
    }
  }
  const { confirmed, twins, served, entries } = now;
  return { confirmed, due: confirmed ? due() : null, twins, served, entries, early };
};

const laterOf = (a: LocalDay | undefined, b: LocalDay | undefined): LocalDay | undefined =>
  a === undefined || (b !== undefined && b > a) ? b : a;

/** A day that lies more than so many days after her calving. */
const sinceCalving = (day: string | undefined, calved: LocalDay | undefined, days: number): LocalDay | undefined =>
  day === undefined || (calved !== undefined && daysBetween(calved, day as LocalDay) <= days)
    ? undefined
    : (day as LocalDay);
