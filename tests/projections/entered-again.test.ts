/** A cow entered under the official number of one that is there: the same cow, or another with a wrong number. */
import { describe, expect, test } from 'vitest';
import type { Aside } from '../../events/entry.ts';
import { mustBeInstant } from '../../shared/instant.ts';
import { about, CUPBOARD, dose, evening, farm, farmWide, keysOf, milker, type Saying } from './evening.ts';

const DOSE = '2026-03-10T12:00:00Z';
const AT = '2026-03-10/afternoon';
const NEXT = '2026-03-11/morning';
const officialId = '999000000000412';
const she = { ...milker('412', { officialId }), id: 'she' };
const again = { ...milker('500', { officialId, lactation: 1 }), id: 'again', time: '2026-03-10T13:00:00Z' };
const book = (more: readonly Saying[], asides: readonly Aside[] = []) =>
  evening([farm(), ...CUPBOARD, she, milker('7'), ...more], asides);
const heldOf = (more: readonly Saying[], milking = AT, asides: readonly Aside[] = []) =>
  book(more, asides)
    .at(milking)
    .sheets['milk-hold'].held.map(({ cow, until }) => [cow, until]);

describe('entered again while she is there', () => {
  test('R-25 R-28 what held her holds both numbers, and is a doubt', () => {
    const sayings = [dose('412', DOSE), again];
    expect(heldOf(sayings)).toEqual([
      ['412', '2026-03-13T00:00:00Z'],
      ['500', '2026-03-13T00:00:00Z'],
    ]);
    const each = book(sayings);
    expect(keysOf(each.held('500', AT))).toEqual(['hold.may-be-her']);
    expect(each.at(AT).sheets['beef-hold'].cows.map(({ cow }) => cow)).toEqual(['412', '500']);
    expect(each.doubts(AT, 'doubt.entered-again').map(({ because }) => because.values)).toEqual([
      { number: '500', at: '2026-03-10T13:00:00Z', cows: ['412'] },
    ]);
    expect(each.at(AT).sheets['milk-hold'].gone).toEqual([]);
  });

  test('R-25 what is written for either number afterwards holds both, and what is over holds neither', () => {
    for (const cow of ['412', '500', officialId])
      expect(heldOf([again, dose(cow, '2026-03-10T14:00:00Z')]).map(([number]) => number)).toEqual(['412', '500']);
    expect(heldOf([dose('412', '2026-03-01T12:00:00Z'), again])).toEqual([]);
  });

  test('R-25 nothing of the one frees the other', () => {
    const hold = about('412', 'milk-hold', DOSE, { reason: 'clots' });
    const lift = (cow: string) => about(cow, 'milk-hold-lifted', '2026-03-10T14:00:00Z', { reason: 'clean' });
    expect(heldOf([hold, again, lift('500')]).map(([number]) => number)).toEqual(['412', '500']);
    expect(heldOf([hold, again, lift('412')])).toEqual([]);
    const left = about('500', 'cow-left', '2026-03-10T14:00:00Z', { reason: 'died' });
    expect(heldOf([hold, again, left], NEXT).map(([number]) => number)).toEqual(['412']);
    const sold = about('412', 'cow-left', '2026-03-10T14:00:00Z', { reason: 'sold-for-milking' });
    expect(heldOf([hold, again, sold], NEXT).map(([number]) => number)).toEqual(['500']);
  });

  test('R-25 R-28 a hold that the second one brings holds the first', () => {
    const brings = { ...milker('500', { officialId, milkHoldUntil: 'unknown' }), time: '2026-03-10T13:00:00Z' };
    expect(heldOf([brings])).toEqual([
      ['412', null],
      ['500', null],
    ]);
  });

  test('R-25 R-27 what was set aside for one of them holds both', () => {
    const aside = { key: 'set-aside:1', problem: 'unreadable', cows: ['412'], recordedAt: mustBeInstant(DOSE) };
    expect(heldOf([again], AT, [aside]).map(([number]) => number)).toEqual(['412', '500']);
  });

  test('R-25 it ends when the entry is struck and her number is changed, or she is entered with her own', () => {
    const struck = farmWide('entry-struck', '2026-03-10T14:00:00Z', { entry: 'again', reason: 'wrong number' });
    const changed = about('412', 'number-changed', '2026-03-10T13:00:00Z', { to: '500' });
    expect(heldOf([dose('412', DOSE), again, struck, changed]).map(([number]) => number)).toEqual(['500']);
    const other = { ...milker('500', { officialId: '999000000000500' }), time: '2026-03-10T13:00:00Z' };
    expect(heldOf([dose('412', DOSE), again, struck, other]).map(([number]) => number)).toEqual(['412']);
  });

  test('R-25 two of one official number that come in one list are two cows until it is settled', () => {
    const each = [milker('500', { officialId }), dose('500', DOSE)];
    expect(heldOf(each).map(([number]) => number)).toEqual(['412', '500']);
  });

  test('R-25 entered again under the number she bears, she is one cow and no doubt', () => {
    const same = { ...milker('412', { officialId }), id: 'same', time: '2026-03-10T13:00:00Z' };
    expect(heldOf([dose('412', DOSE), same]).map(([number]) => number)).toEqual(['412']);
    expect(book([same]).at(AT).doubts).toEqual([]);
  });
});
