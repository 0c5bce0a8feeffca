/**
 * Calving dates on the dry-off sheet against Clemson Extension's worked example and the mean gestations of five breeds
 * (Norman et al. 2009, J Dairy Sci 92:2259), each rounded to the whole days that a farm can set.
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
