/** Which milkings are in which tank load, worked by hand, and what a positive tank test says of them. Milked 05:00 and 16:30; nobody in milk, so each milking lasts its hour. */
import { describe, expect, test } from 'vitest';
import { know } from '../../projections/know.ts';
import { loadsOf } from '../../projections/tank.ts';
import { evening, farm, farmWide, type Saying } from './evening.ts';

const fetched = (time: string, tank?: string, more = {}, id = `fetched-${time}`): Saying => ({
  ...farmWide('tank-collection', time, { ...(tank === undefined ? {} : { tank }), ...more }),
  id,
});
const finished = (time: string, milking: string) => farmWide('milking-finished', time, { milking });

/** The loads of one milking: tank, when collected, and the milkings in each. */
const loads = (milking: string, ...sayings: readonly Saying[]) => {
  const known = know(evening([farm(), ...sayings]).entries, []);
  const { schedule } = known.farm;
  const found = schedule?.find(milking);
  if (schedule === undefined || found === undefined) throw new Error(`${milking} is not on the schedule`);
  return loadsOf(known, schedule, found).map(({ tank, collection, milkings }) => [
    tank,
    collection?.id.replace('fetched-', '') ?? null,
    milkings.map(({ id }) => id),
  ]);
};

describe('loads', () => {
  const daily = [fetched('2026-03-13T09:00:00Z'), fetched('2026-03-14T09:00:00Z')];

  test('R-30 a load is the milkings started between two collections', () => {
    expect(loads('2026-03-13/afternoon', ...daily)).toEqual([
      ['1', '2026-03-14T09:00:00Z', ['2026-03-13/afternoon', '2026-03-14/morning']],
    ]);
  });

  test('R-30 what nobody has fetched is still here', () => {
    const over = finished('2026-03-14T18:00:00Z', '2026-03-14/afternoon');
    expect(loads('2026-03-14/afternoon', ...daily, over)).toEqual([['1', null, ['2026-03-14/afternoon']]]);
  });

  test('R-30 a collection inside a milking leaves it in both loads, the milking before in the first alone', () => {
    const sayings = [...daily, fetched('2026-03-15T05:30:00Z'), fetched('2026-03-16T09:00:00Z')];
    expect(loads('2026-03-15/morning', ...sayings)).toEqual([
      ['1', '2026-03-15T05:30:00Z', ['2026-03-14/afternoon', '2026-03-15/morning']],
      ['1', '2026-03-16T09:00:00Z', ['2026-03-15/morning', '2026-03-15/afternoon', '2026-03-16/morning']],
    ]);
    expect(loads('2026-03-14/afternoon', ...sayings).map(([, at]) => at)).toEqual(['2026-03-15T05:30:00Z']);
  });

  test('R-30 R-04 the first and the last minute of a milking are inside it, the minute after is not', () => {
    const both = (time: string) => loads('2026-03-15/morning', ...daily, fetched(time)).map(([, at]) => at);
    expect(both('2026-03-15T04:59:00Z')).toEqual([null]);
    expect(both('2026-03-15T05:00:00Z')).toEqual(['2026-03-15T05:00:00Z', null]);
    expect(both('2026-03-15T06:00:00Z')).toEqual(['2026-03-15T06:00:00Z', null]);
    expect(both('2026-03-15T06:01:00Z')).toEqual(['2026-03-15T06:01:00Z']);
  });

  test('R-30 R-04 a milking that was finished early ended then', () => {
    const early = finished('2026-03-15T05:20:00Z', '2026-03-15/morning');
    expect(loads('2026-03-15/morning', ...daily, early, fetched('2026-03-15T05:30:00Z')).map(([, at]) => at)).toEqual([
      '2026-03-15T05:30:00Z',
    ]);
  });

  test('R-30 two tankers inside one milking: its milk is in three loads', () => {
    const sayings = [...daily, fetched('2026-03-15T05:15:00Z'), fetched('2026-03-15T05:45:00Z')];
    expect(loads('2026-03-15/morning', ...sayings)).toEqual([
      ['1', '2026-03-15T05:15:00Z', ['2026-03-14/afternoon', '2026-03-15/morning']],
      ['1', '2026-03-15T05:45:00Z', ['2026-03-15/morning']],
      ['1', null, ['2026-03-15/morning']],
    ]);
  });

  test('R-30 each tank has its own collections; the milk may be in any of them', () => {
    const sayings = [
      fetched('2026-03-14T09:00:00Z', 'north'),
      fetched('2026-03-15T10:00:00Z', 'south'),
      fetched('2026-03-15T11:00:00Z', 'north'),
    ];
    expect(loads('2026-03-14/afternoon', ...sayings).map(([tank, at]) => [tank, at])).toEqual([
      ['north', '2026-03-15T11:00:00Z'],
      ['south', '2026-03-15T10:00:00Z'],
    ]);
  });

  test('R-30 R-23 a collection that is struck closed no load', () => {
    const struck = farmWide('entry-struck', '2026-03-14T10:00:00Z', { entry: 'mistyped', reason: 'wrong day' });
    const sayings = [...daily, fetched('2026-03-13T20:00:00Z', undefined, {}, 'mistyped'), struck];
    expect(loads('2026-03-13/afternoon', ...sayings).map(([, at]) => at)).toEqual(['2026-03-14T09:00:00Z']);
  });
});

