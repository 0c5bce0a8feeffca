/** Whose hours, whose name, and whose treatment: the vet's word goes by the treatment it names. */
import { describe, expect, test } from 'vitest';
import type { DataOf } from '../../events/kinds.ts';
import { about, CUPBOARD, dose, evening, farm, farmWide, medicine, milker, type Saying } from './evening.ts';

const DOSE = '2026-03-08T12:00:00Z';
const LATER = '2026-03-08T13:00:00Z';
const AT = '2026-03-11/morning';
const FIVE_DAYS = '2026-03-13T12:00:00Z';
const book = (...more: readonly Saying[]) => evening([farm(), ...CUPBOARD, milker('412'), milker('413'), ...more]);
const given = dose('412', DOSE, {}, 'given');
const vet = (cow: string, more: Partial<DataOf<'vet-hold-time'>> = { milkHours: 120 }, time = LATER): Saying =>
  about(cow, 'vet-hold-time', time, { treatment: 'given', prescribedBy: 'Dr Vane', ...more }, 'vet');
const struckFor = (instead: string): Saying =>
  farmWide('entry-struck', '2026-03-08T14:00:00Z', { entry: 'given', reason: 'amount left out', instead });
const until = (cow: string, ...more: readonly Saying[]) => book(...more).held(cow, AT)?.until;
const doubts = (key: string, ...more: readonly Saying[]) => book(...more).doubts(AT, `doubt.vet-time-${key}`).length;

describe('a time and the name that vouches for it', () => {
  const unlisted = (more: Partial<DataOf<'treatment'>>) =>
    dose('412', DOSE, { medicine: 'Unlisted', ...more }, 'given');

  test("R-14 R-15 the crew's hours get no name from a vet who gave days for the meat alone", () => {
    const each = book(unlisted({ milkHoldHours: 24 }), vet('412', { meatDays: 28 }));
    expect(each.held('412', AT)?.until).toBeNull();
    expect(each.at(AT).sheets['beef-hold'].cows.map(({ until: end }) => end)).toEqual(['2026-04-05T12:00:00Z']);
  });

  test("R-14 R-15 nor the crew's days for the meat from a vet who gave hours for the milk", () => {
    const each = book(unlisted({ meatHoldDays: 1 }), vet('412'));
    expect(each.held('412', AT)?.until).toBe(FIVE_DAYS);
    expect(each.at(AT).sheets['beef-hold'].cows.map(({ until: end }) => end)).toEqual([null]);
  });

  test('R-15 a name on one dose of a course does not stand for the hours on another', () => {
    const course = (number: number, time: string, more: Partial<DataOf<'treatment'>>) =>
      dose('412', time, {
        medicine: 'Unlisted',
        course: { id: 'c', dose: number, of: 2, everyHours: 12 },
        ...more,
      });
    const first = course(1, DOSE, { prescribedBy: 'Dr Vane' });
    expect(until('412', first, course(2, '2026-03-09T00:00:00Z', { milkHoldHours: 24 }))).toBeNull();
    expect(until('412', first, course(2, '2026-03-09T00:00:00Z', { milkHoldHours: 96, prescribedBy: 'Dr Vane' }))).toBe(
      '2026-03-13T00:00:00Z',
    );
  });

  test("R-15 of the crew's hours and the vet's the longer stand, once the vet gave some", () => {
    expect(until('412', unlisted({ milkHoldHours: 168 }), vet('412'))).toBe('2026-03-15T12:00:00Z');
  });

  test("R-19 a vet's word on the meat after an early calving says nothing on the milk", () => {
    const cow = about('31', 'cow-entered', '2026-01-10T12:00:00Z', {
      group: 'Cows',
      lactation: 1,
      calvedOn: '2025-03-01',
      milkHoldUntil: 'none',
      meatHoldUntil: 'none',
    });
    const early = (more: Partial<DataOf<'vet-hold-time'>>) => [
      cow,
      about('31', 'dry-off', '2026-02-10T08:00:00Z', { product: 'none', group: 'Dry' }),
      dose('31', '2026-02-10T08:00:00Z', { medicine: 'Ask-vet tube', milkHoldHours: 24 }, 'given'),
      about('31', 'calving', '2026-03-05T08:00:00Z', { calves: [{ sex: 'female', alive: true }], group: 'Fresh' }),
      vet('31', more, '2026-03-05T09:00:00Z'),
    ];
    expect(until('31', ...early({ meatDays: 28 }))).toBeNull();
    expect(until('31', ...early({ milkHours: 240 }))).toBe('2026-03-15T08:00:00Z');
  });
});

