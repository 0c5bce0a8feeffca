/** The farm's set-up drawn in Ukrainian: nothing on its pages is left in English but what the book says so. */
import { describe, expect, test } from 'vitest';
import { farmEntries } from '../server/a-server.ts';
import { type ADesk, aDesk, type Seen } from './a-desk.ts';
import { leftInEnglish } from './left-in-english.ts';

/** Codes that are the same in every language, and the languages named in themselves. */
const CODES = ['A4', 'Letter', 'en', 'Europe/Dublin', 'English', 'Español', 'Français', 'polski'];

const inUkrainian = async (entries = farmEntries()): Promise<ADesk> => {
  const desk = await aDesk(entries);
  await desk.post('/language', { language: 'uk', to: '/' });
  return desk;
};
/** What was typed here stands on the page as it was typed. */
const left = (desk: ADesk, page: Seen, fields: Readonly<Record<string, string>> = {}) =>
  leftInEnglish(desk, page, [...CODES, ...Object.values(fields)]);
const change = async (desk: ADesk, fields: Record<string, string>): Promise<Seen> =>
  desk.send(await desk.get('/farm/change'), { step: 'look', ...fields }, '/farm/change');

const EVERYTHING = {
  slowExtraMinutes: '4',
  freshMilkings: '8',
  freshHours: '60',
  daysBeforeDue: '10',
  freshPenHours: '36',
  weekday: 'friday',
  offLabel: 'eu-2019-6',
  mark: 'стрічка',
  'milkTo-treated': 'теляті',
  'group-0-takes': 'later-lactations',
  'group-0-capacity': '80',
  'group-0-milked': 'only',
  'group-0-at': '0',
  'group-3-name': 'Лікарня',
  'group-3-kind': 'hospital',
};

describe('in Ukrainian nothing is left in English', () => {
  test('on the set-up in force and on the form that changes it', async () => {
    const desk = await inUkrainian();
    const page = await desk.get('/farm');
    expect(page.document.documentElement.getAttribute('lang')).toBe('uk');
    expect(left(desk, page)).toEqual([]);
    expect(left(desk, await desk.get('/farm/change'))).toEqual([]);
    const crew = await desk.as('crew');
    await crew.post('/language', { language: 'uk', to: '/' });
    const theirs = await crew.get('/farm');
    expect(theirs.document.querySelector('a[href="/farm/change"]')).toBeNull();
    expect(left(desk, theirs)).toEqual([]);
  });

  test('on the page read before a change is saved, and on what is in force later', async () => {
    const desk = await inUkrainian();
    const looked = await change(desk, EVERYTHING);
    expect(looked.status).toBe(200);
    expect(looked.text).toContain('день: п’ятниця');
    expect(left(desk, looked)).toEqual([]);
    const saved = await desk.send(looked, { step: 'save' }, '/farm/change');
    expect(saved.path).toBe('/farm?saved=1');
    expect(left(desk, saved)).toEqual([]);
    const gone = await change(desk, { from: '2026-03-01', 'group-0-name': 'Інша', freshMilkings: '', freshHours: '' });
    expect(gone.status).toBe(200);
    expect(left(desk, gone)).toEqual([]);
  });

  test('where a longer hold is shown cow by cow', async () => {
    const desk = await inUkrainian([
      ...farmEntries(),
      {
        type: 'calving',
        time: '2026-03-14T03:00:00Z',
        subject: '101',
        data: { calves: [{ sex: 'female', alive: true }], group: 'Fresh' },
      },
    ]);
    const looked = await change(desk, { freshMilkings: '12', from: '2026-03-15' });
    expect(looked.text).toContain('довше');
    expect(left(desk, looked)).toEqual([]);
  });

  test('in what is wrong with what was typed; the door’s own sentences are marked as English', async () => {
    const desk = await inUkrainian();
    const wrong = {
      name: '',
      stalls: 'twenty',
      'milking-0-start': '',
      'milking-2-name': 'ніч',
      'group-3-name': 'Лікарня',
      'group-0-at': '0',
      'phone-0-who': 'Ткач',
      freshMilkings: '0',
    };
    const answer = await change(desk, wrong);
    expect(answer.status).toBe(400);
    expect(answer.text).toContain('«twenty» — це не число');
    expect(answer.document.querySelector('#f-freshMilkings-problem [lang=en]')?.textContent).toContain('at least 1');
    expect(left(desk, answer, wrong)).toEqual([]);
  });
});
