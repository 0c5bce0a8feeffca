/** Which cow is meant, what is struck, what is set aside. */
import { describe, expect, test } from 'vitest';
import type { Aside } from '../../events/entry.ts';
import { mustBeInstant } from '../../shared/instant.ts';
import { about, CUPBOARD, dose, evening, farm, farmWide, keysOf, milker, type Saying } from './evening.ts';

const DOSE = '2026-03-14T16:40:00Z';
const NEXT = '2026-03-15/morning';
const book = (...more: readonly Saying[]) => evening([farm(), ...CUPBOARD, ...more]);
const unplaced = (each: ReturnType<typeof book>, milking = NEXT) =>
  each.at(milking).sheets['milk-hold'].unplaced.map(({ number, because }) => [number, because.key]);

describe('which cow', () => {
  test('R-25 a dose for a number not in the herd is unplaced, until settled or until it would have ended', () => {
    const stray = dose('999', DOSE, {}, 'stray');
    expect(unplaced(book(milker('1'), stray))).toEqual([['999', 'unplaced.not-in-herd']]);
    expect(unplaced(book(milker('1'), stray), '2026-03-16/afternoon')).toEqual([['999', 'unplaced.not-in-herd']]);
    expect(unplaced(book(milker('1'), stray), '2026-03-17/morning')).toEqual([]);
    expect(
      unplaced(book(milker('1'), stray, farmWide('settled', DOSE, { about: 'unplaced:stray', how: 'it was 1' }))),
    ).toEqual([]);
  });

  test('R-25 a number that may mean two cows holds both, and frees neither', () => {
    const two = book(
      milker('1', { officialId: '999000000000001' }),
      milker('1', { officialId: '999000000000002', lactation: 3 }),
      dose('1', DOSE),
    );
    const held = two.at(NEXT).sheets['milk-hold'].held;
    expect(held.map(({ cow, until }) => [cow, until])).toEqual([
      ['1', '2026-03-17T04:40:00Z'],
      ['1', '2026-03-17T04:40:00Z'],
    ]);
    expect(keysOf(held[0])).toContain('hold.may-be-her');
    expect(two.doubts(NEXT, 'doubt.two-cows')).toHaveLength(1);
    const by = about('999000000000002', 'milk-hold', DOSE, { reason: 'clots' });
    const lifted = about('1', 'milk-hold-lifted', '2026-03-14T18:00:00Z', { reason: 'clear' });
    const one = book(
      milker('1', { officialId: '999000000000001' }),
      milker('1', { officialId: '999000000000002', lactation: 3 }),
      by,
      lifted,
    );
    expect(one.at(NEXT).sheets['milk-hold'].held).toHaveLength(1);
  });

  test('R-25 a number that matches only without its leading zeros holds that cow, and is unplaced', () => {
    const zeros = book(milker('7'), milker('70'), dose('007', DOSE));
    expect(zeros.at(NEXT).sheets['milk-hold'].held.map(({ cow }) => cow)).toEqual(['7']);
    expect(unplaced(zeros)).toEqual([['007', 'unplaced.leading-zeros']]);
    expect(unplaced(book(milker('007'), milker('7', { lactation: 3 }), dose('007', DOSE)))).toEqual([]);
  });

  test('R-25 a number that nobody bears any more holds the cow that bore it last, and is unplaced', () => {
    const renumbered = about('1', 'number-changed', '2026-03-10T09:00:00Z', { to: '9' });
    const old = book(milker('1'), milker('2'), renumbered, dose('1', DOSE));
    expect(old.at(NEXT).sheets['milk-hold'].held.map(({ cow, until }) => [cow, until])).toEqual([
      ['9', '2026-03-17T04:40:00Z'],
    ]);
    expect(keysOf(old.at(NEXT).sheets['milk-hold'].held[0])).toContain('hold.may-be-her');
    expect(unplaced(old)).toEqual([['1', 'unplaced.old-number']]);
    // What frees goes to nobody.
    const lifted = about('1', 'milk-hold-lifted', '2026-03-14T18:00:00Z', { reason: 'clear' });
    const abnormal = book(milker('1'), renumbered, about('9', 'milk-hold', DOSE, { reason: 'clots' }), lifted);
    expect(abnormal.at(NEXT).sheets['milk-hold'].held.map(({ cow }) => cow)).toEqual(['9']);
    const came = (time: string) =>
      about('1', 'cow-entered', time, { group: 'Cows', lactation: 3, milkHoldUntil: 'none', calvedOn: '2026-01-05' });
    // Who bears it since may have been meant as well; who bears it then is meant alone.
    const since = book(milker('1'), renumbered, dose('1', DOSE), came('2026-03-14T18:00:00Z'));
    expect(since.at(NEXT).sheets['milk-hold'].held.map(({ cow }) => cow)).toEqual(['1', '9']);
    const then = book(milker('1'), renumbered, came('2026-03-11T12:00:00Z'), dose('1', DOSE));
    expect(then.at(NEXT).sheets['milk-hold'].held.map(({ cow }) => cow)).toEqual(['1']);
  });

  test('R-25 a cow that left on hold stands "if she appears" until her hold would have ended, seven days at most', () => {
    const left = about('1', 'cow-left', '2026-03-14T18:00:00Z', { reason: 'sold-for-milking' });
    const timed = book(milker('1'), dose('1', DOSE), left);
    expect(unplaced(timed)).toEqual([['1', 'unplaced.left-on-hold']]);
    expect(unplaced(timed, '2026-03-17/afternoon')).toEqual([]);
    const open = book(milker('1'), about('1', 'milk-hold', DOSE, { reason: 'clots' }), left);
    expect(unplaced(open, '2026-03-21/afternoon')).toEqual([['1', 'unplaced.left-on-hold']]);
    expect(unplaced(open, '2026-03-22/morning')).toEqual([]);
  });

  test('R-25 a number means the cow that bore it at the time, and goes with a change of number', () => {
    const changed = about('1', 'number-changed', '2026-03-10T09:00:00Z', { to: '501' });
    const held = (each: Saying) => book(milker('1'), changed, each).at(NEXT).sheets['milk-hold'];
    expect(held(dose('501', DOSE)).held.map(({ cow }) => cow)).toEqual(['501']);
    expect(held(dose('1', DOSE)).held.map(({ cow }) => cow)).toEqual(['501']);
    expect(held(dose('1', DOSE)).unplaced).toHaveLength(1);
    expect(held(dose('1', '2026-03-09T16:40:00Z', { medicine: 'Not known' })).held.map(({ cow }) => cow)).toEqual([
      '501',
    ]);
  });

  test('R-25 re-entry under the same official number continues her, holds and all', () => {
    const came = milker('1', { officialId: '999000000000001' });
    const left = about('1', 'cow-left', '2026-03-14T18:00:00Z', { reason: 'other' });
    const back = about('88', 'cow-entered', '2026-03-14T20:00:00Z', {
      group: 'Cows',
      lactation: 2,
      calvedOn: '2026-01-05',
      officialId: '999 000000 000001',
      milkHoldUntil: 'none',
      meatHoldUntil: 'none',
    });
    expect(book(came, dose('1', DOSE), left, back).held('88', NEXT)?.until).toBe('2026-03-17T04:40:00Z');
  });
});

