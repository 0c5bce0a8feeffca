/** NEW marks and bands off where two cows bear one number, and where a hold has several reasons, against really issued sheets. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type AFarm, aFarm, PENICILLIN } from '../api/a-farm.ts';
import { SET_UP } from '../api/alder-bank.ts';

let farm: AFarm;
beforeEach(() => {
  farm = aFarm();
});
afterEach(() => farm.close());

const hold = () => farm.print().sheets['milk-hold'];
const dose = (cow: string, time: string, id?: string) => farm.say('treatment', time, cow, { medicine: PENICILLIN }, id);
const cow = (number: string, officialId: string) =>
  farm.say('cow-entered', '2026-02-02T12:00:00Z', number, {
    group: 'Milkers',
    lactation: 3,
    officialId,
    calvedOn: '2025-12-01',
    milkHoldUntil: 'none',
    meatHoldUntil: 'none',
  });

describe('new and cleared', () => {
  test('R-26 a free cow is not cleared while another of her number is held: the band stays on', async () => {
    cow('900', '999000000000901');
    cow('900', '999000000000902');
    dose('999000000000901', '2026-03-01T11:00:00Z');
    await farm.issue();
    farm.at('2026-03-02T02:00:00Z');
    expect(hold().held.map((row) => row.cow)).toEqual(['900']);
    expect(hold().cleared).toEqual([]);
  });

  test('R-26 a second cow of a number on the last sheet is new', async () => {
    cow('900', '999000000000901');
    cow('900', '999000000000902');
    dose('999000000000901', '2026-03-01T11:00:00Z');
    await farm.issue();
    dose('999000000000902', '2026-03-01T11:30:00Z');
    expect(hold().held.map((row) => [row.cow, row.isNew])).toEqual([
      ['900', true],
      ['900', true],
    ]);
  });

  test('R-26 a cow whose reason has changed since the last sheet is not new: her band is on', async () => {
    dose('101', '2026-02-27T05:10:00Z');
    await farm.issue();
    farm.at('2026-03-02T02:00:00Z');
    farm.say('milk-hold', '2026-03-01T20:00:00Z', '101', { reason: 'clots' });
    expect(hold().held.map((row) => [row.cow, row.isNew])).toEqual([['101', false]]);
    expect(hold().cleared).toEqual([]);
  });

  test('R-26 a cleared cow is told once: she is not on the next sheet, and new again when she is held again', async () => {
    dose('101', '2026-02-27T05:10:00Z');
    await farm.issue();
    farm.at('2026-03-02T02:00:00Z');
    expect(hold().cleared.map((row) => row.cow)).toEqual(['101']);
    await farm.issue();
    farm.at('2026-03-02T12:00:00Z');
    expect(hold().cleared).toEqual([]);
    dose('101', '2026-03-02T11:00:00Z');
    expect(hold().held.map((row) => [row.cow, row.isNew])).toEqual([['101', true]]);
  });

  test('R-26 R-21 a hold lifted by a person clears her at the next milking', async () => {
    farm.say('milk-hold', '2026-03-01T10:00:00Z', '101', { reason: 'clots' });
    await farm.issue();
    farm.at('2026-03-02T02:00:00Z');
    farm.say('milk-hold-lifted', '2026-03-01T20:00:00Z', '101', { reason: 'clean' });
    expect(hold().cleared).toEqual([
      expect.objectContaining({ cow: '101', since: '2026-03-01T20:00:00Z', notBefore: null }),
    ]);
  });

  test('R-05 a part of a minute is up to the next full one: not before the hold has ended', async () => {
    dose('101', '2026-02-27T16:20:30Z');
    await farm.issue();
    farm.at('2026-03-02T02:00:00Z');
    expect(hold().cleared.map((row) => row.notBefore)).toEqual(['04:21']);
  });
});

describe('a number that changed since the sheet', () => {
  const renumber = (number: string, to: string, time: string) => farm.say('number-changed', time, number, { to });

  test('R-26 between the sheet and its milking: the band is on the cow that had the number when the sheet was made', async () => {
    dose('104', '2026-03-01T09:00:00Z');
    await farm.issue();
    farm.at('2026-03-02T02:00:00Z');
    renumber('104', '140', '2026-03-01T14:30:00Z');
    renumber('105', '104', '2026-03-01T14:40:00Z');
    expect(hold().gone).toEqual([]);
    expect(hold().held.map((row) => [row.cow, row.isNew])).toEqual([['140', false]]);
    dose('104', '2026-03-01T19:00:00Z');
    expect(hold().held.map((row) => [row.cow, row.isNew])).toEqual([
      ['104', true],
      ['140', false],
    ]);
  });

  test('R-26 R-31 said afterwards to have been before the sheet: she has not left, and she was on it', async () => {
    dose('104', '2026-03-01T05:00:00Z');
    await farm.issue();
    farm.at('2026-03-02T02:00:00Z');
    renumber('104', '140', '2026-03-01T08:00:00Z');
    expect([hold().held.map((row) => [row.cow, row.isNew]), hold().gone]).toEqual([[['140', false]], []]);
    expect(farm.print().alerts.filter(({ key }) => key.startsWith('late-news'))).toEqual([]);
  });

  test('R-70 who left, or got another number, between the count sheet and its milking is out, or stays', async () => {
    await farm.issue();
    const before = farm.print().sheets.counts.groups.find(({ group }) => group === 'Milkers')?.head ?? 0;
    farm.at('2026-03-02T02:00:00Z');
    farm.say('cow-left', '2026-03-01T14:00:00Z', '104', { reason: 'sold-for-milking' });
    renumber('105', '150', '2026-03-01T14:00:00Z');
    const row = farm.print().sheets.counts.groups.find(({ group }) => group === 'Milkers');
    expect([row?.head, row?.in, row?.out]).toEqual([before - 1, [], ['104']]);
  });
});

test('R-26 R-03 in a group milked once a day the band comes off at the milking she comes to', async () => {
  farm.say('farm-set-up', '2026-02-02T12:00:00Z', undefined, {
    ...SET_UP,
    groups: [...SET_UP.groups, { name: 'Mornings', kind: 'milking', milkedAt: ['morning'] }],
  });
  farm.say('group-move', '2026-02-10T12:00:00Z', '104', { to: 'Mornings' });
  // 60 hours: over on 2 March at noon, between her milking and the afternoon one.
  dose('104', '2026-02-28T00:00:00Z');
  const cleared = () => hold().cleared.map((row) => row.cow);
  farm.at('2026-03-02T02:00:00Z');
  await farm.issue();
  farm.at('2026-03-02T13:00:00Z');
  expect(cleared()).toEqual(['104']);
  await farm.issue();
  farm.at('2026-03-03T02:00:00Z');
  expect(cleared()).toEqual(['104']);
  await farm.issue();
  farm.at('2026-03-03T13:00:00Z');
  expect(cleared()).toEqual([]);
  await farm.issue();
  farm.at('2026-03-04T02:00:00Z');
  expect(cleared()).toEqual([]);
});
