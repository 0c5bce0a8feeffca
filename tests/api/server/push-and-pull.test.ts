/** Push and pull over real HTTP: a receipt each, safe to repeat, nothing lost, nothing taken that should not be. */
import { expect, test } from 'vitest';
import { z } from 'zod';
import { aServer, BATCH, doseOf, problemOf } from './a-server.ts';

const rows = z.array(z.looseObject({ id: z.string(), sequence: z.string(), source: z.string() }));

test('each entry pushed has a receipt in its place, and the good ones are recorded whatever the others are', async () => {
  const { push, book } = await aServer();
  const before = book.head().position;
  const { receipts } = await push([doseOf('101', 'a'), { type: 'treatmnt', subject: '102' }, 7, doseOf('103', 'b')]);
  expect(receipts.map(({ outcome }) => outcome)).toEqual(['recorded', 'refused', 'refused', 'recorded']);
  expect(receipts[0]).toMatchObject({ id: 'a', position: before + 1 });
  expect(receipts[1]?.problem).toMatch(/"time" is missing/);
  expect(receipts[3]).toMatchObject({ id: 'b', position: before + 2 });
  expect(book.verify().ok).toBe(true);
});

test('R-27 what is refused over the wire is kept aside with its reason and holds the cow', async () => {
  const { push, ask } = await aServer();
  const { receipts } = await push([{ type: 'treatment', subject: '104', time: '2026-03-14T11:00:00Z', data: {} }]);
  expect(receipts[0]).toMatchObject({
    outcome: 'refused',
    pointer: '/data/medicine',
    key: expect.stringMatching(/^set-aside:/),
  });
  const sheet = await (await ask('/milkings/2026-03-14/afternoon/sheets/milk-hold.json')).json();
  expect(sheet).toMatchObject({ sheets: { 'milk-hold': { held: [{ cow: '104', until: null }] } } });
});

test('the same push again, or half of it, adds nothing', async () => {
  const { push, book } = await aServer();
  const said = [doseOf('101', 'a'), doseOf('102'), doseOf('103', 'c')];
  const first = await push(said);
  const { position } = book.head();
  const again = await push(said);
  expect(again.receipts.map(({ outcome }) => outcome)).toEqual(['already-known', 'already-known', 'already-known']);
  expect(again.receipts.map((receipt) => receipt.position)).toEqual(first.receipts.map((receipt) => receipt.position));
  await push(said.slice(1));
  expect(book.head().position).toBe(position);
});

test('one id with other content is refused, kept aside, and both are still there to be seen', async () => {
  const { push } = await aServer();
  await push([doseOf('101', 'a')]);
  const { receipts } = await push([doseOf('102', 'a')]);
  expect(receipts[0]).toMatchObject({
    outcome: 'refused',
    pointer: '/id',
    problem: expect.stringContaining('is taken'),
  });
});

test('a field said twice in one entry is refused though the batch can be read', async () => {
  const { ask } = await aServer();
  const text = JSON.stringify(doseOf('101', 'a')).replace('"subject":"101"', '"subject":"101","subject":"102"');
  const answer = await ask('/sync/push', { method: 'POST', body: `[${text}]`, headers: { 'content-type': BATCH } });
  expect(await answer.json()).toMatchObject({
    receipts: [{ outcome: 'refused', problem: expect.stringContaining('twice') }],
  });
});

