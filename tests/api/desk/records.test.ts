/** The record keeper's page: a moment of the past beside the paper, the verification, the register, proofs; who may, and bad input. */
import { describe, expect, test } from 'vitest';
import { checkProof } from '../../../events/log/check-proof.ts';
import { at } from '../../events/a-book.ts';
import { doseOf } from '../server/a-server.ts';
import { type ADesk, aDesk, browserOf, type Seen, tellBook } from './a-desk.ts';

const MILKING = '2026-03-14/afternoon';

/** The afternoon's set is issued at noon; at 13:05 a dose of 104, given at 11:00, comes to the book. */
const lateNews = async (): Promise<ADesk & { ref: string }> => {
  const desk = await aDesk();
  tellBook(desk, [doseOf('103', 'known', '2026-03-14T10:00:00Z')]);
  await desk.send(await desk.get('/'), {}, '/issue');
  const issued = desk.book.read().entries.findLast((entry) => entry.type === 'sheet-issued');
  desk.clock.set(at('2026-03-14T13:05:00Z'));
  tellBook(desk, [{ ...doseOf('104', 'late'), author: 'Ola <i>night</i>' }]);
  return { ...desk, ref: issued?.type === 'sheet-issued' ? issued.data.ref : '' };
};

const rowOf = (page: Seen, section: string, head: string): readonly string[] => {
  const rows = [...page.document.querySelectorAll(`section[aria-labelledby=${section}] tbody tr`)];
  const row = rows.find((each) => each.querySelector('th')?.textContent?.startsWith(head));
  return [...(row?.querySelectorAll('td') ?? [])].map((cell) => (cell.textContent ?? '').replace(/\s+/g, ' ').trim());
};

describe('a milking as it was known then', () => {
  test('the sheets as known then stand beside the issued paper and beside what is known now, with the difference and its reason', async () => {
    const desk = await lateNews();
    const page = await desk.send(await desk.get('/records'), { ref: desk.ref }, '/records/then');
    expect(rowOf(page, 'lists', 'Milk out of the tank')).toEqual(['103', '103', '103, 104']);
    expect(rowOf(page, 'held', '104')).toEqual([
      'not on it',
      'not on it',
      'until Mon 16 Mar 23:00, in the tank from Tue 17 Mar morning',
    ]);
    expect(page.text).toContain('Worked out again from the log at its position, every row agrees.');
    expect(page.text).toMatch(
      /a treatment of Sat 14 Mar 11:00, known here only from Sat 14 Mar 13:05, by Ola <i>night<\/i>/,
    );
    expect(page.html).not.toContain('<i>night');
    const paper = page.document.querySelector(`a[href="/issued/${desk.ref}/milk-hold.pdf"]`);
    expect(paper).not.toBeNull();
    const pdf = await desk.get(`/issued/${desk.ref}/milk-hold.pdf`);
    expect(pdf.response.headers.get('content-type')).toBe('application/pdf');
  });

  test('by the clock and by position the same moment gives the same sheets', async () => {
    const desk = await lateNews();
    const [date = '', name = ''] = MILKING.split('/');
    const records = await desk.get('/records');
    const position = String(desk.book.head().position - 1);
    for (const moment of [{ at: '2026-03-14T12:30' }, { position }]) {
      const page = await desk.send(records, { date, name, ...moment }, '/records/then');
      expect(page.status).toBe(200);
      expect(rowOf(page, 'lists', 'Milk out of the tank')).toEqual(['103', '103', '103, 104']);
    }
  });

  test('before anything was issued the page says so, and invents no paper', async () => {
    const desk = await aDesk();
    const [date = '', name = ''] = MILKING.split('/');
    const page = await desk.send(await desk.get('/records'), { date, name, position: '8' }, '/records/then');
    expect(page.text).toContain('No sheets were issued for this milking.');
    expect(page.text).toContain('Nothing that is known now would have changed these sheets.');
    expect(rowOf(page, 'lists', 'Milk out of the tank')).toEqual(['none', 'not issued', 'none']);
  });

  test('R-23 an entry that was struck since is named with who struck it', async () => {
    const desk = await lateNews();
    tellBook(desk, [
      {
        type: 'entry-struck',
        time: '2026-03-14T13:00:00Z',
        author: 'Ivo',
        data: { entry: 'known', reason: 'wrong cow', instead: 'nothing' },
      },
    ]);
    const page = await desk.get(`/records/then?ref=${desk.ref}`);
    expect(rowOf(page, 'lists', 'Milk out of the tank')).toEqual(['103', '103', '104']);
    expect(page.text).toMatch(/struck Sat 14 Mar 13:05 by Ivo/);
  });

  test.each([
    ['no moment', {}, 'at', /in one way/],
    ['two moments', { at: '2026-03-14T12:30', position: '3' }, 'at', /2 are filled in/],
    ['a moment to come', { at: '2027-01-01T12:30' }, 'at', /still to come/],
    ['a position behind the end', { position: '9999' }, 'position', /from 1 to \d+/],
    ['a ref with two symbols swapped', { ref: 'ACEF-3497-K' }, 'ref', /symbol wrong or two swapped/],
    [
      'a milking that the farm has not',
      { position: '3', name: 'night' },
      'date',
      /no milking "night", only morning, afternoon/,
    ],
    ['a book that knew no farm yet', { at: '2020-01-01T12:00' }, 'at', /knew no farm at that moment/],
  ] as const)('%s is refused beside its field, and the rest stays as typed', async (_, typed, field, says) => {
    const desk = await aDesk();
    const form = { date: '2026-03-14', name: 'afternoon', ...typed };
    const page = await desk.send(await desk.get('/records'), form, '/records/then');
    expect(page.status).toBe(400);
    const control = page.document.getElementById(`then-${field}`);
    expect(control?.getAttribute('aria-invalid')).toBe('true');
    expect(page.document.getElementById(`then-${field}-problem`)?.textContent).toMatch(says);
    expect(page.document.getElementById('then-date')?.getAttribute('value')).toBe('2026-03-14');
    if ('position' in typed)
      expect(page.document.getElementById('then-position')?.getAttribute('value')).toBe(typed.position);
  });
});

