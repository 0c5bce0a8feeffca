/** The herd page: who is shown in which order, and the same rows as a table file. */
import { parse } from 'csv-parse/sync';
import { describe, expect, test } from 'vitest';
import { farmEntries, PENICILLIN } from '../server/a-server.ts';
import { type ADesk, aDesk, type Seen, tellBook } from './a-desk.ts';

const TIME = '2026-02-01T12:00:00Z';
const stated = { milkHoldUntil: 'none', meatHoldUntil: 'none' };

/** Beside the six: 9 (official, held), 10 (fresh), 011, dry 20, a cow renumbered from 55 to 56, and one close to her dry-off. */
const herdOf = async (): Promise<ADesk> => {
  const desk = await aDesk();
  tellBook(desk, [
    {
      type: 'cow-entered',
      time: TIME,
      subject: '9',
      data: { group: 'Milkers', lactation: 5, calvedOn: '2025-11-01', officialId: '036000000000009', ...stated },
    },
    { type: 'treatment', time: '2026-03-14T10:00:00Z', subject: '9', data: { medicine: PENICILLIN } },
    { type: 'cow-entered', time: TIME, subject: '10', data: { group: 'Milkers', lactation: 1, ...stated } },
    {
      type: 'calving',
      time: '2026-03-13T20:00:00Z',
      subject: '10',
      data: { calves: [{ sex: 'female', alive: true }], group: 'Fresh' },
    },
    {
      type: 'cow-entered',
      time: TIME,
      subject: '20',
      data: {
        group: 'Dry',
        lactation: 3,
        driedOffOn: '2026-01-20',
        driedOffWith: 'none',
        dueOn: '2026-03-20',
        ...stated,
      },
    },
    {
      type: 'cow-entered',
      time: TIME,
      subject: '55',
      data: {
        group: 'Milkers',
        lactation: 2,
        calvedOn: '2025-06-01',
        servedOn: '2025-08-10',
        dueOn: '2026-05-15',
        ...stated,
      },
    },
    { type: 'number-changed', time: '2026-02-20T12:00:00Z', subject: '55', data: { to: '56' } },
  ]);
  return desk;
};

const numbersOn = (page: Seen): string[] =>
  [...page.document.querySelectorAll('table.herd tbody th a')].map((each) => (each.textContent ?? '').trim());
const rowOf = (page: Seen, number: string): string =>
  (
    [...page.document.querySelectorAll('table.herd tbody tr')].find(
      (row) => row.querySelector('th a')?.textContent?.trim() === number,
    )?.textContent ?? ''
  ).replace(/\s+/g, ' ');

const file = async (desk: ADesk, path: string): Promise<Record<string, string>[]> =>
  parse((await desk.get(path)).html, { columns: true, bom: true });

