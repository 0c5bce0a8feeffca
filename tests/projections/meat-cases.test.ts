/** The beef hold, the harder cases (R-90, with ). */
import { describe, expect, test } from 'vitest';
import { about, CUPBOARD, dose, dryCow, evening, farm, medicine, milker, type Saying } from './evening.ts';

const AT = '2026-03-15/morning';
const DOSE = '2026-03-14T16:40:00Z';
const with412 = (...more: readonly Saying[]) => evening([farm(), ...CUPBOARD, milker('412'), ...more]);
const rows = (book: ReturnType<typeof evening>, milking = AT) => book.at(milking).sheets['beef-hold'].cows;
const until = (book: ReturnType<typeof evening>, milking = AT) => rows(book, milking).map((row) => row.until);

const STEPS = medicine('Steps', { milkHold: { hours: 24 }, meatDays: [{ upToDoses: 2, days: 4 }, { days: 10 }] });
const steps = (time: string, more = {}) => dose('412', time, { medicine: 'Steps', ...more });

describe('beef hold', () => {
  test('R-90 days are of 24 hours: a clock that goes forward in between ends it an hour later by the wall', () => {
    const book = evening([
      farm({ timeZone: 'Europe/Dublin' }),
      ...CUPBOARD,
      milker('412'),
      dose('412', '2026-03-27T16:40:00Z'),
    ]);
    // 27 March 16:40 by the winter clock and three days: 30 March 16:40 UTC, 17:40 by the summer clock.
    expect(until(book, '2026-03-30/morning')).toEqual(['2026-03-30T16:40:00Z']);
  });

  test('R-90 a cow is on it at the milking whose start is the very minute of the end, and off at the next', () => {
    const book = with412(dose('412', '2026-03-12T05:00:00Z'));
    expect([rows(book).length, rows(book, '2026-03-15/afternoon').length]).toEqual([1, 0]);
  });

  test('R-90 it lists dry cows and young stock too', () => {
    const heifer = milker('31', { group: 'Close-up', lactation: 0 });
    const { calvedOn: _, ...data } = heifer.data as { calvedOn?: string };
    const book = with412(dryCow('9'), { ...heifer, data }, dose('9', DOSE), dose('31', DOSE));
    expect(rows(book).map(({ cow }) => cow)).toEqual(['9', '31']);
  });

  test('R-90 R-17 the doses a running course still wants count for the step, and the days run from the last of them', () => {
    const course = (of: number) => with412(STEPS, steps(DOSE, { course: { id: 'c1', dose: 1, of, everyHours: 12 } }));
    // Two doses: 15 March 04:40 and 4 days. Three: 15 March 16:40 and 10 days.
    expect(until(course(2))).toEqual(['2026-03-19T04:40:00Z']);
    expect(until(course(3))).toEqual(['2026-03-25T16:40:00Z']);
  });

  test('R-90 a dose at the very minute the hold before ends counts together with it', () => {
    const book = (time: string) => with412(STEPS, steps('2026-03-06T16:40:00Z'), steps(time), steps(DOSE));
    // 6 March and 4 days is 10 March 16:40; from there the second and 14 March 16:40 the third.
    expect(until(book('2026-03-10T16:40:00Z'))).toEqual(['2026-03-24T16:40:00Z']);
    expect(until(book('2026-03-10T16:41:00Z'))).toEqual(['2026-03-18T16:40:00Z']);
  });

  test('R-90 R-19 a dry-cow product: its days where they end after calving and its hours', () => {
    const dried = about('412', 'dry-off', '2026-02-20T06:00:00Z', { product: 'Ask-vet tube', group: 'Dry' });
    const calved = about('412', 'calving', DOSE, { calves: [{ sex: 'male', alive: true }], group: 'Fresh' });
    // 20 February 06:00 and 30 days is 22 March 06:00; calving and 24 hours is 15 March 16:40.
    expect(until(with412(dried, calved))).toEqual(['2026-03-22T06:00:00Z']);
  });

  test('R-90 R-25 a calving that may be hers adds the hours after calving, and does not stand for her own', () => {
    const tubes = { driedOffOn: '2026-01-20', driedOffWith: 'Ask-vet tube' };
    const book = evening([
      farm(),
      ...CUPBOARD,
      dryCow('31', { officialId: '999000000000031', ...tubes }),
      dryCow('31', { officialId: '999000000000032', driedOffWith: 'none' }),
      about('31', 'calving', '2026-03-10T10:00:00Z', { calves: [{ sex: 'male', alive: true }] }),
      about('999000000000031', 'calving', DOSE, { calves: [{ sex: 'male', alive: true }] }),
    ]);
    expect(until(book, '2026-03-11/morning')[0]).toBe('2026-03-15T16:40:00Z');
    expect(until(book)).toEqual(['2026-03-15T16:40:00Z']);
  });

  test('R-13 a milk hold of a person, a positive test and a fresh hold say nothing of meat', () => {
    const book = with412(
      about('412', 'milk-hold', DOSE, { reason: 'clots' }),
      about('412', 'residue-test', DOSE, { result: 'positive', of: 'cow' }),
    );
    expect(rows(book)).toEqual([]);
  });

  test('R-14 a dry-off that does not state its product holds the meat at once', () => {
    expect(until(with412(about('412', 'dry-off', DOSE, { group: 'Dry' })))).toEqual([null]);
    expect(until(with412(about('412', 'dry-off', DOSE, { group: 'Dry', product: 'none' })))).toEqual([]);
  });

  test("R-15 a vet's days under the label's leave the label's, and give an unlisted medicine its end", () => {
    expect(until(with412(dose('412', DOSE, { meatHoldDays: 1, prescribedBy: 'Dr Vane' })))).toEqual([
      '2026-03-17T16:40:00Z',
    ]);
    expect(
      until(with412(dose('412', DOSE, { medicine: 'Something else', meatHoldDays: 28, prescribedBy: 'Dr Vane' }))),
    ).toEqual(['2026-04-11T16:40:00Z']);
  });

  test('R-16 a label of no days holds nothing', () => {
    expect(rows(with412(dose('412', DOSE, { medicine: 'Nothing held' })))).toEqual([]);
  });

  test('R-18 half as long again goes up to whole days, and a longer vet wins', () => {
    const eu = (meatDays: number, more = {}) =>
      until(
        evening([
          farm({ offLabel: 'eu-2019-6' }),
          medicine('Its label', { milkHold: { hours: 24 }, meatDays }),
          milker('412'),
          dose('412', DOSE, { medicine: 'Its label', offLabel: true, prescribedBy: 'Dr Vane', ...more }),
        ]),
      );
    // 13 days: 19½, so 20. 28: 42. 3: 4½, so 5.
    expect([eu(13), eu(28), eu(3)]).toEqual([
      ['2026-04-03T16:40:00Z'],
      ['2026-04-25T16:40:00Z'],
      ['2026-03-19T16:40:00Z'],
    ]);
    expect(eu(3, { meatHoldDays: 30 })).toEqual(['2026-04-13T16:40:00Z']);
    expect(eu(3, { prescribedBy: undefined })).toEqual([null]);
  });

  test('R-25 R-90 a dose that may be hers holds her meat too', () => {
    expect(until(evening([farm(), ...CUPBOARD, milker('7'), dose('007', DOSE)]))).toEqual(['2026-03-17T16:40:00Z']);
  });

  test('R-90 the statement for the buyer says both holds, whatever she left for', () => {
    const left = (reason: 'sold-for-milking' | 'died') =>
      with412(dose('412', DOSE), about('412', 'cow-left', '2026-03-14T18:00:00Z', { reason })).at(AT).alerts;
    for (const reason of ['sold-for-milking', 'died'] as const) {
      expect(left(reason).map(({ because }) => because.values)).toEqual([
        {
          cow: '412',
          left: '2026-03-14',
          milk: true,
          meat: true,
          milkUntil: '2026-03-17T04:40:00Z',
          meatUntil: '2026-03-17T16:40:00Z',
          reason,
        },
      ]);
    }
    expect(with412(about('412', 'cow-left', DOSE, { reason: 'died' })).at(AT).alerts).toEqual([]);
  });
});
