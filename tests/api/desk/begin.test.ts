/** The first run: a farm from nothing to its first sheets, step by step, each step in the book, nothing guessed. */
import { describe, expect, test } from 'vitest';
import { onPage } from '../../../api/desk/begin/begin-herd-read.ts';
import type { Entry } from '../../../events/entry.ts';
import { type ADesk, aDesk, type Browser, browserOf, type Seen } from './a-desk.ts';

const said = (desk: ADesk, type: string): readonly Entry[] =>
  desk.book.read().entries.filter((entry) => entry.type === type);

const FARM = {
  step: 'save',
  name: 'Windmill Dairy',
  timeZone: 'Europe/Dublin',
  'milking-0-start': '05:00',
  'milking-1-start': '16:30',
  stalls: '24',
  turnMinutes: '12',
  freshMilkings: '8',
};

const LIST = `Cow,Pen,Lact,Calved,Milk hold until,Meat hold until
101,Milkers,2,2026-01-05,none,none
102,Milkers,1,2026-02-01,2026-03-15,2026-03-20
103,Dry,3,,none,none
`;

const farmSet = async (): Promise<ADesk> => {
  const desk = await aDesk(null);
  await desk.send(await desk.get('/begin'), FARM, '/begin');
  return desk;
};

const herd = (browser: Browser, page: Seen, fields: Parameters<Browser['send']>[1]) =>
  browser.send(page, fields, '/begin/herd');