describe('struck and set aside', () => {
  const given = dose('1', DOSE, {}, 'given');
  const strike = (instead?: string) =>
    farmWide('entry-struck', '2026-03-14T18:00:00Z', {
      entry: 'given',
      reason: 'wrong cow',
      ...(instead === undefined ? {} : { instead }),
    });

  test('R-23 a struck entry counts for nothing', () => {
    const struck = book(milker('1'), given, strike('nothing'));
    expect(struck.held('1', NEXT)).toBeUndefined();
    expect(unplaced(struck)).toEqual([]);
  });

  test('R-23 struck without saying what was true instead: which cow had it?', () => {
    expect(unplaced(book(milker('1'), given, strike()))).toEqual([['1', 'unplaced.dose-struck']]);
    expect(unplaced(book(milker('1'), given, strike('not-come-yet')))).toEqual([['1', 'unplaced.dose-struck']]);
    expect(unplaced(book(milker('1'), milker('2'), given, strike('right'), dose('2', DOSE, {}, 'right')))).toEqual([]);
  });

  test('R-23 strikes cannot be struck: the first one stands, with a doubt', () => {
    const first = { ...strike('nothing'), id: 'strike-1' };
    const second = farmWide('entry-struck', '2026-03-14T19:00:00Z', {
      entry: 'strike-1',
      reason: 'it was right after all',
    });
    const twice = book(milker('1'), given, first, second);
    expect(twice.held('1', NEXT)).toBeUndefined();
    expect(twice.doubts(NEXT, 'doubt.strike-of-strike')).toHaveLength(1);
  });

  const aside = (cows: readonly string[]): Aside => ({
    key: 'set-aside:1',
    problem: '"data.medicine" is missing',
    cows,
    recordedAt: mustBeInstant(DOSE),
  });

  test('R-27 an entry set aside holds every cow it may concern until a person settles it', () => {
    const sayings = [farm(), ...CUPBOARD, milker('1'), milker('2')];
    expect(evening(sayings, [aside(['1'])]).held('1', NEXT)?.until).toBeNull();
    expect(evening(sayings, [aside(['1'])]).held('2', NEXT)).toBeUndefined();
    const settled = farmWide('settled', DOSE, { about: 'set-aside:1', how: 'entered again' });
    expect(evening([...sayings, settled], [aside(['1'])]).held('1', NEXT)).toBeUndefined();
  });

  test('R-27 one in which no cow can be read, or none of the herd, stands at the head of the sheet', () => {
    const sayings = [farm(), ...CUPBOARD, milker('1')];
    expect(unplaced(evening(sayings, [aside([])]))).toEqual([[null, 'unplaced.set-aside']]);
    expect(unplaced(evening(sayings, [aside(['321'])]))).toEqual([['321', 'unplaced.set-aside']]);
  });
});
