/** The fresh pen at its edges, worked by hand from the rules. Milked 05:00 and 16:30, 36 hours in the pen, a fresh hold of four milkings. */
import { describe, expect, test } from 'vitest';
import { about, CUPBOARD, dryCow, evening, farm, milker, type Saying } from './evening.ts';

const MORNING = '2026-03-14/morning';
const moves = (sayings: readonly Saying[], milking = MORNING) => evening(sayings).at(milking).sheets['fresh-moves'];
const book = (...more: readonly Saying[]) => [farm(), ...CUPBOARD, ...more];
/** A farm that moves cows while their fresh hold runs. */
const moving = (...more: readonly Saying[]) => [farm({ freshHoldMayMove: true }), ...CUPBOARD, ...more];
const springer = (cow: string, more = {}) =>
  milker(cow, { group: 'Close-up', calvedOn: '2025-02-01', driedOffOn: '2026-01-08', driedOffWith: 'none', ...more });
const calved = (cow: string, time: string, group?: string) =>
  about(cow, 'calving', time, { calves: [{ sex: 'female', alive: true }], ...(group === undefined ? {} : { group }) });
const out = (sheet: ReturnType<typeof moves>) => sheet.out.map(({ cow, to }) => [cow, to]);
const stay = (sheet: ReturnType<typeof moves>) => sheet.stay.map(({ because }) => [because.key, because.values]);

describe('out', () => {
  test('R-50 R-10 a cow whose fresh hold ends with this very milking stays for it, and goes at the next', () => {
    // Calved 12 March 04:00: the fourth milking after is the 13th at 16:30, 36½ hours on.
    const ida = book(springer('1'), calved('1', '2026-03-12T04:00:00Z', 'Fresh'));
    expect(stay(moves(ida, '2026-03-13/afternoon'))).toEqual([
      ['fresh.stay-on-hold', { until: '2026-03-13T16:30:00Z' }],
    ]);
    expect(out(moves(ida))).toEqual([['1', 'Cows']]);
  });

  test('R-50 at least the fresh-pen hours: 36 hours to the minute are enough, a minute less is not', () => {
    const at = (time: string) => moves(moving(springer('1'), calved('1', time, 'Fresh')));
    const enough = at('2026-03-12T17:00:00Z');
    expect(enough.out.map(({ because }) => because.values)).toEqual([
      { calved: '2026-03-12T17:00:00Z', hours: 36, wanted: 36, lactation: 3 },
    ]);
    expect(stay(at('2026-03-12T17:01:00Z'))).toEqual([
      ['fresh.stay-hours', { calved: '2026-03-12T17:01:00Z', hours: 35, wanted: 36 }],
    ]);
  });

  test('R-50 R-07 after twins the hours run from the later calf', () => {
    const twins = [calved('1', '2026-03-09T04:00:00Z', 'Fresh'), calved('1', '2026-03-12T17:01:00Z', 'Fresh')];
    expect(stay(moves(moving(springer('1'), ...twins))).map(([key]) => key)).toEqual(['fresh.stay-hours']);
  });

  test("R-50 R-06 a calving known only by its date counts from that day's end", () => {
    // Calved on the 12th: by 14 March 05:00 that is 29 hours for certain, by 16:30 it is 40.
    const came = moving({ ...milker('1', { group: 'Fresh', calvedOn: '2026-03-12' }), time: '2026-03-13T08:00:00Z' });
    expect(stay(moves(came)).map(([key]) => key)).toEqual(['fresh.stay-hours']);
    expect(out(moves(came, '2026-03-14/afternoon'))).toEqual([['1', 'Cows']]);
  });

  test('R-50 R-19 where cows move on their fresh hold, the hold of a dry-cow product keeps one', () => {
    // Dried off with it on 8 January, calved 11 March 06:00, 96 hours: until the 15th at 06:00.
    const treated = moving(
      springer('1', { driedOffWith: 'Dry-cow tube' }),
      calved('1', '2026-03-11T06:00:00Z', 'Fresh'),
    );
    expect(stay(moves(treated))).toEqual([['fresh.stay-on-hold', { until: '2026-03-15T06:00:00Z' }]]);
    expect(out(moves(treated, '2026-03-15/afternoon'))).toEqual([['1', 'Cows']]);
  });

  test('R-50 a group that takes any cow takes her where none takes her lactation; where none does, she stays', () => {
    const groups = (takes: 'any' | 'first-lactation') => [
      { name: 'All', kind: 'milking' as const, takes },
      { name: 'Fresh', kind: 'fresh' as const },
      { name: 'Close-up', kind: 'close-up' as const },
    ];
    const cow = [springer('1'), calved('1', '2026-03-11T06:00:00Z', 'Fresh')];
    expect(out(moves([farm({ groups: groups('any') }), ...cow]))).toEqual([['1', 'All']]);
    expect(stay(moves([farm({ groups: groups('first-lactation') }), ...cow]))).toEqual([
      ['fresh.stay-no-group', { lactation: 3 }],
    ]);
  });

  test('R-50 a farm that has set no fresh-pen hours moves nobody: what is not set is said', () => {
    const { freshPenHours: _, ...set } = farm().data as Record<string, unknown>;
    const unset = { ...farm(), data: set };
    const cow = [springer('1'), calved('1', '2026-03-11T06:00:00Z', 'Fresh')];
    expect(stay(moves([unset, ...cow]))).toEqual([['fresh.stay-hours-not-set', {}]]);
  });

  test('R-50 one in the pen that has not calved stays, and so does one whose calving nobody knows', () => {
    const came = (cow: string, lactation: number) =>
      about(cow, 'cow-entered', '2026-01-10T12:00:00Z', {
        group: 'Fresh',
        lactation,
        milkHoldUntil: 'none',
        meatHoldUntil: 'none',
      });
    expect(stay(moves(book(came('1', 0), came('2', 2)))).map(([key]) => key)).toEqual([
      'fresh.stay-not-calved',
      'fresh.stay-calving-unknown',
    ]);
  });
});

