/** Which cow is meant, the harder cases. Milkings start 05:00 and 16:30. */
import { describe, expect, test } from 'vitest';
import type { Aside } from '../../events/entry.ts';
import { mustBeInstant } from '../../shared/instant.ts';
import {
  about,
  CUPBOARD,
  dose,
  dryCow,
  evening,
  farm,
  farmWide,
  keysOf,
  medicine,
  milker,
  type Saying,
} from './evening.ts';

const DOSE = '2026-03-14T16:40:00Z';
const NEXT = '2026-03-15/morning';
const book = (...more: readonly Saying[]) => evening([farm(), ...CUPBOARD, ...more]);
const sheet = (each: ReturnType<typeof book>, milking = NEXT) => each.at(milking).sheets['milk-hold'];
const unplaced = (each: ReturnType<typeof book>, milking = NEXT) =>
  sheet(each, milking).unplaced.map(({ number }) => number);
const heldOf = (each: ReturnType<typeof book>, milking = NEXT) => sheet(each, milking).held.map(({ cow }) => cow);

describe('unplaced', () => {
  test('R-25 a hold, a positive test and a calving of nobody in the herd are unplaced as a dose is', () => {
    const each = book(
      about('901', 'milk-hold', DOSE, { reason: 'clots' }),
      about('902', 'residue-test', DOSE, { result: 'positive', of: 'cow' }),
      about('903', 'calving', DOSE, { calves: [{ sex: 'male', alive: true }] }),
      about('904', 'group-move', DOSE, { to: 'Cows' }),
    );
    expect([...unplaced(each)].sort()).toEqual(['901', '902', '903']);
  });

  test('R-25 a dose that holds no milk asks nobody to find the cow', () => {
    expect(unplaced(book(dose('999', DOSE, { medicine: 'Nothing held' })))).toEqual([]);
  });

  test('R-25 R-29 whoever had it may be in milk: what is for others stands until it is settled, hold of zero or not', () => {
    const strays = (label: Partial<Parameters<typeof medicine>[1]>) =>
      unplaced(
        book(
          medicine('For others', { milkHold: { hours: 24 }, meatDays: 3, ...label }),
          dose('999', DOSE, { medicine: 'For others' }),
        ),
        '2026-06-01/morning',
      );
    expect(strays({ for: ['dry'] })).toEqual(['999']);
    expect(strays({ for: ['young'], milkHold: 'none' })).toEqual(['999']);
    expect(strays({ milkHold: 'none', authorisedForMilkAnimals: false })).toEqual(['999']);
    expect(strays({ for: ['dry', 'milking'] })).toEqual([]);
  });

  test('R-25 R-29 doses under one number count together: one more than the label has stands until it is settled', () => {
    const label = medicine('Two at most', { milkHold: { hours: 24 }, meatDays: 3, maxDoses: 2 });
    const doses = ['2026-03-12T16:40:00Z', '2026-03-13T16:40:00Z', DOSE].map((time) =>
      dose('999', time, { medicine: 'Two at most' }),
    );
    expect(unplaced(book(label, ...doses), '2026-06-01/morning')).toEqual(['999']);
    expect(unplaced(book(label, ...doses.slice(1)), '2026-06-01/morning')).toEqual([]);
  });

  test('R-25 a dose with no end stands until it is settled', () => {
    const each = book(dose('999', DOSE, { medicine: 'Not known' }, 'stray'));
    expect(unplaced(each, '2026-06-01/morning')).toEqual(['999']);
  });

  test('R-25 a dry-cow product of nobody in the herd stands until settled, however its name is spaced', () => {
    for (const name of ['Dry-cow tube', 'dry-cow  TUBE']) {
      expect(unplaced(book(dose('999', DOSE, { medicine: name })), '2026-04-15/morning')).toEqual(['999']);
    }
  });

  test('R-25 R-12 a label in milkings stands as long as it would for the group milked least often', () => {
    const groups = [
      { name: 'Cows', kind: 'milking' as const },
      { name: 'Once', kind: 'milking' as const, milkedAt: ['morning'] },
    ];
    const each = evening([
      farm({ groups }),
      ...CUPBOARD,
      milker('1'),
      dose('999', DOSE, { medicine: 'Five milkings' }),
    ]);
    // Five mornings: 15, 16, 17, 18 and 19 March, 05:00.
    expect(unplaced(each, '2026-03-19/morning')).toEqual(['999']);
    expect(unplaced(each, '2026-03-19/afternoon')).toEqual([]);
  });

  test('R-25 an official number that is in the herd means that cow, spaces and all; one that is not is unplaced', () => {
    const cow = milker('412', { officialId: '999000000000412' });
    expect(heldOf(book(cow, dose('999 000000 000412', DOSE)))).toEqual(['412']);
    expect(unplaced(book(cow, dose('999000000000413', DOSE)))).toEqual(['999000000000413']);
  });

  test('R-25 a dose from before she was entered under that number holds her, and stays unplaced', () => {
    const came = { ...milker('501'), time: '2026-03-14T20:00:00Z' };
    const each = book(came, dose('501', DOSE));
    expect([heldOf(each), unplaced(each)]).toEqual([['501'], ['501']]);
    expect(keysOf(each.held('501', NEXT))).toContain('hold.may-be-her');
  });

  test('R-25 a dose for a cow that has left is unplaced', () => {
    const left = about('412', 'cow-left', '2026-03-10T08:00:00Z', { reason: 'died' });
    expect(unplaced(book(milker('412'), left, dose('412', DOSE)))).toEqual(['412']);
  });
});

