/** Cows due for dry-off and cows nobody has decided on. */
import { addDays, daysBetween, type LocalDay, laterDay, type Weekday, weekdayOf } from '../shared/local-day.ts';
import { type Because, because } from './because.ts';
import { medicineKey } from './farm.ts';
import { endText, latestEnd } from './hold-piece.ts';
import type { CowMoment, Moment } from './moment.ts';
import { pregnancyAt } from './pregnancy.ts';
import { remembered } from './remembered.ts';
import type { SetUp } from './schedule.ts';
import type { Standing } from './standing.ts';
import { saidOfStandings } from './standings-in-order.ts';
import type { DryOffRow, DryOffSheet } from './views.ts';

/** Where the farm sets none: 60 days dry is common, 45 the usual minimum, 305 the standard lactation. */
const DEFAULTS = { days: 60, minimumDays: 45, lookAheadDays: 7, longMilkingDays: 305 };

export interface DryOffRules {
  readonly days: number;
  readonly minimumDays: number;
  readonly lookAheadDays: number;
  readonly longMilkingDays: number;
  readonly weekday: Weekday | undefined;
  readonly product: string | undefined;
}

export const dryOffRules = (moment: CowMoment): DryOffRules => rulesOf(moment.schedule.inForceOn(moment.milking.day));

const rulesOf = remembered(({ data }: SetUp): DryOffRules => {
  const set = data.dryOff ?? {};
  return {
    days: set.days ?? DEFAULTS.days,
    minimumDays: set.minimumDays ?? DEFAULTS.minimumDays,
    lookAheadDays: set.lookAheadDays ?? DEFAULTS.lookAheadDays,
    longMilkingDays: set.longMilkingDays ?? DEFAULTS.longMilkingDays,
    weekday: set.weekday,
    product: set.product,
  };
});

/** the target, or the dry-off weekday nearest to it that leaves the minimum (a tie: the earlier). */
export const dryOffDay = (due: LocalDay, rules: DryOffRules): DryOffDays => {
  const kept = daysKept(rules);
  const days = kept.get(due) ?? daysFound(due, rules);
  kept.set(due, days);
  return days;
};

interface DryOffDays {
  readonly target: LocalDay;
  readonly day: LocalDay;
}

/** A herd has fewer due dates than cows. */
const daysKept = remembered((_: DryOffRules): Map<LocalDay, DryOffDays> => new Map());

const daysFound = (due: LocalDay, rules: DryOffRules): DryOffDays => {
  const target = addDays(due, -rules.days);
  if (rules.weekday === undefined) return { target, day: target };
  const latest = addDays(due, -rules.minimumDays);
  const candidates = [0, -1, 1, -2, 2, -3, 3, -4, 4, -5, 5, -6, 6, -7].map((away) => addDays(target, away));
  const day = candidates.find((each) => weekdayOf(each) === rules.weekday && each <= latest);
  return { target, day: day ?? lastSuchDay(latest, rules.weekday) };
};

/** The last such weekday on or before a date: when the target itself leaves less than the minimum. */
const lastSuchDay = (latest: LocalDay, weekday: Weekday): LocalDay => {
  for (let back = 0; back < 7; back += 1)
    if (weekdayOf(addDays(latest, -back)) === weekday) return addDays(latest, -back);
  return latest;
};

export const dryOffSheet = (moment: Moment, standings: readonly Standing[]): DryOffSheet => {
  const rows = rowsOf(standings, moment);
  return {
    // Overdue first, the longest first; the rest by day; within a day the standing order stays.
    due: rows
      .flatMap(({ due }) => due ?? [])
      .sort(
        (a, b) => b.daysOverdue - a.daysOverdue || (a.dryOffOn < b.dryOffOn ? -1 : a.dryOffOn > b.dryOffOn ? 1 : 0),
      ),
    undecided: rows.flatMap(({ undecided }) => undecided ?? []),
  };
};

interface Row {
  readonly due?: DryOffRow;
  readonly undecided?: DryOffSheet['undecided'][number];
}

