/**
 * Whole holds worked out a second time, apart from the project, with the Temporal polyfill alone: any label in hours,
 * milkings or both, any dose, one to four uneven milkings a day of which her group may miss some, in zones with odd
 * clocks. The sheet has to agree on the end, on the milking from which her milk goes in the tank, and on how many
 * milkings are left.
 */
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { expect, test } from 'vitest';
import { bookOf, cowInMilk, heldRow, setUp } from './paper-farm.ts';

const ZONES = ['Australia/Lord_Howe', 'Europe/Dublin', 'America/Toronto', 'Pacific/Apia', 'America/Sao_Paulo'] as const;
/** Dates around which the clocks of these zones do something odd, the lost day of Apia first. */
const ODD_DATES = [
  '2011-12-30',
  '2018-11-04',
  '2018-02-17',
  '2026-03-08',
  '2026-03-29',
  '2026-04-05',
  '2026-10-04',
  '2026-10-25',
  '2026-11-01',
];

interface Milking {
  readonly id: string;
  readonly start: number;
}

const epoch = (wall: Temporal.PlainDateTime, zone: string): number | undefined => {
  const date = wall.toPlainDate();
  if (!date.toZonedDateTime({ timeZone: zone }).toPlainDate().equals(date)) return undefined;
  const earlier = wall.toZonedDateTime(zone, { disambiguation: 'earlier' });
  const shown = earlier.toPlainDateTime().equals(wall);
  return shown ? earlier.epochMilliseconds : earlier.getTimeZoneTransition('next')?.epochMilliseconds;
};

const milkingsAround = (zone: string, from: Temporal.PlainDate, days: number, starts: readonly string[]): Milking[] =>
  Array.from({ length: days }, (_, index) => from.add({ days: index })).flatMap((date) =>
    starts
      .flatMap((start, index): Milking[] => {
        const at = epoch(date.toPlainDateTime(Temporal.PlainTime.from(start)), zone);
        return at === undefined ? [] : [{ id: `${date.toString()}/m${index + 1}`, start: at }];
      })
      .sort((a, b) => a.start - b.start),
  );

const HOUR = 3_600_000;

const wantedEnd = (milkings: readonly Milking[], dose: number, hold: { hours?: number; milkings?: number }): number => {
  const after = milkings.filter(({ start }) => start > dose);
  const byHours = hold.hours === undefined ? 0 : dose + hold.hours * HOUR;
  if (hold.milkings === undefined) return byHours;
  const nth = after[hold.milkings - 1]?.start ?? Number.NaN;
  return Math.max(nth, hold.hours === undefined ? dose + hold.milkings * 12 * HOUR : byHours);
};

const schedule = fc.constantFrom(
  ['05:00', '17:00'],
  ['05:30', '16:30'],
  ['04:30', '15:10'],
  ['05:00', '13:00', '21:00'],
  ['02:30', '14:00'],
  ['00:00', '07:45', '12:20', '18:15'],
  ['06:00'],
);
const hold = fc.oneof(
  fc.record({ hours: fc.integer({ min: 1, max: 150 }) }),
  fc.record({ milkings: fc.integer({ min: 1, max: 12 }) }),
  fc.record({ hours: fc.integer({ min: 1, max: 150 }), milkings: fc.integer({ min: 1, max: 12 }) }),
);
const cases = fc.record({
  zone: fc.constantFrom(...ZONES),
  odd: fc.constantFrom(...ODD_DATES),
  minutesAway: fc.integer({ min: -5 * 1440, max: 2 * 1440 }),
  starts: schedule,
  /** Which of the day's milkings her group is left out of, never all. */
  leftOut: fc.integer({ min: 0, max: 14 }),
  hold,
});

test('R-03, R-10, R-11, R-12 any label, dose, schedule and zone: the sheet and Temporal agree on the end, the tank and what is left', () => {
  fc.assert(
    fc.property(cases, ({ zone, odd, minutesAway, starts, leftOut, hold }) => {
      const names = starts.map((_, index) => `m${index + 1}`);
      const some = names.filter((_, index) => (leftOut & (1 << index)) === 0);
      const milkedAt = some.length === 0 ? names : some;
      const dose =
        Temporal.PlainDateTime.from(`${odd}T12:00`).toZonedDateTime('UTC').epochMilliseconds + minutesAway * 60_000;
      const from = Temporal.Instant.fromEpochMilliseconds(dose)
        .toZonedDateTimeISO(zone)
        .toPlainDate()
        .subtract({ days: 2 });
      const milkings = milkingsAround(zone, from, 30, starts).filter(({ id }) => milkedAt.includes(id.slice(11)));
      const text = (instant: number) => Temporal.Instant.fromEpochMilliseconds(instant).toString();
      const ends = wantedEnd(milkings, dose, hold);
      const free = milkings.find(({ start }) => start > ends);
      const next = milkings.find(({ start }) => start > dose);
      if (next === undefined || free === undefined) throw new Error('the case reaches past its milkings');

      const book = bookOf([
        {
          ...setUp({ zone, milkedAt, milkings: starts.map((start, index) => ({ name: `m${index + 1}`, start })) }),
          time: '2010-01-01T00:00:00Z',
        },
        {
          type: 'medicine-listed',
          time: '2010-01-02T00:00:00Z',
          data: { name: 'The medicine', milkHold: hold, meatDays: 4 },
        },
        { ...cowInMilk('412', { calvedOn: '2010-01-05' }), time: '2010-02-01T12:00:00Z' },
        { type: 'treatment', time: text(dose), subject: '412', data: { medicine: 'The medicine' } },
      ]);
      const row = heldRow(book(next.id), '412');
      if (next === free) {
        expect(row).toBeUndefined();
        return;
      }
      expect(row).toMatchObject({ until: text(ends), tankFrom: free.id });
      expect(row?.milkingsLeft).toBe(milkings.indexOf(free) - milkings.indexOf(next));
      expect(heldRow(book(free.id), '412')).toBeUndefined();
    }),
    { seed: 1012, numRuns: 2_000 },
  );
});
