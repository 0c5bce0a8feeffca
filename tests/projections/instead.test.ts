/** What a strike names instead must stand, and be able to be the right one. */
import { describe, expect, test } from 'vitest';
import { about, CUPBOARD, dose, evening, farm, farmWide, milker, type Saying } from './evening.ts';

const DOSE = '2026-03-14T16:40:00Z';
const NEXT = '2026-03-15/morning';
const book = (...more: readonly Saying[]) =>
  evening([farm({}, 'farm'), ...CUPBOARD, milker('1'), milker('2'), ...more]);
const asked = (...more: readonly Saying[]) =>
  book(...more)
    .at(NEXT)
    .sheets['milk-hold'].unplaced.map(({ number }) => number);
const strike = (entry: string, instead?: string, time = '2026-03-14T18:00:00Z'): Saying =>
  farmWide('entry-struck', time, { entry, reason: 'wrong cow', ...(instead === undefined ? {} : { instead }) });
const a = dose('1', DOSE, {}, 'a');
const b = dose('2', DOSE, {}, 'b');
const c = dose('2', DOSE, { medicine: 'Both' }, 'c');

describe('what is true instead of a struck dose', () => {
  test('R-23 two doses that each say the other is right: which cow had it?', () => {
    expect(asked(a, b, strike('a', 'b'), strike('b', 'a'))).toEqual(['1', '2']);
  });

  test('R-23 a ring of three asks for all three', () => {
    expect(asked(a, b, c, strike('a', 'b'), strike('b', 'c'), strike('c', 'a'))).toEqual(['1', '2', '2']);
  });

  test('R-23 one that was struck itself leads on to what is right instead of it', () => {
    expect(asked(a, b, c, strike('a', 'b'), strike('b', 'c'))).toEqual([]);
    expect(asked(a, b, strike('a', 'b'), strike('b'))).toEqual(['1', '2']);
  });

  test('R-23 named instead and then said never to have been: the first one is asked about', () => {
    expect(asked(a, b, strike('a', 'b'), strike('b', 'nothing'))).toEqual(['1']);
    expect(asked(a, b, strike('a', 'b'), strike('b', 'nothing'), strike('a', 'nothing'))).toEqual([]);
  });

  test('R-23 a set-up, a cow that came, a move, a dry-off with nothing given can not be the dose', () => {
    const came = { ...milker('3'), id: 'came' };
    const move = about('2', 'group-move', DOSE, { to: 'Heifers' }, 'move');
    const dried = about('2', 'dry-off', DOSE, { product: 'none' }, 'dried');
    for (const instead of ['farm', 'came', 'move', 'dried'])
      expect(asked(a, came, move, dried, strike('a', instead))).toEqual(['1']);
  });

  test('R-23 a dose, or a dry-off that says what was given or does not say it, can be', () => {
    const tube = about('2', 'dry-off', DOSE, { product: 'Dry-cow tube' }, 'tube');
    expect(asked(a, tube, strike('a', 'tube'))).toEqual([]);
    expect(asked(a, b, strike('a', 'b'))).toEqual([]);
  });

  test('R-23 a hold is right instead of a hold, and a dose or a positive test is; a lift is not', () => {
    const hold = (cow: string, id: string) => about(cow, 'milk-hold', DOSE, { reason: 'clots' }, id);
    const positive = about('2', 'residue-test', DOSE, { result: 'positive', of: 'cow' }, 'positive');
    const lift = about('2', 'milk-hold-lifted', DOSE, { reason: 'clean' }, 'lift');
    for (const instead of ['other', 'b', 'positive'])
      expect(asked(hold('1', 'wrong'), hold('2', 'other'), b, positive, strike('wrong', instead))).toEqual([]);
    expect(asked(hold('1', 'wrong'), lift, strike('wrong', 'lift'))).toEqual(['1']);
  });

  test('R-23 a dry-off is right instead of a dry-off, whatever it says was given', () => {
    const dried = (id: string, product: string) => about('1', 'dry-off', DOSE, { product }, id);
    expect(asked(dried('wrong', 'Dry-cow tube'), dried('right', 'none'), strike('wrong', 'right'))).toEqual([]);
  });
});

describe('one id with two contents', () => {
  test('R-23 struck, nobody knows which of the two was meant: both cows are asked about until it is settled', () => {
    const twins = [dose('1', DOSE, {}, 'a'), dose('2', DOSE, {}, 'a')];
    expect(asked(...twins, strike('a', 'nothing'))).toEqual(['1', '2']);
    expect(asked(...twins, b, strike('a', 'b'))).toEqual(['1', '2']);
    const settled = farmWide('settled', '2026-03-14T19:00:00Z', { about: 'struck:a', how: 'neither had it' });
    expect(asked(...twins, strike('a', 'nothing'), settled)).toEqual([]);
  });

  test('R-23 struck, and both say the same dose of the same cow: it is said', () => {
    expect(asked(a, dose('1', DOSE, { amount: { value: 20, unit: 'ml' } }, 'a'), strike('a', 'nothing'))).toEqual([]);
  });
});
