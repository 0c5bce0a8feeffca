/** The herd that the benchmark measures with: always the same, taken by the door, and as the seed says it is. */
import { describe, expect, test } from 'vitest';
import { readValue } from '../../events/door.ts';
import { readStored } from '../../events/stored.ts';
import { know } from '../../projections/know.ts';
import { viewsAt } from '../../projections/views-at.ts';
import { bigHerd, nextMilkingOf } from '../../seeds/big-herd.ts';
import { canonicalJson, sha256 } from '../../shared/fingerprint.ts';
import type { Instant } from '../../shared/instant.ts';
import { addDays } from '../../shared/local-day.ts';

const WISHES = { cows: 200, years: 2 };
const ARRIVALS = [...bigHerd(WISHES)];
const COW_YEARS = WISHES.cows * WISHES.years;

const count = (...types: string[]): number => ARRIVALS.filter(({ said }) => types.includes(said.type)).length;

describe('the big herd', () => {
  test('is the same each time it is made, and another when another size is wished for', () => {
    const print = (arrivals: Iterable<unknown>): string => sha256(canonicalJson([...arrivals]));
    expect(print(bigHerd(WISHES))).toBe(print(ARRIVALS));
    expect(print(bigHerd({ ...WISHES, cows: 201 }))).not.toBe(print(ARRIVALS));
  });

  test('says nothing that the door refuses', () => {
    const refused = ARRIVALS.map(({ said, recordedAt }) =>
      readValue(said, { source: 'office', author: 'Ifeoma', now: recordedAt }),
    ).filter((each) => each.outcome === 'refused');
    expect(refused).toEqual([]);
  });

  test('comes in the order it was recorded, each entry under an id of its own and never before it happened', () => {
    const recorded = ARRIVALS.map(({ recordedAt }) => recordedAt);
    expect(recorded).toEqual([...recorded].sort((a, b) => a - b));
    expect(new Set(ARRIVALS.map(({ said }) => said.id)).size).toBe(ARRIVALS.length);
    expect(ARRIVALS.filter(({ said, recordedAt }) => Date.parse(said.time) > recordedAt)).toEqual([]);
  });

  test('has the proportions that it states: weights, treatments, moves, checks, sorts, calvings, leavers', () => {
    const aYear = (...types: string[]): number => count(...types) / COW_YEARS;
    const within = (value: number, from: number, to: number): void => {
      expect(value).toBeGreaterThanOrEqual(from);
      expect(value).toBeLessThanOrEqual(to);
    };
    within(aYear('milk-record'), 10, 12);
    within(aYear('treatment'), 4.3, 5.7);
    within(aYear('group-move'), 3.2, 4.4);
    within(aYear('service', 'pregnancy-check'), 4.3, 5.6);
    within(aYear('sort-request', 'sort-done'), 2.6, 3.5);
    within(aYear('calving'), 0.95, 1.25);
    within(aYear('dry-off'), 0.65, 0.95);
    within(aYear('cow-left'), 0.25, 0.42);
    expect(count('milking-finished')).toBe(3 * 365 * WISHES.years);
    expect(count('entry-struck')).toBeGreaterThan(3);
    const ofCows = ARRIVALS.filter(({ said }) => said.subject !== undefined).length;
    within(ofCows / COW_YEARS, 29, 34);
  });

  test('keeps its size: whoever leaves is followed by a heifer', () => {
    const entered = count('cow-entered');
    expect(entered - count('cow-left')).toBeGreaterThan(WISHES.cows - 5);
    expect(entered - count('cow-left')).toBeLessThanOrEqual(WISHES.cows);
  });

  test('agrees with itself: every head count with the book, no entry of a cow that is not there', () => {
    const entries = ARRIVALS.map(({ said }, index) => {
      const added = { sequence: String(index + 1).padStart(10, '0'), recordedtime: said.time };
      const read = readStored({ position: index + 1, entry: JSON.stringify({ ...said, ...added }), content: said.id });
      if (!read.ok) throw new Error(read.unusable.problem);
      return read.entry;
    });
    const known = know(entries, []);
    const milking = known.farm.schedule?.find(nextMilkingOf(WISHES));
    if (milking === undefined) throw new Error('The next milking is on the schedule');
    const asOf = (ARRIVALS.at(-1)?.recordedAt ?? 0) as Instant;
    const views = viewsAt(known, { milking, asOf, position: entries.length });
    const odd = views.doubts.filter(({ because }) => because.key !== 'doubt.vet-time-not-longer');
    expect(odd).toEqual([]);
    // In the ten days before it: cows treated, fresh, dried off with a sealant; and none is held for nothing.
    const held = Array.from({ length: 10 }, (_, back) => addDays(milking.day, -back - 1))
      .flatMap((day) => known.farm.schedule?.on(day) ?? [])
      .flatMap((each) => viewsAt(known, { milking: each, asOf, position: entries.length }).sheets['milk-hold'].held);
    expect(new Set(held.map(({ cow }) => cow)).size).toBeGreaterThan(3);
    expect(held.filter(({ until }) => until === null)).toEqual([]);
    expect(views.sheets['dry-off'].due.length).toBeGreaterThan(0);
  });
});
