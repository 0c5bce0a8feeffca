/** The page where things are settled: what each matter holds, what settling it frees, and that it is recorded once. */
import { describe, expect, test } from 'vitest';
import { at } from '../../events/a-book.ts';
import { doseOf, PENICILLIN, tell } from '../server/a-server.ts';
import { aLaptop, syncWith } from '../sync/two-books.ts';
import { type ADesk, aDesk, type Seen, tellBook } from './a-desk.ts';

/** A dose for 103 with a field that no treatment has: refused at the door and set aside. */
const MISSPELT = {
  ...doseOf('103', 'misspelt'),
  author: 'Ola <script>alert(1)</script>',
  data: { medicine: PENICILLIN, dosage: 'one tube' },
};

const held = (desk: ADesk): Promise<string> => desk.get('/').then((page) => page.text);
const settled = (desk: ADesk) => desk.book.read().entries.filter((entry) => entry.type === 'settled');
const vetTimes = (desk: ADesk) => desk.book.read().entries.filter((entry) => entry.type === 'vet-hold-time');

const asideKey = (desk: ADesk): string => desk.book.read().asides[0]?.key ?? '';
const card = (page: Seen, key: string) => page.document.getElementById(key)?.textContent?.replace(/\s+/g, ' ') ?? '';

describe('what stands open', () => {
  test('R-27 a thing set aside shows what was said, exactly, why, from whom, and the cow that it holds', async () => {
    const desk = await aDesk();
    tellBook(desk, [MISSPELT]);
    const page = await desk.get('/open');
    const text = card(page, asideKey(desk));
    expect(text).toContain(JSON.stringify(MISSPELT));
    expect(text).toContain('has a field "dosage" that is not known there');
    expect(text).toMatch(/Set aside .*Mar.* 12:00/);
    expect(text).toMatch(/Held on its account meanwhile: ?103 Milkers: milk on hold without end; keep it apart/);
    expect(page.html).not.toContain('<script>alert');
    expect(page.document.querySelector(`[id="${asideKey(desk)}"] a[href="/write/treatment?cow=103"]`)).not.toBeNull();
  });

  test('R-27 a line that another book refused shows that it came from there, and by which way', async () => {
    const [desk, barn] = [await aDesk(), aLaptop()];
    await syncWith(barn.book, desk.server);
    tell(barn.book, desk.clock.now(), [{ ...MISSPELT, source: 'phone' }]);
    await syncWith(barn.book, desk.server);
    const page = await desk.get('/open');
    const text = card(page, asideKey(desk));
    expect(text).toContain('has a field "dosage" that is not known there');
    expect(text).toMatch(/Set aside .*, from Ola .*; it came from another book, through the book; it says it happened/);
    expect(text).toMatch(/Held on its account meanwhile: ?103/);
    // What was refused at this very door did not.
    tellBook(desk, [doseOf('101', 'dose'), doseOf('102', 'dose')]);
    const own = desk.book.read().asides.find(({ id }) => id === 'dose')?.key ?? '';
    const beside = card(await desk.get('/open'), own);
    expect(beside).toContain(', from office, said by Ola;');
    expect(beside).not.toContain('another book');
  });

  test('every alert and doubt of the first page is there under its own key, with both times of its entries', async () => {
    const desk = await aDesk();
    tellBook(desk, [
      doseOf('999', 'lost', '2026-03-14T09:15:00Z'),
      { ...doseOf('104', 'odd'), data: { medicine: 'Pine tar' } },
    ]);
    const first = await desk.get('/');
    const links = [...first.document.querySelectorAll('a[href^="/open#"]')].map((a) => a.getAttribute('href') ?? '');
    expect(links.length).toBeGreaterThan(0);
    const page = await desk.get('/open');
    for (const link of links) expect(page.document.getElementById(decodeURIComponent(link.slice(6)))).not.toBeNull();
    const text = card(page, 'unplaced:lost');
    expect(text).toMatch(/Happened .* 09:15; written down .* 12:00 by Ola, office/);
    expect(page.document.querySelector('a[href="/write/entry-struck?entry=lost"]')).not.toBeNull();
  });

  test('R-21 a milk hold that a person set waits there with the way to lift it, in the words of who set it', async () => {
    const desk = await aDesk();
    tellBook(desk, [
      { type: 'milk-hold', subject: '105', time: '2026-03-14T08:00:00Z', data: { reason: '<b>flakes</b> in it' } },
    ]);
    const page = await desk.get('/open');
    expect(page.text).toContain('<b>flakes</b> in it');
    expect(page.document.querySelector('main b')).toBeNull();
    expect(page.document.querySelector('a[href="/write/milk-hold-lifted?cow=105"]')).not.toBeNull();
  });

  test('a farm with nothing open says so', async () => {
    const desk = await aDesk();
    expect((await desk.get('/open')).text).toContain('Nothing stands open.');
  });
});