const rowsOf = saidOfStandings('dry-offs', (standing, moment): readonly Row[] => {
  if (!standing.inMilkDuring) return [];
  const rules = dryOffRules(moment);
  const pregnancy = pregnancyAt(standing.file.cow, moment.schedule, moment.windowEnd);
  const { number: cow, daysInMilk } = standing;
  const group = standing.group.name;
  if (pregnancy.confirmed && pregnancy.due !== null) {
    const due = dueRow(moment, standing, { ...pregnancy, due: pregnancy.due }, rules);
    return due === undefined ? [] : [{ due }];
  }
  if (pregnancy.confirmed) {
    const why = because('R-44', 'dry-off.no-due-date', {}, pregnancy.entries);
    return [{ undecided: { cow, group, daysInMilk: daysInMilk ?? 0, because: why } }];
  }
  if (daysInMilk === null || daysInMilk <= rules.longMilkingDays) return [];
  const values = { daysInMilk, limit: rules.longMilkingDays };
  const why = because('R-44', 'dry-off.not-confirmed', values, standing.stretch?.entries ?? []);
  return [{ undecided: { cow, group, daysInMilk, because: why } }];
});

const dueRow = (
  moment: CowMoment,
  standing: Standing,
  pregnancy: { due: LocalDay; twins: boolean; served: boolean; entries: readonly string[] },
  rules: DryOffRules,
): DryOffRow | undefined => {
  const today = moment.milking.day;
  const { target, day } = dryOffDay(pregnancy.due, rules);
  if (day > lastDayShown(today, rules)) return undefined;
  const values = { due: pregnancy.due, days: rules.days, target, dryOffOn: day, weekday: rules.weekday ?? null };
  return {
    cow: standing.number,
    group: standing.group.name,
    dryOffOn: day,
    calvingDue: pregnancy.due,
    daysOverdue: Math.max(0, daysBetween(day, today)),
    warnings: warningsOf(moment, standing, pregnancy, rules, laterDay(day, today)),
    because: because('R-43', 'dry-off.due', values, pregnancy.entries),
    product: rules.product ?? null,
  };
};

const lastDayShown = (today: LocalDay, rules: DryOffRules): LocalDay => {
  const kept = lastDays(rules);
  const day = kept.get(today) ?? addDays(today, rules.lookAheadDays);
  kept.set(today, day);
  return day;
};

const lastDays = remembered((_: DryOffRules): Map<LocalDay, LocalDay> => new Map());

/** `on`: the earliest day she can still be dried off. */
const warningsOf = (
  { farm }: CowMoment,
  standing: Standing,
  pregnancy: { due: LocalDay; twins: boolean; served: boolean; entries: readonly string[] },
  rules: DryOffRules,
  on: LocalDay,
): Because[] => {
  const warnings: Because[] = [];
  const daysLeft = daysBetween(on, pregnancy.due);
  if (daysLeft < rules.minimumDays) {
    warnings.push(
      because('R-45', 'dry-off.under-minimum', { daysLeft, minimum: rules.minimumDays }, pregnancy.entries),
    );
  }
  const product = rules.product;
  const listing = product === undefined ? undefined : farm.listings.get(medicineKey(product))?.at(-1);
  const minimum = listing?.data.dryCow?.minimumDryDays;
  if (product !== undefined && listing !== undefined && minimum !== undefined && daysLeft < minimum) {
    warnings.push(because('R-45', 'dry-off.product-minimum', { product, minimum, daysLeft }, [listing.id]));
  }
  if (pregnancy.twins) warnings.push(because('R-45', 'dry-off.twins', {}, pregnancy.entries));
  if (standing.held) {
    const entries = standing.running.flatMap((piece) => piece.because.entries);
    warnings.push(because('R-45', 'dry-off.on-hold', { until: endText(latestEnd(standing.running) ?? null) }, entries));
  }
  if (!pregnancy.served) warnings.push(because('R-45', 'dry-off.no-service', {}, pregnancy.entries));
  return warnings;
};
