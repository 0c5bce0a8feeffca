/** The farm's set-up at the desk: read in plain words, changed whole, looked at before it is saved, saved once. */
import { describe, expect, test } from 'vitest';
import type { EntryOf } from '../../../events/entry.ts';
import type { FarmSetUp } from '../../../events/kinds/farm-set-up.ts';
import { farmEntries, SET_UP } from '../server/a-server.ts';
import { type ADesk, aDesk, type Seen, tellBook } from './a-desk.ts';

const setUps = (desk: ADesk): FarmSetUp[] =>
  desk.book
    .read()
    .entries.filter((entry): entry is EntryOf<'farm-set-up'> => entry.type === 'farm-set-up')
    .map((entry) => entry.data);

const look = async (desk: ADesk, fields: Record<string, string | readonly string[] | null>): Promise<Seen> =>
  desk.send(await desk.get('/farm/change'), { step: 'look', ...fields }, '/farm/change');

const WHOLE = {
  ...SET_UP,
  paper: 'Letter',
  languages: ['es', 'en'],
  parlour: { stalls: 20, turnMinutes: 10, slowFromMinutes: 9.5, slowExtraMinutes: 4 },
  groups: [
    { name: 'Milkers', kind: 'milking', takes: 'any', order: 1.5, capacity: 80 },
    { name: 'Fresh', kind: 'fresh', order: 2 },
    { name: 'Old ladies', kind: 'milking', milkedAt: ['morning'] },
    { name: 'Dry', kind: 'dry', milkedAt: [] },
  ],
  mark: 'red leg band',
  freshHold: { milkings: 4, hours: 60, daysBeforeDue: 10 },
  freshPenHours: 36,
  freshHoldMayMove: false,
  dryOff: { days: 55, minimumDays: 40, weekday: 'friday', lookAheadDays: 9, longMilkingDays: 320, product: 'X' },
  gestationDays: 280,
  offLabel: 'eu-2019-6',
  milkTo: 'the blue bucket',
  chores: { before: ['Filter in'], after: ['Filter out', 'Lights off'] },
  footBath: ['monday', 'friday'],
  phones: [{ who: 'Vet', number: '020 910 0002' }],
};

const wholeFarm = () => [
  { type: 'farm-set-up', time: '2026-02-01T12:00:00Z', id: 'set-up', data: WHOLE },
  ...farmEntries().slice(1),
];

