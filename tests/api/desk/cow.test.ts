/** A cow's page: who a number means, where her milk and meat stand and why, her holds drawn and told, her history whole. */
import { describe, expect, test } from 'vitest';
import { at } from '../../events/a-book.ts';
import { readPdf } from '../../print/read-pdf.ts';
import { PENICILLIN } from '../server/a-server.ts';
import { aDesk, type Browser, browserOf, type Seen, tellBook } from './a-desk.ts';

const TIME = '2026-02-01T12:00:00Z';
const stated = { milkHoldUntil: 'none', meatHoldUntil: 'none' };
const dose = (subject: string, time: string, id: string): Record<string, unknown> => ({
  type: 'treatment',
  subject,
  time,
  id,
  data: { medicine: PENICILLIN, reason: 'mastitis' },
});

const rowWith = (page: Seen, text: string): Element => {
  const row = [...page.document.querySelectorAll('table.history tbody tr')].find((each) =>
    (each.textContent ?? '').includes(text),
  );
  if (row === undefined) throw new Error(`no entry says ${text}: ${page.text}`);
  return row;
};
/** What is read in an element, with a space between what stands in two places. */
const wordsOf = (element: Element | null | undefined): string =>
  (element?.innerHTML ?? '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
const strikeLinks = async (browser: Browser, path: string): Promise<string[]> =>
  [...(await browser.get(path)).document.querySelectorAll('table.history a[href^="/write/entry-struck"]')].map(
    (each) => each.getAttribute('href') ?? '',
  );

describe('where she stands', () => {
  test('R-10 her page says until when her milk stays out, from which milking it may go in, and the entry behind it', async () => {
    const desk = await aDesk();
    tellBook(desk, [dose('101', '2026-03-14T10:00:00Z', 'dose-101')]);
    const page = await desk.get('/cow/101');
    expect(page.status).toBe(200);
    expect(page.text).toContain('Milkers, lactation 2, 103 days in milk');
    expect(page.text).toContain(
      'On hold: keep it out of the tank. Held until Mon 16 Mar 22:00; in the tank from Tue 17 Mar morning.',
    );
    expect(page.text).toContain('On hold: not for meat. Held until Tue 17 Mar 10:00.');
    expect(page.text).toMatch(/Milk hold: yes\s*R-11 Penicillin G procaine, udder: last dose Sat 14 Mar 10:00 \+ 60 h/);
    expect(page.text).toMatch(/Treatment given 101, Sat 14 Mar 10:00, by Marta, entry 9/);
    expect(page.document.querySelector('a[href="/write?cow=101"]')).not.toBeNull();
    expect((await desk.get('/cow/102')).text).toContain('Not on hold: nothing in the book keeps it out of the tank.');
  });

  test('R-90 the statement for her buyer is a paper of that very cow', async () => {
    const desk = await aDesk();
    tellBook(desk, [dose('101', '2026-03-14T10:00:00Z', 'dose-101')]);
    const link = (await desk.get('/cow/101')).document.querySelector('a[href*="leaving.pdf"]');
    expect(link?.textContent).toContain('Statement of her holds');
    const { response } = await desk.get(link?.getAttribute('href') ?? '');
    expect(['content-type', 'content-disposition'].map((name) => response.headers.get(name))).toEqual([
      'application/pdf',
      'inline; filename="leaving-101.pdf"',
    ]);
    const { text } = await readPdf(new Uint8Array(await response.arrayBuffer()));
    expect(text).toContain(PENICILLIN);
    expect(text).toContain('101');
    expect((await desk.get('/cow/101/leaving.pdf?of=nobody')).status).toBe(404);
  });

  test('R-24 a dry cow that something holds never reads as free', async () => {
    const desk = await aDesk();
    const dryCow = { minimumDryDays: 42, milkHoldAfterCalving: { hours: 96 } };
    tellBook(desk, [
      {
        type: 'medicine-listed',
        time: TIME,
        data: { name: 'Cloxacillin benzathine', for: ['dry'], milkHold: 'not-for-milking-cows', meatDays: 30, dryCow },
      },
      {
        type: 'dry-off',
        time: '2026-03-12T09:00:00Z',
        subject: '103',
        data: { group: 'Dry', product: 'Cloxacillin benzathine' },
      },
    ]);
    const page = await desk.get('/cow/103');
    expect(page.text).toContain('On hold when she is milked. She is not milked in Dry;');
    expect(page.text).not.toContain('Not on hold: nothing in the book keeps it out');
  });

  test('another milking is asked for in the address, and one that is none is refused with a sentence', async () => {
    const desk = await aDesk();
    tellBook(desk, [dose('101', '2026-03-14T10:00:00Z', 'dose-101')]);
    expect((await desk.get('/cow/101?milking=2026-03-17/morning')).text).toContain('Not on hold');
    const refused = await desk.get('/cow/101?milking=tea-time');
    expect(refused.status).toBe(400);
    expect(refused.text).toContain('“tea-time” is not a milking');
  });
});

describe('her holds on a time line', () => {
  test('each bar of the drawing has its number in the table, with the same beginning and end', async () => {
    const desk = await aDesk();
    tellBook(desk, [
      dose('101', '2026-02-20T10:00:00Z', 'one'),
      dose('101', '2026-03-14T10:00:00Z', 'two'),
      { type: 'milk-hold', time: '2026-03-13T10:00:00Z', subject: '101', data: { reason: 'clots' } },
    ]);
    const { document } = await desk.get('/cow/101');
    const drawing = document.querySelector('figure svg[role="img"]');
    expect(wordsOf(drawing?.querySelector('title'))).toContain('Holds of cow 101 on a time line');
    const bars = [...(drawing?.querySelectorAll('rect') ?? [])];
    const rows = [...document.querySelectorAll('figure tbody tr')].map(wordsOf);
    expect(rows).toHaveLength(bars.length);
    expect([...(drawing?.querySelectorAll('text.nth') ?? [])].map(wordsOf).sort()).toEqual(
      rows.map((row) => row.split(' ')[0]).sort(),
    );
    expect(rows.filter((row) => row.includes('milk, over'))).toHaveLength(2);
    expect(rows.find((row) => row.includes('clots'))).toMatch(/milk, RUNS Fri 13 Mar 10:00 no end known/);
    expect(rows.find((row) => row.includes('meat, RUNS'))).toContain('Sat 14 Mar 10:00 Tue 17 Mar 10:00');
    // Two holds of 60 hours are of one width, and of the line's whole length they are that part.
    const width = (bar: Element | undefined): number => Number((bar?.getAttribute('width') ?? '').replace('%', ''));
    const milk = bars.filter((bar) => bar.getAttribute('class') === 'held');
    const sixty = milk.filter((_, index) => / 60 h /.test(rows[index] ?? ''));
    expect(sixty).toHaveLength(2);
    expect(width(sixty[0])).toBeCloseTo(width(sixty[1]), 1);
    // The line runs from four days before she calved on 1 December to 21 days from now, as nothing is expected after that.
    expect(width(sixty[0])).toBeCloseTo((60 / 24 / (4 + 103.5 + 21)) * 100, 1);
    expect(wordsOf(document.querySelector('ul.days'))).toMatch(/calved .* now Sat 14 Mar 12:00/);
  });

  test('an old hold is left to the whole time line, and that is said', async () => {
    const desk = await aDesk();
    tellBook(desk, [dose('101', '2026-02-20T10:00:00Z', 'one')]);
    desk.clock.set(at('2026-10-01T12:00:00Z'));
    const later = await desk.as('manager');
    const page = await later.get('/cow/101');
    expect(page.text).toMatch(/more holds lie outside this stretch/);
    expect(page.document.querySelectorAll('figure tbody tr')).toHaveLength(0);
    const whole = await later.get('/cow/101?line=all');
    expect(whole.document.querySelectorAll('figure tbody tr').length).toBeGreaterThan(1);
    expect(whole.text).toContain('milk, over');
  });
});

describe('her history', () => {
  test('R-23 a struck entry stays, struck through, with who, when, why and what stands instead', async () => {
    const desk = await aDesk();
    tellBook(desk, [
      dose('101', '2026-03-14T10:00:00Z', 'wrong'),
      dose('102', '2026-03-14T10:00:00Z', 'right'),
      {
        type: 'entry-struck',
        time: '2026-03-14T11:30:00Z',
        author: 'Ola',
        data: { entry: 'wrong', reason: 'band misread', instead: 'right' },
      },
    ]);
    const page = await desk.get('/cow/101');
    expect(page.text).toContain('Not on hold: nothing in the book keeps it out of the tank.');
    const row = rowWith(page, 'band misread');
    expect(wordsOf(row.querySelector('th del'))).toBe('Sat 14 Mar 10:00');
    expect([...row.querySelectorAll('del')].map(wordsOf).join(' ')).toContain(PENICILLIN);
    expect(wordsOf(row.querySelector('.struck-by'))).toMatch(
      /^Struck by Ola on office, Sat 14 Mar 11:30: band misread/,
    );
    expect(row.querySelector('.struck-by a')?.getAttribute('href')).toBe('/cow/102#entry-10');
    expect((await desk.get('/cow/102')).document.querySelector('tr#entry-10')).not.toBeNull();
    expect(row.querySelector('a[href^="/write/entry-struck"]')).toBeNull();
  });

  test('both times of an entry stand, with who said it and on which device', async () => {
    const desk = await aDesk();
    tellBook(desk, [dose('101', '2026-03-12T06:00:00Z', 'late')]);
    const row = rowWith(await desk.get('/cow/101'), 'mastitis');
    expect(wordsOf(row)).toContain('Thu 12 Mar 06:00');
    expect(wordsOf(row)).toContain('Sat 14 Mar 12:00 2 days later');
    expect(wordsOf(row)).toContain('Marta, on office');
  });

  test('the crew are offered to take back only what their own device said', async () => {
    const desk = await aDesk();
    tellBook(desk, [dose('101', '2026-03-14T10:00:00Z', 'of-the-office')]);
    const own = { ...dose('101', '2026-03-14T11:00:00Z', 'of-the-crew'), author: 'Ola' };
    await desk.server.push([{ specversion: '1.0', source: 'the crew', ...own }], { as: 'crew' });
    expect(await strikeLinks(await desk.as('crew'), '/cow/101')).toEqual(['/write/entry-struck?entry=of-the-crew']);
    expect(await strikeLinks(desk, '/cow/101')).toEqual([
      '/write/entry-struck?entry=of-the-crew',
      '/write/entry-struck?entry=of-the-office',
      '/write/entry-struck?entry=cow-101',
    ]);
  });

  test('milk records are many and wait until they are asked for', async () => {
    const desk = await aDesk();
    tellBook(
      desk,
      Array.from({ length: 230 }, (_, index) => ({
        type: 'milk-record',
        time: new Date(Date.parse('2026-03-01T05:10:00Z') + index * 60_000).toISOString(),
        subject: '101',
        data: { milking: '2026-03-01/morning', kg: 15 + index / 100 },
      })),
    );
    const page = await desk.get('/cow/101');
    expect(page.text).toContain('1 entry, the latest first. Show 230 milk records too');
    const records = await desk.get('/cow/101?records=1');
    expect(records.document.querySelectorAll('table.history tbody tr')).toHaveLength(200);
    const rest = await desk.get('/cow/101?records=1&part=2');
    expect(rest.document.querySelectorAll('table.history tbody tr')).toHaveLength(31);
    expect(wordsOf(rest.document.querySelector('table.history tbody tr:last-child'))).toContain('New cow');
  });

  test('what people wrote is shown as they wrote it and never becomes a page of theirs', async () => {
    const desk = await aDesk();
    tellBook(desk, [
      {
        ...dose('101', '2026-03-14T10:00:00Z', 'script'),
        author: '<b>Ola</b>',
        data: { medicine: '<script>alert(1)</script>', reason: '"><img src=x>' },
      },
    ]);
    const page = await desk.get('/cow/101');
    expect(page.document.querySelector('main script, main img, main b')).toBeNull();
    expect(page.text).toContain('<script>alert(1)</script>');
    const number = await desk.get(`/cow/${encodeURIComponent('<img src=x>')}`);
    expect(number.status).toBe(404);
    expect(number.document.querySelector('main img')).toBeNull();
  });
});

describe('who a number means', () => {
  test('R-25 two cows under one number are both shown, and it is said', async () => {
    const desk = await aDesk();
    tellBook(desk, [
      {
        type: 'cow-entered',
        time: '2026-03-01T12:00:00Z',
        subject: '101',
        data: { group: 'Fresh', lactation: 4, officialId: '999000000000777', calvedOn: '2026-02-10', ...stated },
      },
      dose('101', '2026-03-14T10:00:00Z', 'whose'),
    ]);
    const page = await desk.get('/cow/101');
    expect(page.text).toContain('101 may mean 2 cows: each of them stands below.');
    expect(page.text.match(/On hold: keep it out of the tank/g)).toHaveLength(2);
    expect(page.document.querySelector('a[href="/write?cow=999000000000777"]')).not.toBeNull();
    expect(page.document.querySelectorAll('figure svg[role="img"]')).toHaveLength(2);
    expect(wordsOf(rowWith(page, 'mastitis'))).toContain('not certain, may be cow 1 / cow 2');
    const ids = [...page.document.querySelectorAll('[id]')].map((each) => each.id);
    expect(new Set(ids).size).toBe(ids.length);
    const one = await desk.get('/cow/999000000000777');
    expect(one.text).toContain('Fresh, lactation 4');
    expect(one.text).not.toContain('may mean 2 cows');
  });

  test('a number she bore leads to her, with her numbers and since when', async () => {
    const desk = await aDesk();
    tellBook(desk, [
      dose('101', '2026-02-10T10:00:00Z', 'before'),
      { type: 'number-changed', time: '2026-03-01T12:00:00Z', subject: '101', data: { to: '901' } },
    ]);
    const page = await desk.get('/cow/101');
    expect(page.status).toBe(200);
    expect(page.text).toContain('She bore the number 101; now she is 901.');
    expect(page.text).toContain('101 from Sun 1 Feb 12:00 to Sun 1 Mar 12:00; 901 since Sun 1 Mar 12:00');
    expect(wordsOf(rowWith(await desk.get('/cow/901'), 'mastitis'))).toContain('written under 101');
  });

  test('a cow that left keeps her page, her holds and her history', async () => {
    const desk = await aDesk();
    tellBook(desk, [
      dose('101', '2026-03-13T10:00:00Z', 'last'),
      {
        type: 'cow-left',
        time: '2026-03-13T15:00:00Z',
        subject: '101',
        data: { reason: 'sold-for-milking', to: 'Elm Farm' },
      },
    ]);
    const page = await desk.get('/cow/101');
    expect(page.status).toBe(200);
    expect(page.text).toContain('She is not in the herd: left Fri 13 Mar 15:00, sold for milking, to Elm Farm.');
    expect(page.text).toContain('meat, RUNS');
    expect(page.document.querySelector('a[href^="/write?cow="]')).toBeNull();
  });

  test('when a tag is used again, she who bears it is shown and the one that is gone is a click away', async () => {
    const desk = await aDesk();
    tellBook(desk, [
      { type: 'cow-left', time: '2026-02-10T15:00:00Z', subject: '101', data: { reason: 'died' } },
      {
        type: 'cow-entered',
        time: '2026-02-20T12:00:00Z',
        subject: '101',
        data: { group: 'Fresh', lactation: 1, ...stated },
      },
    ]);
    const page = await desk.get('/cow/101');
    expect(page.text).toContain('Fresh, lactation 1');
    expect(page.text).not.toContain('may mean 2 cows');
    expect(page.text).toContain('A cow that is gone bore the number 101 too');
    expect((await desk.get('/cow/101?gone=1')).text).toContain('left Tue 10 Feb 15:00, died');
  });

  test('R-25 a number nobody bears names numbers like it and shows what waits under it for a cow', async () => {
    const desk = await aDesk();
    tellBook(desk, [dose('110', '2026-03-14T10:00:00Z', 'lost')]);
    const page = await desk.get('/cow/110');
    expect(page.status).toBe(404);
    expect(page.text).toContain('No cow of the herd bears or bore the number 110.');
    expect(page.text).toContain('Find this cow before milking');
    expect(page.document.querySelector('a[href="/open#unplaced%3Alost"]')).not.toBeNull();
    expect(wordsOf(rowWith(page, 'mastitis'))).toContain('Treatment given');
    const swapped = await desk.get('/cow/1o1');
    expect([...swapped.document.querySelectorAll('main .cows a')].map(wordsOf)).toContain('101');
  });

  test('R-25 a number with zeros too many shows the cow without them, and that it is not certain', async () => {
    const desk = await aDesk();
    tellBook(desk, [dose('0101', '2026-03-14T10:00:00Z', 'zeros')]);
    const page = await desk.get('/cow/0101');
    expect(page.text).toContain('Nobody bears 0101; without zeros in front it is 101.');
    expect(page.text).toContain('On hold: keep it out of the tank.');
    expect(page.text).toContain('Find this cow before milking');
  });

  test('a cow’s page is for those who are signed in', async () => {
    const desk = await aDesk();
    expect((await browserOf(desk.server).get('/cow/101')).path).toBe('/sign-in?to=%2Fcow%2F101');
    for (const role of ['crew', 'record-keeper'] as const)
      expect((await (await desk.as(role)).get('/cow/101')).text).toContain('Who she is');
  });
});