describe('verification', () => {
  test('a good book agrees, and so does a paper from its own wall; another paper does not, at its position', async () => {
    const desk = await lateNews();
    const records = await desk.get('/records');
    const { position, root } = desk.book.head();
    const good = await desk.send(
      records,
      { paper: `${position}:${root.slice(0, 32)}`, deep: 'yes' },
      '/records/verify',
    );
    expect(good.text).toContain('Everything agrees.');
    expect(good.text).toContain('The paper agrees');
    expect(good.text).toMatch(/1 issued set worked out again/);
    const other = await desk.send(records, { paper: `${position}:${'0'.repeat(32)}` }, '/records/verify');
    expect(other.text).toMatch(/1 thing does NOT agree/);
    expect(other.text).toContain(`Position ${position}: the paper does NOT agree`);
  });

  test('a checkpoint that somebody kept is held against the book, with the line ends of a browser', async () => {
    const desk = await lateNews();
    const checkpoint = await (await desk.get('/records/checkpoint.txt')).response.text();
    tellBook(desk, [doseOf('105', 'more')]);
    const page = await desk.send(
      await desk.get('/records'),
      { checkpoint: checkpoint.replaceAll('\n', '\r\n') },
      '/records/verify',
    );
    expect(page.text).toMatch(/The checkpoint of position \d+ agrees\. It is signed with the key of that time/);
  });

  test('what is no paper and no checkpoint is refused beside its field, in the words of the page', async () => {
    const desk = await aDesk();
    const records = await desk.get('/records');
    const paper = await desk.send(records, { paper: '12-abc' }, '/records/verify');
    expect(paper.status).toBe(400);
    expect(paper.document.getElementById('verify-paper-problem')?.textContent).toMatch(/^Write it as position:digits/);
    expect(paper.document.getElementById('verify-paper')?.getAttribute('value')).toBe('12-abc');
    const note = await desk.send(records, { checkpoint: '</textarea><script>x</script>' }, '/records/verify');
    expect(note.status).toBe(400);
    expect(note.html).toContain('&lt;/textarea&gt;&lt;script&gt;x');
    expect(note.html).not.toContain('<script>x');
  });
});

describe('what is taken away', () => {
  test('R-95 the register of a period is a table with the treatments of it, and a PDF', async () => {
    const desk = await lateNews();
    const csv = await desk.get('/records/medicines.csv?from=2026-03-14&to=2026-03-14');
    expect(csv.response.headers.get('content-disposition')).toContain('medicines-2026-03-14-2026-03-14.csv');
    expect(csv.html).toMatch(/104,.*Penicillin G procaine, udder/);
    expect((await desk.get('/records/medicines.csv?to=2026-03-13')).html).not.toContain('Penicillin');
    const pdf = await desk.get('/records/medicines.pdf?from=2026-03-01');
    expect(Buffer.from(await pdf.response.arrayBuffer()).toString('latin1')).toMatch(/^%PDF-/);
    expect((await desk.get('/records/stock.csv')).html).toMatch(/medicine,batch/);
  });

  test('a proof of an entry and one of going on hold without the book', async () => {
    const desk = await lateNews();
    for (const path of ['inclusion.json?entry=late', 'consistency.json?older=3']) {
      const proof: unknown = await (await desk.get(`/records/${path}`)).response.json();
      expect(checkProof(proof, {})).toMatchObject({ ok: true });
    }
  });

  test.each([
    ['medicines.csv?from=2026-02-30', 'register-from', /not a date that exists/],
    ['medicines.pdf?from=2026-03-14&to=2026-03-01', 'register-to', /before the first/],
    ['inclusion.json?entry=nowhere', 'proof-entry', /no entry nowhere/],
    ['inclusion.json', 'proof-entry', /its id, or its position/],
    ['consistency.json?older=99999', 'proof-older', /not a position of this book/],
    ['cow', 'history-number', /Say which cow/],
  ])('%s is refused with a sentence beside its field', async (path, field, says) => {
    const desk = await aDesk();
    const page = await desk.get(`/records/${path}`);
    expect(page.status).toBe(400);
    expect(page.document.getElementById(`${field}-problem`)?.textContent).toMatch(says);
  });
});

describe('who may', () => {
  test('the record keeper sees the records; the crew and whoever is not signed in do not', async () => {
    const desk = await lateNews();
    const keeper = await desk.as('record-keeper', 'Ivo');
    expect((await keeper.get('/records')).status).toBe(200);
    expect((await keeper.get('/records/medicines.csv')).status).toBe(200);
    const crew = await desk.as('crew', 'Ola');
    for (const path of [
      '/records',
      `/records/then?ref=${desk.ref}`,
      '/records/checkpoint.txt',
      '/records/medicines.csv',
    ])
      expect((await crew.get(path)).status).toBe(403);
    expect((await browserOf(desk.server).get('/records/medicines.csv')).path).toMatch(/^\/sign-in/);
  });

  test('nothing on the page writes to the book', async () => {
    const desk = await lateNews();
    const before = desk.book.changes();
    const records = await desk.get('/records');
    await desk.send(records, { deep: 'yes' }, '/records/verify');
    await desk.get(`/records/then?ref=${desk.ref}`);
    await desk.get('/records/medicines.pdf');
    expect(desk.book.changes()).toBe(before);
  });
});
