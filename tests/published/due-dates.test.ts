/**
 * Dates and days in milk on the dry-off sheet against outside sources: ICAR Section 2's test-interval example (inputs
 * from memory), Clemson Extension's worked example, and the mean gestations of five breeds (Norman et al. 2009,
 * J Dairy Sci 92:2259), each rounded to the whole days that a farm can set.
 */
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { about, bookOf, cowInMilk, setUp } from './paper-farm.ts';

const dueOf = (gestationDays: number | undefined, served: string) => {
  const checked = Temporal.PlainDate.from(served).add({ days: 40 }).toString();
  const before = Temporal.PlainDate.from(served).subtract({ days: 80 }).toString();
  const milking = `${Temporal.PlainDate.from(served).add({ days: 60 }).toString()}/morning`;
  const book = bookOf([
    setUp(gestationDays === undefined ? {} : { gestationDays }),
    {
      ...cowInMilk('412', { calvedOn: before }),
      time: `${Temporal.PlainDate.from(before).add({ days: 5 }).toString()}T12:00:00Z`,
    },
    about('412', 'service', `${served}T09:00:00Z`, { how: 'insemination' }),
    about('412', 'pregnancy-check', `${checked}T09:00:00Z`, { result: 'pregnant' }),
  ]);
  return book(milking).sheets['dry-off'].due.find(({ cow }) => cow === '412')?.calvingDue;
};

describe('Clemson Extension', () => {
  test('R-42 served 10 February 1995 and found pregnant, a farm that sets nothing prints 20 November 1995', () => {
    expect(dueOf(undefined, '1995-02-10')).toBe('1995-11-20');
  });
});

describe('Norman et al. 2009', () => {
  test.each([
    ['Holstein', 279.4],
    ['Jersey', 280.0],
    ['Ayrshire', 281.7],
    ['Guernsey', 285.7],
    ['Brown Swiss', 287.5],
  ])('R-42 a farm of %s cows sets %d days, rounded, and is due that many days on', (_, mean) => {
    const days = Math.round(mean);
    expect(dueOf(days, '2026-01-15')).toBe(Temporal.PlainDate.from('2026-01-15').add({ days }).toString());
  });
});

describe('ICAR Section 2, test-interval example (inputs from memory)', () => {
  test('R-41 calved 25 March, the sheet of 8 April says 14 days in milk and that of 3 January 284', () => {
    const book = bookOf([
      setUp({ longMilkingDays: 10 }),
      { ...cowInMilk('412', { calvedOn: '2025-03-25' }), time: '2025-03-26T12:00:00Z' },
    ]);
    const daysAt = (milking: string) =>
      book(milking).sheets['dry-off'].undecided.find(({ cow }) => cow === '412')?.daysInMilk;
    expect(daysAt('2025-04-08/morning')).toBe(14);
    expect(daysAt('2026-01-03/morning')).toBe(284);
  });

  test('R-44 at 305 days, the standard lactation, an unconfirmed cow is not yet undecided; a day later she is', () => {
    const book = bookOf([setUp(), { ...cowInMilk('412', { calvedOn: '2025-03-25' }), time: '2025-03-26T12:00:00Z' }]);
    const undecidedAt = (milking: string) => book(milking).sheets['dry-off'].undecided.map(({ cow }) => cow);
    expect(undecidedAt('2026-01-24/morning')).toEqual([]);
    expect(undecidedAt('2026-01-25/morning')).toEqual(['412']);
  });
});
