/**
 * Holds worked out by hand, apart from this project, on the labels' own numbers, and Article 115 of Regulation (EU)
 * 2019/6 on use outside a label (rounding up to whole days, its second paragraph: from memory).
 */
import { describe, expect, test } from 'vitest';
import { about, bookOf, cowInMilk, farmWide, heldAt, heldRow, march, type Saying, setUp } from './paper-farm.ts';

const LISTED = '2026-01-01T00:00:00Z';
const listed = (name: string, milkHold: unknown, more: Record<string, unknown> = {}): Saying => ({
  type: 'medicine-listed',
  time: LISTED,
  data: { name, milkHold, meatDays: 4, ...more },
});
const dose = (time: string, more: Record<string, unknown> = {}): Saying => ({
  type: 'treatment',
  time,
  subject: '412',
  data: { medicine: 'The medicine', ...more },
});
const TWICE = ['morning', 'afternoon'];

describe('a herd milked at 05:00 and 17:00, 60 hours', () => {
  const treatedAt = (time: string) =>
    bookOf([setUp(), listed('The medicine', { hours: 60 }), cowInMilk('412'), dose(time)]);

  test('R-10 dosed at 17:10 after she was milked: five milkings thrown, tank from the afternoon of day 3', () => {
    const book = treatedAt('2026-03-02T17:10:00Z');
    expect(heldAt(book, '412', march([3, 7], TWICE))).toEqual(march([3, 5], TWICE).slice(0, 5));
    expect(heldRow(book('2026-03-03/morning'), '412')).toMatchObject({
      until: '2026-03-05T05:10:00Z',
      tankFrom: '2026-03-05/afternoon',
      milkingsLeft: 5,
    });
  });

  test('R-10 dosed at 16:50 before she was milked: tank from the morning of day 3', () => {
    const book = treatedAt('2026-03-02T16:50:00Z');
    expect(heldRow(book('2026-03-02/afternoon'), '412')).toMatchObject({
      until: '2026-03-05T04:50:00Z',
      tankFrom: '2026-03-05/morning',
      milkingsLeft: 5,
    });
    expect(heldAt(book, '412', march([2, 7], TWICE).slice(1))).toEqual(march([2, 4], TWICE).slice(1));
  });

  test('R-10 dosed at the very minute that a milking starts, the fifth milking after it is thrown too', () => {
    const book = treatedAt('2026-03-02T17:00:00Z');
    expect(heldRow(book('2026-03-05/morning'), '412')).toMatchObject({ until: '2026-03-05T05:00:00Z' });
    expect(heldRow(book('2026-03-05/afternoon'), '412')).toBeUndefined();
  });
});

describe('a herd milked at 05:30 and 16:30, 60 hours, dosed at 17:00', () => {
  const milkings = [
    { name: 'morning', start: '05:30' },
    { name: 'afternoon', start: '16:30' },
  ];
  const thrown = (milkHold: unknown) => {
    const book = bookOf([
      setUp({ milkings }),
      listed('The medicine', milkHold),
      cowInMilk('412'),
      dose('2026-03-02T17:00:00Z'),
    ]);
    return heldAt(book, '412', march([3, 8], TWICE)).length;
  };

  test('R-12 hours alone leave four milkings in hold', () => {
    expect(thrown({ hours: 60 })).toBe(4);
  });
  test('R-12 a label that says five milkings beside its hours throws five', () => {
    expect(thrown({ hours: 60, milkings: 5 })).toBe(5);
  });
});

describe('a herd milked three times, 05:00, 13:00 and 21:00', () => {
  const milkings = [
    { name: 'morning', start: '05:00' },
    { name: 'noon', start: '13:00' },
    { name: 'night', start: '21:00' },
  ];
  test('R-12 60 hours after a dose at 05:00, seven milkings after it are thrown', () => {
    for (const milkHold of [{ hours: 60 }, { hours: 60, milkings: 5 }, { milkings: 5 }]) {
      const book = bookOf([
        setUp({ milkings }),
        listed('The medicine', milkHold),
        cowInMilk('412'),
        dose('2026-03-02T05:00:00Z'),
      ]);
      const after = march([2, 8], ['morning', 'noon', 'night']).slice(1);
      expect(heldAt(book, '412', after), JSON.stringify(milkHold)).toEqual(after.slice(0, 7));
    }
  });
});

describe('two medicines on one day', () => {
  test('R-13 48 and 60 hours with the same last dose: milk 60 hours; 4 and 12 days of meat: 12', () => {
    const at = '2026-03-02T17:10:00Z';
    const book = bookOf([
      setUp(),
      listed('Short', { hours: 48 }, { meatDays: 4 }),
      listed('Long', { hours: 60 }, { meatDays: 12 }),
      cowInMilk('412'),
      about('412', 'treatment', at, { medicine: 'Short' }),
      about('412', 'treatment', at, { medicine: 'Long' }),
    ]);
    const views = book('2026-03-03/morning');
    expect(heldRow(views, '412')?.until).toBe('2026-03-05T05:10:00Z');
    expect(
      heldRow(views, '412')
        ?.reasons.map((each) => each.medicine)
        .sort(),
    ).toEqual(['Long', 'Short']);
    expect(views.sheets['beef-hold'].cows.find(({ cow }) => cow === '412')?.until).toBe('2026-03-14T17:10:00Z');
  });
});

