/** Bodies that are too much: refused whole with a sentence, nothing taken of them, and the server goes on. */
import { gzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { type AServer, aServer, BATCH, doseOf, problemOf } from './a-server.ts';
import { readAnswer, sendRaw } from './raw-socket.ts';

/** How the book stands, for comparing. */
const standing = ({ book }: AServer) => ({ head: book.head(), asides: book.read().asides.length, farm: book.farmId });

const headOf = (token: string, more: string): string =>
  `POST /sync/push HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\nAuthorization: Bearer ${token}\r\nContent-Type: ${BATCH}\r\n${more}\r\n`;

const bookHeaders = (server: AServer) => ({
  'content-type': BATCH,
  'byrebook-farm': server.book.farmId ?? '',
  'byrebook-book': 'another-book',
});

test('a body that goes on for ever in pieces is cut off at the limit', async () => {
  const server = await aServer();
  const before = standing(server);
  const piece = Buffer.alloc(256 * 1024, '[');
  const chunk = Buffer.concat([Buffer.from(`${piece.length.toString(16)}\r\n`), piece, Buffer.from('\r\n')]);
  const head = headOf(server.tokens.manager, 'Transfer-Encoding: chunked\r\n');
  const answer = readAnswer(await sendRaw(server.url, [head, ...Array(20).fill(chunk)], 8_000));
  expect(answer.status).toBe(413);
  expect(JSON.parse(answer.body)).toMatchObject({ type: '/problems/too-large' });
  expect(standing(server)).toEqual(before);
});

test('a body that breaks off records nothing', async () => {
  const server = await aServer();
  const before = standing(server);
  const whole = JSON.stringify([doseOf('101', 'a'), doseOf('102', 'b')]);
  await sendRaw(
    server.url,
    [headOf(server.tokens.manager, `Content-Length: ${whole.length}\r\n`), whole.slice(0, -5)],
    300,
  );
  await new Promise((resolve) => setTimeout(resolve, 100));
  expect(standing(server)).toEqual(before);
  expect((await server.push([doseOf('101', 'a')])).receipts[0]?.outcome).toBe('recorded');
});

test.each([
  ['gzip', gzipSync('[]')],
  ['deflate', Buffer.from('[]')],
  ['br', Buffer.from('[]')],
  ['gzip, identity', Buffer.from('[]')],
])('a body compressed with %s is refused before it is read', async (encoding, body) => {
  const server = await aServer();
  const answer = await server.ask('/sync/push', {
    method: 'POST',
    body,
    headers: { 'content-type': BATCH, 'content-encoding': encoding },
  });
  expect(await problemOf(answer)).toMatchObject({ status: 415, detail: expect.stringContaining('not compressed') });
});

const DEEP = '['.repeat(100_000) + ']'.repeat(100_000);

test.each([
  ['as an entry', DEEP],
  ['as the data of one', `{"type":"settled","time":"2026-03-14T11:00:00Z","data":${DEEP}}`],
  ['of objects', `{"type":"settled","data":${'{"a":'.repeat(50_000)}1${'}'.repeat(50_000)}}`],
])('nesting a hundred thousand deep %s is refused by every role and stops nobody', async (_, text) => {
  const server = await aServer();
  for (const as of ['manager', 'machine'] as const) {
    const answer = await server.ask('/sync/push', {
      as,
      method: 'POST',
      body: `[${text}]`,
      headers: { 'content-type': BATCH },
    });
    expect(answer.status).toBe(200);
    expect(await answer.json()).toMatchObject({ receipts: [{ outcome: 'refused' }] });
  }
  const before = standing(server);
  const relayed = await server.ask('/sync/push', {
    as: 'book',
    method: 'POST',
    body: `[${text}]`,
    headers: bookHeaders(server),
  });
  expect(relayed.status).toBeLessThan(500);
  if (relayed.status !== 200) expect(standing(server)).toEqual(before);
  expect((await server.push([doseOf('101')])).receipts[0]?.outcome).toBe('recorded');
  expect(server.book.verify().ok).toBe(true);
});

test('a key said twice is refused wherever it stands in an entry, and the entry beside it is recorded', async () => {
  const server = await aServer();
  const dose = JSON.stringify(doseOf('101', 'a'));
  const twice = [
    dose.replace('"type":"treatment"', '"type":"treatment","type":"calving"'),
    dose.replace('"data":{', '"data":{"medicine":"Water",'),
    dose.replace('"type"', '"\\u0074ype":"calving","type"'),
    dose.replace('"data":{', '"data":{"__proto__":{"medicine":"Water"},"__proto__":1,'),
  ];
  const answer = await server.ask('/sync/push', {
    method: 'POST',
    body: `[${[...twice, JSON.stringify(doseOf('102', 'good'))].join(',')}]`,
    headers: { 'content-type': BATCH },
  });
  const { receipts } = (await answer.json()) as { receipts: { outcome: string }[] };
  expect(receipts.map(({ outcome }) => outcome)).toEqual([...twice.map(() => 'refused'), 'recorded']);
});

test('asking for the head of the stream opens none, and eleven real ones are one too many', async () => {
  const { ask, serving } = await aServer();
  for (let each = 0; each < 15; each += 1) {
    const head = await ask('/sync/stream', { method: 'HEAD' });
    expect([head.status, head.headers.get('content-type')]).toEqual([200, 'text/event-stream']);
  }
  expect(serving.app.streams.count()).toBe(0);
  const open = await Promise.all(Array.from({ length: 11 }, () => ask('/sync/stream')));
  expect(open.map(({ status }) => status).sort()).toEqual([...Array(10).fill(200), 429]);
  for (const each of open) await each.body?.cancel();
  await expect.poll(() => serving.app.streams.count()).toBe(0);
});
