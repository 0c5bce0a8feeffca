/** Medicines at the desk: a hold is never left empty, a change is looked at first, mistakes are struck, stock by batch. */
import { describe, expect, test } from 'vitest';
import type { Entry, EntryOf } from '../../../events/entry.ts';
import type { MedicineListed } from '../../../events/kinds/medicine-listed.ts';
import { MEDICINES } from '../../../seeds/medicines.ts';
import { farmEntries, PENICILLIN } from '../server/a-server.ts';
import { type ADesk, aDesk, type Browser, type Seen, tellBook } from './a-desk.ts';

const said = (desk: ADesk): readonly Entry[] => desk.book.read().entries;
const labels = (desk: ADesk, name = PENICILLIN): MedicineListed[] =>
  said(desk)
    .filter((entry): entry is EntryOf<'medicine-listed'> => entry.type === 'medicine-listed')
    .map(({ data }) => data)
    .filter((data) => data.name === name);

const EDIT = `/medicines/edit?name=${encodeURIComponent(PENICILLIN)}`;
const send = (browser: Browser, page: Seen, fields: Parameters<Browser['send']>[1]) =>
  browser.send(page, fields, '/medicines/edit');
const look = async (desk: ADesk, path: string, fields: Parameters<Browser['send']>[1]): Promise<Seen> =>
  send(desk, await desk.get(path), { step: 'look', ...fields });

const beside = (page: Seen, name: string): string => {
  const control = page.document.querySelector(`#f-${name}`);
  const ids = (control?.getAttribute('aria-describedby') ?? '').split(' ');
  return page.document.getElementById(ids[0] ?? '')?.textContent ?? '';
};

const dose = (subject: string, time: string, medicine = PENICILLIN) => ({
  type: 'treatment',
  time,
  subject,
  data: { medicine, amount: { value: 1, unit: 'tube' }, batch: 'B-1' },
});

describe('the list of medicines', () => {
  test('a label that nobody touched says again all it said, whatever the label', async () => {
    const desk = await aDesk();
    tellBook(
      desk,
      Object.values(MEDICINES).map((data) => ({ type: 'medicine-listed', time: '2026-02-02T12:00:00Z', data })),
    );
    for (const data of Object.values(MEDICINES)) {
      const path = `/medicines/edit?name=${encodeURIComponent(data.name)}`;
      const looked = await look(desk, path, { how: 'changed' });
      expect(looked.status, data.name).toBe(200);
      await send(desk, looked, { step: 'save' });
      expect(labels(desk, data.name).at(-1)).toEqual(data);
    }
    expect((await desk.get('/medicines')).text).toContain('The label on the package in your hand decides');
  });

  test('R-14 a hold that is left empty is refused with a sentence, and nothing is saved', async () => {
    const desk = await aDesk();
    const before = desk.book.head().position;
    const answer = await look(desk, '/medicines/edit', { name: 'Oxytetracycline, spray' });
    expect(answer.status).toBe(400);
    expect(beside(answer, 'milk')).toContain('Left empty it would look like no hold');
    expect(beside(answer, 'meat')).toContain('Say what the label says of meat');
    expect(answer.document.querySelector('[name=name]')?.getAttribute('value')).toBe('Oxytetracycline, spray');
    const both = await send(desk, answer, { step: 'look', milk: 'none', milkHours: '60', meat: 'days', meatDays: '3' });
    expect(beside(both, 'milk')).toContain('Which of the two says the label?');
    const empty = await send(desk, answer, { step: 'look', milk: 'hold', meat: 'days', meatDays: '' });
    expect(beside(empty, 'milk')).toContain('Give the hours or the milkings');
    expect(beside(empty, 'meat')).toContain('0 where there is none');
    const zero = await send(desk, answer, { step: 'look', milk: 'hold', milkHours: '0', meat: 'days', meatDays: 'x' });
    expect(beside(zero, 'milkHours')).toContain('no hold is written "none"');
    expect(beside(zero, 'meatDays')).toContain('is not a number');
    expect(desk.book.head().position).toBe(before);
    expect(desk.book.read().asides).toEqual([]);
  });

  test('R-14 unknown is a choice, and says that it holds', async () => {
    const desk = await aDesk();
    const looked = await look(desk, '/medicines/edit', { name: 'Spray', milk: 'unknown', meat: 'unknown' });
    expect(looked.text).toContain('every cow that has it is held without end until the vet says');
    await send(desk, looked, { step: 'save' });
    expect(labels(desk, 'Spray')).toEqual([{ name: 'Spray', milkHold: 'unknown', meatDays: 'unknown' }]);
  });

  test('a name that is on the list already, in whatever case, is not listed a second time', async () => {
    const desk = await aDesk();
    const answer = await look(desk, '/medicines/edit', {
      name: PENICILLIN.toUpperCase(),
      milk: 'none',
      meat: 'days',
      meatDays: '0',
    });
    expect(answer.status).toBe(400);
    expect(beside(answer, 'name')).toContain('is on the list already');
  });
});

