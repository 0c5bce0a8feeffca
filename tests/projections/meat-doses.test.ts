/** Which doses count together where a label goes by their number, and that all who ask get one answer. */
import { describe, expect, test } from 'vitest';
import { dosingHolds } from '../../api/ade/dosing-holds.ts';
import { know } from '../../projections/know.ts';
import { leavingOfCow } from '../../projections/leaving.ts';
import { medicineRegister } from '../../projections/medicines.ts';
import { momentOf } from '../../projections/views-at.ts';
import { instantText } from '../../shared/instant.ts';
import { about, dose, evening, farm, medicine, milker, type Saying } from './evening.ts';

const AT = '2026-03-01/morning';
const steps = (first: number, then: number, time?: string) =>
  medicine('Steps', { milkHold: { hours: 24 }, meatDays: [{ upToDoses: 1, days: first }, { days: then }] }, time);
const given = (time: string, more = {}, id?: string) => dose('412', time, { medicine: 'Steps', ...more }, id);
const vetSays = (treatment: string, meatDays: number) =>
  about('412', 'vet-hold-time', '2026-02-27T06:00:00Z', { treatment, meatDays, prescribedBy: 'Dr Vane' });
const book = (...more: readonly Saying[]) => evening([farm(), milker('412'), ...more]);
const until = (each: ReturnType<typeof book>, milking = AT) =>
  each.at(milking).sheets['beef-hold'].cows.map((row) => row.until);

const VET = { meatHoldDays: 12, prescribedBy: 'Dr Vane' };
/** Vet's 12 days from the 20th run until 4 March: the dose of the 26th is the second, and 10 days from it. */
const BY_THE_VET = [farm(), milker('412'), steps(4, 10), given('2026-02-20T06:00:00Z', VET)];

