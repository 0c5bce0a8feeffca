/** NEW marks and bands off, against really issued sheets. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type AFarm, aFarm, PENICILLIN } from './a-farm.ts';

let farm: AFarm;
beforeEach(() => {
  farm = aFarm();
});
afterEach(() => farm.close());

const hold = () => farm.print().sheets['milk-hold'];
const dose = (cow: string, time: string, id?: string) => farm.say('treatment', time, cow, { medicine: PENICILLIN }, id);

describe('new and cleared', () => {
  test('R-26 new is on hold now and not on the last sheet of an earlier milking', async () => {
    dose('101', '2026-03-01T11:00:00Z');
    expect(hold().held.map(({ cow, isNew }) => [cow, isNew])).toEqual([['101', true]]);
    await farm.issue();
    farm.at('2026-03-02T02:00:00Z');
    dose('102', '2026-03-01T20:00:00Z');
    expect(hold().held.map(({ cow, isNew }) => [cow, isNew])).toEqual([
      ['101', false],
      ['102', true],
    ]);
  });

  test('R-26 a set that replaces one of its milking asks again for what that one asked: nobody has done it yet', async () => {
    dose('101', '2026-02-27T05:10:00Z');
    await farm.issue();
    farm.at('2026-03-02T02:00:00Z');
    dose('102', '2026-03-01T20:00:00Z');
    dose('103', '2026-03-01T20:10:00Z', 'wrong-cow');
    const asked = () => {
      const { held, cleared, gone } = hold();
      const counts = farm.print().sheets.counts.groups.flatMap((group) => [...group.in, ...group.out]);
      return [
        held.map(({ cow, isNew }) => [cow, isNew]),
        cleared.map(({ cow }) => cow),
        gone.map(({ cow }) => cow),
        counts,
      ];
    };
    farm.say('group-move', '2026-03-01T19:00:00Z', '106', { to: 'Hospital' });
    const first = asked();
    expect(first).toEqual([
      [
        ['102', true],
        ['103', true],
      ],
      ['101'],
      [],
      ['106', '106'],
    ]);
    const { ref } = await farm.issue();
    expect(asked()).toEqual(first);
    farm.say('entry-struck', '2026-03-02T01:00:00Z', undefined, {
      entry: 'wrong-cow',
      reason: 'the wrong cow',
      instead: 'nothing',
    });
    dose('104', '2026-03-01T20:20:00Z');
    const second = asked();
    expect(second).toEqual([
      [
        ['102', true],
        ['104', true],
      ],
      ['101'],
      // Her band may be on by the set that is taken down.
      ['103'],
      ['106', '106'],
    ]);
    expect((await farm.issue()).replaces).toBe(ref);
    expect(asked()).toEqual(second);
    // At the milking that follows it is all done.
    farm.at('2026-03-02T12:00:00Z');
    expect(asked()).toEqual([
      [
        ['102', false],
        ['104', false],
      ],
      [],
      [],
      [],
    ]);
  });

  test('R-26 a set issued long before, and one of an earlier milking issued again after it, change nothing of that', async () => {
    dose('101', '2026-02-27T05:10:00Z');
    await farm.issue();
    await farm.issue('2026-03-02/morning');
    dose('102', '2026-03-01T11:50:00Z');
    await farm.issue();
    farm.at('2026-03-02T02:00:00Z');
    expect(hold().held.map(({ cow, isNew }) => [cow, isNew])).toEqual([['102', false]]);
    expect(hold().cleared.map(({ cow }) => cow)).toEqual(['101']);
  });

  test('R-26 cleared was on that sheet, is in milk and free at this milking: her band comes off', async () => {
    dose('101', '2026-02-27T05:10:00Z');
    // Sixty hours: until 1 March 17:10, so the afternoon of the 1st is the last one out.
    await farm.issue();
    farm.at('2026-03-02T02:00:00Z');
    expect(hold().held).toEqual([]);
    expect(hold().cleared).toEqual([
      expect.objectContaining({ cow: '101', since: '2026-03-01T17:10:00Z', notBefore: null }),
    ]);
  });

  test('R-05 a hold that ends within the hour before the start says "not before"', async () => {
    dose('101', '2026-02-27T16:20:00Z');
    await farm.issue();
    farm.at('2026-03-02T02:00:00Z');
    expect(hold().cleared).toEqual([
      expect.objectContaining({ cow: '101', since: '2026-03-02T04:20:00Z', notBefore: '04:20' }),
    ]);
  });

  test('R-05 one that ends an hour and a minute before does not', async () => {
    dose('101', '2026-02-27T15:59:00Z');
    await farm.issue();
    farm.at('2026-03-02T02:00:00Z');
    expect(hold().cleared).toEqual([expect.objectContaining({ cow: '101', notBefore: null })]);
  });

  test('R-26 drying off, leaving and a struck entry never clear; they are said', async () => {
    for (const cow of ['101', '102', '103']) dose(cow, '2026-02-27T05:10:00Z', `dose-${cow}`);
    await farm.issue();
    farm.at('2026-03-02T02:00:00Z');
    farm.say('dry-off', '2026-03-01T20:00:00Z', '101', { product: 'none', group: 'Dry' });
    farm.say('cow-left', '2026-03-01T20:00:00Z', '102', { reason: 'died' });
    farm.say('entry-struck', '2026-03-01T20:00:00Z', undefined, {
      entry: 'dose-103',
      reason: 'never given',
      instead: 'nothing',
    });
    expect(hold().cleared).toEqual([]);
    expect(hold().gone).toEqual([
      { cow: '101', how: 'dried-off' },
      { cow: '102', how: 'left' },
      { cow: '103', how: 'struck' },
    ]);
  });

  test('R-26 a cow that got another number since is not new', async () => {
    dose('101', '2026-03-01T11:00:00Z');
    await farm.issue();
    farm.at('2026-03-02T02:00:00Z');
    farm.say('number-changed', '2026-03-01T20:00:00Z', '101', { to: '901' });
    expect(hold().held.map(({ cow, isNew }) => [cow, isNew])).toEqual([['901', false]]);
  });

  test('issuing twice with nothing changed is one issue, with the same paper', async () => {
    dose('101', '2026-03-01T11:00:00Z');
    const first = await farm.issue();
    const { position } = farm.book.head();
    const second = await farm.issue();
    expect([second.ref, second.isNew, farm.book.head().position]).toEqual([first.ref, false, position]);
    expect(second.papers.map(({ bytes }) => Buffer.from(bytes).toString('hex'))).toEqual(
      first.papers.map(({ bytes }) => Buffer.from(bytes).toString('hex')),
    );
  });

  test('R-70 who came and went is told against the last issued count sheet', async () => {
    await farm.issue();
    farm.at('2026-03-02T02:00:00Z');
    farm.say('group-move', '2026-03-01T20:00:00Z', '104', { to: 'Fresh' });
    const { groups } = farm.print().sheets.counts;
    expect(groups.map(({ group, in: came, out }) => [group, came, out])).toEqual([
      ['Milkers', [], ['104']],
      ['Fresh', ['104'], []],
      ['Dry', [], []],
    ]);
  });
});