test.each([
  ['another type', { 'content-type': 'application/json' }, '[]', 415, 'wrong-content-type'],
  ['no type', {}, '[]', 415, 'wrong-content-type'],
  ['another character set', { 'content-type': `${BATCH}; charset=latin1` }, '[]', 415, 'wrong-content-type'],
  ['compressed', { 'content-type': BATCH, 'content-encoding': 'gzip' }, '[]', 415, 'wrong-content-type'],
  ['half a body', { 'content-type': BATCH }, '[{"type":"treat', 400, 'not-readable'],
  ['an object', { 'content-type': BATCH }, '{}', 400, 'not-readable'],
  ['nothing', { 'content-type': BATCH }, '', 400, 'not-readable'],
  ['not UTF-8', { 'content-type': BATCH }, Uint8Array.of(0x5b, 0x22, 0xff, 0x22, 0x5d), 400, 'not-readable'],
  ['1,001 entries', { 'content-type': BATCH }, JSON.stringify(Array(1_001).fill({})), 413, 'too-large'],
  ['5 MiB', { 'content-type': BATCH }, `["${'x'.repeat(5 * 1024 * 1024)}"]`, 413, 'too-large'],
  ['a clock that is no time', { 'content-type': BATCH, 'byrebook-time': 'noon' }, '[]', 400, 'not-valid'],
])('a push of %s is a problem document, and nothing is taken', async (_, headers, body, status, name) => {
  const { ask, book } = await aServer();
  const before = { head: book.head(), asides: book.read().asides };
  const answer = await ask('/sync/push', { method: 'POST', body, headers: headers as Record<string, string> });
  expect(answer.status).toBe(status);
  const problem = await problemOf(answer);
  expect(problem).toMatchObject({ type: `/problems/${name}`, status, contentType: 'application/problem+json' });
  expect(problem.requestId).toBe(answer.headers.get('x-request-id'));
  expect({ head: book.head(), asides: book.read().asides }).toEqual(before);
});

test('an entry nested a hundred thousand deep is refused, and the server goes on', async () => {
  const { ask, push } = await aServer();
  const deep = `[{"type":"settled","data":${'['.repeat(100_000)}${']'.repeat(100_000)}}]`;
  const answer = await ask('/sync/push', { method: 'POST', body: deep, headers: { 'content-type': BATCH } });
  expect(answer.status).toBeLessThan(500);
  expect((await push([doseOf('101')])).receipts[0]?.outcome).toBe('recorded');
});

test('pulled page by page, the log is whole: each position once, in order, as it is stored', async () => {
  const { ask, book } = await aServer();
  const pulled: string[] = [];
  let next: string | undefined = '/sync/pull?limit=3';
  while (next !== undefined) {
    const answer: Response = await ask(next);
    expect(answer.headers.get('content-type')).toBe(BATCH);
    pulled.push(...rows.parse(await answer.json()).map((row) => row.sequence));
    next = /<([^>]+)>/.exec(answer.headers.get('link') ?? '')?.[1];
  }
  expect(pulled).toEqual(book.rows(0, 100).map(({ position }) => String(position).padStart(10, '0')));
  const whole = await (await ask('/sync/pull')).text();
  expect(whole).toBe(
    `[${book
      .rows(0, 100)
      .map((row) => row.entry)
      .join(',')}]`,
  );
});

test('who asks behind the end of the log is told that it was rolled back, not given an empty page', async () => {
  const { ask, book } = await aServer();
  expect(rows.parse(await (await ask(`/sync/pull?after=${book.head().position}`)).json())).toEqual([]);
  const problem = await problemOf(await ask(`/sync/pull?after=${book.head().position + 1}`));
  expect(problem).toMatchObject({ status: 409, detail: expect.stringContaining('replaced or rolled back') });
});

test.each([
  '/sync/pull?after=-1',
  '/sync/pull?after=1e3',
  '/sync/pull?limit=1001',
  '/sync/pull?aftr=1',
  '/sync/pull?after=1&after=2',
])('%s is refused with the parameter named', async (path) => {
  const { ask } = await aServer();
  expect(await problemOf(await ask(path))).toMatchObject({
    status: 400,
    type: '/problems/not-valid',
    parameter: expect.any(String),
  });
});

test('the checkpoint is the signed head of the log that is pulled', async () => {
  const { ask, book } = await aServer();
  const answer = await ask('/checkpoint');
  expect(await answer.text()).toBe(book.checkpoint());
  expect(answer.headers.get('byrebook-book')).toBe(book.bookId);
});
