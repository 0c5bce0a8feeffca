/** The parlour's list: unplaced, held, cleared, gone, treat now. */
import { byCowNumber } from '../shared/cow-number.ts';
import { type Instant, instantText, later, MINUTE } from '../shared/instant.ts';
import { because } from './because.ts';
import { dueAt } from './course-due.ts';
import { byWeight, endText, type HoldPiece, latestEnd, reasonOf } from './hold-piece.ts';
import type { Known } from './know.ts';
import { type HeldBefore, heldBefore, heldWhenMilked, type OnLastSheet } from './last-issue.ts';
import { type CowMoment, countsFor, firstCounting, isMilkedNow, isThere, type Moment, openFrom } from './moment.ts';
import { doseKey } from './notice-keys.ts';
import { remembered } from './remembered.ts';
import type { Standing } from './standing.ts';
import { saidOfStandings } from './standings-in-order.ts';
import { unplacedRows } from './unplaced.ts';
import type { ClearedRow, GoneRow, HeldRow, MilkHoldSheet, TreatRow } from './views.ts';

export const milkHoldSheet = (known: Known, moment: Moment, standings: readonly Standing[]): MilkHoldSheet => {
  const before = heldBefore(known, moment);
  const rows = heldAmong(standings, moment);
  const held = rows.map(({ standing }) => standing);
  // Dry cows in milked groups head the list: nobody expects them.
  const inOrder = [
    ...rows.filter(({ row }) => row.dryInMilkedGroup),
    ...rows.filter(({ row }) => !row.dryInMilkedGroup),
  ];
  const isNew = isNewAmong(held, before?.earlier);
  return {
    unplaced: unplacedRows(known, moment),
    held: inOrder.map(({ standing, row }) => (isNew(standing) ? row : { ...row, isNew: false })),
    cleared: clearedRows(known, { standings, held }, moment, before),
    gone: goneRows(known, moment, standings, before?.all),
    treat: treatRows(known, standings, moment),
    groups: moment.groups
      .filter((group) => moment.lookup.isMilked(group.name, moment.milking))
      .map((group) => ({ group: group.name, held: held.filter((each) => each.group.name === group.name).length })),
  };
};

const wasOn = (before: readonly OnLastSheet[] | undefined, standing: Standing): OnLastSheet | undefined =>
  rowsOn(before, standing)[0];

/** The rows of the last sheet that may mean her. */
const rowsOn = (before: readonly OnLastSheet[] | undefined, standing: Standing): readonly OnLastSheet[] =>
  before === undefined ? [] : (rowsByCow(before).get(standing.file.cow.key) ?? []);

const rowsByCow = remembered((before: readonly OnLastSheet[]): ReadonlyMap<string, readonly OnLastSheet[]> => {
  const byCow = new Map<string, OnLastSheet[]>();
  for (const row of before) {
    for (const key of new Set(row.cows)) {
      const have = byCow.get(key);
      if (have === undefined) byCow.set(key, [row]);
      else have.push(row);
    }
  }
  return byCow;
});

/** Where a number means two cows, one row of it on the last sheet is not both: with more of them held now, all are new. */
const isNewAmong = (
  standingsHeld: readonly Standing[],
  before: readonly OnLastSheet[] | undefined,
): ((standing: Standing) => boolean) => {
  if (before === undefined) return () => true;
  const held = new Set(standingsHeld.map(({ file }) => file.cow.key));
  return (standing) => {
    const rows = rowsOn(before, standing);
    const cows = [...new Set(rows.flatMap((row) => row.cows))];
    return cows.filter((key) => held.has(key)).length > rows.length || rows.length === 0;
  };
};

interface Held {
  readonly standing: Standing;
  readonly row: HeldRow;
}

/** The held cows; on all rows they are new, which the last sheet may deny. */
const heldAmong = saidOfStandings('held', (standing, moment): readonly Held[] => {
  if (!standing.held) return [];
  const row = {
    ...rowOf(standing, moment),
    isNew: true,
    dryInMilkedGroup: !standing.inMilkDuring,
    ask: standing.running.some((piece) => piece.began >= moment.milking.start),
  };
  return [{ standing, row }];
});

const rowOf = (standing: Standing, moment: CowMoment) => {
  const { running, file } = standing;
  const counts = countsFor(file, moment);
  const until = latestEnd(running) ?? null;
  const tankFrom = until === null ? null : firstCounting(moment.schedule, counts, until);
  return {
    cow: standing.number,
    group: standing.group.name,
    until: endText(until),
    tankFrom: tankFrom?.id ?? null,
    milkingsLeft:
      until === null
        ? null
        : milkingsUntil(moment, counts, until, isMilkedNow(standing.group, standing.inMilkDuring, moment)),
    reasons: [...running].sort(byWeight).map(reasonOf),
  };
};

/** Milkings of hers still held: this one, if she is milked at it, and those after it that start no later than the end. */
const milkingsUntil = (
  moment: CowMoment,
  counts: ReturnType<typeof countsFor>,
  until: Instant,
  milkedNow: boolean,
): number => {
  let left = milkedNow ? 1 : 0;
  for (const milking of moment.schedule.after(moment.milking.start)) {
    if (milking.start > until) break;
    if (counts(milking)) left += 1;
  }
  return left;
};

