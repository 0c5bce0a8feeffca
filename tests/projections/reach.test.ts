/** Late news of milkings long over is found without asking every cow about every milking, and it is the same news. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { know } from '../../projections/know.ts';
import { bearersOnSheet } from '../../projections/standing.ts';
import { standingsAt } from '../../projections/standings.ts';
import { momentOf, viewsAt } from '../../projections/views-at.ts';
import { plusHours } from '../../shared/instant.ts';
import { entriesOf } from '../published/paper-farm.ts';
import { anything, issuedFor, NUMBERS, START, said } from './histories.ts';

const MILKINGS = ['2026-03-10/morning', '2026-03-10/afternoon', '2026-03-11/afternoon', '2026-03-13/morning'];

test('R-31 names exactly the cows that were held at a milking and not on its sheet, as asking each of them would', () => {
  let found = 0;
  fc.assert(
    fc.property(
      fc.array(anything, { minLength: 6, maxLength: 24 }),
      fc.subarray(MILKINGS, { minLength: 1 }),
      fc.subarray(NUMBERS),
      fc.integer({ min: 8 * 24, max: 40 * 24 }),
      (history, issued, numbers, hours) => {
        const known = know([...entriesOf(said(history)), ...issuedFor(issued, numbers)], []);
        const { schedule } = known.farm;
        const asOf = plusHours(START, hours);
        const next = schedule?.find('2026-04-30/morning');
        if (schedule === undefined || next === undefined) throw new Error('no farm');
        const { alerts } = viewsAt(known, { milking: next, asOf, position: 0 });
        const news = alerts.flatMap(({ because }) =>
          because.key === 'alert.late-news' ? [`${because.values.milking} ${because.values.cow}`] : [],
        );
        const madeFor = (id: string) => known.farm.issued.find(({ data }) => data.milking === id)?.at;
        const asked = issued.flatMap((id) => {
          const milking = schedule.find(id);
          const moment = milking === undefined ? undefined : momentOf(known, { milking, asOf, position: 0 });
          if (moment === undefined) throw new Error('no milking');
          const listed = new Set(
            numbers.flatMap((number) => bearersOnSheet(known, schedule, number, moment.milking, madeFor(id))),
          );
          return standingsAt(known, moment).flatMap(({ held, number, running, file }) =>
            held && !listed.has(file.cow.key) && running.length > 0 ? [`${id} ${number}`] : [],
          );
        });
        // What a dry-off inside the milking names was not in that milk.
        const withDryOffs = new Set(
          known.files.flatMap(({ cow }) => (cow.dryOffs.length > 0 ? cow.spans.map(({ number }) => number) : [])),
        );
        const others = news.filter((each) => !withDryOffs.has(each.split(' ')[1] ?? ''));
        found += asked.length;
        expect([...new Set(others)].sort()).toEqual(
          [...new Set(asked.filter((each) => !withDryOffs.has(each.split(' ')[1] ?? '')))].sort(),
        );
      },
    ),
    { seed: 93, numRuns: 400 },
  );
  expect(found).toBeGreaterThan(300);
});
