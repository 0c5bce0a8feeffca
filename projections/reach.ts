/**
 * Which cows' reasons to hold may reach which of many milkings (R-31, R-32): every reason that has a beginning, worked out
 * as of now, is laid to the milkings it spans. A year of issued sheets is looked through without asking every cow about
 * every milking.
 */
import { type Instant, plusMilliseconds } from '../shared/instant.ts';
import type { Known } from './know.ts';
import { milkHoldPieces } from './milk-hold.ts';
import { type CowFile, type Moment, openFrom } from './moment.ts';
import { firstOf, type Milking } from './schedule.ts';

/**
 * The cows whose reasons may reach a milking, in the order of the files: those that reach some part of the time until the
 * next one starts, or, where `windowEnd` is given, exactly those that began by then.
 */
export type Reach = (milking: Milking, windowEnd?: Instant) => readonly CowFile[];

interface Candidate {
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
  // One that left before them all is at none of them.
  for (const file of openFrom(known.files, starts[0] ?? Number.POSITIVE_INFINITY)) {
    for (const { began, end } of milkHoldPieces(file, now, [])) {
      if (began <= 0) continue;
      for (let place = firstAtLeast(bounds, began); place < starts.length; place += 1) {
        if (end !== null && (starts[place] ?? 0) > end) break;
        const have = candidates[place]?.at(-1);
        if (have?.file !== file) candidates[place]?.push({ file, began });
        else if (began < have.began) have.began = began;
      }
    }
  }
  return (milking, windowEnd) =>
    (candidates[places.get(milking.id) ?? -1] ?? []).flatMap(({ file, began }) =>
      windowEnd === undefined || began <= windowEnd ? [file] : [],
    );
};

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