describe('settling', () => {
  test('R-27 before it is saved the page says which cow is freed and from which milking; then she is', async () => {
    const desk = await aDesk();
    tellBook(desk, [MISSPELT]);
    const key = asideKey(desk);
    const reading = await desk.send(await desk.get('/open'), { how: 'entered again under 104' }, '/open');
    expect(reading.text).toMatch(/FREED: her milk may go in the tank from the .*14 Mar afternoon milking/);
    expect(reading.text).toMatch(/Settling frees 103 of this hold/);
    expect(settled(desk)).toHaveLength(0);
    expect(await held(desk)).toMatch(/103/);
    const after = await desk.send(reading, {}, '/open');
    expect(after.path).toBe('/open?done=settled');
    expect(settled(desk)).toMatchObject([{ author: 'Marta', data: { about: key, how: 'entered again under 104' } }]);
    expect(await held(desk)).toMatch(/Nobody is on hold/);
  });

  test('R-27 where the fact was entered again meanwhile, the page says that she stays held, and until when', async () => {
    const desk = await aDesk();
    tellBook(desk, [MISSPELT, doseOf('103', 'right')]);
    const reading = await desk.send(await desk.get('/open'), { how: 'entered again' }, '/open');
    expect(reading.text).not.toContain('FREED');
    expect(reading.text).toMatch(
      /milk on hold until Mon 16 Mar 23:00.*from the Tue 17 Mar morning milking.*as it stands: without end/,
    );
  });

  test('the same form twice, reloaded, or sent again later with another word records once', async () => {
    const desk = await aDesk();
    tellBook(desk, [MISSPELT]);
    const open = await desk.get('/open');
    const reading = await desk.send(open, { how: 'entered again' }, '/open');
    await desk.send(reading, {}, '/open');
    desk.clock.set(at('2026-03-14T12:07:00Z'));
    const twice = await desk.send(reading, {}, '/open');
    expect(twice.path).toBe('/open?done=already');
    const back = await desk.send(open, { how: 'another word' }, '/open');
    expect(back.path).toBe('/open?done=already');
    expect(settled(desk)).toHaveLength(1);
    expect(desk.book.read().asides).toHaveLength(1);
  });

  test('what somebody else settled meanwhile is not settled twice: it says who did, and how', async () => {
    const desk = await aDesk();
    tellBook(desk, [MISSPELT]);
    const open = await desk.get('/open');
    tellBook(desk, [
      { type: 'settled', time: '2026-03-14T11:59:00Z', data: { about: asideKey(desk), how: 'she was never treated' } },
    ]);
    const late = await desk.send(open, { how: 'entered again' }, '/open');
    expect(late.status).toBe(409);
    expect(late.text).toMatch(/Marta settled it .*: she was never treated/);
    expect(settled(desk)).toHaveLength(1);
  });

  test('without a word on how, or with one too long, nothing is recorded and what was typed stays', async () => {
    const desk = await aDesk();
    tellBook(desk, [MISSPELT]);
    const open = await desk.get('/open');
    const empty = await desk.send(open, { how: ' ' }, '/open');
    expect(empty.status).toBe(400);
    expect(empty.text).toContain('Say how it was settled');
    const long = await desk.send(open, { how: 'x'.repeat(501) }, '/open');
    expect(long.status).toBe(400);
    expect(long.text).toMatch(/500/);
    expect(long.document.querySelector('#how')?.getAttribute('value')).toHaveLength(501);
    expect(settled(desk)).toHaveLength(0);
  });

  test('R-25 settling a doubt that frees nobody says that it frees nobody', async () => {
    const desk = await aDesk();
    tellBook(desk, [doseOf('0103', 'zeros')]);
    const open = await desk.get('/open');
    expect(card(open, 'unplaced:zeros')).toMatch(/Held on its account meanwhile: ?103 Milkers: milk on hold until/);
    const reading = await desk.send(open, { how: 'asked Ola' }, '/open');
    expect(reading.text).toContain('It frees no cow and holds none');
    expect(reading.text).toContain('A line goes from the head of the milk-hold sheet');
  });
});

