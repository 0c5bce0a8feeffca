/**
 * The milk-hold rules read a second time, from their words alone: plain loops over a short list of entries, no code shared
 * with the folds. Where the words leave something open, the reading holds as the folds do. To compare many more histories:
 * `BYREBOOK_HISTORIES=5000 BYREBOOK_SEED=7 npx vitest run tests/projections/second-reading --testTimeout 3600000`
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { entriesOf } from '../../published/paper-farm.ts';
import { differences } from './compare.ts';
import { madeUp } from './made-up.ts';
import { dayAfter } from './wall.ts';

const SEED = Number(process.env.BYREBOOK_SEED ?? 412);
const HISTORIES = Number(process.env.BYREBOOK_HISTORIES ?? 240);

/** Before, inside and after the days of a history; a name that the farm's plan does not have is passed over. */
const MILKINGS = Array.from({ length: 16 }, (_, index) => dayAfter('2026-03-25', index)).flatMap((day) =>
  ['morning', 'noon', 'afternoon', 'night'].map((name) => `${day}/${name}`),
);

/** One in five of them, which go through the names and the days. */
const some = fc.integer({ min: 0, max: 4 }).map((first) => MILKINGS.filter((_, index) => index % 5 === first));

const runs = (part: number) => ({ seed: SEED, numRuns: Math.ceil(HISTORIES / part) });

describe('R-06 R-07 R-10 R-11 R-12 R-13 R-14 R-15 R-16 R-17 R-18 R-19 R-20 R-21 R-22 R-23 R-24 R-25 R-28 R-29', () => {
  test('two readings of the rules agree on who is in milk, who is held, until when, and from which milking she is free', () => {
    fc.assert(
      fc.property(madeUp(10), some, (sayings, milkings) => {
        expect(differences(entriesOf(sayings), milkings)).toEqual([]);
      }),
      runs(1),
    );
  });

  test('they agree about every milking as it is known in the middle of the days and after them', () => {
    const known = fc.constantFrom('2026-03-30T13:00:00Z', '2026-04-20T00:00:00Z');
    fc.assert(
      fc.property(madeUp(10), some, known, (sayings, milkings, asOf) => {
        expect(differences(entriesOf(sayings), milkings, asOf)).toEqual([]);
      }),
      runs(3),
    );
  });
});