describe('in', () => {
  const into = (...more: readonly Saying[]) =>
    moves(book(...more)).in.map(({ cow, group, because }) => [cow, group, because.key]);

  test('R-50 a cow past due and still among the dry ones comes in; so does one still milked a week before', () => {
    expect(into(dryCow('1', { dueOn: '2026-03-12' }), milker('2', { dueOn: '2026-03-21' }))).toEqual([
      ['2', 'Cows', 'fresh.in-due'],
      ['1', 'Dry', 'fresh.in-due'],
    ]);
  });

  test('R-50 a cow that calves among the milkers comes in until somebody puts her in a group', () => {
    const calving = calved('1', '2026-03-13T20:00:00Z');
    expect(into(milker('1', { calvedOn: '2025-02-01', dueOn: '2026-03-14' }), calving)).toEqual([
      ['1', 'Cows', 'fresh.in-calved'],
    ]);
    const put = about('1', 'group-move', '2026-03-13T22:00:00Z', { to: 'Hospital' });
    expect(into(milker('1', { calvedOn: '2025-02-01', dueOn: '2026-03-14' }), calving, put)).toEqual([]);
  });

  test('R-50 a cow that calved into the pen is not called in, and a due date that nobody confirmed calls nobody', () => {
    const served = about('2', 'service', '2025-06-10T10:00:00Z', { how: 'natural' });
    const early = {
      ...dryCow('2'),
      time: '2025-06-01T12:00:00Z',
      data: { group: 'Dry', lactation: 2, milkHoldUntil: 'none', meatHoldUntil: 'none', driedOffWith: 'none' },
    };
    expect(
      into(springer('1', { dueOn: '2026-03-14' }), calved('1', '2026-03-13T20:00:00Z', 'Fresh'), early, served),
    ).toEqual([]);
  });
});

describe('capacity', () => {
  test('R-51 cows that go before her on the same sheet fill the group too', () => {
    const groups = (capacity: number) => [
      { name: 'Cows', kind: 'milking' as const, capacity },
      { name: 'Fresh', kind: 'fresh' as const },
      { name: 'Close-up', kind: 'close-up' as const },
    ];
    const pair = [
      springer('1'),
      springer('2'),
      calved('1', '2026-03-11T06:00:00Z', 'Fresh'),
      calved('2', '2026-03-11T07:00:00Z', 'Fresh'),
    ];
    const warned = (capacity: number) =>
      moves([farm({ groups: groups(capacity) }), milker('8'), milker('9'), ...pair]).out.map(({ cow, warnings }) => [
        cow,
        warnings.map(({ values }) => values),
      ]);
    expect(warned(4)).toEqual([
      ['1', []],
      ['2', []],
    ]);
    expect(warned(3)).toEqual([
      ['1', []],
      ['2', [{ group: 'Cows', head: 4, capacity: 3 }]],
    ]);
    expect(warned(2).map(([, said]) => said)).toEqual([
      [{ group: 'Cows', head: 3, capacity: 2 }],
      [{ group: 'Cows', head: 4, capacity: 2 }],
    ]);
  });
});
