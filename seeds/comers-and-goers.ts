/** In-calf heifers that came to the close-up group, and cows that left, none of them on a hold. */
import { addDays } from '../shared/local-day.ts';
import { nextWeekday, TODAY, vetDay } from './calendar.ts';
import { chanceOf } from './chance.ts';
import { type Cow, type Fact, GESTATION, officialOf } from './cow.ts';

/** Days from today until they calve. */
const HEIFERS_DUE_IN = [3, 5, 8, 9, 12, 14, 17];

export const inCalfHeifers = (numbers: readonly string[]): Cow[] =>
  HEIFERS_DUE_IN.map((dueIn, index) => {
    const served = addDays(TODAY, dueIn - GESTATION);
    return {
      number: numbers[index] ?? '',
      officialId: officialOf(3_000 + index),
      born: addDays(served, -chanceOf(`heifer ${index}`).whole(425, 490)),
      lactation: 0,
      group: 'Close-up',
      came: { day: nextWeekday(addDays(TODAY, dueIn - 21), 'monday'), from: 'own young stock' },
      facts: [
        { kind: 'service', day: served },
        { kind: 'check', day: vetDay(addDays(served, 35)), result: 'pregnant' },
      ],
    };
  });

/** How many days ago she left, her days in milk by today, and why she left. */
const LEAVERS = [
  [52, 340, 'sold-for-beef'],
  [47, 402, 'sold-for-beef'],
  [40, 215, 'sold-for-milking'],
  [40, 190, 'sold-for-milking'],
  [31, 288, 'sold-for-beef'],
  [22, 121, 'died'],
  [15, 390, 'sold-for-beef'],
  [8, 371, 'sold-for-beef'],
] as const;

export const leavers = (numbers: readonly string[]): Cow[] =>
  LEAVERS.map(([daysAgo, inMilkFor, reason], index) => {
    const calved = addDays(TODAY, -inMilkFor);
    const facts: Fact[] = [
      { kind: 'calving', day: calved, group: 'Fresh' },
      { kind: 'move', day: addDays(calved, 5), to: 'High' },
      { kind: 'move', day: nextWeekday(addDays(calved, 140), 'tuesday'), to: 'Steady' },
      { kind: 'left', day: addDays(TODAY, -daysAgo), reason },
    ];
    return {
      number: numbers[index] ?? '',
      officialId: officialOf(4_000 + index),
      born: addDays(calved, -(735 + 385 * (2 + (index % 4)))),
      lactation: 2 + (index % 4),
      group: 'Dry',
      // What would have happened after she left did not.
      facts: facts.filter((fact) => fact.day <= addDays(TODAY, -daysAgo)),
    };
  });
