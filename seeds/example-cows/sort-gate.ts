/** Cows somebody wants at the sort gate, cows that cannot come through it, and cows that milk slowly. */
import { addDays } from '../../shared/local-day.ts';
import { at, TODAY } from '../calendar.ts';
import { demoId, say } from '../say.ts';
import { milker, type Story } from './story.ts';

const today = `${TODAY}/afternoon`;
const inTwoDays = `${addDays(TODAY, 2)}/morning`;

/** Milked at a median of ten minutes and more. */
export const SLOW = ['243', '262', '299'] as const;

export const sortGate: Story = {
  cows: [
    milker('597', 4, 105),
    milker('611', 2, 86),
    milker('622', 3, 122),
    milker('637', 3, 298, { group: 'Once' }),
    milker('643', 2, 93),
    milker('659', 2, 119),
    milker('243', 1, 95),
    milker('262', 3, 129),
    milker('299', 5, 74),
  ],
  entries: [
    say(
      'sort-request',
      '597',
      at('2026-03-31', '09:10'),
      { reason: 'hoof trimming, right hind', to: 'Crush', forWhom: 'the hoof trimmer', from: today },
      { author: 'ifeoma' },
    ),
    say('sort-request', '611', at('2026-03-31', '09:12'), {
      reason: 'to be served',
      to: 'Crush',
      forWhom: 'Ifeoma',
      from: today,
    }),
    say(
      'sort-request',
      '611',
      at('2026-03-31', '09:40'),
      { reason: 'off her feed', to: 'Hospital', forWhom: 'the vet', from: today },
      { author: 'casimir' },
    ),
    say('sort-request', '622', at('2026-03-31', '10:00'), {
      reason: 'pregnancy check',
      to: 'Crush',
      forWhom: 'the vet',
      from: inTwoDays,
    }),
    say('sort-request', '637', at('2026-03-31', '09:20'), { reason: 'new ear tag', to: 'Crush', from: today }),
    say(
      'sort-request',
      '1317',
      at('2026-03-31', '09:25'),
      { reason: 'lame', to: 'Crush', from: today },
      { author: 'casimir' },
    ),
    say('sort-request', '577', at('2026-03-31', '09:30'), { reason: 'clip the udder', to: 'Crush', from: today }),
    say('sort-request', '643', at('2026-03-30', '09:00'), { reason: 'lame, left front', to: 'Crush', until: TODAY }),
    say(
      'sort-done',
      '643',
      at('2026-03-30', '17:30'),
      { request: demoId('sort-request', '643', at('2026-03-30', '09:00')) },
      { author: 'casimir' },
    ),
    say('sort-request', '659', at('2026-03-28', '09:00'), {
      reason: 'look at her again',
      to: 'Crush',
      until: `${addDays(TODAY, -1)}/afternoon`,
    }),
  ],
  examples: [
    { cow: '597', shows: 'wanted by the hoof trimmer', rule: 'R-60', on: 'sort/cows', says: 'sort.request' },
    { cow: '611', shows: 'wanted in two places', rule: 'R-60', on: 'sort/cows', says: 'sort.request' },
    { cow: '611', shows: 'two places to send her to', rule: 'R-60', on: 'doubts', says: 'doubt.sort-several-places' },
    { cow: '622', shows: 'wanted in two days, not yet', rule: 'R-60', on: 'sort/cows', absent: true },
    {
      cow: '637',
      shows: 'wanted, but her group is milked in the morning only',
      rule: 'R-61',
      on: 'sort/cannot',
      says: 'sort.cannot-not-milked',
    },
    {
      cow: '1317',
      shows: 'wanted, but nobody bears that number',
      rule: 'R-61',
      on: 'sort/cannot',
      says: 'sort.cannot-unknown',
    },
    { cow: '577', shows: 'wanted, but dry', rule: 'R-61', on: 'sort/cannot', says: 'sort.cannot-dry' },
    { cow: '643', shows: 'was wanted, and is done', rule: 'R-60', on: 'sort/cows', absent: true },
    { cow: '659', shows: 'was wanted until yesterday', rule: 'R-60', on: 'sort/cows', absent: true },
    {
      cow: '561',
      shows: 'leaves the fresh pen, so she is sorted',
      rule: 'R-60',
      on: 'sort/cows',
      says: 'sort.fresh-move',
    },
    {
      cow: '426',
      shows: 'has an injection to come, so she is sorted',
      rule: 'R-60',
      on: 'sort/cows',
      says: 'sort.dose',
    },
    ...SLOW.map((cow) => ({ cow, shows: 'milks slowly', rule: 'R-81', on: 'milking-plan/slow' })),
  ],
};
