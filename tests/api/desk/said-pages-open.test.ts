/** Where things are settled, drawn in Ukrainian: nothing on those pages is left in English but what the book says so. */
import { describe, expect, test } from 'vitest';
import { readLine } from '../../../events/door.ts';
import { readRefusal } from '../../../events/refused-elsewhere.ts';
import { PENICILLIN } from '../server/a-server.ts';
import { type ADesk, aDesk, tellBook } from './a-desk.ts';
import { leftInEnglish } from './left-in-english.ts';

/** A dose of a medicine that nobody listed, a hold by hand, a dose for nobody, a broken line, a count that differs. */
const aBarnWithDoubts = async (): Promise<ADesk> => {
  const desk = await aDesk();
  tellBook(desk, [
    {
      type: 'treatment',
      time: '2026-03-13T18:00:00Z',
      subject: '101',
      id: 'not-listed',
      data: { medicine: 'Oxytetracycline', reason: 'hoof' },
    },
    { type: 'milk-hold', time: '2026-03-14T08:00:00Z', subject: '102', id: 'clots', data: { reason: 'clots' } },
    { type: 'treatment', time: '2026-03-13T18:00:00Z', subject: '999', data: { medicine: PENICILLIN } },
    { type: 'head-count', time: '2026-03-14T07:00:00Z', data: { group: 'Milkers', count: 4 } },
  ]);
  desk.book.record([
    readLine('{"type":"treatment","subject":"103","time":"yesterday","author":"Marta"}', {
      source: 'phone',
      author: 'Marta',
      now: desk.book.clock.now(),
    }),
  ]);
  // What another book refused, too.
  desk.book.carry([readRefusal({ text: '{"subject":"104"', problem: 'says', cows: ['104'], mentions: [] })], 'баржа');
  await desk.post('/language', { language: 'uk', to: '/' });
  return desk;
};

/** The door's own sentences are English. */
const DOOR = ['data', 'time', 'yesterday', 'is not a time; write it like or says'];

describe('in Ukrainian nothing is left in English', () => {
  test('where things are settled, and where what settling does is read first', async () => {
    const desk = await aBarnWithDoubts();
    const open = await desk.get('/open');
    const known = [...DOOR, ...desk.book.read().asides.map(({ problem }) => problem)];
    expect(leftInEnglish(desk, open, known)).toEqual([]);
    expect(open.document.querySelectorAll('form').length).toBeGreaterThan(4);
    const keys = [...open.document.querySelectorAll('input[name=key]')].map((each) => each.getAttribute('value') ?? '');
    expect(keys.length).toBeGreaterThan(2);
    for (const key of keys) {
      const read = await desk.send(open, { key, how: 'Оксана' }, '/open');
      expect(read.status).toBe(200);
      expect(leftInEnglish(desk, read, known), key).toEqual([]);
    }
    const asked = await desk.send(open, { key: keys[0] ?? '', how: '' }, '/open');
    const gone = await desk.send(open, { key: 'no-such-matter', how: 'так' }, '/open');
    expect([asked.status, gone.status]).toEqual([400, 409]);
    expect(leftInEnglish(desk, asked, known)).toEqual([]);
    expect(leftInEnglish(desk, gone, known)).toEqual([]);
  });

  test('where the vet’s times are written down, read, and refused', async () => {
    const desk = await aBarnWithDoubts();
    const times = { cow: '101', treatment: 'not-listed', milkHours: '96', meatDays: '10', prescribedBy: 'Ткач' };
    const open = await desk.get('/open');
    const vet = (more: Record<string, string>) =>
      desk.send(open, { ...times, at: '2026-03-13T18:30', ...more }, '/open/vet');
    for (const more of [
      {},
      { meatDays: '' },
      { milkHours: '' },
      { milkHours: 'сто', meatDays: 'x' },
      { milkHours: '', meatDays: '', prescribedBy: '', at: '' },
    ]) {
      const page = await vet(more);
      expect(page.status).toBe('milkHours' in more && more.milkHours !== '' ? 400 : 'at' in more ? 400 : 200);
      expect(leftInEnglish(desk, page), JSON.stringify(more)).toEqual([]);
    }
  });
});
