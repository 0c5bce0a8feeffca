/** A group that goes by another name from some day on: the cows in it stand in it all the same. */
import { describe, expect, test } from 'vitest';
import type { DataOf } from '../../events/kinds.ts';
import { KINDS } from '../../events/kinds.ts';
import type { Views } from '../../projections/views.ts';
import { about, CUPBOARD, dose, dryCow, evening, farm, farmWide, keysOf, milker, type Saying } from './evening.ts';

type Groups = DataOf<'farm-set-up'>['groups'];
const BEFORE: Groups = [
  { name: 'Heifers', kind: 'milking', takes: 'first-lactation', order: 2 },
  { name: 'Cows', kind: 'milking', takes: 'later-lactations', order: 1, milkedAt: ['morning'] },
  { name: 'Fresh', kind: 'fresh', order: 3 },
  { name: 'Dry', kind: 'dry' },
];
const AFTER = BEFORE.map((group) => ({ ...group, name: `New ${group.name}`, was: [group.name] }));

/** Set up again on 10 March, with these groups from the next day on. */
const again = (groups: Groups, time = '2026-03-10T09:00:00Z'): Saying => ({
  ...farmWide('farm-set-up', time, {
    ...(farm().data as DataOf<'farm-set-up'>),
    from: time.slice(0, 8) + String(Number(time.slice(8, 10)) + 1).padStart(2, '0'),
    groups,
  }),
  id: `again-${time}`,
});
const CALVED = { calves: [{ sex: 'female' as const, alive: true }] };
const herd = (moveTo: (group: string) => string): readonly Saying[] => [
  farm({ groups: BEFORE }, 'first'),
  ...CUPBOARD,
  milker('1'),
  milker('2', { lactation: 1 }),
  milker('3', { group: 'Fresh', calvedOn: '2026-01-09' }),
  dryCow('4', { dueOn: '2026-03-12' }),
  dryCow('5'),
  milker('6', { group: 'Heifers', lactation: 1 }),
  { ...about('4', 'calving', '2026-03-11T22:00:00Z', { ...CALVED, group: moveTo('Fresh') }), id: 'calved' },
  dose('1', '2026-03-11T06:00:00Z', { medicine: 'Five milkings' }),
  dose('6', '2026-03-10T06:00:00Z'),
  { ...about('5', 'group-move', '2026-03-12T01:00:00Z', { to: moveTo('Cows') }), id: 'moved' },
  { ...farmWide('head-count', '2026-03-09T09:00:00Z', { group: 'Cows', count: 5 }), id: 'counted' },
];
const plain = (views: Views): unknown => JSON.parse(JSON.stringify(views).replaceAll('New ', ''));
const MILKINGS = ['2026-03-09/morning', '2026-03-11/morning', '2026-03-12/morning', '2026-03-13/afternoon'];

describe('a group under a new name', () => {
  const renamed = evening([...herd((group) => `New ${group}`), again(AFTER)]);
  const same = evening([...herd((group) => group), again(BEFORE)]);

  test.each(MILKINGS)('R-70 every sheet of %s is what it would be under the old name', (milking) => {
    expect(plain(renamed.at(milking))).toEqual(plain(same.at(milking)));
  });

  test('R-70 it is called by the name of the day', () => {
    const names = (milking: string) => renamed.at(milking).sheets.counts.groups.map(({ group, head }) => [group, head]);
    expect(names('2026-03-10/morning')).toEqual([
      ['Cows', 2],
      ['Heifers', 1],
      ['Fresh', 1],
      ['Dry', 2],
    ]);
    expect(names('2026-03-12/morning')).toEqual([
      ['New Cows', 3],
      ['New Heifers', 1],
      ['New Fresh', 2],
      ['New Dry', 0],
    ]);
  });

  test('R-24 a dry cow in a dry group of another name is no dry cow among the milked', () => {
    expect(renamed.at('2026-03-11/morning').sheets['milk-hold'].held.map(({ cow }) => cow)).toEqual(['1', '6']);
    expect(keysOf(renamed.held('5', '2026-03-12/morning'))).toEqual(['hold.dry-in-milked-group']);
    const without = evening([
      ...herd((group) => group),
      again(BEFORE.map((group) => ({ ...group, name: `New ${group.name}` }))),
    ]);
    expect(keysOf(without.held('5', '2026-03-11/morning'))).toEqual(['hold.dry-in-milked-group']);
  });

  test('R-70 renamed twice, and moved under the name before', () => {
    const third = BEFORE.map((group) => ({
      ...group,
      name: `Third ${group.name}`,
      was: [`New ${group.name}`, group.name],
    }));
    const twice = evening([...herd((group) => group), again(AFTER), again(third, '2026-03-12T09:00:00Z')]).at(
      '2026-03-13/morning',
    );
    expect(twice.sheets.counts.groups.map(({ group, head }) => [group, head])).toEqual([
      ['Third Cows', 3],
      ['Third Heifers', 1],
      ['Third Fresh', 2],
      ['Third Dry', 0],
    ]);
  });

  test('a name can have been one group alone, and none that is still there', () => {
    const problem = (groups: Groups) =>
      KINDS['farm-set-up'].schema
        .safeParse({ ...(farm().data as object), groups })
        .error?.issues.map(({ message }) => message);
    expect(problem(AFTER)).toBeUndefined();
    expect(problem([...BEFORE, { name: 'Other', kind: 'milking', was: ['Dry'] }])).toEqual([
      'names "Dry", which is a group of its own',
    ]);
    const two = AFTER.map((group) => ({ ...group, was: ['Old'] })).slice(0, 2);
    expect(problem(two)).toHaveLength(2);
  });
});
