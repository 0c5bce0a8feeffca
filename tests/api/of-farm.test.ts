/** A refused line that is about no cow heads the sheet as what names no cow, and its words are nobody's number. */
import { describe, expect, onTestFinished, test } from 'vitest';
import { readLine } from '../../events/door.ts';
import { ENTRY_TYPES, KINDS } from '../../events/kinds.ts';
import { isOfFarmAlone } from '../../events/of-farm.ts';
import { aFarm } from './a-farm.ts';

const TIME = '2026-03-01T11:00:00Z';
const SET_UP = { type: 'farm-set-up', time: TIME, data: KINDS['farm-set-up'].example };
const json = (...parts: readonly object[]): string => JSON.stringify(Object.assign({}, ...parts));

/** Every case is a line that the door refuses. */
const seen = (...lines: readonly string[]) => {
  const farm = aFarm();
  onTestFinished(farm.close);
  const settings = { source: 'office', author: 'Marta', now: farm.book.clock.now() };
  const receipts = farm.book.record(lines.map((text) => readLine(text, settings)));
  expect(receipts.map(({ outcome }) => outcome)).toEqual(lines.map(() => 'refused'));
  const { sheets, doubts } = farm.print();
  return {
    rows: sheets['milk-hold'].unplaced.map(({ number }) => number),
    held: sheets['milk-hold'].held.map(({ cow }) => cow),
    doubts: doubts.filter(({ because }) => because.key === 'doubt.set-aside').length,
    problems: receipts.map(({ problem }) => problem),
  };
};

describe('a refused line about the farm alone', () => {
  test.each<[string, string]>([
    ['with "farm" for a subject', json(SET_UP, { subject: 'farm' })],
    ['with words for a subject', json(SET_UP, { subject: 'the whole farm' })],
    ['with a field missing', json({ type: 'medicine-listed', time: TIME, data: { name: 'Penicillin G procaine' } })],
    [
      'with a misspelt field',
      json({ type: 'medicine-received', time: TIME, data: { medicine: 'Penicillin', kilos: 3 } }),
    ],
    ['with a wrong time', json({ type: 'tank-collection', time: 'today', data: { tank: '1' } })],
  ])('R-27 %s heads the sheet with no number, and is a doubt', (_, text) => {
    expect(seen(text)).toMatchObject({ rows: [null], held: [], doubts: 1 });
  });

  test.each<[string, string, (string | null)[]]>([
    ['a subject that could be a number', json(SET_UP, { subject: '412' }), ['412']],
    ['a number under another name', json({ type: 'milking-finished', time: TIME, cow: 412, data: {} }), [null]],
    ['a number in its data', json({ type: 'head-count', time: TIME, data: { 'cow number': '412' } }), [null]],
    ['two entries written as one', json(SET_UP, { data: { ...SET_UP.data, more: [{ subject: '412' }] } }), [null]],
    ['the entry of a cow', json({ type: 'sheet-returned', time: TIME, data: { treatment: 'nobody-knows' } }), [null]],
    ['a field said twice', '{"type":"farm-set-up","type":"treatment","data":{}}', [null]],
    ['no readable kind', json(SET_UP, { type: 'farm set up' }), [null]],
    ['no readable kind and a word', json(SET_UP, { type: 'farm set up', subject: 'farm' }), ['farm']],
    ['a kind that may be of a cow', json({ type: 'residue-test', time: TIME, data: { of: 'tank' } }), [null]],
    ['a strike', json({ type: 'entry-struck', time: TIME, data: { entry: 'nobody-knows' } }), [null]],
    ['a settling', json({ type: 'settled', time: TIME, data: { about: 'unplaced:1' } }), [null]],
    ['a cow of no number', json({ type: 'treatment', time: TIME, data: { medicine: 'Penicillin' } }), [null]],
    ['an unreadable line', '{"type":"farm-set-up","data":', [null]],
  ])('R-27 with %s it heads the sheet as before', (_, text, rows) => {
    expect(seen(text)).toMatchObject({ rows, held: [], doubts: 1 });
  });

  test('R-27 a cow that bears the word is held', () => {
    const farm = aFarm();
    onTestFinished(farm.close);
    farm.say('number-changed', TIME, '101', { to: 'Farm' });
    const settings = { source: 'office', author: 'Marta', now: farm.book.clock.now() };
    farm.book.record([readLine(json(SET_UP, { subject: 'Farm' }), settings)]);
    expect(farm.print().sheets['milk-hold'].held.map(({ cow }) => cow)).toEqual(['Farm']);
  });

  test('R-27 what another book read in the line counts: a number that it names is looked for', () => {
    const farm = aFarm();
    onTestFinished(farm.close);
    const refused = { text: json(SET_UP, { subject: 'farm' }), problem: 'refused', pointer: null, id: null };
    farm.book.carry([{ ...refused, cows: ['farm', '777'], mentions: [] }], 'barn');
    expect(farm.print().sheets['milk-hold'].unplaced).toHaveLength(1);
  });

  test('it is told to leave the subject out, whatever stands there', () => {
    const sentence = '"subject" is given, but a farm-set-up is about the farm, not a cow; leave "subject" out';
    expect(seen(json(SET_UP, { subject: 'farm' }), json(SET_UP, { subject: 'the whole farm' })).problems).toEqual([
      sentence,
      sentence,
    ]);
  });

  test.each(ENTRY_TYPES)('R-27 %s: the example of a kind is about no cow only where the kind has no cow', (type) => {
    const text = json({ type, time: TIME, data: KINDS[type].example });
    expect(isOfFarmAlone(text)).toBe(KINDS[type].subject === 'farm');
  });
});