describe('a change of a label', () => {
  const onHold = () => [...farmEntries(), dose('103', '2026-03-13T17:00:00Z')];

  test('R-29 a longer label is shown before it is saved: the cow, before, after, in the tank from', async () => {
    const desk = await aDesk(onHold());
    const looked = await look(desk, EDIT, { how: 'changed', milkHours: '96' });
    const row = [...looked.document.querySelectorAll('tr')].find((each) => each.textContent?.includes('103'));
    expect(row?.textContent).toContain('until Mon 16 Mar 05:00, in the tank from Mon 16 Mar afternoon');
    expect(row?.textContent).toContain('until Tue 17 Mar 17:00, in the tank from Wed 18 Mar morning');
    expect(row?.textContent).toContain('longer');
    expect(looked.text).toContain('No cow’s meat hold changes');
    expect(labels(desk)).toHaveLength(1);
    const saved = await send(desk, looked, { step: 'save' });
    expect(saved.path).toBe('/medicines?done=listed');
    const home = await desk.get('/milking/2026-03-17/morning');
    expect(home.document.querySelector('.hold')?.textContent).toContain('103');
  });

  test('R-31 a longer label after the sheet was issued says before saving that it would be late news', async () => {
    const desk = await aDesk([...farmEntries(), dose('103', '2026-03-12T03:00:00Z')]);
    await desk.send(await desk.get('/'), {}, '/issue');
    const looked = await look(desk, EDIT, { how: 'changed', milkHours: '96' });
    expect(looked.text).toContain('What it would bring up');
    expect(looked.text).toContain('103');
    expect(looked.text).toContain('NOW HELD');
  });

  test('R-29 a label that changed to shorter frees nobody; one that was typed wrongly does, and the page warns', async () => {
    const desk = await aDesk(onHold());
    const shorter = await look(desk, EDIT, { how: 'changed', milkHours: '24' });
    expect(shorter.text).toContain('No cow’s milk hold changes');
    const mistake = await look(desk, EDIT, { how: 'mistake', reason: 'hours of another package', milkHours: '24' });
    expect(mistake.text).toContain('1 cow would be free sooner');
    const saved = await send(desk, mistake, { step: 'save' });
    expect(saved.path).toBe('/medicines?done=listed');
    const strike = said(desk).find((entry) => entry.type === 'entry-struck');
    const listed = said(desk).find((entry) => entry.type === 'medicine-listed' && entry.id !== 'penicillin');
    expect(strike?.data).toEqual({ entry: 'penicillin', reason: 'hours of another package', instead: listed?.id });
    expect(listed?.at).toBe(Date.parse('2026-02-01T12:00:00Z'));
    const again = await send(desk, mistake, { step: 'save' });
    expect(again.path).toBe('/medicines?done=listed');
    expect(said(desk).filter((entry) => entry.type === 'entry-struck')).toHaveLength(1);
    expect(desk.book.read().asides).toEqual([]);
  });

  test('which of the two it is must be said, and a mistake says what was wrong', async () => {
    const desk = await aDesk();
    expect(beside(await look(desk, EDIT, { milkHours: '72' }), 'how')).toContain('they count differently');
    expect(beside(await look(desk, EDIT, { how: 'mistake' }), 'reason')).toContain('Say what was wrong');
    const early = await look(desk, EDIT, { how: 'changed', at: '2026-01-01T10:00' });
    expect(beside(early, 'at')).toContain('a change counts from after that');
    const ahead = await look(desk, EDIT, { how: 'changed', at: '2026-03-15T10:00' });
    expect(ahead.status).toBe(400);
    expect(beside(ahead, 'at')).not.toBe('');
    expect(labels(desk)).toHaveLength(1);
  });

  test('sent twice it stands once; changed and sent again it is refused and kept as typed', async () => {
    const desk = await aDesk();
    const looked = await look(desk, EDIT, { how: 'changed', milkHours: '72' });
    await send(desk, looked, { step: 'save' });
    expect((await send(desk, looked, { step: 'save' })).path).toBe('/medicines?done=listed');
    const other = await send(desk, looked, { step: 'save', milkHours: '80' });
    expect(other.text).toContain('was saved already');
    expect(other.document.querySelector('[name=milkHours]')?.getAttribute('value')).toBe('80');
    expect(labels(desk)).toHaveLength(2);
    expect(desk.book.read().asides).toEqual([]);
  });

  test('a label that somebody else changed meanwhile is not overwritten unseen', async () => {
    const desk = await aDesk();
    const page = await desk.get(EDIT);
    tellBook(desk, [
      { type: 'medicine-listed', time: '2026-03-14T11:00:00Z', data: { ...labels(desk)[0], milkHold: { hours: 96 } } },
    ]);
    const answer = await send(desk, page, { step: 'save', how: 'changed', milkHours: '48' });
    expect(answer.text).toContain('listed anew by somebody else');
    expect(labels(desk)).toHaveLength(2);
  });

  test('only the manager changes labels, and tags in a name are text', async () => {
    const desk = await aDesk();
    for (const role of ['crew', 'record-keeper'] as const) {
      const browser = await desk.as(role);
      expect((await browser.get('/medicines')).document.querySelector('a[href^="/medicines/edit"]')).toBeNull();
      expect((await browser.get(EDIT)).status).toBe(403);
    }
    const looked = await look(desk, '/medicines/edit', { name: '<script>x()</script>', milk: 'none', meatDays: '0' });
    const saved = await send(desk, looked, { step: 'save' });
    expect(looked.html + saved.html).not.toContain('<script>');
    expect(saved.text).toContain('<script>x()</script>');
  });
});