describe('a number that may mean two cows', () => {
  const two = [
    milker('412', { officialId: '999000000000001' }),
    milker('412', { officialId: '999000000000002', lactation: 3 }),
  ];

  test('R-25 a hold and a positive test hold both', () => {
    expect(heldOf(book(...two, about('412', 'milk-hold', DOSE, { reason: 'clots' })))).toEqual(['412', '412']);
    expect(heldOf(book(...two, about('412', 'residue-test', DOSE, { result: 'positive', of: 'cow' })))).toEqual([
      '412',
      '412',
    ]);
  });

  test('R-25 what would free her frees neither: a clear test, the end of a course, a dry-off, a leaving', () => {
    const first = (type: 'milk-hold' | 'residue-test', data: never) => about('999000000000001', type, DOSE, data);
    const positive = first('residue-test', { result: 'positive', of: 'cow' } as never);
    const later = '2026-03-14T18:00:00Z';
    for (const freeing of [
      about('412', 'residue-test', later, { result: 'clear', of: 'cow' }),
      about('412', 'dry-off', later, { product: 'none', group: 'Dry' }),
      about('412', 'cow-left', later, { reason: 'died' }),
    ]) {
      expect(heldOf(book(...two, positive, freeing))).toEqual(['412']);
    }
    const course = dose('999000000000001', DOSE, { course: { id: 'c1', dose: 1, of: 3, everyHours: 12 } });
    const ended = about('412', 'course-ended', later, { course: 'c1', reason: 'well' });
    expect(sheet(book(...two, course, ended)).held[0]?.until).toBe('2026-03-18T04:40:00Z');
  });

  test('R-25 by official number one of them is meant', () => {
    expect(heldOf(book(...two, dose('999000000000002', DOSE)))).toHaveLength(1);
  });

  test('R-25 once one of them has another number, the old one means the other again', () => {
    const renumbered = about('999000000000002', 'number-changed', '2026-03-10T08:00:00Z', { to: '600' });
    const each = book(...two, renumbered, dose('412', DOSE));
    expect([heldOf(each), unplaced(each)]).toEqual([['412'], []]);
  });
});