describe('setting up a farm from nothing', () => {
  test('from the first page to the first sheets, going on where the book was left', async () => {
    const desk = await aDesk(null);
    const first = await desk.get('/');
    expect(first.path).toBe('/begin');
    const medicines = await desk.send(first, FARM, '/begin');
    expect(medicines.path).toBe('/begin/medicines');
    expect(said(desk, 'farm-set-up')[0]?.data).toMatchObject({
      name: 'Windmill Dairy',
      milkings: [
        { name: 'morning', start: '05:00' },
        { name: 'afternoon', start: '16:30' },
      ],
      freshHold: { milkings: 8 },
    });

    // The browser is closed; another one goes on.
    const later = await desk.as('manager', 'Ola');
    const overview = await later.get('/begin');
    expect(overview.document.querySelector('[aria-current=step]')?.textContent).toContain('2. Medicines');
    const page = await later.get('/begin/medicines');
    const herdStep = await later.send(
      page,
      { 'medicine-0-here': 'yes', 'medicine-0-milkHours': '60', 'medicine-0-meat': 'days', 'medicine-0-meatDays': '3' },
      '/begin/medicines',
    );
    expect(herdStep.path).toBe('/begin/herd');
    expect(said(desk, 'medicine-listed').map(({ data }) => data)).toEqual([
      {
        name: 'Penicillin G procaine, udder',
        active: 'penicillin G procaine',
        kind: 'medicine',
        route: 'udder',
        milkHold: { hours: 60 },
        meatDays: 3,
      },
    ]);

    const looked = await herd(later, herdStep, { step: 'look', list: LIST });
    expect(looked.text).toContain('3 cows can be saved');
    expect(looked.text).toContain('Calved: calved');
    expect(said(desk, 'cow-entered')).toHaveLength(0);
    const done = await herd(later, looked, { step: 'save' });
    expect(done.path).toBe('/begin');
    expect(said(desk, 'cow-entered').map(({ subject }) => subject)).toEqual(['101', '102', '103']);
    expect(said(desk, 'cow-entered')[0]).toMatchObject({ author: 'Ola', source: 'the manager' });
    expect(done.document.querySelector('a.button')?.getAttribute('href')).toBe('/');
    const home = await later.get('/');
    expect(home.document.querySelector('.hold')?.textContent).toContain('102');
    const issued = await later.send(home, {}, '/issue');
    expect(issued.path).toMatch(/^\/issued\//);
    expect((await later.get('/begin')).text).toContain('4. The first sheets done: issued');
  });

  test('the zone of this computer stands there to begin with, unless nobody told it where it stands; no milking is guessed', async () => {
    const page = await (await aDesk(null)).get('/begin');
    const value = (name: string) => page.document.querySelector(`[name="${name}"]`)?.getAttribute('value');
    const here = Intl.DateTimeFormat().resolvedOptions().timeZone;
    expect(value('timeZone')).toBe(/^(UTC|GMT|Etc\/.*)$/.test(here) ? '' : here);
    expect(page.document.querySelectorAll('#zones option').length).toBeGreaterThan(300);
    expect(value('milking-0-start')).toBe('');
    expect(value('freshMilkings')).toBe('');
  });

  test('what is missing is said beside it; saved twice, the farm is set up once', async () => {
    const desk = await aDesk(null);
    const page = await desk.get('/begin');
    const bare = await desk.send(page, { step: 'save' }, '/begin');
    expect(bare.status).toBe(400);
    expect(bare.text).toContain('Say when this milking starts');
    expect(bare.document.querySelector('#f-stalls-problem')?.textContent).toBe('Fill this in: it is needed');
    expect(said(desk, 'farm-set-up')).toHaveLength(0);
    await desk.send(page, FARM, '/begin');
    expect((await desk.send(page, FARM, '/begin')).path).toBe('/begin/medicines');
    const other = await desk.send(page, { ...FARM, name: 'Another' }, '/begin');
    expect(other.text).toContain('The farm Windmill Dairy is set up in this book already');
    expect(said(desk, 'farm-set-up')).toHaveLength(1);
    expect(desk.book.read().asides).toEqual([]);
  });

  test('R-20 no fresh hold set is said until one is', async () => {
    const desk = await aDesk(null);
    await desk.send(await desk.get('/begin'), { ...FARM, freshMilkings: '' }, '/begin');
    expect((await desk.get('/begin')).text).toContain('every cow that calves is held without end');
  });

  test('the crew set nothing up', async () => {
    const desk = await aDesk(null);
    const crew = await desk.as('crew', 'Jo');
    const page = await crew.get('/begin');
    expect(page.text).toContain('The manager sets it up');
    expect(page.document.querySelector('form[action="/begin"]')).toBeNull();
    expect((await crew.get('/begin/herd')).status).toBe(403);
    expect((await browserOf(desk.server).get('/begin')).path).toContain('/sign-in');
  });
});

describe('the medicines of the first run', () => {
  test('R-14 no name is ticked and no time is filled in; a ticked one without its times is refused', async () => {
    const desk = await farmSet();
    const page = await desk.get('/begin/medicines');
    expect(page.document.querySelectorAll('[type=checkbox][checked]')).toHaveLength(0);
    expect(
      [...page.document.querySelectorAll('main input[inputmode]')].map((each) => each.getAttribute('value')),
    ).toEqual([...page.document.querySelectorAll('main input[inputmode]')].map(() => ''));
    const bare = await desk.send(page, { 'medicine-0-here': 'yes' }, '/begin/medicines');
    expect(bare.status).toBe(400);
    expect(bare.text).toContain('Left empty it would look like no hold');
    expect(bare.document.querySelector('[name="medicine-0-here"]')?.hasAttribute('checked')).toBe(true);
    const stray = await desk.send(page, { 'medicine-1-milkHours': '60' }, '/begin/medicines');
    expect(stray.text).toContain('tick that it is on the shelf, or clear them');
    expect(said(desk, 'medicine-listed')).toHaveLength(0);
  });
});

describe('the herd list of the first run', () => {
  const MIXED = `${LIST}101x!,Milkers,2,,none,none\n105,Nowhere,2,,none,none\n`;

  test('rows that cannot be used are named with line and column; the good ones are saved, or nothing', async () => {
    const desk = await farmSet();
    const looked = await herd(desk, await desk.get('/begin/herd'), { step: 'look', list: MIXED });
    const rows = [...looked.document.querySelectorAll('tbody tr')].map((row) => row.textContent ?? '');
    expect(rows[0]).toMatch(/^5Cow"101x!" is not a cow's number/);
    expect(rows[1]).toMatch(/^6Pen"Nowhere" is not a group of this farm/);
    expect(looked.text).toContain('Save 3 cows, leave 2 rows out');
    expect(looked.document.querySelector('a[href="/begin"]')).not.toBeNull();
    expect(said(desk, 'cow-entered')).toHaveLength(0);
    await herd(desk, looked, { step: 'save' });
    expect(said(desk, 'cow-entered')).toHaveLength(3);
    expect(desk.book.read().asides).toEqual([]);
    // The mended list adds only what was mended.
    const mended = await herd(desk, await desk.get('/begin/herd'), {
      step: 'look',
      list: MIXED.replace('101x!', '104').replace('Nowhere', 'Fresh'),
    });
    expect(mended.text).toContain('2 cows can be saved; 3 are in the book already');
    await herd(desk, mended, { step: 'save' });
    await herd(desk, mended, { step: 'save' });
    expect(said(desk, 'cow-entered')).toHaveLength(5);
  });

  test('R-28 a list without holds is refused until it is stated that there are none', async () => {
    const desk = await farmSet();
    const list = 'Cow,Pen,Lact\n201,Milkers,2\n';
    const refused = await herd(desk, await desk.get('/begin/herd'), { step: 'save', list });
    expect(refused.status).toBe(400);
    expect(refused.text).toContain('tick below that no cow has one');
    const looked = await herd(desk, refused, { step: 'look', holds: 'yes' });
    await herd(desk, looked, { step: 'save' });
    expect(said(desk, 'cow-entered')[0]?.data).toMatchObject({ milkHoldUntil: 'none', meatHoldUntil: 'none' });
  });

  test('a list changed after it was looked at is looked at again before it is saved', async () => {
    const desk = await farmSet();
    const looked = await herd(desk, await desk.get('/begin/herd'), { step: 'look', list: LIST });
    const again = await herd(desk, looked, { step: 'save', list: LIST.replace('102,', '112,') });
    expect(again.text).toContain('was changed since you looked, so nothing was saved');
    expect(said(desk, 'cow-entered')).toHaveLength(0);
    await herd(desk, again, { step: 'save' });
    expect(said(desk, 'cow-entered').map(({ subject }) => subject)).toContain('112');
  });

  test('headings that are not understood are said on the page, dates are never guessed', async () => {
    const desk = await farmSet();
    const list = 'Which;Pen;Lact;Calved;Milk hold until\n301;Milkers;2;5/1/2026;none\n';
    const refused = await herd(desk, await desk.get('/begin/herd'), { step: 'look', list });
    expect(refused.text).toContain('Say below which heading it is');
    const mapped = await herd(desk, refused, { step: 'look', 'map-number': 'Which' });
    expect(mapped.text).toContain('say below how the list writes dates');
    const read = await herd(desk, mapped, { step: 'look', dates: 'dd/mm/yyyy' });
    await herd(desk, read, { step: 'save' });
    expect(said(desk, 'cow-entered')[0]?.data).toMatchObject({ calvedOn: '2026-01-05' });
  });

  test('a file is taken as it is, longer than other forms and in an older encoding, and tags in it are text', async () => {
    const desk = await farmSet();
    const signedIn = await fetch(`${desk.server.url}/sign-in`, {
      method: 'POST',
      redirect: 'manual',
      body: new URLSearchParams({ person: 'Ola', token: desk.server.tokens.manager }),
    });
    const cookie = (signedIn.headers.get('set-cookie') ?? '').split(';')[0] ?? '';
    const shown = await (await fetch(`${desk.server.url}/begin/herd`, { headers: { cookie } })).text();
    const once = /name="once" value="([^"]+)"/.exec(shown)?.[1] ?? '';
    const row = (number: number): string =>
      `${number},Milkers,2,none,none,"Vall\u00e9e <script>x()</script> ${'y'.repeat(60)}"\n`;
    const rows = Array.from({ length: 6_000 }, (_, index) => row(1_000 + index)).join('');
    const file = Buffer.from(`Cow,Pen,Lact,Milk hold until,Meat hold until,From\n${rows}`, 'latin1');
    expect(file.length).toBeGreaterThan(512 * 1024);
    const body = new FormData();
    body.set('once', once);
    body.set('step', 'look');
    body.set('asOf', '2026-03-14');
    body.set('list', '');
    body.set('file', new Blob([file]), 'herd.csv');
    const answer = await fetch(`${desk.server.url}/begin/herd`, { method: 'POST', headers: { cookie }, body });
    const html = await answer.text();
    expect(answer.status).toBe(200);
    const page = html.replace(/<textarea.*<\/textarea>/s, '');
    expect(page).toContain('was read as Windows-1252');
    expect(page).toContain('Save 6,000 cows');
    expect(html.includes('Vall\u00e9e')).toBe(true);
    expect(html.includes('<script>')).toBe(false);
    expect(said(desk, 'cow-entered')).toHaveLength(0);
  });

  test('no sentence of the command line’s options reaches the page', () => {
    for (const sentence of [
      'Either add a column, or state with --holds none that no cow has one',
      '"12" is not a date like 2026-03-14; write it so, or say how the file writes dates, with --dates dd/mm/yyyy or --dates mm/dd/yyyy',
      'both read as the cow\'s number; say which is meant with --map number="A" or --map number="B"',
      '--map gives the column "A" to both number and group; give it to one',
      '--map number=Z: "Z" is not a heading of the file',
    ])
      expect(onPage(sentence)).not.toContain('--');
  });
});
