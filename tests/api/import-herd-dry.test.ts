/** A herd list with dry cows on it, imported into a real book: what the list was said to come to, the sheets say. */
import { expect, test } from 'vitest';
import { readHerdFile } from '../../api/import-herd/import-herd.ts';
import { mustBeInstant } from '../../shared/instant.ts';
import { aFarm } from './a-farm.ts';
import { SET_UP } from './alder-bank.ts';

const LIST = [
  'Cow,Group,Lactation,Calved,Dry-cow product',
  '601,Dry,3,2025-02-22,',
  '602,Dry,3,2025-02-22,none',
  '603,dry,3,2025-02-22,Some tube',
].join('\n');

test('R-19 a dry cow of the list whose product is not stated is held after calving, whatever her last calving on it', () => {
  const farm = aFarm();
  const time = '2026-02-15T12:00:00Z';
  const list = readHerdFile(new TextEncoder().encode(LIST), {
    asOf: mustBeInstant(time),
    zone: SET_UP.timeZone,
    groups: SET_UP.groups,
    source: 'office',
    author: 'Marta',
    holds: 'none',
  });
  expect(list.refusals).toEqual([]);
  expect(list.notes.join('\n')).toMatch(/held after calving until it is \(R-19\): 601$/m);
  for (const { value } of list.entries) farm.say('cow-entered', time, value.subject, value.data, value.id);

  farm.at('2026-03-11T16:00:00Z');
  for (const { value } of list.entries) {
    farm.say('calving', '2026-03-08T12:00:00Z', value.subject, { calves: [], group: 'Fresh' });
  }
  const { sheets } = farm.print({ milking: '2026-03-11/afternoon' });
  const held = sheets['milk-hold'].held.map(({ cow, until, reasons }) => [cow, until, reasons.map(({ key }) => key)]);
  expect(held).toEqual([
    ['601', null, ['hold.dry-cow-not-stated']],
    ['603', null, ['hold.not-listed']],
  ]);
  expect(sheets['beef-hold'].cows.map(({ cow, until }) => [cow, until])).toEqual([
    ['601', null],
    ['603', null],
  ]);
  farm.close();
});
