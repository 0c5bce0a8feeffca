/** Is she in calf, and when is she due? A positive check or a `dueOn` confirms; a later empty check, service, abortion or calving ends that. */

import type { Instant } from '../shared/instant.ts';
import { addDays, daysBetween, type LocalDay } from '../shared/local-day.ts';
import type { Cow } from './cow.ts';
import { rememberedInRoom } from './remembered.ts';
import type { Schedule } from './schedule.ts';

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

const pregnancyAfter = (steps: ReturnType<typeof stepsOf>, schedule: Schedule): Found => {
  const early: CalvedEarly[] = [];
  let now = empty();
  const dueAfter = (served: LocalDay): LocalDay =>
    addDays(served, schedule.inForceOn(served).data.gestationDays ?? GESTATION_DAYS);
  const due = (): LocalDay | null => now.stated ?? now.computed;

  for (const entry of steps) {
    switch (entry.type) {
      case 'cow-entered': {
        const { servedOn, dueOn } = entry.data;
        if (servedOn !== undefined) now.services.push({ day: servedOn as LocalDay, entry: entry.id });
        if (dueOn !== undefined) {
          now = {
            ...now,
            confirmed: true,
            stated: dueOn as LocalDay,
            served: servedOn !== undefined,
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
      default: {
        const expected = due();
        if (entry.type === 'calving' && now.confirmed && expected !== null) {
          const days = daysBetween(schedule.dayOf(entry.at), expected);
          if (days > EARLY_DAYS) early.push({ entry: entry.id, due: expected, days });
        }
        now = empty();
      }
    }
  }
  const { confirmed, twins, served, entries } = now;
  return { confirmed, due: confirmed ? due() : null, twins, served, entries, early };
};
