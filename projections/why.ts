/** Every list a cow is or is not on at a milking, with the reasons (R-10 and the rule of each list). */
import { type Instant, instantText } from '../shared/instant.ts';
import { type Because, because } from './because.ts';
import { nearestDue } from './course-due.ts';
import { dryOffDay, dryOffRules } from './dry-off.ts';
import { endText, type HoldPiece, latestEnd } from './hold-piece.ts';
import type { Known } from './know.ts';
import { meatHoldPieces } from './meat-hold.ts';
import { countsFor, firstCounting, type Moment } from './moment.ts';
import { usualMinutes } from './plan.ts';
import { pregnancyAt } from './pregnancy.ts';
import { cowsBy, type Standing } from './standing.ts';
import { standingsAt } from './standings.ts';
import { SHEET_NAMES, type SheetName, type Views } from './views.ts';
import { type Asked, momentOf, sheetsFor } from './views-at.ts';

export type WhyList =
  | 'milk-hold'
  | 'bands-off'
  | 'treat-now'
  | 'dry-off'
  | 'fresh-moves'
  | 'sort'
  | 'counts'
  | 'milking-plan'
  | 'beef-hold';

export interface WhyEntry {
  readonly list: WhyList;
  readonly on: boolean;
  readonly reasons: readonly Because[];
  /** Holds of hers that are over, the latest first. */
  readonly over: readonly Because[];
}

export interface WhyCow {
  readonly cow: string;
  readonly officialId: string | null;
  readonly group: string;
  readonly lactation: number;
  readonly daysInMilk: number | null;
  readonly inMilk: boolean;
  readonly until: string | null;
  readonly tankFrom: string | null;
  readonly lists: readonly WhyEntry[];
}

const OVER_SHOWN = 5;

/** The cows a number may mean now; empty where it means none in the herd (then look at the unplaced lines). */
export const whyCow = (known: Known, asked: Asked, views: Views, number: string): readonly WhyCow[] => {
  const moment = momentOf(known, asked);
  if (moment === undefined) return [];
  const keys = new Set(cowsBy(known, number));
  const standings = standingsAt(known, moment);
  return standings
    .filter((standing) => standing.number === number || keys.has(standing.file.cow.key))
    .map((standing) => {
      const others = standings.some((each) => each !== standing && each.number === standing.number);
      // Rows go by number: where another cow bears hers, they are made out for her alone.
      return explain(standing, moment, others ? sheetsFor(known, moment, [standing]) : views.sheets);
    });
};

const explain = (standing: Standing, moment: Moment, sheets: Views['sheets']): WhyCow => {
  const mine = <T extends { readonly cow: string }>(rows: readonly T[]): T[] =>
    rows.filter((row) => row.cow === standing.number);
  const held = mine(sheets['milk-hold'].held)[0];
  const cleared = mine(sheets['milk-hold'].cleared)[0];
  const treat = mine(sheets['milk-hold'].treat);
  const fresh = sheets['fresh-moves'];
  const freshRows = [...mine(fresh.out), ...mine(fresh.stay), ...mine(fresh.in)];
  const sort = [
    ...mine(sheets.sort.cows).flatMap((row) => row.reasons),
    ...mine(sheets.sort.cannot).flatMap((row) => [row.because, ...row.reasons]),
  ];
  const dry = [
    ...mine(sheets['dry-off'].due).flatMap((row) => [row.because, ...row.warnings]),
    ...mine(sheets['dry-off'].undecided).map((row) => row.because),
  ];
  const beef = mine(sheets['beef-hold'].cows)[0];
  const on = (list: WhyList, reasons: readonly Because[]): WhyEntry => ({ list, on: true, reasons, over: [] });
  const off = (list: WhyList, reasons: readonly Because[], over: readonly Because[] = []): WhyEntry => ({
    list,
    on: false,
    reasons,
    over,
  });
  const over = endedBefore(standing.pieces, moment.milking.start);
  /** Each sheet answers, whether she is on it or not. */
  const bySheet: Readonly<Record<SheetName, readonly WhyEntry[]>> = {
    'milk-hold': [
      held === undefined
        ? off('milk-hold', [notHeld(standing)], over)
        : { ...on('milk-hold', [...held.reasons, ...tankFrom(standing, moment)]), over },
      cleared === undefined
        ? off('bands-off', held === undefined ? [because('R-26', 'why.not-on-last-sheet', {}, [])] : [])
        : on('bands-off', cleared.reasons),
      treat.length > 0
        ? on(
            'treat-now',
            treat.map((row) => row.because),
          )
        : off('treat-now', laterDoses(standing, moment)),
    ],
    'dry-off': [dry.length > 0 ? on('dry-off', dry) : off('dry-off', [notDriedOff(standing, moment)])],
    'fresh-moves': [
      freshRows.length > 0
        ? on(
            'fresh-moves',
            freshRows.map((row) => row.because),
          )
        : off('fresh-moves', [because('R-50', 'why.not-in-fresh-pen', { group: standing.group.name }, [])]),
    ],
    sort: [sort.length > 0 ? on('sort', sort) : off('sort', [because('R-60', 'why.nobody-asked', {}, [])])],
    counts: [
      on('counts', [because('R-70', 'why.counted', { group: standing.group.name, inMilk: standing.inMilk }, [])]),
    ],
    'milking-plan': [planEntry(standing, moment, sheets)],
    'beef-hold': [
      beef === undefined
        ? off(
            'beef-hold',
            [because('R-90', 'why.no-meat-hold', {}, [])],
            endedBefore(meatHoldPieces(standing.file, moment, []), moment.milking.start),
          )
        : on('beef-hold', beef.reasons),
    ],
  };
  return {
    cow: standing.number,
    officialId: standing.file.cow.officialId ?? null,
    group: standing.group.name,
    lactation: standing.lactation,
    daysInMilk: standing.daysInMilk,
    inMilk: standing.inMilk,
    until: held?.until ?? null,
    tankFrom: held?.tankFrom ?? null,
    lists: SHEET_NAMES.flatMap((name) => bySheet[name]),
  };
};

