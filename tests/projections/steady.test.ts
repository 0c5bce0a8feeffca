/** While nobody says anything, sheets worked out before may be shown again: until a milking begins, ends or grows old. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Entry } from '../../events/entry.ts';
import { know } from '../../projections/know.ts';
import { steadyUntil } from '../../projections/steady.ts';
import { viewsAt } from '../../projections/views-at.ts';
import { nextMilking } from '../../projections/window.ts';
import { type Instant, instantText, mustBeInstant, plusHours } from '../../shared/instant.ts';
import { entriesOf } from '../published/paper-farm.ts';
import { about, type Saying } from './evening.ts';
import { anything, at, issuedFor, said } from './histories.ts';

const MILKINGS = ['2026-03-10/morning', '2026-03-11/afternoon', '2026-03-12/morning', '2026-03-13/morning'];

const saying = (entries: readonly Entry[], asOf: Instant) => {
  const known = know(entries, []);
  const { schedule } = known.farm;
  if (schedule === undefined) throw new Error('no farm');
  const milking = nextMilking(known, schedule, asOf);
  if (milking === undefined) throw new Error('no milking');
  const { asOf: _, ...views } = viewsAt(known, { milking, asOf, position: 0 });
  return { known, schedule, text: JSON.stringify(views) };
};

describe('steady', () => {
  test('nothing on any sheet, no alert and no doubt changes before the instant that is named', () => {
    fc.assert(
      fc.property(
        fc.array(anything, { maxLength: 14 }),
        fc.subarray(MILKINGS),
        fc.integer({ min: 97 * 60, max: 64 * 24 * 60 }),
        fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }),
        (history, issued, minutes, share) => {
          const entries = [...entriesOf(said(history)), ...issuedFor(issued)];
          const asOf = plusHours(mustBeInstant('2026-03-10T00:00:00Z'), minutes / 60);
          const first = saying(entries, asOf);
          const until = steadyUntil(first.known, first.schedule, asOf);
          expect(until).toBeGreaterThan(asOf);
          for (const later of [asOf + Math.floor((until - asOf) * share), until - 1]) {
            expect(saying(entries, later as Instant).text, instantText(later as Instant)).toBe(first.text);
          }
        },
      ),
      { seed: 91, numRuns: 250 },
    );
  });

  test('the instant named is where a milking begins or its window has passed', () => {
    const until = (time: string) => {
      const { known, schedule } = saying(entriesOf(said([])), mustBeInstant(time));
      return instantText(steadyUntil(known, schedule, mustBeInstant(time)));
    };
    expect(until('2026-03-14T12:00:00Z')).toBe('2026-03-14T16:30:00Z');
    expect(until('2026-03-14T05:10:00Z')).toBe('2026-03-14T06:20:00.001Z');
  });

  test('R-27 with an entry whose time is still to come nothing is steady', () => {
    const early: Saying[] = [about('1', 'treatment', at(90), { medicine: 'Sixty hours' })];
    const asOf = mustBeInstant(at(2));
    const { known, schedule } = saying(entriesOf(said(early)), asOf);
    expect(steadyUntil(known, schedule, asOf)).toBe(asOf);
  });
});
