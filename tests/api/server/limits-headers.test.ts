/** Every answer, from the app or from beneath it, keeps a browser safe and says in a problem document what is wrong. */
import { expect, test } from 'vitest';
import { z } from 'zod';
import { type AServer, aServer, BATCH } from './a-server.ts';
import { readAnswer, sendRaw } from './raw-socket.ts';

const problem = z.looseObject({ type: z.string(), title: z.string(), status: z.number(), detail: z.string().min(10) });

const expectSafe = (headers: Readonly<Record<string, string | null | undefined>>, what: string): void => {
  expect([what, headers['x-content-type-options']]).toEqual([what, 'nosniff']);
  expect([what, headers['x-frame-options']]).toEqual([what, 'DENY']);
  expect([what, headers['cache-control']]).toEqual([what, 'no-store']);
  expect([what, headers['content-security-policy']]).toEqual([what, expect.stringContaining("default-src 'none'")]);
  expect([what, headers['referrer-policy']]).toEqual([what, expect.stringMatching(/^(no-referrer|same-origin)$/)]);
};

const ANSWERS: readonly [string, number, (server: AServer) => Promise<Response>][] = [
  ['health', 200, ({ ask }) => ask('/healthz', { as: null })],
  ['the description', 200, ({ ask }) => ask('/openapi.json', { as: null })],
  ['the page of it', 200, ({ ask }) => ask('/protocol', { as: null })],
  ['the log', 200, ({ ask }) => ask('/sync/pull')],
  ['a sheet', 200, ({ ask }) => ask('/milkings/2026-03-14/afternoon/sheets/counts.pdf')],
  ['no token', 401, ({ ask }) => ask('/sync/pull', { as: null })],
  ['a role that may not', 403, ({ ask }) => ask('/sync/pull', { as: 'crew' })],
  ['nothing there', 404, ({ ask }) => ask('/nowhere')],
  ['another way', 405, ({ ask }) => ask('/sync/push')],
  ['behind the end', 409, ({ ask }) => ask('/sync/pull?after=999999')],
  ['another type', 415, ({ ask }) => ask('/sync/push', { method: 'POST', body: '[]' })],
  [
    'half a body',
    400,
    ({ ask }) => ask('/sync/push', { method: 'POST', body: '[', headers: { 'content-type': BATCH } }),
  ],
];

test.each(ANSWERS)('the answer to %s (%i) carries the headers that keep a browser safe', async (what, status, made) => {
  const answer = await made(await aServer());
  expect(answer.status).toBe(status);
  expectSafe(Object.fromEntries(answer.headers), what);
  expect(answer.headers.get('x-request-id')).toMatch(/^[\w-]{8,}$/);
  if (status >= 400) {
    expect(answer.headers.get('content-type')).toBe('application/problem+json');
    expect(problem.parse(await answer.json()).status).toBe(status);
  } else await answer.arrayBuffer();
});

const CLOSE = 'Host: localhost\r\nConnection: close\r\n';

test.each([
  ['no Host at all', 400, 'GET /healthz HTTP/1.1\r\nConnection: close\r\n\r\n'],
  ['HTTP/1.0 without a Host', 400, 'GET /healthz HTTP/1.0\r\n\r\n'],
  ['a Host that is no name', 400, 'GET /healthz HTTP/1.1\r\nHost: a@b/c\r\nConnection: close\r\n\r\n'],
  ['two Hosts of which the first is not ours', 421, `GET /healthz HTTP/1.1\r\nHost: elsewhere.example\r\n${CLOSE}\r\n`],
  ['no HTTP', 400, 'MOO\r\n\r\n'],
  ['a space in the address', 400, `GET /hea lthz HTTP/1.1\r\n${CLOSE}\r\n`],
  ['an asterisk for an address', 400, `OPTIONS * HTTP/1.1\r\n${CLOSE}\r\n`],
  ['a length below nothing', 400, `POST /sync/push HTTP/1.1\r\n${CLOSE}Content-Length: -5\r\n\r\n`],
  [
    'two lengths',
    400,
    `POST /sync/push HTTP/1.1\r\n${CLOSE}Content-Length: 2\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n`,
  ],
  ['a head of 20,000 letters', 431, `GET /healthz HTTP/1.1\r\n${CLOSE}X: ${'a'.repeat(20_000)}\r\n\r\n`],
  ['TRACE', 405, `TRACE /healthz HTTP/1.1\r\n${CLOSE}\r\n`],
  [
    'an expectation nobody knows',
    401,
    `POST /sync/push HTTP/1.1\r\n${CLOSE}Expect: 200-maybe\r\nContent-Length: 2\r\n\r\n[]`,
  ],
])('%s is a problem document with the same headers (%i)', async (what, status, sent) => {
  const { url, ask } = await aServer();
  const answer = readAnswer(await sendRaw(url, [sent]));
  expect([what, answer.status]).toEqual([what, status]);
  expectSafe(answer.headers, what);
  expect(answer.headers['content-type']).toBe('application/problem+json');
  expect(problem.parse(JSON.parse(answer.body)).status).toBe(status);
  expect((await ask('/healthz')).status).toBe(200);
});
