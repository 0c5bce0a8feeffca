/** What is said to have happened at one and the same instant: whichever entry's id comes first, she is held. */
import { describe, expect, test } from 'vitest';
import { about, CUPBOARD, dose, evening, farm, keysOf, medicine, milker, type Saying } from './evening.ts';

const NOON = '2026-03-14T12:00:00Z';
const AT = '2026-03-14/afternoon';
const book = (...more: readonly Saying[]) => evening([farm(), ...CUPBOARD, milker('412'), milker('413'), ...more]);
const heldOf = (...more: readonly Saying[]) =>
  book(...more)
    .at(AT)
    .sheets['milk-hold'].held.map(({ cow }) => cow);

describe.each([
  ['one', 'two'],
  ['two', 'one'],
])('with %s and %s for ids', (first, second) => {
  test('R-29 of two labels of one time the longer governs, for milk and for meat', () => {
    const listed = (time: string) => [
      medicine('Q', { milkHold: { hours: 96 }, meatDays: 1 }, time, first),
      medicine('q', { milkHold: { hours: 24 }, meatDays: 9 }, time, second),
    ];
    for (const time of ['2026-02-01T00:00:00Z', '2026-03-13T12:00:00Z']) {
      const each = book(...listed(time), dose('412', '2026-03-11T12:00:00Z', { medicine: 'Q' }));
      expect(each.held('412', AT)?.until).toBe('2026-03-15T12:00:00Z');
      expect(keysOf(each.held('412', AT))).toEqual(['hold.hours']);
      expect(each.at(AT).sheets['beef-hold'].cows.map(({ until }) => until)).toEqual(['2026-03-20T12:00:00Z']);
    }
  });

  test('R-29 a later listing that is longer than both extends the hold', () => {
    const each = book(
      medicine('Q', { milkHold: { hours: 60 }, meatDays: 1 }, '2026-02-01T00:00:00Z', first),
      medicine('Q', { milkHold: { hours: 24 }, meatDays: 1 }, '2026-02-01T00:00:00Z', second),
      medicine('Q', { milkHold: { hours: 96 }, meatDays: 1 }, '2026-03-12T12:00:00Z'),
      dose('412', '2026-03-11T12:00:00Z', { medicine: 'Q' }),
    );
    expect(each.held('412', AT)?.until).toBe('2026-03-15T12:00:00Z');
    expect(keysOf(each.held('412', AT))).toContain('hold.label-longer');
  });

  test('R-25 a dose in the minute in which her number changes is hers, under the new number and the old', () => {
    const changed = about('412', 'number-changed', NOON, { to: '900' }, first);
    expect(heldOf(changed, dose('900', NOON, {}, second))).toEqual(['900']);
    expect(heldOf(changed, dose('412', NOON, {}, second))).toEqual(['900']);
    // A minute later the old number is nobody's: what holds may be hers, what frees is not.
    expect(heldOf(changed, dose('412', '2026-03-14T12:01:00Z', {}, second))).toEqual(['900']);
    const hold = about('412', 'milk-hold', '2026-03-14T11:00:00Z', { reason: 'clots' });
    const lift = (time: string) => about('412', 'milk-hold-lifted', time, { reason: 'clean' }, second);
    expect(heldOf(hold, changed, lift(NOON))).toEqual([]);
    expect(heldOf(hold, changed, lift('2026-03-14T12:01:00Z'))).toEqual(['900']);
  });

  test('R-25 where another cow takes her old number in that minute it may be either', () => {
    const changed = about('412', 'number-changed', NOON, { to: '900' }, first);
    const came = { ...milker('412', { officialId: '999000000000002' }), time: NOON };
    const took = about('413', 'number-changed', NOON, { to: '412' });
    for (const other of [came, took]) expect(heldOf(changed, other, dose('412', NOON, {}, second))).toHaveLength(2);
  });

  test('R-21 a lift of all her holds ends those from before it: one of that very time stands', () => {
    const hold = about('412', 'milk-hold', NOON, { reason: 'clots' }, first);
    const lift = (time: string, data: { hold?: string }) =>
      about('412', 'milk-hold-lifted', time, { reason: 'clean', ...data }, second);
    expect(heldOf(hold, lift(NOON, {}))).toEqual(['412']);
    expect(heldOf(hold, lift(NOON, { hold: first }))).toEqual([]);
    expect(heldOf(hold, lift('2026-03-14T12:01:00Z', {}))).toEqual([]);
  });

  test('R-90 a dose in the minute in which she leaves was given to her', () => {
    const left = about('412', 'cow-left', NOON, { reason: 'sold-for-beef' }, first);
    const views = book(left, dose('412', NOON, {}, second)).at(AT);
    expect(views.alerts.map(({ because }) => because.key)).toEqual(['alert.left-on-hold']);
  });
});
