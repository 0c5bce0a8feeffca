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

  const setUp = (wish: Parameters<typeof farm>[0], id: string, time = '2026-02-20T09:00:00Z'): Saying => ({
    ...farm({ from: '2026-03-01', ...wish }, id),
    time,
  });
  const calved = about('412', 'calving', '2026-03-12T06:00:00Z', { calves: [{ sex: 'male', alive: true }] });
  const under = (...setUps: readonly Saying[]) => evening([farm(), ...setUps, milker('412'), calved]);
  const until = (...setUps: readonly Saying[]) => under(...setUps).held('412', '2026-03-14/morning')?.until;

  test('R-20 R-29 of two set-ups of one time for one date the longer fresh hold counts', () => {
    const [eight, day] = [{ freshHold: { milkings: 8 } }, { freshHold: { hours: 24 } }];
    // The eighth milking after the 12th at 06:00 starts on the 16th at 05:00.
    expect(until(setUp(eight, first), setUp(day, second))).toBe('2026-03-16T05:00:00Z');
    expect(until(setUp(day, first), setUp(eight, second))).toBe('2026-03-16T05:00:00Z');
    // Made a minute later it is the later word, for the same date too.
    const four = setUp({ freshHold: { milkings: 4 } }, second, '2026-02-20T09:01:00Z');
    expect(until(setUp(eight, first), four)).toBe('2026-03-14T05:00:00Z');
    // Two that come after the calving stretch her hold while it runs.
    const later = { from: '2026-03-13' };
    const noDay = setUp({ freshHold: { hours: 30 } }, 'before');
    expect(until(noDay, setUp({ ...eight, ...later }, first), setUp({ ...day, ...later }, second))).toBe(
      '2026-03-16T05:00:00Z',
    );
  });

  test('R-20 R-29 one of two that sets no fresh hold leaves it open; a later set-up that sets one ends that', () => {
    const [none, eight] = [setUp({ freshHold: undefined }, first), setUp({ freshHold: { milkings: 8 } }, second)];
    expect(keysOf(under(none, eight).held('412', AT))).toEqual(['hold.fresh-not-set']);
    const four = { ...farm({ from: '2026-03-14', freshHold: { milkings: 4 } }, 'after'), time: '2026-03-13T09:00:00Z' };
    expect(until(none, eight, four)).toBe('2026-03-16T05:00:00Z');
    expect(until(none, four)).toBe('2026-03-14T05:00:00Z');
  });

  test('R-20 R-29 the longer time before a due date counts too', () => {
    const due = (days: number, id: string) => setUp({ freshHold: { milkings: 4, daysBeforeDue: days } }, id);
    const near = milker('413', { dueOn: '2026-03-20' });
    const each = evening([farm(), due(10, first), due(3, second), near]);
    expect(keysOf(each.held('413', AT))).toEqual(['hold.before-due']);
    expect(evening([farm(), due(3, first), due(4, second), near]).held('413', AT)).toBeUndefined();
  });

  test('R-18 R-29 of two off-label laws of one time the one that holds longer counts, for milk and for meat', () => {
    const listed = medicine('Q', { milkHold: { hours: 48 }, meatDays: 3 }, '2026-02-01T00:00:00Z');
    const vet = { milkHoldHours: 60, meatHoldDays: 4, prescribedBy: 'Dr Vane' };
    const given = (more: object) => dose('412', '2026-03-13T12:00:00Z', { medicine: 'Q', offLabel: true, ...more });
    const each = (one: 'vet' | 'eu-2019-6', other: 'vet' | 'eu-2019-6', more: object) =>
      evening([
        farm(),
        listed,
        setUp({ offLabel: one }, first),
        setUp({ offLabel: other }, second),
        milker('412'),
        given(more),
      ]);
    for (const [one, other] of [
      ['vet', 'eu-2019-6'],
      ['eu-2019-6', 'vet'],
    ] as const) {
      // The law: three days for milk, five for meat. The vet alone: sixty hours and four days.
      const by = each(one, other, vet);
      expect(by.held('412', AT)?.until).toBe('2026-03-16T12:00:00Z');
      expect(by.at(AT).sheets['beef-hold'].cows.map(({ until: end }) => end)).toEqual(['2026-03-18T12:00:00Z']);
      // With the vet's name and no time it is open under the vet's rule.
      expect(each(one, other, { prescribedBy: 'Dr Vane' }).held('412', AT)?.until).toBeNull();
    }
    expect(each('eu-2019-6', 'eu-2019-6', { prescribedBy: 'Dr Vane' }).held('412', AT)?.until).toBe(
      '2026-03-16T12:00:00Z',
    );
  });

  test('R-02 R-29 all else goes by the last of two set-ups of one time, as it did', () => {
    const slow = setUp({ parlour: { stalls: 10, turnMinutes: 20 } }, first);
    const quick = setUp({ parlour: { stalls: 10, turnMinutes: 10 } }, second);
    expect(under(slow, quick).at(AT).sheets['milking-plan'].minutes).toBe(first === 'two' ? 20 : 10);
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