describe('the herd page', () => {
  test('cows stand in the order of the sheets, with a count, and a held cow says until when and which tank', async () => {
    const desk = await herdOf();
    const page = await desk.get('/herd');
    expect(numbersOn(page)).toEqual(['9', '56', '101', '102', '103', '104', '105', '106', '10', '20']);
    expect(page.text).toContain('10 cows: 9 in milk, 2 on milk hold, 1 on meat hold');
    expect(rowOf(page, '9')).toContain('Mon 16 Mar 22:00');
    expect(rowOf(page, '9')).toContain('Tue 17 Mar morning');
    expect(rowOf(page, '20')).toContain('no');
  });

  test('choosing a list leaves those that the sheets hold, call fresh or want dried off, and says when that is nobody', async () => {
    const desk = await herdOf();
    expect(numbersOn(await desk.get('/herd?hold=milk'))).toEqual(['9', '10']);
    expect(numbersOn(await desk.get('/herd?hold=meat'))).toEqual(['9']);
    expect(numbersOn(await desk.get('/herd?show=fresh'))).toEqual(['10']);
    expect(numbersOn(await desk.get('/herd?show=dry-off'))).toEqual(['56']);
    expect(numbersOn(await desk.get('/herd?group=Dry'))).toEqual(['20']);
    expect((await desk.get('/herd?group=Dry&hold=milk')).text).toContain('None of 10 cows is on this list');
  });

  test('a cow is found by the beginning of her number, a number she bore, zeros in front, or her official number', async () => {
    const desk = await herdOf();
    expect(numbersOn(await desk.get('/herd?find=10'))).toEqual(['101', '102', '103', '104', '105', '106', '10']);
    const renumbered = await desk.get('/herd?find=55');
    expect(numbersOn(renumbered)).toEqual(['56']);
    expect(rowOf(renumbered, '56')).toContain('once 55');
    expect(numbersOn(await desk.get('/herd?find=0009'))).toEqual(['9']);
    expect(numbersOn(await desk.get('/herd?find=036+0000+0000+0009'))).toEqual(['9']);
    const nobody = await desk.get('/herd?find=777');
    expect(nobody.text).toContain('None of 10 cows answers to “777” here');
    expect(nobody.document.querySelector('main a[href="/cow/777"]')).not.toBeNull();
  });

  test('each heading sorts up, then down, says so to a screen reader, and keeps what was chosen', async () => {
    const desk = await herdOf();
    const page = await desk.get('/herd?group=Milkers&sort=days');
    const heading = page.document.querySelector('th[aria-sort]');
    expect(heading?.getAttribute('aria-sort')).toBe('ascending');
    expect(heading?.querySelector('a')?.getAttribute('href')).toBe('/herd?group=Milkers&sort=days&down=1');
    expect(numbersOn(page).at(-1)).toBe('56');
    expect(numbersOn(await desk.get('/herd?group=Milkers&sort=days&down=1'))[0]).toBe('56');
    const held = numbersOn(await desk.get('/herd?sort=milk-hold&down=1'));
    expect(held.slice(0, 2).sort()).toEqual(['10', '9']);
    expect(numbersOn(await desk.get('/herd?sort=number')).slice(0, 4)).toEqual(['9', '10', '20', '56']);
  });

  test('a group, list or column that does not exist is said in a sentence and hides no cow', async () => {
    const page = await (await herdOf()).get('/herd?group=<script>alert(1)</script>&sort=luck&hold=wool');
    expect(numbersOn(page)).toHaveLength(10);
    expect(page.text).toContain('There is no group “<script>alert(1)</script>”');
    expect(page.text).toContain('There is no column “luck”');
    expect(page.text).toContain('There is no hold “wool”');
    expect(page.document.querySelector('main script')).toBeNull();
  });

  test('the form of the page chooses, and keeps the order', async () => {
    const desk = await herdOf();
    const chosen = await desk.send(await desk.get('/herd?sort=due'), { hold: 'milk' }, '/herd');
    expect(numbersOn(chosen).sort()).toEqual(['10', '9']);
    expect(chosen.path).toContain('sort=due');
  });

  test('the table file has the same rows in the same order, with the farm’s own times', async () => {
    const desk = await herdOf();
    const rows = await file(desk, '/herd.csv?hold=milk&sort=number&down=1');
    expect(rows.map((row) => row.number)).toEqual(['10', '9']);
    expect(rows[1]).toMatchObject({
      'official number': '036000000000009',
      'in milk': 'yes',
      'milk on hold': 'yes',
      'milk hold until': '2026-03-16T22:00:00+00:00',
      'in the tank from': '2026-03-17/morning',
      'meat on hold': 'yes',
    });
    const answer = (await desk.get('/herd.csv')).response;
    expect(answer.headers.get('content-type')).toContain('text/csv');
    expect(answer.headers.get('content-disposition')).toBe('attachment; filename="herd-2026-03-14-afternoon.csv"');
    expect(await file(desk, '/herd.csv')).toHaveLength(10);
  });

  test('R-11 a farm whose clocks have changed reads its own wall time in the table file', async () => {
    const farm = farmEntries().map((entry) =>
      entry.type === 'farm-set-up' ? { ...entry, data: { ...Object(entry.data), timeZone: 'America/Toronto' } } : entry,
    );
    const desk = await aDesk(farm);
    tellBook(desk, [
      { type: 'medicine-listed', time: TIME, data: { name: 'Ten days', milkHold: 'none', meatDays: 10 } },
      { type: 'treatment', time: '2026-03-07T23:00:00Z', subject: '101', data: { medicine: 'Ten days' } },
    ]);
    const [row] = await file(desk, '/herd.csv?find=101');
    // Given at 18:00; the night after had one hour less, and 240 hours are 240 hours.
    expect(row?.['meat hold until']).toBe('2026-03-17T19:00:00-04:00');
  });

  test('a cell that a spreadsheet would take for a formula is defused', async () => {
    const desk = await aDesk();
    tellBook(desk, [
      { type: 'cow-entered', time: TIME, subject: '-5', data: { group: '=1+1', lactation: 1, ...stated } },
    ]);
    const [row] = await file(desk, '/herd.csv?find=-5');
    expect(row).toMatchObject({ number: "'-5", group: "'=1+1" });
  });

  test('an empty herd says so, and a book without a farm begins with one', async () => {
    const [setUp] = farmEntries();
    const desk = await aDesk(setUp === undefined ? [] : [setUp]);
    expect((await desk.get('/herd')).text).toContain('No cow is in the herd yet');
    expect(await file(desk, '/herd.csv')).toEqual([]);
    expect((await (await aDesk(null)).get('/herd')).path).toBe('/begin');
  });

  test('the crew and the record keeper see the herd; nobody else does', async () => {
    const desk = await herdOf();
    for (const role of ['crew', 'record-keeper'] as const)
      expect(numbersOn(await (await desk.as(role)).get('/herd'))).toHaveLength(10);
    const stranger = await fetch(`${desk.server.url}/herd.csv`, { redirect: 'manual' });
    expect(stranger.status).toBe(303);
    expect(stranger.headers.get('location')).toContain('/sign-in');
  });
});
