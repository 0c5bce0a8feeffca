/** Sheets, issuing and the reasons over HTTP: the same as the command line gives. */
import { expect, test } from 'vitest';
import { z } from 'zod';
import { tonight } from '../../../api/tonight.ts';
import { printedJson } from '../../../print/json.ts';
import { aServer, doseOf, problemOf } from './a-server.ts';

const issuedSet = z.object({
  ref: z.string(),
  isNew: z.boolean(),
  replaces: z.string().nullable(),
  papers: z.array(z.string()),
});

test('the rows over HTTP are the rows of print --json', async () => {
  const { ask, push, book } = await aServer();
  await push([doseOf('103')]);
  const rows = await (await ask('/milkings/2026-03-14/afternoon/sheets/all.json')).json();
  expect(rows).toEqual(JSON.parse(JSON.stringify(printedJson(tonight(book).views))));
  expect(rows).toMatchObject({ sheets: { 'milk-hold': { held: [{ cow: '103' }] } } });
  const one = await (await ask('/milkings/2026-03-14/afternoon/sheets/counts.json', { as: 'machine' })).json();
  expect(one).toMatchObject({ sheets: { counts: { total: { head: 6, held: 1 } } } });
});

test('every sheet can be had as paper', async () => {
  const { ask } = await aServer();
  for (const sheet of ['milk-hold', 'sort', 'office', 'wall']) {
    const answer = await ask(`/milkings/2026-03-14/afternoon/sheets/${sheet}.pdf`, { as: 'crew' });
    expect(answer.headers.get('content-type')).toBe('application/pdf');
    expect(
      Buffer.from(await answer.arrayBuffer())
        .subarray(0, 5)
        .toString(),
    ).toBe('%PDF-');
  }
});

test('a milking or a sheet that is not there is said, with what there is', async () => {
  const { ask } = await aServer();
  expect(await problemOf(await ask('/milkings/2026-03-14/noon/sheets/sort.pdf'))).toMatchObject({
    status: 404,
    detail: expect.stringContaining('morning, afternoon'),
  });
  expect(await problemOf(await ask('/milkings/2026-03-14/morning/sheets/srt.pdf'))).toMatchObject({
    status: 400,
    detail: expect.stringContaining('milk-hold'),
  });
  expect(await problemOf(await ask('/milkings/2026-02-30/morning/sheets/sort.json'))).toMatchObject({ status: 404 });
});

test('issued twice at once it is one set, and its papers come back byte for byte', async () => {
  const { ask, book, push } = await aServer();
  const press = async () =>
    issuedSet.parse(await (await ask('/milkings/2026-03-14/afternoon/issue', { method: 'POST' })).json());
  const [one, two] = await Promise.all([press(), press()]);
  expect(one.ref).toBe(two.ref);
  expect([one.isNew, two.isNew].sort()).toEqual([false, true]);
  const hash = book.read().entries.find((entry) => entry.type === 'sheet-issued');
  const kept = hash?.type === 'sheet-issued' ? book.paper(hash.data.sheets[0]?.pdfHash ?? '') : undefined;
  const paper = Buffer.from(await (await ask(one.papers[0] ?? '')).arrayBuffer());
  expect(paper.equals(Buffer.from(kept ?? []))).toBe(true);
  await push([doseOf('102')]);
  expect(await press()).toMatchObject({ isNew: true, replaces: one.ref });
});

test('a ref that was mistyped, and one that nobody issued, are told apart', async () => {
  const { ask } = await aServer();
  expect(await problemOf(await ask('/issued/ACEF-3479-3.pdf'))).toMatchObject({ status: 400 });
  expect(await problemOf(await ask('/issued/ACEF-3479-K.pdf'))).toMatchObject({
    status: expect.any(Number),
    detail: expect.stringMatching(/ref/),
  });
});

test('a cow is known by her number, with her lists and her entries; why says the arithmetic', async () => {
  const { ask, push } = await aServer();
  await push([doseOf('103', 'dose')]);
  expect(await (await ask('/cows/103')).json()).toMatchObject({
    cows: [{ cow: '103', group: 'Milkers', on: expect.arrayContaining(['milk-hold']) }],
    entries: [{ id: 'cow-103' }, { id: 'dose' }],
  });
  const why = JSON.stringify(await (await ask('/why/103')).json());
  expect(why).toContain('"rule":"R-11"');
  expect(why).toContain('dose');
  expect(await problemOf(await ask('/cows/999'))).toMatchObject({ status: 404 });
  expect(await problemOf(await ask('/why/999'))).toMatchObject({ status: 404 });
});

test('a book without a farm says so over HTTP', async () => {
  const { ask } = await aServer({}, []);
  expect(await problemOf(await ask('/milkings/next'))).toMatchObject({
    status: 409,
    detail: expect.stringContaining('no farm yet'),
  });
});
