/** Cows around calving: what the dry-cow product and the fresh hold do, who may leave the fresh pen and who must come in. */
import { addDays } from '../../shared/local-day.ts';
import { day, nextWeekday } from '../calendar.ts';
import type { Cow, Fact } from '../cow.ts';
import { officialOf } from '../cow.ts';
import { MEDICINES } from '../medicines.ts';
import { dried, dryDayFor, inCalf, type Story } from './story.ts';

const calving = (on: string, time: string, more: { group?: string; calves?: number } = { group: 'Fresh' }): Fact => ({
  kind: 'calving',
  day: day(on),
  time,
  ...more,
});

const usual = MEDICINES.cloxacillinDry.name;

/** A cow dried off as usual, brought to the close-up group, and calved. */
const calvedCow = (number: string, lactation: number, due: string, ...facts: readonly Fact[]): Cow =>
  inCalf(number, lactation - 1, day(due), [
    dried(dryDayFor(day(due)), usual),
    { kind: 'move', day: nextWeekday(addDays(day(due), -21), 'monday'), to: 'Close-up' },
    ...facts,
  ]);

const calvedHeifer = (number: string, due: string, fact: Fact): Cow => ({
  number,
  officialId: officialOf(6_000 + Number(number)),
  born: addDays(day(due), -741),
  lactation: 0,
  group: 'Close-up',
  came: { day: nextWeekday(addDays(day(due), -21), 'monday'), from: 'own young stock' },
  facts: [{ kind: 'service', day: addDays(day(due), -283) }, fact],
});

export const freshPen: Story = {
  cows: [
    inCalf('512', 3, day('2026-04-24'), [
      dried(day('2026-02-26'), MEDICINES.framycetinDry.name),
      calving('2026-03-30', '06:10'),
    ]),
    inCalf('527', 2, day('2026-04-16'), [
      dried(day('2026-02-19'), MEDICINES.penicillinDry.name),
      calving('2026-03-27', '21:40'),
    ]),
    inCalf('533', 4, day('2026-03-28'), [dried(day('2026-02-05')), calving('2026-03-26', '03:30')]),
    calvedCow('548', 3, '2026-03-30', calving('2026-03-31', '06:40')),
    calvedHeifer('655', '2026-03-31', calving('2026-03-29', '21:15')),
    calvedCow('561', 3, '2026-03-27', calving('2026-03-26', '02:20')),
    calvedHeifer('648', '2026-03-24', calving('2026-03-26', '01:10')),
    calvedCow('569', 4, '2026-04-01', calving('2026-03-30', '22:25', {})),
    inCalf('577', 2, day('2026-04-05'), [dried(dryDayFor(day('2026-04-05')), usual)]),
    inCalf('334', 3, day('2026-03-22'), [
      dried(dryDayFor(day('2026-03-22')), usual),
      { kind: 'move', day: day('2026-03-02'), to: 'Close-up' },
    ]),
    calvedCow('664', 4, '2026-03-16', calving('2026-03-12', '08:40', { group: 'Fresh', calves: 2 }), {
      kind: 'move',
      day: day('2026-03-18'),
      to: 'High',
    }),
  ],
  entries: [],
  examples: [
    {
      cow: '512',
      shows: "calved 32 days into a dry-cow product's 42: held for the rest of them and the label's time",
      rule: 'R-19',
      on: 'milk-hold/held',
      says: 'hold.dry-cow-early',
    },
    { cow: '512', shows: 'calved well before her time', rule: 'R-46', on: 'doubts', says: 'doubt.calved-early' },
    {
      cow: '527',
      shows: "calved 36 days into a dry-cow product's 42, and the label leaves the rest to the vet: held without end",
      rule: 'R-19',
      on: 'milk-hold/held',
      says: 'hold.dry-cow-early',
    },
    {
      cow: '533',
      shows: 'dried off and nobody said with what',
      rule: 'R-19',
      on: 'milk-hold/held',
      says: 'hold.dry-cow-not-stated',
    },
    { cow: '548', shows: 'calved this morning', rule: 'R-20', on: 'milk-hold/held', says: 'hold.fresh' },
    { cow: '655', shows: 'a heifer on her fresh hold', rule: 'R-20', on: 'milk-hold/held', says: 'hold.fresh' },
    {
      cow: '548',
      shows: 'too soon to leave the fresh pen',
      rule: 'R-50',
      on: 'fresh-moves/stay',
      says: 'fresh.stay-hours',
    },
    {
      cow: '533',
      shows: 'long enough in the fresh pen, but on hold',
      rule: 'R-50',
      on: 'fresh-moves/stay',
      says: 'fresh.stay-on-hold',
    },
    {
      cow: '561',
      shows: 'ready for a milking group that is full',
      rule: 'R-51',
      on: 'fresh-moves/out',
      says: 'fresh.out',
    },
    {
      cow: '648',
      shows: 'a first-calf heifer ready for her group',
      rule: 'R-50',
      on: 'fresh-moves/out',
      says: 'fresh.out',
    },
    {
      cow: '569',
      shows: 'calved and still among the dry cows',
      rule: 'R-50',
      on: 'fresh-moves/in',
      says: 'fresh.in-calved',
    },
    {
      cow: '577',
      shows: 'due within the week and not yet in the close-up group',
      rule: 'R-50',
      on: 'fresh-moves/in',
      says: 'fresh.in-due',
    },
    { cow: '334', shows: 'nine days past her date', rule: 'R-46', on: 'doubts', says: 'doubt.past-due' },
    { cow: '664', shows: 'had twins, and is over her fresh hold', rule: 'R-20', on: 'milk-hold/held', absent: true },
  ],
};