describe('the shelf', () => {
  test('R-95 received, given and thrown away make what is left, by batch', async () => {
    const desk = await aDesk([...farmEntries(), dose('103', '2026-03-13T17:00:00Z')]);
    const keeper = await desk.as('record-keeper');
    const come = await keeper.get('/medicines/received');
    const fields = { medicine: PENICILLIN, quantity: '24', unit: 'tube', batch: 'B-1', expires: '2026-03-01' };
    await keeper.send(come, fields, '/medicines/received');
    await keeper.send(come, fields, '/medicines/received');
    const gone = await keeper.get('/medicines/disposed');
    const after = await keeper.send(
      gone,
      { medicine: PENICILLIN, quantity: '2', unit: 'tube', batch: 'B-1', how: 'broken' },
      '/medicines/disposed',
    );
    const row = [...after.document.querySelectorAll('#stock tbody tr')].map((each) =>
      [...each.querySelectorAll('td')].map((cell) => cell.textContent),
    );
    expect(row).toEqual([['B-1', 'Sun 1 Mar: PAST, do not use', '24', '1', '2', '21', 'tube']]);
    expect(said(desk).filter(({ type }) => type === 'medicine-received')).toHaveLength(1);
  });

  test('R-95 a dose with no amount is said beside what is left', async () => {
    const { amount: _, ...data } = dose('103', '2026-03-13T17:00:00Z').data;
    const desk = await aDesk([
      ...farmEntries(),
      dose('103', '2026-03-13T05:00:00Z'),
      { ...dose('103', '2026-03-13T17:00:00Z'), data },
    ]);
    const { text } = await (await desk.as('record-keeper')).get('/medicines');
    expect(text).toContain('1 dose with no amount written down: not taken off');
  });

  test('what is missing or wrong is said beside its field, and nothing is recorded', async () => {
    const desk = await aDesk();
    const before = desk.book.head().position;
    const answer = await desk.send(
      await desk.get('/medicines/received'),
      { quantity: '-3', unit: 'tube', expires: '2026-02-30', medicine: PENICILLIN },
      '/medicines/received',
    );
    expect(answer.status).toBe(400);
    expect(beside(answer, 'quantity')).toContain('must not be negative');
    const bare = await desk.send(await desk.get('/medicines/disposed'), { at: '2026-03-14' }, '/medicines/disposed');
    expect(beside(bare, 'medicine')).toBe('Say which medicine it was');
    expect(beside(bare, 'at')).toContain('is not a date and a time');
    expect(desk.book.head().position).toBe(before);
    expect((await (await desk.as('crew')).get('/medicines/received')).status).toBe(403);
  });

  test('R-14 a medicine that was given and is not listed stands at the head of the list, with the way to list it', async () => {
    const desk = await aDesk([...farmEntries(), dose('103', '2026-03-13T17:00:00Z', 'Tylosin')]);
    const page = await desk.get('/medicines');
    expect(page.document.querySelector('.notices.alert')?.textContent).toContain('Tylosin');
    const looked = await look(desk, '/medicines/edit?name=Tylosin', { milkHours: '96', meatDays: '28' });
    expect(looked.text).toContain('on hold, no end known');
    const saved = await send(desk, looked, { step: 'save' });
    expect(saved.document.querySelector('.notices.alert')).toBeNull();
  });
});