describe('leading zeros', () => {
  test('R-25 it goes both ways: "7" may be the cow "007"', () => {
    const each = book(milker('007'), dose('7', DOSE));
    expect([heldOf(each), unplaced(each)]).toEqual([['007'], ['7']]);
  });

  test('R-25 two cows it may be are both held', () => {
    const each = book(milker('07'), milker('007', { lactation: 3 }), dose('7', DOSE));
    expect([heldOf(each).sort(), unplaced(each)]).toEqual([['007', '07'], ['7']]);
  });

  test('R-25 what would free the cow is not laid to her door', () => {
    const each = book(
      milker('7'),
      about('7', 'milk-hold', DOSE, { reason: 'clots' }),
      about('007', 'milk-hold-lifted', '2026-03-14T18:00:00Z', { reason: 'clean' }),
    );
    expect(heldOf(each)).toEqual(['7']);
  });
});

describe('cows that left on hold', () => {
  test('R-25 a free cow that left is not on the sheet, nor a held one once it is settled', () => {
    const left = about('412', 'cow-left', '2026-03-14T18:00:00Z', { reason: 'died' }, 'gone');
    expect(unplaced(book(milker('412'), left))).toEqual([]);
    const settled = farmWide('settled', '2026-03-14T19:00:00Z', { about: 'left-on-hold:gone:appears', how: 'dead' });
    expect(unplaced(book(milker('412'), dose('412', DOSE), left))).toEqual(['412']);
    expect(unplaced(book(milker('412'), dose('412', DOSE), left, settled))).toEqual([]);
  });

  test('R-25 seven days at most: seven to the minute she still stands there', () => {
    // Left 7 March 16:30; the afternoon of the 14th starts seven days later to the minute.
    const left = about('412', 'cow-left', '2026-03-07T16:30:00Z', { reason: 'other' });
    const each = book(milker('412'), about('412', 'milk-hold', '2026-03-05T08:00:00Z', { reason: 'clots' }), left);
    expect(unplaced(each, '2026-03-14/afternoon')).toEqual(['412']);
    expect(unplaced(each, '2026-03-15/morning')).toEqual([]);
  });
});

describe('struck', () => {
  const given = dose('412', DOSE, {}, 'given');
  const strike = (more: { instead?: string }, entry = 'given') =>
    farmWide('entry-struck', '2026-03-14T18:00:00Z', { entry, reason: 'wrong', ...more });

  test('R-23 a strike that names the struck entry itself, or a strike, has not said what is true instead', () => {
    const other = { ...strike({ instead: 'nothing' }, 'elsewhere'), id: 'a-strike' };
    expect(unplaced(book(milker('412'), given, strike({ instead: 'given' })))).toEqual(['412']);
    expect(unplaced(book(milker('412'), given, other, strike({ instead: 'a-strike' })))).toEqual(['412']);
  });

  test('R-23 of two strikes of one entry the one that says what is true instead is enough', () => {
    expect(unplaced(book(milker('412'), given, strike({}), { ...strike({ instead: 'nothing' }), id: 's2' }))).toEqual(
      [],
    );
  });

  test('R-23 a struck dry-off and a struck hold want the same word as a dose; a struck group move does not', () => {
    const dried = about('412', 'dry-off', DOSE, { product: 'Dry-cow tube' }, 'given');
    const hold = about('412', 'milk-hold', DOSE, { reason: 'clots' }, 'given');
    const move = about('412', 'group-move', DOSE, { to: 'Heifers' }, 'given');
    expect([dried, hold, move].map((entry) => unplaced(book(milker('412'), entry, strike({}))))).toEqual([
      ['412'],
      ['412'],
      [],
    ]);
  });

  test('R-23 a struck dose asks until its hold would have been over, and no longer', () => {
    const each = book(milker('412'), given, strike({}));
    expect([unplaced(each, '2026-03-16/afternoon'), unplaced(each, '2026-03-17/morning')]).toEqual([['412'], []]);
  });

  test('R-23 a lift, an end of course, a calving that is struck counts for nothing', () => {
    const lifted = about('412', 'milk-hold-lifted', '2026-03-14T17:30:00Z', { reason: 'clean' }, 'given');
    expect(
      heldOf(book(milker('412'), about('412', 'milk-hold', DOSE, { reason: 'clots' }), lifted, strike({}))),
    ).toEqual(['412']);
    const calved = about('31', 'calving', DOSE, { calves: [{ sex: 'male', alive: true }], group: 'Fresh' }, 'given');
    expect(heldOf(book(dryCow('31'), calved, strike({})))).toEqual([]);
  });

  test('R-23 whatever its time: a strike dated before the entry it names strikes it', () => {
    const before = { ...strike({ instead: 'nothing' }), time: '2026-03-01T08:00:00Z' };
    expect(heldOf(book(milker('412'), before, given))).toEqual([]);
  });
});

