/** Writing an entry down, drawn in Ukrainian: nothing on those pages is left in English but what goes into the book. */
import { describe, expect, test } from 'vitest';
import { WRITTEN } from '../../../api/desk/write/kinds.ts';
import { PENICILLIN } from '../server/a-server.ts';
import { type ADesk, aDesk, type Seen, tellBook } from './a-desk.ts';
import { leftInEnglish } from './left-in-english.ts';

/** A cow in a course, on a hold by hand, asked for at the gate. */
const aDeskInUkrainian = async (): Promise<ADesk> => {
  const desk = await aDesk();
  tellBook(desk, [
    {
      type: 'treatment',
      time: '2026-03-13T18:00:00Z',
      subject: '101',
      id: 'first-dose',
      data: { medicine: PENICILLIN, course: { id: 'course-101', dose: 1, of: 3, everyHours: 12 } },
    },
    { type: 'milk-hold', time: '2026-03-14T08:00:00Z', subject: '101', data: { reason: 'clots' } },
    { type: 'sort-request', time: '2026-03-14T08:00:00Z', subject: '101', data: { reason: 'hoof' } },
  ]);
  await desk.post('/language', { language: 'uk', to: '/' });
  return desk;
};

const left = (desk: ADesk, page: Seen, ...known: readonly string[]) =>
  leftInEnglish(desk, page, ['/write', 'tube bolus', ...known]);

describe('in Ukrainian nothing is left in English', () => {
  test('where one picks what happened, and on every form, with a cow and without', async () => {
    const desk = await aDeskInUkrainian();
    expect(left(desk, await desk.get('/write'))).toEqual([]);
    expect(left(desk, await desk.get('/write?cow=101'))).toEqual([]);
    for (const { type } of WRITTEN) {
      expect(left(desk, await desk.get(`/write/${type}`), type), type).toEqual([]);
      expect(left(desk, await desk.get(`/write/${type}?cow=101`), type), type).toEqual([]);
    }
  });

  test('where a form is sent back, read before saving, saved, and taken back', async () => {
    const desk = await aDeskInUkrainian();
    for (const wrong of [
      { medicine: PENICILLIN, inCourse: 'single' },
      { cow: '101', medicine: PENICILLIN, inCourse: 'single', amount: '5' },
      { cow: '102', medicine: PENICILLIN, inCourse: 'next' },
      { cow: '???', medicine: PENICILLIN, inCourse: 'single' },
      { cow: '101', medicine: PENICILLIN, inCourse: 'single', when: 'time', timeAt: '' },
      { cow: '101', medicine: PENICILLIN, inCourse: 'single', when: 'milking', milkingAt: 'none' },
      { cow: '101', medicine: PENICILLIN, inCourse: 'first', of: 'x' },
    ]) {
      const again = await desk.send(await desk.get('/write/treatment'), wrong, '/write/treatment');
      expect(again.status, JSON.stringify(wrong)).toBe(400);
      expect(left(desk, again), JSON.stringify(wrong)).toEqual([]);
    }
    const dose = { cow: '101 102', medicine: PENICILLIN, inCourse: 'single', quarters: 'left-front' };
    const read = await desk.send(await desk.get('/write/treatment'), dose, '/write/treatment');
    expect(left(desk, read)).toEqual([]);
    const saved = await desk.send(read, { step: 'save' }, '/write/treatment');
    expect(saved.path).toContain('/written');
    expect(left(desk, saved)).toEqual([]);
    expect(left(desk, await desk.get('/written?entry=none-such'))).toEqual([]);
    const strike = await desk.get('/write/entry-struck?entry=first-dose');
    expect(left(desk, strike)).toEqual([]);
    const asked = await desk.send(strike, { reason: 'помилка', instead: 'nothing' }, '/write/entry-struck');
    expect(left(desk, asked)).toEqual([]);
    const struck = await desk.send(asked, { step: 'save' }, '/write/entry-struck');
    expect(left(desk, struck)).toEqual([]);
    expect(left(desk, await desk.get('/write/entry-struck?entry=first-dose'))).toEqual([]);
  });
});
