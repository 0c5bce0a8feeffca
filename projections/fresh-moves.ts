/** Who leaves the fresh pen and for which group, who stays and why, who should come in. */
import { HOUR, type Instant, instantText } from '../shared/instant.ts';
import { daysBetween } from '../shared/local-day.ts';
import { amongDry } from './among-dry.ts';
import { type Because, because } from './because.ts';
import { type Group, isForDry, isNamed } from './groups.ts';
import { endText, latestEnd } from './hold-piece.ts';
import { keptForCow } from './kept-for-cow.ts';
import { type CowMoment, countsFor, type Moment } from './moment.ts';
import { pregnancyAt } from './pregnancy.ts';
import { type Standing, standingOf } from './standing.ts';
import { byGroup, saidOfStandings } from './standings-in-order.ts';
import { calvingSaid } from './stretch.ts';
import type { FreshMovesSheet, FreshOutRow, FreshPenRow } from './views.ts';

const WEEK = 7;

export const freshMovesSheet = (moment: Moment, standings: readonly Standing[]): FreshMovesSheet => {
  const groups = [...byGroup(standings)];
  const pen = groups.flatMap(([, { kind, cows }]) => (kind === 'fresh' ? cows : []));
  const heads = new Map(groups.map(([name, { cows }]) => [name, cows.length]));
  const out: FreshOutRow[] = [];
  const stay: FreshMovesSheet['stay'][number][] = [];
  for (const standing of pen) {
    const to = destination(standing, moment);
    const why = staysBecause(standing, moment, to);
    if (why !== undefined || to === undefined) {
      stay.push({
        cow: standing.number,
        group: standing.group.name,
        because: why ?? because('R-50', 'fresh.stay-no-group', { lactation: standing.lactation }, []),
      });
      continue;
    }
    const head = (heads.get(to.name) ?? 0) + 1;
    heads.set(to.name, head);
    out.push({
      cow: standing.number,
      from: standing.group.name,
      to: to.name,
      because: because(
        'R-50',
        'fresh.out',
        { ...timesOf(standing, moment), lactation: standing.lactation },
        standing.stretch?.entries ?? [],
      ),
      warnings:
        to.capacity !== undefined && head > to.capacity
          ? [because('R-51', 'fresh.at-capacity', { group: to.name, head, capacity: to.capacity }, [])]
          : [],
    });
  }
  return {
    out,
    stay,
    in: [...comingIn(standings, moment)],
    pen: pen.map(({ file }) => penRow(file, moment)),
  };
};

/** The milking group that takes her lactation; one that says so before one that takes any. */
const destination = (standing: Standing, moment: Moment): Group | undefined => {
  const takes = standing.lactation <= 1 ? 'first-lactation' : 'later-lactations';
  const milking = moment.groups.filter((group) => group.kind === 'milking');
  return milking.find((group) => group.takes === takes) ?? milking.find((group) => group.takes === 'any');
};

const timesOf = (standing: Standing, moment: Moment) => {
  const calved = standing.stretch?.calved ?? moment.milking.start;
  return {
    ...calvingSaid({ calved, calvedOn: standing.stretch?.calvedOn ?? null }),
    hours: Math.floor((moment.milking.start - calved) / HOUR),
    wanted: moment.schedule.inForceOn(moment.milking.day).data.freshPenHours ?? 0,
  };
};

const staysBecause = (standing: Standing, moment: Moment, to: Group | undefined): Because | undefined => {
  const { data } = moment.schedule.inForceOn(moment.milking.day);
  const entries = standing.stretch?.entries ?? [];
  if (!standing.inMilkDuring) return because('R-50', 'fresh.stay-not-calved', {}, []);
  if (data.freshPenHours === undefined) return because('R-50', 'fresh.stay-hours-not-set', {}, entries);
  const calved = standing.stretch?.calved;
  if (calved == null) return because('R-50', 'fresh.stay-calving-unknown', {}, entries);
  if (moment.milking.start - calved < data.freshPenHours * HOUR)
    return because('R-50', 'fresh.stay-hours', timesOf(standing, moment), entries);
  const blocking =
    data.freshHoldMayMove === true
      ? standing.running.filter((piece) => piece.because.rule !== 'R-20')
      : standing.running;
  if (blocking.length > 0) {
    return because(
      'R-50',
      'fresh.stay-on-hold',
      { until: endText(latestEnd(blocking) ?? null) },
      blocking.flatMap((piece) => piece.because.entries),
    );
  }
  return to === undefined
    ? because('R-50', 'fresh.stay-no-group', { lactation: standing.lactation }, entries)
    : undefined;
};

/** Calved and still elsewhere, not put among the dry cows since; or within a week of due and not yet close up. */
const comingIn = saidOfStandings('coming in', (standing, moment): FreshMovesSheet['in'] => {
  const { group, stretch, file } = standing;
  const row = (why: Because) => [{ cow: standing.number, group: group.name, because: why }];
  if (group.kind === 'fresh') return [];
  const isStillElsewhere = stretch?.calved != null && standing.inMilkDuring && !isPlacedSince(standing);
  if (isStillElsewhere && amongDry(standing, moment) === undefined) {
    return row(
      because(
        'R-50',
        'fresh.in-calved',
        { ...calvingSaid({ ...stretch, calved: stretch.calved }), group: group.name },
        stretch.entries,
      ),
    );
  }
  const pregnancy = pregnancyAt(file.cow, moment.schedule, moment.windowEnd);
  if (!pregnancy.confirmed || pregnancy.due === null || group.kind === 'close-up') return [];
  const days = daysBetween(moment.milking.day, pregnancy.due);
  return days > WEEK
    ? []
    : row(because('R-50', 'fresh.in-due', { due: pregnancy.due, days, group: group.name }, pregnancy.entries));
});

/** Has anybody put her in a milked group since she calved? */
const isPlacedSince = (standing: Standing): boolean => {
  if (isForDry(standing.group)) return false;
  const calved = standing.stretch?.calvedEarliest ?? standing.stretch?.from;
  return (
    calved === undefined ||
    standing.file.cow.placements.some((placement) => placement.at >= calved && isNamed(standing.group, placement.group))
  );
};

const penRow = keptForCow((file, moment): FreshPenRow => {
  const standing = standingOf(file, moment, []);
  const { stretch } = standing;
  const calving = file.cow.calvings.findLast((hers) => stretch?.entries.includes(hers.entry.id) === true)?.entry;
  const calved = stretch?.calved ?? null;
  return {
    cow: standing.number,
    group: standing.group.name,
    calved: calved === null ? null : instantText(calved),
    ...(stretch?.calvedOn == null ? {} : { calvedOn: stretch.calvedOn }),
    milkingsSince: calved === null ? null : milkingsBetween(standing, moment, calved),
    ease: calving?.data.ease ?? null,
    calves: calving?.data.calves ?? [],
  };
});

const milkingsBetween = (standing: Standing, moment: CowMoment, calved: Instant): number => {
  const counts = countsFor(standing.file, moment);
  let milkings = 0;
  for (const milking of moment.schedule.after(calved)) {
    if (milking.start >= moment.milking.start) break;
    if (counts(milking)) milkings += 1;
  }
  return milkings;
};
