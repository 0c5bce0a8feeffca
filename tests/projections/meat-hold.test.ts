/** The beef hold (R-90, and for meat). */
import { describe, expect, test } from 'vitest';
import { about, CUPBOARD, dose, evening, farm, medicine, milker, type Saying } from './evening.ts';

const AT = '2026-03-15/morning';
const DOSE = '2026-03-14T16:40:00Z';
const beef = (...more: readonly Saying[]) =>
  evening([farm(), ...CUPBOARD, milker('1'), ...more]).at(AT).sheets['beef-hold'].cows;
const until = (...more: readonly Saying[]) => beef(...more).map((row) => row.until);

describe('beef hold', () => {
  test('R-90 the last dose and the days of 24 hours', () =>
    expect(until(dose('1', DOSE))).toEqual(['2026-03-17T16:40:00Z']));

  test('R-13 meat is worked out apart from milk: a milk hold that is lifted leaves it', () =>
    expect(
      until(dose('1', DOSE, { medicine: 'Nothing held' }), dose('1', '2026-03-08T16:40:00Z', { medicine: 'Both' })),
    ).toEqual(['2026-03-18T16:40:00Z']));

  test('R-90 by the number of doses where the label says so; doses within a running hold count together', () => {
    const steps = medicine('Steps', { milkHold: { hours: 24 }, meatDays: [{ upToDoses: 2, days: 4 }, { days: 10 }] });
    const given = (...days: number[]) =>
      days.map((day) => dose('1', `2026-03-${String(day).padStart(2, '0')}T08:00:00Z`, { medicine: 'Steps' }));
    expect(until(steps, ...given(13, 14))).toEqual(['2026-03-18T08:00:00Z']);
    expect(until(steps, ...given(12, 13, 14))).toEqual(['2026-03-24T08:00:00Z']);
    // The dose of the 5th was over on the 9th: the next two are a first and a second again.
    expect(until(steps, ...given(5, 13, 14))).toEqual(['2026-03-18T08:00:00Z']);
  });

  test('R-90 more doses than the last step of the label knows: not known, so without end', () => {
    const steps = medicine('Steps', { milkHold: { hours: 24 }, meatDays: [{ upToDoses: 1, days: 4 }] });
    expect(
      until(steps, dose('1', '2026-03-13T08:00:00Z', { medicine: 'Steps' }), dose('1', DOSE, { medicine: 'Steps' })),
    ).toEqual([null]);
  });

  test('R-90 a dry-cow product: the later of its days and calving plus its hours', () => {
    const calved = about('1', 'calving', '2026-03-14T20:00:00Z', {
      calves: [{ sex: 'male', alive: true }],
      group: 'Fresh',
    });
    const dried = about('1', 'dry-off', '2026-02-01T06:00:00Z', { product: 'Ask-vet tube', group: 'Dry' });
    expect(until(dried, calved)).toEqual(['2026-03-15T20:00:00Z']);
  });

  test('R-14 what is not known holds the meat without end too', () => {
    expect(until(dose('1', DOSE, { medicine: 'Something else' }))).toEqual([null]);
    expect(until(dose('1', DOSE, { medicine: 'Not known' }))).toEqual([null]);
    expect(until(dose('1', DOSE, { offLabel: true, milkHoldHours: 96, prescribedBy: 'Dr Vane' }))).toEqual([null]);
  });

  test("R-15 the vet's days lengthen the label's", () =>
    expect(
      until(dose('1', DOSE, { offLabel: true, milkHoldHours: 96, meatHoldDays: 10, prescribedBy: 'Dr Vane' })),
    ).toEqual(['2026-03-24T16:40:00Z']));

  test('R-18 by regulation: one and a half times, a day for zero, 28 days where not authorised, never below the label', () => {
    const eu = (label: Parameters<typeof medicine>[1]) =>
      evening([
        farm({ offLabel: 'eu-2019-6' }),
        medicine('Its label', label),
        milker('1'),
        dose('1', DOSE, { medicine: 'Its label', offLabel: true, prescribedBy: 'Dr Vane' }),
      ]).at(AT).sheets['beef-hold'].cows[0]?.until;
    expect(eu({ milkHold: { hours: 24 }, meatDays: 13 })).toBe('2026-04-03T16:40:00Z');
    expect(eu({ milkHold: { hours: 24 }, meatDays: 0 })).toBe('2026-03-15T16:40:00Z');
    expect(eu({ milkHold: { hours: 24 }, meatDays: 13, authorisedForFoodAnimals: false })).toBe('2026-04-11T16:40:00Z');
    expect(eu({ milkHold: { hours: 24 }, meatDays: 40, authorisedForFoodAnimals: false })).toBe('2026-04-23T16:40:00Z');
  });

  test('R-28 a meat hold not stated on entering is unknown, so without end', () => {
    const { meatHoldUntil: _, ...data } = milker('2').data as { meatHoldUntil?: string };
    expect(beef({ ...milker('2'), data }).map(({ cow, until: end }) => [cow, end])).toEqual([['2', null]]);
  });

  test('R-90 any leaving on hold is an alert, until settled', () => {
    const left = about('1', 'cow-left', '2026-03-14T18:00:00Z', { reason: 'sold-for-beef' }, 'left-1');
    const alerts = (...more: readonly Saying[]) =>
      evening([farm(), ...CUPBOARD, milker('1'), dose('1', DOSE), left, ...more])
        .at(AT)
        .alerts.map(({ key }) => key);
    const [key = ''] = alerts();
    expect(key).toMatch(/^left-on-hold:left-1:[0-9a-f]{8}$/);
    const told: Saying = { type: 'settled', time: DOSE, data: { about: key, how: 'the buyer was told' } };
    expect(alerts(told)).toEqual([]);
    // What is known of later is news again: the buyer was told of another hold.
    expect(alerts(told, dose('1', '2026-03-13T12:00:00Z', { medicine: 'Five milkings' }))).toHaveLength(1);
  });
});