describe('over a clock change', () => {
  test.each([
    ['America/Toronto', '2026-03-07T18:00:00-05:00', 72, '2026-03-10T23:00:00Z', '19:00 by the clock'],
    ['Europe/Dublin', '2026-03-28T07:00:00Z', 60, '2026-03-30T19:00:00Z', '20:00 by the clock'],
    ['America/Toronto', '2026-10-30T18:00:00-04:00', 72, '2026-11-02T22:00:00Z', '17:00 by the clock'],
  ])('R-11 %s, last dose %s, %i hours: until %s, %s', (zone, time, hours, until) => {
    const book = bookOf([setUp({ zone }), listed('The medicine', { hours }), cowInMilk('412'), dose(time)]);
    const next = new Date(Date.parse(time) + 86_400_000).toISOString().slice(0, 10);
    expect(heldRow(book(`${next}/morning`), '412')?.until).toBe(until);
  });
});

describe('Regulation (EU) 2019/6, Article 115: outside the label, prescribed', () => {
  const GIVEN = '2026-03-02T08:00:00Z';
  const untilOf = (
    milkHold: unknown,
    more: Record<string, unknown> = {},
    by: Record<string, unknown> = { prescribedBy: 'Dr Okafor' },
  ) => {
    const book = bookOf([
      setUp({ offLabel: 'eu-2019-6' }),
      listed('The medicine', milkHold, more),
      cowInMilk('412'),
      dose(GIVEN, { offLabel: true, ...by }),
    ]);
    const views = book('2026-03-02/afternoon');
    return {
      milk: heldRow(views, '412')?.until,
      meat: views.sheets['beef-hold'].cows.find(({ cow }) => cow === '412')?.until,
    };
  };
  const daysOn = (days: number) => new Date(Date.parse(GIVEN) + days * 86_400_000).toISOString().replace('.000Z', 'Z');

  test.each([
    [36, 3],
    [60, 4],
    [72, 5],
    [96, 6],
  ])('R-18 a label of %i hours holds milk %i days', (hours, days) => {
    expect(untilOf({ hours }).milk).toBe(daysOn(days));
  });
  test('R-18 a label of zero holds milk one day', () => {
    expect(untilOf('none').milk).toBe(daysOn(1));
  });
  test('R-18 a medicine not authorised for animals whose milk people drink holds milk seven days', () => {
    expect(untilOf('not-for-milking-cows').milk).toBe(daysOn(7));
    expect(untilOf({ hours: 24 }, { authorisedForMilkAnimals: false }).milk).toBe(daysOn(7));
  });
  test.each([
    [13, 20],
    [28, 42],
  ])('R-18 %i days of meat become %i', (label, days) => {
    expect(untilOf({ hours: 36 }, { meatDays: label }).meat).toBe(daysOn(days));
  });
  test('R-18 without the vet who prescribed it nothing is worked out, and milk is held without end', () => {
    expect(untilOf({ hours: 36 }, {}, {}).milk).toBeNull();
  });
});

describe('a dry-cow product, minimum 42 days and 96 hours, given 1 March at 10:00', () => {
  const calved = (time: string, earlyCalving?: string) =>
    bookOf([
      setUp({ zone: 'Europe/Dublin' }),
      listed('Dry tube', 'not-for-milking-cows', {
        dryCow: {
          minimumDryDays: 42,
          milkHoldAfterCalving: { hours: 96 },
          ...(earlyCalving === undefined ? {} : { earlyCalving }),
        },
      }),
      cowInMilk('412', { calvedOn: '2025-05-01' }),
      about('412', 'dry-off', '2026-03-01T10:00:00Z', { product: 'Dry tube', group: 'Dry' }),
      about('412', 'calving', time, { calves: [{ sex: 'male', alive: true }], group: 'Cows' }),
    ]);

  test('R-19 calved 20 April, past the minimum: milk until 96 hours after', () => {
    const row = heldRow(calved('2026-04-20T10:00:00Z', 'minimum-plus-hold')('2026-04-21/morning'), '412');
    expect(row?.until).toBe('2026-04-24T10:00:00Z');
    expect(row?.reasons.map(({ key }) => key)).not.toContain('hold.dry-cow-early');
  });
  test('R-19 calved 2 April, inside the minimum, a label that says what then: the minimum and 96 hours, with the warning', () => {
    const row = heldRow(calved('2026-04-02T10:00:00Z', 'minimum-plus-hold')('2026-04-03/morning'), '412');
    expect(row?.until).toBe('2026-04-16T10:00:00Z');
    expect(row?.reasons.map(({ key }) => key)).toContain('hold.dry-cow-early');
  });
  test.each(['ask-vet', undefined])('R-19 calved 2 April, a label that says %s: without end', (earlyCalving) => {
    const row = heldRow(calved('2026-04-02T10:00:00Z', earlyCalving)('2026-05-30/morning'), '412');
    expect(row).toMatchObject({ until: null, tankFrom: null });
    expect(row?.reasons.map(({ key }) => key)).toContain('hold.dry-cow-early');
  });
});

describe('given and listed by name', () => {
  test('R-14 the same dose of a medicine that nobody listed holds without end', () => {
    const book = bookOf([setUp(), cowInMilk('412'), dose('2026-03-02T17:10:00Z')]);
    expect(heldRow(book('2026-03-20/morning'), '412')).toMatchObject({
      until: null,
      tankFrom: null,
      milkingsLeft: null,
    });
  });
  test('R-29 a listing made after the dose still gives it its end', () => {
    const late = farmWide('medicine-listed', '2026-03-04T12:00:00Z', {
      name: 'The medicine',
      milkHold: { hours: 60 },
      meatDays: 4,
    });
    const book = bookOf([setUp(), cowInMilk('412'), dose('2026-03-02T17:10:00Z'), late]);
    expect(heldRow(book('2026-03-04/afternoon'), '412')?.until).toBe('2026-03-05T05:10:00Z');
  });
});
