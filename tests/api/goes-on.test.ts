/** An open book is asked again and again: what came since is read and folded, and the answer is that of reading it all. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { knowledgeOf, tonight, tonightFrom } from '../../api/tonight.ts';
import { know } from '../../projections/know.ts';
import { type AFarm, aFarm, PENICILLIN } from './a-farm.ts';

let farm: AFarm;
beforeEach(() => {
  farm = aFarm();
});
afterEach(() => farm.close());

/** Everything read and folded anew. */
const afresh = () => {
  const read = farm.book.read();
  return tonightFrom(
    { ...read, entries: () => read.entries, known: know(read.entries, read.asides) },
    {},
    farm.book.clock.now(),
  );
};
const agrees = () => {
  const { known: _, ...now } = tonight(farm.book);
  const { known: __, ...anew } = afresh();
  expect(JSON.stringify(now.views)).toBe(JSON.stringify(anew.views));
  expect([now.position, now.root, now.milking]).toEqual([anew.position, anew.root, anew.milking]);
};

describe('an open book', () => {
  test('says after each entry what it says when all is read anew: dose, strike, label, move, refusal, issue', async () => {
    agrees();
    farm.say('treatment', '2026-03-01T11:00:00Z', '103', { medicine: PENICILLIN }, 'dose-1');
    agrees();
    expect(tonight(farm.book).views.sheets['milk-hold'].held.map(({ cow }) => cow)).toEqual(['103']);
    farm.say('treatment', '2026-02-28T05:10:00Z', '104', { medicine: PENICILLIN }, 'dose-2');
    agrees();
    farm.say('entry-struck', '2026-03-01T11:30:00Z', undefined, {
      entry: 'dose-1',
      reason: 'wrong cow',
      instead: 'nothing',
    });
    agrees();
    expect(tonight(farm.book).views.sheets['milk-hold'].held.map(({ cow }) => cow)).toEqual(['104']);
    farm.say('medicine-listed', '2026-03-01T11:40:00Z', undefined, {
      name: PENICILLIN,
      milkHold: { hours: 240 },
      meatDays: 9,
    });
    agrees();
    expect(tonight(farm.book).views.sheets['milk-hold'].held[0]?.until).toBe('2026-03-10T05:10:00Z');
    farm.say('treatment', '2026-03-01T11:50:00Z', '999', { medicine: PENICILLIN });
    agrees();
    expect(farm.say('treatment', 'this evening', '105', { medicine: PENICILLIN }).outcome).toBe('refused');
    agrees();
    expect(tonight(farm.book).views.sheets['milk-hold'].held.map(({ cow }) => cow)).toContain('105');
    await farm.issue();
    agrees();
    farm.at('2026-03-02T06:00:00Z');
    farm.say('treatment', '2026-03-01T11:55:00Z', '106', { medicine: PENICILLIN });
    agrees();
    expect(tonight(farm.book).views.alerts.map(({ because }) => because.rule)).toContain('R-31');
  });

  test('asked twice with nothing new between, it folds nothing again', () => {
    const before = knowledgeOf(farm.book);
    expect(knowledgeOf(farm.book).known).toBe(before.known);
    farm.say('milk-hold', '2026-03-01T11:00:00Z', '101', { reason: 'clots' });
    const after = knowledgeOf(farm.book);
    expect(after.known).not.toBe(before.known);
    const kept = after.known.files.filter((file) => before.known.files.includes(file));
    expect(kept).toHaveLength(before.known.files.length - 1);
  });
});
