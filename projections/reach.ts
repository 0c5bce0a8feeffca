/**
 * Which cows' reasons to hold may reach which of many milkings (R-31, R-32): every reason that has a beginning, worked out
 * as of now, is laid to the milkings it spans, as far as she may have been milked then. Years of issued sheets are looked
 * through without asking every cow about every milking.
 */
import { type Instant, plusMilliseconds } from '../shared/instant.ts';
import { addDays } from '../shared/local-day.ts';
import type { CowFile } from './cow-file.ts';
import { groupNamed, groupsInOrder, isMilkedAt } from './groups.ts';
import { saidOfAll } from './kept-for-herd.ts';
import type { Known } from './know.ts';
import { milkHoldPieces } from './milk-hold.ts';
import type { Moment } from './moment.ts';
import { pregnancyAt } from './pregnancy.ts';
import { remembered } from './remembered.ts';
import { firstOf, type Milking, type Schedule } from './schedule.ts';

/** The cows with a reason that may reach a milking, or begins before the next one starts; in the order of the files. */
export type Reach = (milking: Milking) => readonly Candidate[];

export interface Candidate {
  readonly file: CowFile;
  /** When the first of her reasons that reaches the milking began. */
  began: Instant;
}

export const reachOf = (known: Known, now: Moment, milkings: readonly Milking[]): Reach => {
  const inOrder = [...new Map(milkings.map((milking) => [milking.id, milking])).values()].sort(
    (a, b) => a.start - b.start,
  );
  const places = new Map(inOrder.map((milking, index) => [milking.id, index]));
  const starts = inOrder.map(({ start }) => start);
  // No window goes past the next start.
  const bounds = inOrder.map(
    ({ start }) => firstOf(now.schedule.after(start))?.start ?? plusMilliseconds(start, Number.MAX_SAFE_INTEGER),
  );
  const candidates = inOrder.map((): Candidate[] => []);
  const [earliest = Number.POSITIVE_INFINITY] = starts;
  // Who left before the first of them can't have been milked at any.
  for (const { file, began, from, to } of stretchesHeld(known.files, now, earliest)) {
    if (to < earliest) continue;
    for (let place = firstAtLeast(bounds, from); place < starts.length; place += 1) {
      if ((starts[place] ?? 0) > to) break;
      const have = candidates[place]?.at(-1);
      if (have?.file !== file) candidates[place]?.push({ file, began });
      else if (began < have.began) have.began = began;
    }
  }
  return (milking) => candidates[places.get(milking.id) ?? -1] ?? [];
};

/** Part of a reason's time in which she was in milk, or stood where cows are milked. */
interface StretchHeld {
  readonly file: CowFile;
  /** When the reason began. */
  readonly began: Instant;
  readonly from: number;
  readonly to: number;
}

const stretchesHeld = saidOfAll('held', (file, moment): readonly StretchHeld[] => {
  const milked = milkedStretches(file, moment.schedule);
  const reasons = [
    ...milkHoldPieces(file, moment, [])
      .filter(({ began }) => began > 0)
      .map(({ began, end }) => ({ from: began, to: end ?? Number.POSITIVE_INFINITY })),
    ...beforeDue(file, moment.schedule),
  ];
  return [
    ...reasons.flatMap((reason) =>
      milked.flatMap((stretch): StretchHeld[] => {
        const from = Math.max(reason.from, stretch.from);
        const to = Math.min(reason.to, stretch.to);
        return from <= to ? [{ file, began: reason.from as Instant, from, to }] : [];
      }),
    ),
    ...dryAmongMilked(file, moment.schedule).map((time) => ({ ...time, file, began: time.from as Instant })),
  ];
});

/** Times, first and last instant. Rather too much than too little. */
interface Time {
  readonly from: number;
  readonly to: number;
}

/** When she stood dry where cows are milked, or may have, which is a reason by itself. */
const dryAmongMilked = ({ cow, lactations }: CowFile, schedule: Schedule): readonly Time[] => {
  const { placements, mayBeMoves, left } = cow;
  const stood = [
    ...placements.map(({ at, group }) => ({ at, group })),
    ...mayBeMoves.map(({ entry }) => ({ at: entry.at, group: entry.data.to })),
  ];
  return stood.flatMap(({ at, group }): readonly Time[] => {
    if (!isEverMilked(schedule)(group)) return [];
    // Until she was put elsewhere, or left.
    const ends = [...placements, ...left].flatMap((each) => (each.at > at ? each.at : []));
    const to = Math.min(...ends);
    return outsideOf(lactations.stretches, { from: at, to });
  });
};

/** What is left of a time without the stretches, which come one after the other. */
const outsideOf = (stretches: CowFile['lactations']['stretches'], { from, to }: Time): readonly Time[] => {
  const left: Time[] = [];
  let begin = from;
  for (const stretch of stretches) {
    if (stretch.from > begin) left.push({ from: begin, to: Math.min(stretch.from, to) });
    begin = Math.max(begin, stretch.to ?? Number.POSITIVE_INFINITY);
  }
  return [...left, { from: begin, to }].filter((time) => time.from < time.to);
};

/** From so many days before each due date that was ever said, until she was not in calf any more. */
const beforeDue = ({ cow }: CowFile, schedule: Schedule): readonly Time[] => {
  const days = Math.max(0, ...schedule.setUps.map(({ data }) => data.freshHold?.daysBeforeDue ?? 0));
  if (days === 0) return [];
  const ends = [...cow.calvings, ...cow.abortions].flatMap(({ entry, mayBe }) => (mayBe === undefined ? entry.at : []));
  return [...cow.entered, ...cow.checks].flatMap(({ at }): readonly Time[] => {
    const { due } = pregnancyAt(cow, schedule, at);
    if (due === null) return [];
    const first = addDays(due, -days);
    const to = Math.min(...ends.filter((end) => end > at));
    return [{ from: schedule.inForceOn(first).zone.startOfDay(first), to }];
  });
};

/** When she may have been milked at all; rather too much than too little. */
const milkedStretches = ({ cow, lactations }: CowFile, schedule: Schedule) => {
  const { placements } = cow;
  const stood = placements.map(({ at, group }, index) => ({
    group,
    from: index === 0 ? Number.NEGATIVE_INFINITY : at,
    to: placements[index + 1]?.at ?? Number.POSITIVE_INFINITY,
  }));
  return [
    ...(placements.length === 0 ? [ALWAYS] : stood.filter(({ group }) => isEverMilked(schedule)(group))),
    ...lactations.stretches.map(({ from, to }) => ({ from, to: to ?? Number.POSITIVE_INFINITY })),
  ];
};

const ALWAYS = { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };

/** Is a group milked at any milking, by any of the farm's set-ups? */
const isEverMilked = remembered((schedule: Schedule) => {
  const known = new Map<string, boolean>();
  return (name: string): boolean => {
    const have = known.get(name);
    if (have !== undefined) return have;
    const is = schedule.setUps.some(({ data }) => {
      const group = groupNamed(groupsInOrder(data), name);
      return data.milkings.some((milking) => isMilkedAt(group, milking.name));
    });
    known.set(name, is);
    return is;
  };
});

/** The first place in an ascending list whose value is at least this. */
const firstAtLeast = (ascending: readonly number[], value: number): number => {
  let low = 0;
  let high = ascending.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((ascending[middle] ?? 0) < value) low = middle + 1;
    else high = middle;
  }
  return low;
};