const endedBefore = (pieces: readonly Pick<HoldPiece, 'end' | 'because'>[], start: Instant): Because[] =>
  pieces
    .filter((piece) => piece.end !== null && piece.end < start)
    .sort((a, b) => (b.end ?? 0) - (a.end ?? 0))
    .slice(0, OVER_SHOWN)
    .map((piece) => piece.because);

const notHeld = (standing: Standing): Because =>
  standing.running.length > 0 || !standing.inMilkDuring
    ? because('R-24', 'why.not-milked', { group: standing.group.name }, [])
    : because('R-10', 'why.no-hold', {}, []);

/** The last step of the arithmetic: the first milking that starts strictly after the latest end. */
const tankFrom = (standing: Standing, moment: Moment): Because[] => {
  const until = latestEnd(standing.running);
  if (until === undefined || until === null) return [];
  const counts = countsFor(standing.file, moment);
  const next = firstCounting(moment.schedule, counts, until);
  const lastHeld = moment.schedule.startedBy(until);
  return [
    because(
      'R-10',
      'why.tank-from',
      { until: endText(until) ?? '', lastHeld: lastHeld?.id ?? null, tankFrom: next?.id ?? null },
      [],
    ),
  ];
};

const laterDoses = (standing: Standing, moment: Moment): Because[] => {
  const later = standing.file.dosings.flatMap(({ course, medicine, doses }): Because[] => {
    if (course?.plannedNext === undefined) return [];
    const due = nearestDue(moment.schedule, course.plannedNext);
    if (due === undefined) return [];
    const values = {
      medicine,
      dose: course.given + 1,
      of: course.of,
      planned: instantText(course.plannedNext),
      due: due.id,
    };
    return [
      because(
        'R-17',
        'why.dose-later',
        values,
        doses.map((dose) => dose.id),
      ),
    ];
  });
  return later.length > 0 ? later : [because('R-17', 'why.no-dose-due', {}, [])];
};

const notDriedOff = (standing: Standing, moment: Moment): Because => {
  if (!standing.inMilkDuring) return because('R-44', 'why.not-in-milk', {}, []);
  const rules = dryOffRules(moment);
  const pregnancy = pregnancyAt(standing.file.cow, moment.schedule, moment.windowEnd);
  if (pregnancy.confirmed && pregnancy.due !== null) {
    const values = {
      due: pregnancy.due,
      dryOffOn: dryOffDay(pregnancy.due, rules).day,
      lookAheadDays: rules.lookAheadDays,
    };
    return because('R-44', 'why.dry-off-later', values, pregnancy.entries);
  }
  return because('R-44', 'why.not-in-calf', { daysInMilk: standing.daysInMilk, limit: rules.longMilkingDays }, []);
};

const planEntry = (standing: Standing, moment: Moment, sheets: Views['sheets']): WhyEntry => {
  const minutes = usualMinutes(standing.file, moment.milking.start);
  const slowFrom = moment.schedule.inForceOn(moment.milking.day).data.parlour.slowFromMinutes ?? 10;
  return {
    list: 'milking-plan',
    on: sheets['milking-plan'].slow.includes(standing.number),
    reasons: [
      minutes === undefined
        ? because('R-81', 'why.no-minutes', {}, [])
        : because('R-81', 'why.minutes', { minutes, slowFrom }, []),
    ],
    over: [],
  };
};
