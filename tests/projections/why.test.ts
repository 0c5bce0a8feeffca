/** Why a cow is on a list or not (R-10 and the rule of each list), where the number alone does not tell which cow is meant. */
import { expect, test } from 'vitest';
import { know } from '../../projections/know.ts';
import { viewsAt } from '../../projections/views-at.ts';
import { whyCow } from '../../projections/why.ts';
import { entriesOf } from '../published/paper-farm.ts';
import { about, CUPBOARD, dose, farm, milker } from './evening.ts';

test('R-10 R-25 of two cows of one number each is told her own reasons, by the number and by her official number', () => {
  const [first, second] = ['999000000000001', '999000000000002'];
  const known = know(
    entriesOf([
      farm(),
      ...CUPBOARD,
      milker('412', { officialId: first }),
      milker('412', { officialId: second, group: 'Hospital', calvedOn: '2026-01-04' }),
      dose(first, '2026-03-14T06:00:00Z'),
      about(second, 'milk-hold', '2026-03-14T06:10:00Z', { reason: 'clots' }),
    ]),
    [],
  );
  const milking = known.farm.schedule?.find('2026-03-15/morning');
  if (milking === undefined) throw new Error('no milking');
  const asked = { milking, asOf: milking.start, position: 0 };
  const views = viewsAt(known, asked);
  const told = (number: string) =>
    whyCow(known, asked, views, number)
      .map(({ officialId, until, lists }) => [officialId, until, lists[0]?.reasons.map(({ key }) => key)])
      .sort();
  const hers = [first, '2026-03-16T18:00:00Z', ['hold.hours', 'why.tank-from']];
  const others = [second, null, ['hold.set-by-person']];
  expect(told('412')).toEqual([hers, others]);
  expect([told(first), told(second)]).toEqual([[hers], [others]]);
});