/** on the last sheet, in milk and free now. A struck entry never clears. */
const clearedRows = (
  known: Known,
  { standings, held }: { readonly standings: readonly Standing[]; readonly held: readonly Standing[] },
  moment: Moment,
  before: HeldBefore | undefined,
): ClearedRow[] => {
  const whenMilked = new Map<string, readonly OnLastSheet[] | undefined>();
  for (const { name, milkedAt } of moment.groups) {
    const comesNow = milkedAt !== undefined && before !== undefined && moment.lookup.isMilked(name, moment.milking);
    if (comesNow) whenMilked.set(name, heldWhenMilked(known, moment, name));
  }
  return standings.flatMap((standing): ClearedRow[] => {
    const last = wasOn(before?.all, standing) ?? wasOn(whenMilked.get(standing.group.name), standing);
    if (last === undefined || standing.held || !standing.inMilk || hasStruck(known, last)) return [];
    // Another cow of her number is still held: nobody takes a band off by this number.
    if (held.some((each) => last.cows.includes(each.file.cow.key))) return [];
    const { start } = moment.milking;
    const over = standing.pieces.filter(
      (piece): piece is HoldPiece & { end: Instant } => piece.end !== null && piece.end < start,
    );
    const since = over.reduce<Instant>((latest, piece) => later(piece.end, latest), 0 as Instant);
    const ended = since === 0 ? start : since;
    return [
      {
        cow: standing.number,
        group: standing.group.name,
        since: instantText(ended),
        notBefore: start - ended <= 60 * MINUTE && ended < start ? wallTime(moment, ended) : null,
        reasons: over.filter((piece) => piece.end === since).map(reasonOf),
      },
    ];
  });
};

/** The first full minute after an instant, by the farm's wall clock. */
const wallTime = (moment: Moment, instant: Instant): string => {
  const minutes = Math.ceil(moment.schedule.inForceOn(moment.milking.day).zone.wallMinutes(instant));
  const pad = (value: number): string => String(value).padStart(2, '0');
  return `${pad(Math.floor(minutes / 60) % 24)}:${pad(minutes % 60)}`;
};

/** An entry behind her last row has been struck since. */
const hasStruck = (known: Known, last: OnLastSheet): boolean =>
  known.strikes.struck.some(({ entry }) => last.entries.includes(entry.id));

const goneRows = (
  known: Known,
  moment: Moment,
  standings: readonly Standing[],
  before: readonly OnLastSheet[] | undefined,
): GoneRow[] => {
  if (before === undefined) return [];
  const wanted = new Set(before.flatMap(({ cows }) => cows));
  const filesOn = openFrom(known.files, moment.milking.start).filter(({ cow }) => wanted.has(cow.key));
  const standingsOn = standings.filter(({ file }) => wanted.has(file.cow.key));
  return before
    .flatMap((row): GoneRow[] => {
      const files = filesOn.filter((file) => row.cows.includes(file.cow.key));
      const there = standingsOn.filter((standing) => row.cows.includes(standing.file.cow.key));
      if (there.some((standing) => standing.held)) return [];
      if (there.length === 0)
        return files.some((file) => !isThere(file.cow, moment)) || files.length === 0
          ? [{ cow: row.number, how: 'left' }]
          : [];
      const standing = there[0] as Standing;
      if (!standing.inMilk) return [{ cow: standing.number, how: 'dried-off' }];
      return hasStruck(known, row) ? [{ cow: standing.number, how: 'struck' }] : [];
    })
    .sort((a, b) => byCowNumber(a.cow, b.cow));
};

/** doses due at this milking, and overdue ones until settled. */
const treatRows = (known: Known, standings: readonly Standing[], moment: Moment): readonly TreatRow[] =>
  dosesDue(standings, moment).flatMap(({ key, row }) => (row.overdue && known.farm.settled.has(key) ? [] : [row]));

interface Due {
  readonly key: string;
  readonly row: TreatRow;
}

const dosesDue = saidOfStandings('doses due', ({ file, number, group }, moment): readonly Due[] => {
  return file.dosings.flatMap((dosing): Due[] => {
    const { course, last } = dosing;
    const due = dueAt(dosing, moment);
    if (
      course === undefined ||
      due === undefined ||
      dosing.mayBe !== undefined ||
      dosing.doses[0].at > moment.windowEnd
    )
      return [];
    const values = {
      planned: instantText(due.planned),
      lastGiven: instantText(last.at),
      everyHours: course.everyHours,
    };
    const ids = dosing.doses.map((dose) => dose.id);
    const row: TreatRow = {
      cow: number,
      group: group.name,
      medicine: dosing.medicine,
      dose: due.dose,
      of: course.of,
      amount: last.data.amount ?? null,
      route: last.data.route ?? null,
      quarters: last.data.quarters ?? [],
      overdue: due.overdue,
      because: due.overdue
        ? because('R-17', 'treat.overdue', { ...values, due: due.due.id }, ids)
        : because('R-17', 'treat.due', values, ids),
    };
    return [{ key: doseKey(file.cow.key, course, due.dose), row }];
  });
});