describe('doses within a running meat hold', () => {
  test("R-90 R-15 a second dose inside the vet's longer hold counts together with the first", () => {
    expect(until(evening([...BY_THE_VET, given('2026-02-26T06:00:00Z')]))).toEqual(['2026-03-08T06:00:00Z']);
    // At the very minute of the vet's end the hold still runs; a minute later the dose is a first one.
    const [second, first] = ['2026-03-04T06:00:00Z', '2026-03-04T06:01:00Z'].map((time) =>
      until(evening([...BY_THE_VET, given(time)]), '2026-03-05/morning'),
    );
    expect([second, first]).toEqual([['2026-03-14T06:00:00Z'], ['2026-03-08T06:01:00Z']]);
  });

  test("R-90 R-15 so it does where the vet gave the time afterwards, and not where the label's is the longer", () => {
    const word = (meatDays: number) =>
      book(
        steps(4, 10),
        given('2026-02-20T06:00:00Z', {}, 'first'),
        given('2026-02-26T06:00:00Z'),
        vetSays('first', meatDays),
      );
    expect(until(word(12))).toEqual(['2026-03-08T06:00:00Z']);
    expect(until(word(3))).toEqual(['2026-03-02T06:00:00Z']);
  });

  test('R-90 R-18 a second dose inside the hold that the regulation made longer counts together with the first', () => {
    const eu = (time: string) =>
      evening([
        farm({ offLabel: 'eu-2019-6' }),
        milker('412'),
        steps(4, 10),
        given('2026-02-20T06:00:00Z', { offLabel: true, prescribedBy: 'Dr Vane' }),
        given(time),
      ]);
    // Half as long again as four days is six: until the 26th.
    expect(until(eu('2026-02-25T06:00:00Z'))).toEqual(['2026-03-07T06:00:00Z']);
    expect(until(eu('2026-02-26T06:00:00Z'))).toEqual(['2026-03-08T06:00:00Z']);
    expect(until(eu('2026-02-26T06:01:00Z'))).toEqual(['2026-03-02T06:01:00Z']);
  });

  test('R-90 R-29 a hold that a longer label stretched, or that a shorter one left, is a running hold too', () => {
    const longer = book(
      steps(4, 10),
      given('2026-02-20T06:00:00Z'),
      steps(7, 12, '2026-02-22T06:00:00Z'),
      given('2026-02-26T06:00:00Z'),
    );
    expect(until(longer)).toEqual(['2026-03-10T06:00:00Z']);
    const shorter = book(
      steps(8, 10),
      given('2026-02-20T06:00:00Z'),
      steps(4, 9, '2026-02-22T06:00:00Z'),
      given('2026-02-26T06:00:00Z'),
    );
    expect(until(shorter)).toEqual(['2026-03-07T06:00:00Z']);
  });

  test('R-90 R-15 an open hold runs until the vet gives its end', () => {
    const open = [steps(4, 10), given('2026-01-20T06:00:00Z', { offLabel: true }, 'ticked')];
    expect(until(book(...open, given('2026-02-26T06:00:00Z')))).toEqual([null]);
    expect(until(book(...open, given('2026-02-26T06:00:00Z'), vetSays('ticked', 12)))).toEqual([
      '2026-03-02T06:00:00Z',
    ]);
  });

  test('R-90 R-17 the doses of a course count together, however far apart: she was held from each to the next', () => {
    const days = [20, 23, 26];
    const doses = days.map((day, place) =>
      given(`2026-02-${day}T06:00:00Z`, { course: { id: 'c', dose: place + 1, of: 3, everyHours: 72 } }),
    );
    // Planned to be over on the 26th, and over then: three doses, and ten days from the last.
    const afterEach = days.map((day, place) =>
      until(book(steps(2, 10), ...doses.slice(0, place + 1)), `2026-02-${day}/afternoon`),
    );
    expect(afterEach).toEqual(days.map(() => ['2026-03-08T06:00:00Z']));
    // The course begun again under its old id is another one.
    const again = given('2026-03-20T06:00:00Z', { course: { id: 'c', dose: 1, of: 1, everyHours: 72 } });
    expect(until(book(steps(2, 10), ...doses, again), '2026-03-21/morning')).toEqual(['2026-03-22T06:00:00Z']);
  });

  test('R-90 R-13 the hold of another medicine does not make a first dose a second one', () => {
    const both = book(
      steps(4, 10),
      medicine('Other', { milkHold: { hours: 24 }, meatDays: 30 }),
      dose('412', '2026-02-20T06:00:00Z', { medicine: 'Other' }),
      given('2026-02-26T06:00:00Z'),
    );
    expect(both.at(AT).sheets['beef-hold'].cows[0]?.reasons.map((reason) => reason.until)).toEqual([
      '2026-03-22T06:00:00Z',
      '2026-03-02T06:00:00Z',
    ]);
  });
});

describe('one answer for all who ask', () => {
  test('R-90 R-95 the sheet, the register, the statement for the buyer and the exchange end the hold at one time', () => {
    const each = evening([...BY_THE_VET, given('2026-02-26T06:00:00Z')]);
    const known = know(each.entries, []);
    const milking = known.farm.schedule?.find(AT);
    const moment = milking && momentOf(known, { milking, asOf: milking.start, position: 0 });
    const [file] = known.files;
    if (moment === undefined || file === undefined) throw new Error('no such milking');
    const [first, second] = ['2026-03-04T06:00:00Z', '2026-03-08T06:00:00Z'];
    expect(medicineRegister(known, moment).rows.map(({ meatHold }) => meatHold.until)).toEqual([first, second]);
    expect(leavingOfCow(known, moment, file, []).meat.until).toBe(second);
    expect(dosingHolds(known, moment).map(({ meat }) => meat && instantText(meat))).toEqual([first, second]);
    const [row] = each.at(AT).sheets['beef-hold'].cows;
    expect(row?.reasons.map((reason) => reason.until)).toEqual([first, second]);
  });
});
