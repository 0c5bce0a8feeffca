/** Cows to dry off on Thursday, cows that should have been, and cows nobody can decide about. */
import { addDays } from '../../shared/local-day.ts';
import { at, day, TODAY } from '../calendar.ts';
import { MEDICINES } from '../medicines.ts';
import { say } from '../say.ts';
import { dose, inCalf, milker, type Story } from './story.ts';

const noService = inCalf('481', 3, day('2026-06-03'));

export const dryOff: Story = {
  cows: [
    inCalf('452', 4, day('2026-06-01'), [{ kind: 'check', day: day('2026-02-04'), result: 'twins' }]),
    inCalf('467', 2, day('2026-05-31')),
    {
      ...noService,
      facts: noService.facts.filter(({ kind }) => kind !== 'service' && kind !== 'check'),
      stated: { dueOn: day('2026-06-03') },
    },
    inCalf('505', 3, day('2026-05-24')),
    inCalf('519', 5, day('2026-04-10')),
    milker('541', 3, 341, {
      group: 'Steady',
      facts: [
        { kind: 'service', day: addDays(TODAY, -96) },
        { kind: 'check', day: day('2026-02-04'), result: 'empty' },
      ],
    }),
    milker('555', 2, 322, { group: 'Steady', facts: [{ kind: 'service', day: addDays(TODAY, -88) }] }),
    // Dried off last Thursday and left standing where she was.
    inCalf('438', 3, day('2026-05-24'), [
      { kind: 'dry-off', day: day('2026-03-26'), product: MEDICINES.cloxacillinDry.name },
    ]),
    inCalf('285', 3, day('2026-08-14')),
  ],
  entries: [
    dose('467', 'flunixin', '2026-03-30 11:00', { reason: 'swollen hock' }),
    // A new package came with a longer label while the old one's hold was running.
    say(
      'medicine-listed',
      undefined,
      at('2026-03-31', '09:40'),
      { ...MEDICINES.flunixin, for: ['milking', 'young'], milkHold: { hours: 60 } },
      { key: 'new label' },
    ),
    say('abortion', '285', at('2026-03-10', '07:20'), { daysCarried: 126 }, { author: 'casimir' }),
  ],
  examples: [
    {
      cow: '452',
      shows: 'due to be dried off on Thursday, with twins',
      rule: 'R-45',
      on: 'dry-off/due',
      says: 'dry-off.twins',
    },
    {
      cow: '467',
      shows: 'due to be dried off on Thursday, and on milk hold',
      rule: 'R-45',
      on: 'dry-off/due',
      says: 'dry-off.on-hold',
    },
    {
      cow: '467',
      shows: 'a label that grew longer while its hold was running',
      rule: 'R-29',
      on: 'milk-hold/held',
      says: 'hold.label-longer',
    },
    {
      cow: '481',
      shows: 'due to be dried off, with no service behind the date',
      rule: 'R-45',
      on: 'dry-off/due',
      says: 'dry-off.no-service',
    },
    {
      cow: '505',
      shows: 'should have been dried off last Thursday',
      rule: 'R-44',
      on: 'dry-off/due',
      says: 'dry-off.due',
    },
    {
      cow: '519',
      shows: 'ten days from calving and still milked',
      rule: 'R-45',
      on: 'dry-off/due',
      says: 'dry-off.under-minimum',
    },
    {
      cow: '519',
      shows: 'too near her date for the tank',
      rule: 'R-20',
      on: 'milk-hold/held',
      says: 'hold.before-due',
    },
    {
      cow: '541',
      shows: 'long in milk and empty',
      rule: 'R-44',
      on: 'dry-off/undecided',
      says: 'dry-off.not-confirmed',
    },
    {
      cow: '555',
      shows: 'long in milk and never checked',
      rule: 'R-44',
      on: 'dry-off/undecided',
      says: 'dry-off.not-confirmed',
    },
    {
      cow: '438',
      shows: 'dried off, but still standing in a milked group',
      rule: 'R-24',
      on: 'milk-hold/held',
      says: 'hold.dry-in-milked-group',
    },
    { cow: '285', shows: 'lost her calf early: no dry-off is due', rule: 'R-42', on: 'dry-off/due', absent: true },
  ],
};
