/** The second reading asked for one milking: who is in milk, who is held, until when, and from which milking she is free. */
import type { Entry } from '../../../events/entry.ts';
import { type Change, type Cow, cowOf, nthMilking, stands, stood } from './cow.ts';
import { dueHolds } from './due.ts';
import { type Farm, farmOf, goesThrough, type Milking } from './farm.ts';
import type { Hold } from './hold.ts';
import { holdsOf } from './holds.ts';
import { MINUTE } from './wall.ts';
import { cowsOf, whatCounts } from './who.ts';

export interface Answer {
  readonly inMilk: boolean;
  readonly held: boolean;
  /** Infinity is "without end"; undefined where she is not held. */
  readonly until: number | undefined;
  readonly tankFrom: string | undefined;
  /** Nothing that came after this milking is known of her or of the farm, so that its foresight can be asked. */
  readonly foreseen: boolean;
  readonly whys: readonly string[];
}

/** when the last cow is done, as it was planned or as it was said. */
const endOfMilking = (milking: Milking, farm: Farm, cows: readonly Cow[], inOrder: readonly Entry[]): number => {
  const next = farm.milkings.find(({ start }) => start > milking.start)?.start ?? Number.POSITIVE_INFINITY;
  const finished = inOrder.findLast(
    (entry) => entry.type === 'milking-finished' && entry.data.milking === milking.id && entry.at >= milking.start,
  );
  if (finished !== undefined) return Math.min(finished.at, next);
  const { stalls, turnMinutes } = milking.setUp.parlour;
  let minutes = 0;
  for (const { name } of milking.setUp.groups) {
    const there = cows.filter((cow) => {
      const { state, group } = stands(cow, milking.start);
      return state === 'milk' && group === name && goesThrough(milking, group);
    });
    minutes += Math.ceil(there.length / stalls) * turnMinutes;
  }
  return Math.min(milking.start + (minutes + 60) * MINUTE, next);
};

export const secondReading = (
  entries: readonly Entry[],
  days: readonly [from: string, to: string],
): ((id: string, asOf?: number) => ReadonlyMap<string, Answer>) => {
  const inOrder = whatCounts(entries);
  const farm = farmOf(inOrder, ...days);
  const cows = cowsOf(inOrder).map((own) => cowOf(own.key, own.entries, own.numbers, farm));
  const setUps = inOrder.filter(({ type }) => type === 'farm-set-up' || type === 'medicine-listed');
  const ofAnother = (entry: Entry, cow: Cow) => !cow.numbers.includes(entry.subject ?? '');
  return (id, asOf) => {
    const milking = farm.milkings.find((each) => each.id === id);
    if (milking === undefined) throw new Error(`${id} is not on the schedule`);
    const asked = asOf ?? milking.start;
    const book = { inOrder, farm, from: milking.start, ofAnother };
    const hasEnded = (each: Milking) => endOfMilking(each, farm, cows, inOrder) <= asked;
    const windowEnd = endOfMilking(milking, farm, cows, inOrder);
    const answers = new Map<string, Answer>();
    for (const cow of cows) {
      if (!isHere(cow, milking.start, windowEnd)) continue;
      answers.set(cow.key, {
        ...answer(cow, farm, milking, windowEnd, [
          ...holdsOf(book, cow, hasEnded),
          ...dueHolds(book, cow, milking, windowEnd),
        ]),
        foreseen: lastWord(cow.entries) <= windowEnd && lastWord(setUps) <= windowEnd,
      });
    }
    return answers;
  };
};

const answer = (
  cow: Cow,
  farm: Farm,
  milking: Milking,
  windowEnd: number,
  holds: readonly Hold[],
): Omit<Answer, 'foreseen'> => {
  const before = stood(cow, milking.start);
  const inMilk = before.state === 'milk' || stands(cow, milking.start).state === 'milk';
  const inside = [before, ...changesInside(cow, milking.start, windowEnd)];
  const calvedInside = inside.some((each) => each.state === 'milk');
  // a dry cow, or a heifer, where the cows are milked.
  const atStart = stands(cow, milking.start);
  const came = [atStart.state === 'away' ? before : atStart, ...inside.slice(1)];
  const dryAmongMilked =
    !calvedInside && came.some((each) => each.state !== 'away' && goesThrough(milking, each.group));
  const running = holds.filter(({ from, end }) => from <= windowEnd && end >= milking.start && end >= from);
  const milked = inMilk || calvedInside;
  const held = (milked && running.length > 0) || dryAmongMilked;
  const until = !held
    ? undefined
    : dryAmongMilked
      ? Number.POSITIVE_INFINITY
      : Math.max(...running.map(({ end }) => end));
  const tank =
    until === undefined || until === Number.POSITIVE_INFINITY
      ? Number.POSITIVE_INFINITY
      : nthMilking(cow, { farm, from: milking.start }, until, 1);
  const tankFrom = farm.milkings.find(({ start }) => start === tank)?.id;
  return { inMilk, held, until, tankFrom, whys: running.map(({ why, end }) => `${why} ${end}`) };
};

const changesInside = (cow: Cow, start: number, end: number): readonly Change[] =>
  cow.changes.filter(({ at }) => at >= start && at <= end);

/** Inside a milking nobody knows what came first: who was there at its start or came before its end is there. */
const isHere = (cow: Cow, start: number, end: number): boolean =>
  [stood(cow, start), ...changesInside(cow, start, end)].some(({ state }) => state !== 'away');

const lastWord = (entries: readonly Entry[]): number =>
  Math.max(Number.NEGATIVE_INFINITY, ...entries.map(({ at }) => at));
