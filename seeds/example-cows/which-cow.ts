/** Entries about the wrong cow, no cow or two cows; entries taken back; cows that came and cows that went. */

import { at, day, TODAY } from '../calendar.ts';
import { officialOf } from '../cow.ts';
import { demoId, say } from '../say.ts';
import { dose, milker, type Story } from './story.ts';

const treatmentOf = (cow: string, date: string, time: string): string => demoId('treatment', cow, at(date, time));

export const whichCow: Story = {
  cows: [
    milker('351', 3, 82),
    milker('362', 2, 97),
    milker('371', 4, 109),
    milker('379', 2, 118),
    milker('417', 3, 71),
    milker('586', 2, 128),
    milker('619', 5, 301, {
      group: 'Steady',
      facts: [{ kind: 'left', day: day('2026-03-30'), reason: 'sold-for-beef' }],
    }),
    milker('630', 2, 90),
    {
      ...milker('630', 3, 64),
      officialId: officialOf(7_630),
      came: { day: day('2026-03-27'), from: 'dispersal sale, Corran Bridge' },
      facts: milker('630', 3, 64).facts.filter(({ kind }) => kind !== 'service'),
    },
    {
      ...milker('702', 2, 58),
      officialId: officialOf(7_702),
      came: { day: day('2026-03-30'), from: 'dispersal sale, Corran Bridge' },
      stated: { milkHoldUntil: 'unknown', meatHoldUntil: 'unknown' },
    },
    {
      ...milker('703', 4, 110),
      officialId: officialOf(7_703),
      came: { day: day('2026-03-27'), from: 'dispersal sale, Corran Bridge' },
      stated: { milkHoldUntil: '2026-04-02T17:00:00Z', meatHoldUntil: '2026-04-11T17:00:00Z' },
    },
    milker('254', 3, 133),
    milker('343', 2, 141),
  ],
  entries: [
    // The tubes went into 351; 362 was written down.
    dose('351', 'amoxicillin', '2026-03-29 05:35', { course: { id: 'course-351', dose: 1, of: 2, everyHours: 12 } }),
    dose('362', 'amoxicillin', '2026-03-29 15:50'),
    dose(
      '351',
      'amoxicillin',
      '2026-03-29 15:50',
      { course: { id: 'course-351', dose: 2, of: 2, everyHours: 12 } },
      { recordedAt: at('2026-03-29', '19:30') },
    ),
    say('entry-struck', '362', at('2026-03-29', '19:32'), {
      entry: treatmentOf('362', '2026-03-29', '15:50'),
      reason: 'wrong number read off the band: it was 351',
      instead: treatmentOf('351', '2026-03-29', '15:50'),
    }),
    dose('371', 'penicillinUdder', '2026-03-30 15:55'),
    say('entry-struck', '371', at('2026-03-31', '08:10'), {
      entry: treatmentOf('371', '2026-03-30', '15:55'),
      reason: 'not 371, she was in the dry pen that day',
    }),
    dose('379', 'cephapirin', '2026-03-30 16:20'),
    say('entry-struck', '379', at('2026-03-30', '17:05'), {
      entry: treatmentOf('379', '2026-03-30', '16:20'),
      reason: 'tube dropped, nothing given',
      instead: 'nothing',
    }),
    dose('0417', 'cephapirin', '2026-03-30 16:00'),
    dose('1204', 'cephapirin', '2026-03-30 16:35'),
    dose('1288', 'cephapirin', '2026-03-30 05:45'),
    say('settled', undefined, at('2026-03-30', '18:40'), {
      about: `unplaced:${treatmentOf('1288', '2026-03-30', '05:45')}`,
      how: 'written off an old list: nobody was treated, the tube is on the shelf',
    }),
    dose('619', 'penicillinUdder', '2026-03-29 16:25'),
    dose('630', 'cephapirin', '2026-03-30 16:45'),
    say('number-changed', '254', at('2026-03-24', '12:30'), { to: '1254' }, { author: 'ifeoma' }),
    say('group-move', '343', at('2026-03-30', '12:00'), { to: 'Steady' }, { author: 'ifeoma', key: 'one' }),
    say('group-move', '343', at('2026-03-30', '12:00'), { to: 'High' }, { author: 'casimir', key: 'other' }),
  ],
  examples: [
    {
      cow: '351',
      shows: 'a label in hours and milkings, on the cow that really had it',
      rule: 'R-12',
      on: 'milk-hold/held',
      says: 'hold.hours-and-milkings',
    },
    {
      cow: '362',
      shows: 'a dose struck, with the right entry named instead',
      rule: 'R-23',
      on: 'milk-hold/held',
      absent: true,
    },
    {
      cow: '371',
      shows: 'a dose struck without saying who had it',
      rule: 'R-23',
      on: 'milk-hold/unplaced',
      says: 'unplaced.dose-struck',
    },
    { cow: '379', shows: 'a dose struck that never was given', rule: 'R-23', on: 'milk-hold/unplaced', absent: true },
    {
      cow: '0417',
      shows: 'a number that matches only without its leading zero',
      rule: 'R-25',
      on: 'milk-hold/unplaced',
      says: 'unplaced.leading-zeros',
    },
    { cow: '417', shows: 'the cow it may have been', rule: 'R-25', on: 'milk-hold/held', says: 'hold.may-be-her' },
    {
      cow: '1204',
      shows: 'a dose for a number nobody bears',
      rule: 'R-25',
      on: 'milk-hold/unplaced',
      says: 'unplaced.not-in-herd',
    },
    {
      cow: '1288',
      shows: 'a dose for a number nobody bears, settled since',
      rule: 'R-25',
      on: 'milk-hold/unplaced',
      absent: true,
    },
    { cow: '1288', shows: 'nor is it a doubt any more', rule: 'R-25', on: 'doubts', absent: true },
    { cow: '619', shows: 'left while on hold', rule: 'R-25', on: 'milk-hold/unplaced', says: 'unplaced.left-on-hold' },
    { cow: '619', shows: 'went for beef while on hold', rule: 'R-90', on: 'alerts', says: 'alert.left-on-hold' },
    {
      cow: '630',
      shows: 'two cows with one number, and a dose for it',
      rule: 'R-25',
      on: 'milk-hold/held',
      says: 'hold.may-be-her',
    },
    {
      cow: '630',
      shows: 'a number taken while another cow bears it',
      rule: 'R-25',
      on: 'doubts',
      says: 'doubt.number-in-use',
    },
    {
      cow: '702',
      shows: 'bought in, and nobody knows what she was given',
      rule: 'R-28',
      on: 'milk-hold/held',
      says: 'hold.entered-unknown',
    },
    {
      cow: '703',
      shows: 'bought in with a hold that the seller stated',
      rule: 'R-28',
      on: 'milk-hold/held',
      says: 'hold.entered-until',
    },
    { cow: '343', shows: 'moved to two groups at one time', rule: 'R-25', on: 'doubts', says: 'doubt.two-groups' },
    {
      cow: '586',
      shows: 'an entry about her could not be read',
      rule: 'R-27',
      on: 'milk-hold/held',
      says: 'hold.entry-set-aside',
    },
  ],
};

/** What the phone sent and the door turned away, when it came, and as it came. */
export const REFUSED_LINES = [
  {
    recordedAt: at(TODAY, '10:05'),
    text: '{"type":"treatment","subject":"586","time":"2026-03-31T08:50:00Z","author":"Casimir","data":{"medicene":"Flunixin, vein"}}',
  },
  {
    recordedAt: at(TODAY, '10:06'),
    text: '{"type":"treatment","subject":',
  },
  {
    recordedAt: at(TODAY, '12:15'),
    text: '{"type":"milk-hold","subject":"583","time":"2026-03-31 05:35","author":"Casimir","data":{"reason":"watery"}}',
  },
] as const;