describe('set aside', () => {
  const aside = (cows: readonly string[], key = 'set-aside:1'): Aside => ({
    key,
    problem: 'unreadable',
    cows,
    recordedAt: mustBeInstant(DOSE),
  });
  const withAside = (cows: readonly string[], ...more: readonly Saying[]) =>
    evening([farm(), ...CUPBOARD, ...more], [aside(cows)]);

  test('R-27 it holds each cow whose number can be read in it, in milk, whatever she was called since', () => {
    const changed = about('412', 'number-changed', '2026-03-14T18:00:00Z', { to: '600' });
    expect(heldOf(withAside(['412', '7'], milker('412'), milker('7'), milker('8'), changed)).sort()).toEqual([
      '600',
      '7',
    ]);
  });

  test('R-27 a number with zeros too many holds the cow it may mean', () => {
    expect(heldOf(withAside(['007'], milker('7')))).toEqual(['7']);
  });

  test('R-27 R-24 a dry cow it may concern is not on the list of the milked, and is as soon as she calves', () => {
    const each = withAside(
      ['31'],
      dryCow('31'),
      about('31', 'calving', '2026-03-15T10:00:00Z', { calves: [{ sex: 'male', alive: true }], group: 'Fresh' }),
    );
    expect(heldOf(each)).toEqual([]);
    expect(each.held('31', '2026-03-20/morning')?.until).toBeNull();
  });

  test('R-27 R-13 her meat is held too', () => {
    expect(withAside(['412'], milker('412')).at(NEXT).sheets['beef-hold'].cows).toEqual([
      expect.objectContaining({ cow: '412', until: null }),
    ]);
  });

  test('R-27 of two set aside each wants its own settling', () => {
    const settled = farmWide('settled', DOSE, { about: 'set-aside:1', how: 'entered again' });
    const each = evening(
      [farm(), ...CUPBOARD, milker('412'), settled],
      [aside(['412']), aside(['412'], 'set-aside:2')],
    );
    expect(each.held('412', NEXT)?.reasons).toHaveLength(1);
  });
});

describe('holds she came with', () => {
  test('R-28 milk and meat are stated apart: one known does not make the other known', () => {
    const cow = about('412', 'cow-entered', '2026-03-01T12:00:00Z', {
      group: 'Cows',
      lactation: 2,
      calvedOn: '2026-01-05',
      milkHoldUntil: 'none',
      meatHoldUntil: '2026-03-20T00:00:00Z',
    });
    const views = book(cow).at(NEXT);
    expect(views.sheets['milk-hold'].held).toEqual([]);
    expect(views.sheets['beef-hold'].cows.map(({ until }) => until)).toEqual(['2026-03-20T00:00:00Z']);
  });

  test('R-28 a cow that came dry with a hold not known is not on the list until she is milked', () => {
    const { milkHoldUntil: _, ...data } = dryCow('31').data as { milkHoldUntil?: string };
    const came = { ...dryCow('31'), data };
    const calved = about('31', 'calving', '2026-03-15T10:00:00Z', {
      calves: [{ sex: 'male', alive: true }],
      group: 'Fresh',
    });
    expect(heldOf(book(came))).toEqual([]);
    expect(keysOf(book(came, calved).held('31', '2026-03-20/morning'))).toEqual(['hold.entered-unknown']);
  });
});