describe('the vet’s times', () => {
  const unlisted = { ...doseOf('104', 'odd'), data: { medicine: 'Pine tar' } };

  test('R-15 an open hold takes the vet’s times, says what they do first, and gets its end from them', async () => {
    const desk = await aDesk();
    tellBook(desk, [unlisted]);
    const open = await desk.get('/open');
    expect(open.text).toMatch(/104: the vet’s times are wanted *Milk: Pine tar.*Meat: Pine tar/);
    const times = { milkHours: '72', meatDays: '5', prescribedBy: 'Dr Okafor' };
    const reading = await desk.send(open, times, '/open/vet');
    expect(reading.text).toMatch(
      /104 Milkers: milk on hold until Tue 17 Mar 11:00.*from the Tue 17 Mar afternoon milking/,
    );
    expect(reading.text).toMatch(/meat on hold until Thu 19 Mar 11:00/);
    expect(vetTimes(desk)).toHaveLength(0);
    expect((await desk.send(reading, {}, '/open/vet')).path).toBe('/open?done=vet');
    await desk.send(reading, {}, '/open/vet');
    expect(vetTimes(desk)).toMatchObject([
      { subject: '104', data: { treatment: 'odd', milkHours: 72, meatDays: 5, prescribedBy: 'Dr Okafor' } },
    ]);
    expect((await desk.get('/open')).text).not.toContain('the vet’s times are wanted');
  });

  test('R-15 times that are none, a name left out and a time to come are refused beside their fields, the rest kept', async () => {
    const desk = await aDesk();
    tellBook(desk, [unlisted]);
    const open = await desk.get('/open');
    const none = await desk.send(open, { milkHours: 'three days', prescribedBy: 'Dr Okafor' }, '/open/vet');
    expect(none.status).toBe(400);
    expect(none.text).toContain('"three days" is not a number of hours');
    expect(none.document.querySelector('[name=prescribedBy]')?.getAttribute('value')).toBe('Dr Okafor');
    const nobody = await desk.send(open, { milkHours: '72' }, '/open/vet');
    expect(nobody.text).toContain('Say which vet gave the times');
    const ahead = await desk.send(
      open,
      { milkHours: '72', prescribedBy: 'Dr Okafor', at: '2026-03-15T12:00' },
      '/open/vet',
    );
    expect(ahead.status).toBe(400);
    const problem = ahead.document.querySelector('[name=at]')?.getAttribute('aria-describedby') ?? '';
    expect(ahead.document.getElementById(problem)?.textContent).toMatch(/clock|future|ahead/);
    expect(vetTimes(desk)).toHaveLength(0);
  });
});

describe('who may', () => {
  test('the crew and the record keeper see what stands open and get no form to settle it; a form of theirs is refused', async () => {
    const desk = await aDesk();
    tellBook(desk, [MISSPELT]);
    for (const role of ['crew', 'record-keeper'] as const) {
      const other = await desk.as(role, 'Ola');
      const page = await other.get('/open');
      expect(page.text).toContain('Held on its account');
      expect(page.document.querySelector('form[action="/open"]')).toBeNull();
      const theirs = (await other.get('/')).document.querySelector('[name=once]')?.getAttribute('value') ?? '';
      const fields = { once: theirs, key: asideKey(desk), how: 'so there', step: 'save' };
      expect((await other.post('/open', fields)).status).toBe(403);
    }
    expect(settled(desk)).toHaveLength(0);
  });

  test('a form of another sign-in settles nothing', async () => {
    const desk = await aDesk();
    tellBook(desk, [MISSPELT]);
    const stolen = await desk.get('/open');
    const other = await desk.as('manager', 'Ivo');
    expect((await other.send(stolen, { how: 'so there' }, '/open')).status).toBe(403);
    expect(settled(desk)).toHaveLength(0);
  });
});