describe('a positive tank test', () => {
  const alerts = (...sayings: readonly Saying[]) =>
    evening([farm(), ...sayings])
      .at('2026-03-14/afternoon')
      .alerts.map(({ key, because }) => [key, because.values]);
  const positive = (more = {}): Saying => ({
    ...farmWide('residue-test', '2026-03-14T12:00:00Z', { result: 'positive', of: 'tank', ...more }),
    id: 'test',
  });
  const night = ['2026-03-13/afternoon', '2026-03-14/morning'];

  test('R-32 is about the milk that stood in the tank when the sample was drawn, collected since or not', () => {
    const daily = [fetched('2026-03-13T09:00:00Z'), fetched('2026-03-14T09:00:00Z')];
    expect(alerts(...daily, positive({ sampledAt: '2026-03-14T07:00:00Z' }))).toEqual([
      [
        'tank-positive:test',
        { tank: '1', at: '2026-03-14T07:00:00Z', milkings: night, collectedAt: '2026-03-14T09:00:00Z' },
      ],
    ]);
    expect(alerts(...daily, positive({ sampledAt: '2026-03-14T12:00:00Z' }))).toEqual([
      ['tank-positive:test', { tank: '1', at: '2026-03-14T12:00:00Z', milkings: [], collectedAt: null }],
    ]);
  });

  test('R-30 R-32 when it was drawn is not said: the load fetched before the result may be the one, for three days', () => {
    const loadsOf = (...times: readonly string[]) =>
      evening([farm(), ...times.map((time) => fetched(time, undefined, {}, `fetched ${time}`)), positive()])
        .at('2026-03-14/afternoon')
        .alerts.flatMap(({ key, because }) =>
          because.key === 'alert.tank-positive' ? [[key, because.values.collectedAt]] : [],
        );
    expect(loadsOf('2026-03-13T09:00:00Z', '2026-03-14T09:00:00Z')).toEqual([
      ['tank-positive:test', null],
      ['tank-positive:test:fetched 2026-03-14T09:00:00Z', '2026-03-14T09:00:00Z'],
    ]);
    expect(loadsOf('2026-03-11T12:00:00Z')).toHaveLength(2);
    expect(loadsOf('2026-03-11T11:59:00Z')).toEqual([['tank-positive:test', null]]);
  });

  test('R-32 with several tanks it may be any of them: an alert for each, settled one by one', () => {
    const tanks = [
      fetched('2026-03-13T09:00:00Z', 'north'),
      fetched('2026-03-13T10:00:00Z', 'south'),
      fetched('2026-03-14T13:00:00Z', 'south'),
    ];
    const drawn = positive({ sampledAt: '2026-03-14T12:00:00Z' });
    const said = alerts(...tanks, drawn);
    expect(said).toEqual([
      ['tank-positive:test:north', { tank: 'north', at: '2026-03-14T12:00:00Z', milkings: night, collectedAt: null }],
      [
        'tank-positive:test:south',
        { tank: 'south', at: '2026-03-14T12:00:00Z', milkings: night, collectedAt: '2026-03-14T13:00:00Z' },
      ],
    ]);
    const settled = farmWide('settled', '2026-03-14T14:00:00Z', {
      about: 'tank-positive:test:north',
      how: 'tested again, clear',
    });
    expect(alerts(...tanks, drawn, settled).map(([key]) => key)).toEqual(['tank-positive:test:south']);
  });
});
