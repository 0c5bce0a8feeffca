/** Pages drawn in Ukrainian, whose letters are not English ones: nothing on them is left in English but what the book says so. */
import { describe, expect, test } from 'vitest';
import { PENICILLIN } from '../server/a-server.ts';
import { type ADesk, aDesk, browserOf, tellBook } from './a-desk.ts';
import { leftInEnglish } from './left-in-english.ts';

const TIME = '2026-02-01T12:00:00Z';

/** Cows on hold, treated twice, dry, fresh, gone, asked for at the gate; one number that is two cows', one that is nobody's. */
const aFullBarn = async (): Promise<ADesk> => {
  const desk = await aDesk();
  const stated = { milkHoldUntil: 'none', meatHoldUntil: 'none' };
  tellBook(desk, [
    {
      type: 'treatment',
      time: '2026-03-13T18:00:00Z',
      subject: '101',
      id: 'first-dose',
      data: {
        medicine: PENICILLIN,
        amount: { value: 20, unit: 'ml' },
        quarters: ['left-front'],
        reason: 'mastitis',
        course: { id: 'course-101', dose: 1, of: 3, everyHours: 12 },
      },
    },
    { type: 'milk-hold', time: '2026-03-14T08:00:00Z', subject: '102', id: 'clots', data: { reason: 'clots' } },
    { type: 'dry-off', time: '2026-03-10T10:00:00Z', subject: '103', data: { product: 'none', group: 'Dry' } },
    { type: 'sort-request', time: '2026-03-14T08:00:00Z', subject: '104', data: { reason: 'hoof' } },
    {
      type: 'cow-left',
      time: '2026-03-13T15:00:00Z',
      subject: '105',
      data: { reason: 'sold-for-beef', to: 'Elm Farm' },
    },
    {
      type: 'treatment',
      time: '2026-03-12T10:00:00Z',
      subject: '110',
      data: { medicine: PENICILLIN, reason: 'fever' },
    },
    { type: 'number-changed', time: '2026-03-01T12:00:00Z', subject: '106', data: { to: '906' } },
    {
      type: 'cow-entered',
      time: TIME,
      subject: '107',
      data: {
        group: 'Milkers',
        lactation: 1,
        calvedOn: '2025-05-01',
        servedOn: '2025-08-01',
        officialId: '826000000000107',
        ...stated,
      },
    },
    { type: 'pregnancy-check', time: '2026-02-10T10:00:00Z', subject: '107', data: { result: 'pregnant' } },
    {
      type: 'calving',
      time: '2026-03-13T20:00:00Z',
      subject: '104',
      data: { calves: [{ sex: 'female', alive: true }] },
    },
    {
      type: 'milk-record',
      time: '2026-03-13T20:00:00Z',
      subject: '101',
      data: { milking: '2026-03-13/afternoon', kg: 12 },
    },
    {
      type: 'entry-struck',
      time: '2026-03-14T09:00:00Z',
      data: { entry: 'clots', reason: 'wrong cow', instead: 'nothing' },
    },
    { type: 'head-count', time: '2026-03-14T07:00:00Z', data: { group: 'Milkers', count: 9 } },
  ]);
  await desk.post('/language', { language: 'uk', to: '/' });
  return desk;
};

describe('in Ukrainian nothing is left in English', () => {
  test('on the page of a milking and on that of an issued set', async () => {
    const desk = await aFullBarn();
    const home = await desk.get('/');
    expect(home.document.documentElement.getAttribute('lang')).toBe('uk');
    expect(leftInEnglish(desk, home)).toEqual([]);
    const set = await desk.send(home, {}, '/issue');
    expect(set.path).toContain('/issued/');
    expect(leftInEnglish(desk, set)).toEqual([]);
    expect(leftInEnglish(desk, await desk.get('/milking/2026-03-10/morning'))).toEqual([]);
  });

  test.each([
    '/herd',
    '/herd?sort=days&down=1&group=Milkers',
    '/herd?find=106',
    '/herd?find=777&hold=wool&group=x&show=y&sort=z',
    '/herd?hold=meat&show=dry-off&group=Fresh',
  ])('on %s', async (path) => {
    const desk = await aFullBarn();
    expect(leftInEnglish(desk, await desk.get(path), [path])).toEqual([]);
  });

  test.each([
    '/cow/101',
    '/cow/101?line=all&records=1',
    '/cow/102',
    '/cow/103',
    '/cow/104',
    '/cow/105',
    '/cow/106',
    '/cow/107',
    '/cow/110',
    '/cow/0101',
    '/cow/777',
    '/cow/101?milking=tea-time',
  ])('on %s', async (path) => {
    const desk = await aFullBarn();
    expect(leftInEnglish(desk, await desk.get(path), [path])).toEqual([]);
  });

  test('in what is refused before anything is drawn', async () => {
    const desk = await aFullBarn();
    expect(leftInEnglish(desk, await desk.get('/look/2026-03-14/afternoon/wool'), ['wool'])).toEqual([]);
    expect(leftInEnglish(desk, await desk.get('/issued/2222-2222'))).toEqual([]);
    expect(leftInEnglish(desk, await desk.post('/issue', { milking: 'next' }))).toEqual([]);
    const out = browserOf(desk.server);
    await out.post('/language', { language: 'uk', to: '/' });
    expect(leftInEnglish(desk, await out.post('/issue', {}))).toEqual([]);
  });
});