describe('whose treatment it is', () => {
  test("R-15 a vet's time under the number she bore when she was treated is hers, and no doubt", () => {
    const changed = about('412', 'number-changed', '2026-03-08T12:30:00Z', { to: '900' });
    expect(until('900', given, changed, vet('412'))).toBe(FIVE_DAYS);
    expect(book(given, changed, vet('412')).at(AT).doubts).toEqual([]);
  });

  test('R-15 nor does it matter that another cow bears that number since', () => {
    const changed = about('412', 'number-changed', '2026-03-08T12:30:00Z', { to: '900' });
    const other = about('413', 'number-changed', '2026-03-08T12:40:00Z', { to: '412' });
    expect(until('900', given, changed, other, vet('412'))).toBe(FIVE_DAYS);
    expect(until('412', given, changed, other, vet('412'))).toBeUndefined();
  });

  test('R-15 under the number of another cow it lengthens the hold of the treated one, with a doubt', () => {
    expect(until('412', given, vet('413'))).toBe(FIVE_DAYS);
    expect(until('413', given, vet('413'))).toBeUndefined();
    expect([doubts('elsewhere', given, vet('413')), doubts('unplaced', given, vet('413'))]).toEqual([1, 0]);
  });

  test('R-15 and under a number that nobody bears', () => {
    expect(until('412', given, vet('999'))).toBe(FIVE_DAYS);
    expect(doubts('elsewhere', given, vet('999'))).toBe(1);
  });

  test('R-14 R-15 under the number of another cow it gives no open hold its end', () => {
    expect(until('412', dose('412', DOSE, { medicine: 'Unlisted' }, 'given'), vet('413'))).toBeNull();
  });

  test('R-15 R-25 a dose that nobody can place stands as long as its vet says, whatever number the vet wrote', () => {
    const stray = dose('999', DOSE, {}, 'given');
    const asked = (number: string, milking: string) =>
      book(stray, vet(number))
        .at(milking)
        .sheets['milk-hold'].unplaced.map((row) => row.number);
    for (const number of ['999', '413']) {
      expect([asked(number, '2026-03-13/morning'), asked(number, '2026-03-13/afternoon')]).toEqual([['999'], []]);
    }
    expect(doubts('unplaced', stray, vet('413'))).toBe(0);
  });
});

describe('a treatment that was corrected', () => {
  const amount = { value: 20, unit: 'ml' } as const;

  test("R-15 R-23 the vet's time goes with it to the entry that is right instead", () => {
    const copy = dose('412', DOSE, { amount }, 'copy');
    expect(until('412', given, vet('412'), copy, struckFor('copy'))).toBe(FIVE_DAYS);
    expect(book(given, vet('412'), copy, struckFor('copy')).at(AT).doubts).toEqual([]);
  });

  test('R-15 R-23 and gives it its end where the medicine is the same one', () => {
    const unlisted = dose('412', DOSE, { medicine: 'Unlisted' }, 'given');
    const copy = (medicine: string) => dose('412', DOSE, { medicine, amount }, 'copy');
    expect(until('412', unlisted, vet('412'), copy('unlisted'), struckFor('copy'))).toBe(FIVE_DAYS);
    expect(until('412', unlisted, vet('412'), copy('Unheard of'), struckFor('copy'))).toBeNull();
  });

  test('R-15 R-23 to another cow it goes as a time under a number that is not hers: it only lengthens', () => {
    const copy = dose('413', DOSE, {}, 'copy');
    expect(until('413', given, vet('412'), copy, struckFor('copy'))).toBe(FIVE_DAYS);
    expect(doubts('elsewhere', given, vet('412'), copy, struckFor('copy'))).toBe(1);
  });

  test("R-15 R-23 struck and never so, the vet's time is about nothing", () => {
    expect(until('412', given, vet('412'), struckFor('nothing'))).toBeUndefined();
    expect(doubts('unplaced', given, vet('412'), struckFor('nothing'))).toBe(1);
  });

  test('R-15 R-23 struck without a word on what is right, it is asked about as long as the vet said', () => {
    const asked = (milking: string) =>
      book(given, vet('412'), struckFor('elsewhere')).at(milking).sheets['milk-hold'].unplaced.length;
    expect([asked('2026-03-13/morning'), asked('2026-03-13/afternoon')]).toEqual([1, 0]);
  });
});

describe('a label that came while nobody knew', () => {
  test("R-15 R-29 a label listed while the hold was open is not shortened by the vet's time given after it", () => {
    const listed = medicine('Not known', { milkHold: { hours: 96 }, meatDays: 3 }, '2026-03-10T12:00:00Z');
    const unknown = dose('412', DOSE, { medicine: 'Not known' }, 'given');
    const said = (time: string) => until('412', unknown, listed, vet('412', { milkHours: 24 }, time));
    expect(said('2026-03-10T18:00:00Z')).toBe('2026-03-12T12:00:00Z');
    // Said before the label came: the hold was over by then.
    expect(said(LATER)).toBeUndefined();
    expect(until('412', unknown, vet('412', { milkHours: 24 }, '2026-03-10T18:00:00Z'))).toBeUndefined();
  });
});
