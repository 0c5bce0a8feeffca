/** The first run in Ukrainian, chosen at the foot of the page before there is a farm: nothing is left in English but names. */
import { describe, expect, test } from 'vitest';
import { FIELDS, spokenOf } from '../../../api/import-herd/headings.ts';
import { MEDICINES } from '../../../seeds/medicines.ts';
import { type ADesk, aDesk, type Seen } from './a-desk.ts';
import { leftInEnglish } from './left-in-english.ts';

/** Names that can be kept or changed, zones, medicines to begin with, and how a list writes its dates. */
const NAMES = [
  'morning afternoon Milkers Fresh Hospital Dry Close-up Europe/Dublin 14-Mar-2026',
  'penicillin G procaine, udder',
  ...Object.values(MEDICINES).map(({ name }) => name),
];
const left = (desk: ADesk, page: Seen, ...known: readonly string[]) =>
  leftInEnglish(desk, page, [...NAMES, ...Intl.supportedValuesOf('timeZone'), 'Windmill Dairy', 'Marta', ...known]);

const FARM = { step: 'save', name: 'Windmill Dairy', timeZone: 'Europe/Dublin', stalls: '24', turnMinutes: '12' };
const TIMES = { 'milking-0-start': '05:00', 'milking-1-start': '16:30' };

describe('in Ukrainian nothing is left in English', () => {
  test('from the first page on: the farm, its medicines, its herd, and when each is sent back', async () => {
    const desk = await aDesk(null);
    await desk.post('/language', { language: 'uk', to: '/begin' });
    const first = await desk.get('/begin');
    expect(first.document.documentElement.getAttribute('lang')).toBe('uk');
    expect(left(desk, first)).toEqual([]);
    const again = await desk.send(first, FARM, '/begin');
    expect(again.status).toBe(400);
    expect(left(desk, again)).toEqual([]);

    const medicines = await desk.send(again, { ...FARM, ...TIMES }, '/begin');
    expect(medicines.path).toBe('/begin/medicines');
    expect(left(desk, medicines)).toEqual([]);
    expect(left(desk, await desk.get('/begin'))).toEqual([]);
    const none = await desk.send(medicines, {}, '/begin/medicines');
    expect(none.status).toBe(400);
    expect(left(desk, none)).toEqual([]);

    const herd = await desk.get('/begin/herd');
    expect(left(desk, herd)).toEqual([]);
    const empty = await desk.send(herd, { step: 'look' }, '/begin/herd');
    expect(empty.status).toBe(400);
    expect(left(desk, empty)).toEqual([]);
    const list =
      'Cow,Pen,Lact,Calved,Milk hold until,Meat hold until\n101,Milkers,2,2026-01-05,none,none\n102,Nowhere,1,2026-02-01,none,none\n';
    const looked = await desk.send(herd, { step: 'look', list }, '/begin/herd');
    expect(looked.status).toBe(200);
    // What a list's fields are called is said by the import, in English.
    const spoken = FIELDS.map(spokenOf);
    expect(left(desk, looked, 'Cow Pen Lact Calved Milk hold until Meat Nowhere none', ...spoken)).toEqual([]);
  });
});
