/** The milking plan at its edges, worked by hand. Ten stalls, ten minutes a turn, four more for a slow cow; slow from ten minutes. */
import { describe, expect, test } from 'vitest';
import { about, dryCow, evening, farm, milker, type Saying } from './evening.ts';

const AT = '2026-03-14/afternoon';
const plan = (sayings: readonly Saying[], milking = AT) => evening(sayings).at(milking).sheets['milking-plan'];
const herd = (cows: number, from = 1) => Array.from({ length: cows }, (_, index) => milker(String(from + index)));
/** One record a morning from 1 March on; null where nobody timed her. */
const records = (cow: string, minutes: readonly (number | null)[]) =>
  minutes.map((each, index) => {
    const day = `2026-03-${String(index + 1).padStart(2, '0')}`;
    return about(cow, 'milk-record', `${day}T06:00:00Z`, {
      milking: `${day}/morning`,
      kg: 15,
      ...(each === null ? {} : { minutes: each }),
    });
  });

describe('turns and minutes', () => {
  test('R-80 as many cows as stalls are one turn, one more is two; nobody is none', () => {
    const turns = (cows: number) => plan([farm(), ...herd(cows)]).groups[0];
    expect([turns(10), turns(11)].map((row) => [row?.turns, row?.minutes])).toEqual([
      [1, 10],
      [2, 20],
    ]);
    expect(plan([farm()]).groups.map((row) => [row.turns, row.minutes])).toEqual([
      [0, 0],
      [0, 0],
      [0, 0],
      [0, 0],
    ]);
  });

  test('R-80 cows in milk are counted: not the dry one that stands among them, and the one dried off at noon no more', () => {
    const dried = about('10', 'dry-off', '2026-03-14T12:00:00Z', { product: 'none' });
    const sayings = [farm(), ...herd(10), dryCow('50', { group: 'Cows' }), dried];
    expect(plan(sayings, '2026-03-14/morning').groups[0]).toMatchObject({ cows: 10, turns: 1 });
    expect(plan(sayings).groups[0]).toMatchObject({ cows: 9, turns: 1 });
  });

  test('R-80 R-81 slow cows cost extra up to one a turn', () => {
    const slow = ['1', '2', '3'].flatMap((cow) => records(cow, [12]));
    // Three slow ones among eleven: two turns, so twice four minutes. Among three: one turn, once four.
    expect(plan([farm(), ...herd(11), ...slow]).groups[0]).toMatchObject({ turns: 2, minutes: 28 });
    expect(plan([farm(), ...herd(3), ...slow]).groups[0]).toMatchObject({ turns: 1, minutes: 14 });
    expect(plan([farm(), ...herd(11), ...records('1', [12])]).groups[0]).toMatchObject({ turns: 2, minutes: 24 });
  });

  test('R-80 a farm that sets no extra minutes has none', () => {
    const bare = farm({ parlour: { stalls: 10, turnMinutes: 10 } });
    const made = plan([bare, ...herd(3), ...records('1', [12])]);
    expect([made.groups[0]?.minutes, made.slow]).toEqual([10, ['1']]);
  });

  test('R-80 R-03 a group that is not milked now is not in the plan', () => {
    const groups = [
      { name: 'Cows', kind: 'milking' as const },
      { name: 'Once', kind: 'milking' as const, milkedAt: ['morning'] },
    ];
    const names = (milking: string) =>
      plan([farm({ groups }), ...herd(2), milker('9', { group: 'Once' })], milking).groups.map(({ group }) => group);
    expect([names('2026-03-14/morning'), names(AT)]).toEqual([['Cows', 'Once'], ['Cows']]);
  });

  test('R-80 the hospital is last, also after a close-up group that the farm milks', () => {
    const groups = [
      { name: 'Hospital', kind: 'hospital' as const, order: 1 },
      { name: 'Close-up', kind: 'close-up' as const, milkedAt: ['afternoon'] },
      { name: 'Dry', kind: 'dry' as const },
      { name: 'Cows', kind: 'milking' as const, order: 2 },
    ];
    expect(plan([farm({ groups }), ...herd(2)]).groups.map(({ group }) => group)).toEqual([
      'Cows',
      'Close-up',
      'Hospital',
    ]);
  });

  test('R-80 a group that the set-up does not have is milked before the hospital, which stays last', () => {
    const strayed = about('2', 'group-move', '2026-03-13T09:00:00Z', { to: 'Orchard' });
    const made = plan([farm(), ...herd(2), milker('9', { group: 'Hospital' }), strayed]);
    expect(made.groups.map(({ group, start }) => [group, start])).toEqual([
      ['Cows', '2026-03-14T16:30:00Z'],
      ['Heifers', '2026-03-14T16:40:00Z'],
      ['Fresh', '2026-03-14T16:40:00Z'],
      ['Orchard', '2026-03-14T16:40:00Z'],
      ['Hospital', '2026-03-14T16:50:00Z'],
    ]);
  });
});

describe('slow cows', () => {
  const isSlow = (minutes: readonly (number | null)[]) =>
    plan([farm(), milker('1'), ...records('1', minutes)]).slow.length === 1;

  test('R-81 of an even number of records the median lies between the middle two', () => {
    expect(isSlow([8, 12])).toBe(true);
    expect(isSlow([8, 11.9])).toBe(false);
    expect(isSlow([4, 9, 11, 30])).toBe(true);
    expect(isSlow([4, 8, 11, 30])).toBe(false);
  });

  test('R-81 one very long milking does not make her slow', () => {
    expect(isSlow([6, 6, 6, 6, 60])).toBe(false);
  });

  test('R-81 a record that nobody timed says nothing and takes no place among the ten', () => {
    expect(isSlow([null, null])).toBe(false);
    expect(isSlow([12, null, null, null, null, null, null, null, null, null, null])).toBe(true);
  });

  test('R-81 the tenth record back still counts, the eleventh does not', () => {
    const fives = [12, 12, 12, 12, 12, 6, 6, 6, 6, 6];
    // Half at 12 and half at 6: nine. One more 12 for a 6: the median is twelve. The oldest of eleven falls out.
    expect(isSlow(fives)).toBe(false);
    expect(isSlow([12, ...fives.slice(0, 9)])).toBe(true);
    expect(isSlow([12, ...fives])).toBe(false);
  });

  test("R-81 the farm's own limit counts; records of this milking and after do not", () => {
    const eight = farm({ parlour: { stalls: 10, turnMinutes: 10, slowFromMinutes: 8 } });
    expect(plan([eight, milker('1'), ...records('1', [8])]).slow).toEqual(['1']);
    expect(plan([farm(), milker('1'), ...records('1', [12])], '2026-03-01/morning').slow).toEqual([]);
  });

  test('R-81 a farm that sets no limit has one of ten minutes', () => {
    const bare = farm({ parlour: { stalls: 10, turnMinutes: 10 } });
    const cows = [milker('1'), ...records('1', [10]), milker('2'), ...records('2', [9.9])];
    expect(plan([bare, ...cows]).slow).toEqual(['1']);
  });
});