describe('the farm at the desk', () => {
  test('a form that nobody touched says again all that the set-up said, and no more', async () => {
    const desk = await aDesk(wholeFarm());
    await desk.post('/language', { language: 'en', to: '/' });
    const looked = await look(desk, {});
    expect(looked.text).toContain('Nothing is said otherwise than before');
    await desk.send(looked, { step: 'save' }, '/farm/change');
    expect(setUps(desk)).toEqual([WHOLE, { ...WHOLE, from: '2026-03-15' }]);
  });

  test('R-02 the first set-up is in force without a day since when: it governs the days before it too', async () => {
    const [first, ...others] = farmEntries();
    const desk = await aDesk([{ ...first, time: '2026-03-14T11:00:00Z' }, ...others]);
    const { text } = await desk.get('/farm');
    expect(text).toContain('In force');
    expect(text).not.toContain('In force since');
    const later = await aDesk();
    const data = { ...(first?.data as object), mark: 'tape', from: '2026-03-14' };
    tellBook(later, [{ ...first, id: 'another', time: '2026-03-14T11:00:00Z', data }]);
    expect((await later.get('/farm')).text).toContain('In force since Saturday 14 March 2026');
  });

  test('one field changed changes one field, and the page says before and after', async () => {
    const desk = await aDesk(wholeFarm());
    await desk.post('/language', { language: 'en', to: '/' });
    const looked = await look(desk, { stalls: '24', 'milkTo-fresh': 'the calves' });
    expect(looked.status).toBe(200);
    expect(setUps(desk)).toHaveLength(1);
    expect(looked.text).toMatch(/Parlour\s*20 stalls.*24 stalls/);
    const saved = await desk.send(looked, { step: 'save' }, '/farm/change');
    expect(saved.path).toBe('/farm?saved=1');
    expect(saved.text).toContain('From Sunday 15 March');
    expect(setUps(desk).at(-1)).toEqual({
      ...WHOLE,
      from: '2026-03-15',
      parlour: { ...WHOLE.parlour, stalls: 24 },
      milkTo: { treated: 'the blue bucket', fresh: 'the calves', abnormal: 'the blue bucket' },
    });
  });

  test('a second change on the same evening builds on the first, though that is not in force yet', async () => {
    const desk = await aDesk();
    await desk.send(await look(desk, { mark: 'blue tape' }), { step: 'save' }, '/farm/change');
    await desk.send(await look(desk, { stalls: '30' }), { step: 'save' }, '/farm/change');
    expect(setUps(desk).at(-1)).toMatchObject({ mark: 'blue tape', parlour: { stalls: 30, turnMinutes: 10 } });
  });

  test('saved twice, gone back to and saved again, it stands once; changed and saved again it is refused', async () => {
    const desk = await aDesk();
    const looked = await look(desk, { stalls: '24' });
    await desk.send(looked, { step: 'save' }, '/farm/change');
    const again = await desk.send(looked, { step: 'save' }, '/farm/change');
    expect(again.path).toBe('/farm?saved=1');
    expect(setUps(desk)).toHaveLength(2);
    const other = await desk.send(looked, { step: 'save', stalls: '26' }, '/farm/change');
    expect(other.status).toBe(400);
    expect(other.text).toContain('was saved already');
    expect(other.document.querySelector('[name=stalls]')?.getAttribute('value')).toBe('26');
    expect(setUps(desk)).toHaveLength(2);
    expect(desk.book.read().asides).toEqual([]);
  });

  test('a change that somebody else made meanwhile is not undone unseen', async () => {
    const desk = await aDesk();
    const page = await desk.get('/farm/change');
    tellBook(desk, [
      { type: 'farm-set-up', time: '2026-03-14T11:59:00Z', data: { ...SET_UP, freshHold: { milkings: 8 } } },
    ]);
    const answer = await desk.send(page, { step: 'save', stalls: '24' }, '/farm/change');
    expect(answer.status).toBe(400);
    expect(answer.text).toContain('was changed by somebody else (Fresh hold)');
    expect(setUps(desk)).toHaveLength(2);
    expect(answer.document.querySelector('[name=stalls]')?.getAttribute('value')).toBe('24');
  });

  test('what is wrong comes back beside its field with what was typed, and nothing is saved', async () => {
    const desk = await aDesk();
    const answer = await look(desk, {
      stalls: 'twenty',
      timeZone: 'Europe/Nowhere',
      'milking-2-name': 'night',
      'group-3-name': 'Hospital',
      'group-0-at': ['0'],
      freshMilkings: '0',
    });
    expect(answer.status).toBe(400);
    const beside = (name: string) => {
      const control = answer.document.querySelector(`[name="${name}"]`);
      const ids = control?.getAttribute('aria-describedby') ?? '';
      return answer.document.getElementById(ids.split(' ')[0] ?? '')?.textContent ?? '';
    };
    expect(beside('stalls')).toBe('"twenty" is not a number; type digits, such as 12 or 7.5');
    expect(beside('timeZone')).toContain('"Europe/Nowhere" is not a time zone');
    expect(beside('milking-2-start')).toContain('Say when this milking starts');
    expect(beside('group-3-kind')).toContain('Say what kind of group Hospital is');
    expect(beside('group-0-milked')).toContain('choose "only at those ticked"');
    expect(beside('freshMilkings')).toContain('must be at least 1');
    expect(answer.document.querySelector('[name=stalls]')?.getAttribute('value')).toBe('twenty');
    expect(setUps(desk)).toHaveLength(1);
    expect(desk.book.read().asides).toEqual([]);
  });

  test('rows for more groups come without a script, with what was typed kept', async () => {
    const desk = await aDesk();
    const page = await desk.send(
      await desk.get('/farm/change'),
      { step: 'rows', 'group-3-name': 'Hospital', stalls: '31' },
      '/farm/change',
    );
    expect(page.document.querySelector('[name="group-9-name"]')).not.toBeNull();
    expect(page.document.querySelector('[name=stalls]')?.getAttribute('value')).toBe('31');
    const looked = await desk.send(
      page,
      { step: 'look', 'group-3-kind': 'hospital', 'group-9-name': 'Far', 'group-9-kind': 'milking' },
      '/farm/change',
    );
    await desk.send(looked, { step: 'save' }, '/farm/change');
    expect(
      setUps(desk)
        .at(-1)
        ?.groups.map(({ name }) => name),
    ).toEqual(['Milkers', 'Fresh', 'Dry', 'Hospital', 'Far']);
  });

  test('a group taken away is named with the cows that still stand in it', async () => {
    const desk = await aDesk();
    const looked = await look(desk, { 'group-0-name': '' });
    expect(looked.text).toContain('Group Milkers is taken away, and still has 6 cows');
    expect(looked.text).toMatch(/Group Milkers\s*milked\s*taken away/);
  });

  test('R-70 a group whose name is typed over goes on under the new one with its cows, and can have the old one back', async () => {
    const desk = await aDesk();
    const looked = await look(desk, { 'group-0-name': 'Cows' });
    expect(looked.text).not.toContain('is taken away');
    expect(looked.text).toContain('called Milkers before');
    await desk.send(looked, { step: 'save' }, '/farm/change');
    expect(setUps(desk).at(-1)?.groups[0]).toMatchObject({ name: 'Cows', was: ['Milkers'] });
    const back = await look(desk, { 'group-0-name': 'Milkers' });
    expect(back.text).toContain('called Cows before');
    // Another group that takes the old name takes it for good: then its cows would have no group.
    const taken = await look(desk, {
      'group-0-name': 'All cows',
      'group-9-name': 'Milkers',
      'group-9-kind': 'milking',
    });
    await desk.send(taken, { step: 'save' }, '/farm/change');
    expect(setUps(desk).at(-1)?.groups[0]).toMatchObject({ name: 'All cows', was: ['Cows'] });
  });

  test('R-20 a longer fresh hold is shown cow by cow before it is saved: before, after, in the tank from', async () => {
    const desk = await aDesk([
      ...farmEntries(),
      {
        type: 'cow-entered',
        time: '2026-02-01T12:00:00Z',
        subject: '207',
        data: {
          group: 'Dry',
          lactation: 1,
          milkHoldUntil: 'none',
          meatHoldUntil: 'none',
          driedOffOn: '2026-01-01',
          driedOffWith: 'none',
        },
      },
      {
        type: 'calving',
        time: '2026-03-14T03:00:00Z',
        subject: '207',
        data: { calves: [{ sex: 'female', alive: true }], group: 'Fresh' },
      },
    ]);
    const looked = await look(desk, { freshMilkings: '8', from: '2026-03-15' });
    const row = [...looked.document.querySelectorAll('tr')].find((each) => each.textContent?.includes('207'));
    expect(row?.textContent).toContain('in the tank from Mon 16 Mar morning');
    expect(row?.textContent).toContain('in the tank from Wed 18 Mar morning');
    expect(row?.textContent).toContain('longer');
    expect(setUps(desk)).toHaveLength(1);
    const none = await look(desk, { mark: 'blue tape' });
    expect(none.text).toContain('No cow’s milk hold changes');
  });

  test('tags in a name are text on every page that shows it', async () => {
    const desk = await aDesk();
    const looked = await look(desk, { 'group-3-name': '<script>x()</script>', 'group-3-kind': 'milking' });
    expect(looked.html).not.toContain('<script>');
    const saved = await desk.send(looked, { step: 'save' }, '/farm/change');
    expect(saved.html).not.toContain('<script>');
    expect(saved.text).toContain('Group <script>x()</script>');
  });

  test('the crew and the record keeper read the set-up and cannot change it', async () => {
    const desk = await aDesk();
    for (const role of ['crew', 'record-keeper'] as const) {
      const browser = await desk.as(role);
      const page = await browser.get('/farm');
      expect(page.text).toContain('20 stalls');
      expect(page.document.querySelector('a[href="/farm/change"]')).toBeNull();
      const answer = await browser.send(
        await browser.get('/farm/change'),
        { step: 'save', stalls: '24' },
        '/farm/change',
      );
      expect(answer.status).toBe(400);
      expect(answer.text).toContain('let the manager enter it');
    }
    expect(setUps(desk)).toHaveLength(1);
  });
});
