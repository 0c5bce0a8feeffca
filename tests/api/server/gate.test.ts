/** The gate before every route: names, pages of other sites, tokens, paces, and what every answer carries. */
import { setTimeout as later } from 'node:timers/promises';
import { pino } from 'pino';
import { expect, test } from 'vitest';
import { lockoutOf, paceOf } from '../../../api/server/limits.ts';
import { startServing } from '../../../api/server/listen.ts';
import { aServer, BATCH, doseOf, problemOf, rawAsk } from './a-server.ts';

test('the server answers to its own names and to no other, on loopback too', async () => {
  const { url } = await aServer();
  const { port } = new URL(url);
  for (const host of [`127.0.0.1:${port}`, `localhost:${port}`, 'LOCALHOST']) {
    expect((await rawAsk(url, { path: '/healthz', headers: { host } })).status).toBe(200);
  }
  for (const host of ['farm.example', `rebound.example:${port}`, '127.0.0.1.example', 'localhost.example:80']) {
    const answer = await rawAsk(url, { path: '/healthz', headers: { host } });
    expect([host, answer.status]).toEqual([host, 421]);
    expect(answer.headers['content-type']).toBe('application/problem+json');
  }
});

test('a name given at the start is answered to', async () => {
  const { url } = await aServer({ hosts: ['dairy.example'] });
  expect((await rawAsk(url, { path: '/healthz', headers: { host: 'dairy.example:8212' } })).status).toBe(200);
});

test('a page of another site cannot write, whatever token it has', async () => {
  const { ask, url, book } = await aServer();
  const before = book.head();
  const write = (headers: Record<string, string>) =>
    ask('/sync/push', {
      method: 'POST',
      body: JSON.stringify([doseOf('101')]),
      headers: { 'content-type': BATCH, ...headers },
    });
  for (const headers of [
    { origin: 'https://elsewhere.example' },
    { origin: 'null' },
    { 'sec-fetch-site': 'cross-site' },
  ]) {
    expect(await problemOf(await write(headers))).toMatchObject({ status: 403, type: '/problems/foreign-page' });
  }
  expect(book.head()).toEqual(before);
  expect((await write({ origin: url })).status).toBe(200);
});

test('every route but health and the description wants a token', async () => {
  const { ask, serving } = await aServer();
  const open = serving.app.routes.filter(({ right }) => right === null).map(({ path }) => path);
  expect(open.sort()).toEqual(['/healthz', '/openapi.json', '/protocol']);
  for (const { path, method, right } of serving.app.routes) {
    const answer = await ask(path.replace(/\{\w+\}/g, 'milk-hold'), { as: null, method: method.toUpperCase() });
    expect([path, answer.status]).toEqual([path, right === null ? 200 : 401]);
    if (right !== null) expect(answer.headers.get('www-authenticate')).toMatch(/^Bearer/);
    await answer.text();
  }
});

test('every answer has a request id, is not kept by anybody, and lets no page frame it', async () => {
  const { ask } = await aServer();
  for (const path of ['/healthz', '/nowhere', '/sync/pull', '/sync/pull?after=x', '/protocol']) {
    const answer = await ask(path);
    expect(answer.headers.get('x-request-id')).toMatch(/^[\w-]{8,}$/);
    expect(answer.headers.get('cache-control')).toBe('no-store');
    expect(answer.headers.get('x-frame-options')).toBe('DENY');
    expect(answer.headers.get('x-content-type-options')).toBe('nosniff');
    expect(answer.headers.get('content-security-policy')).toContain("default-src 'none'");
    await answer.text();
  }
});

test('what is not there, and what is not done that way, say so', async () => {
  const { ask } = await aServer();
  expect(await problemOf(await ask('/nowhere'))).toMatchObject({ status: 404, type: '/problems/not-found' });
  const answer = await ask('/sync/push');
  expect(answer.headers.get('allow')).toBe('POST');
  expect(await problemOf(answer)).toMatchObject({ status: 405, type: '/problems/wrong-method' });
});

test('a device that asks too fast is told how long to wait, and is let in again then', () => {
  const pace = paceOf(3, 2);
  expect([0, 0, 0, 0].map(() => pace.take('gate', 1_000))).toEqual([0, 0, 0, 1]);
  expect(pace.take('tablet', 1_000)).toBe(0);
  expect(pace.take('gate', 1_400)).toBeGreaterThan(0);
  expect(pace.take('gate', 1_600)).toBe(0);
});

test('sixty requests at once are served and the rest told to wait', async () => {
  const { ask } = await aServer();
  const answers = await Promise.all(
    Array.from({ length: 90 }, () => ask('/sync/pull?limit=1', { as: 'record-keeper' })),
  );
  const slow = answers.filter(({ status }) => status === 429);
  expect(slow.length).toBeGreaterThan(5);
  expect(answers.length - slow.length).toBeGreaterThanOrEqual(60);
  expect(slow[0]?.headers.get('retry-after')).toMatch(/^\d+$/);
  await Promise.all(answers.map((answer) => answer.text()));
});

test('wrong tokens lock out their address, and then a token wherever it is guessed at, but not where it was right', () => {
  const lockout = lockoutOf();
  for (let each = 0; each < 9; each += 1) lockout.wrong('abc', 'here', each);
  expect(lockout.wait('abc', 'here', 10)).toBe(0);
  lockout.wrong('abc', 'here', 10);
  expect(lockout.wait('abc', 'here', 10)).toBe(30);
  expect(lockout.wait('other', 'here', 10)).toBe(30);
  expect(lockout.wait('abc', 'elsewhere', 10)).toBe(30);
  expect(lockout.wait('other', 'elsewhere', 10)).toBe(0);
  lockout.wrong('abc', 'here', 10);
  expect(lockout.wait('abc', 'here', 10)).toBe(60);
  expect(lockout.wait('abc', 'here', 61_000)).toBe(0);
  lockout.right('abc', 'barn');
  for (let each = 0; each < 12; each += 1) lockout.wrong('abc', 'here', 70_000);
  expect(lockout.wait('abc', 'barn', 70_000)).toBe(0);
  expect(lockout.wait('abc', 'road', 70_000)).toBeGreaterThan(0);
});

test('ten wrong tokens over the wire, and the eleventh waits, right or wrong', async () => {
  const { ask } = await aServer();
  for (let each = 0; each < 10; each += 1) {
    const answer = await ask('/sync/pull', { as: `byre_0123456789ab_${String(each).repeat(43)}` });
    expect(answer.status).toBe(401);
    await answer.text();
  }
  const answer = await ask('/sync/pull', { as: 'manager' });
  expect(await problemOf(answer)).toMatchObject({ status: 429, type: '/problems/locked-out' });
  expect(Number(answer.headers.get('retry-after'))).toBeGreaterThan(0);
});

test('beyond this computer it wants TLS or a proxy that is named', async () => {
  const { book } = await aServer();
  const log = pino({ level: 'silent' });
  await expect(startServing({ book, log, port: 0, listen: '0.0.0.0' })).rejects.toThrow(
    /needs --tls-cert and --tls-key, or --proxy/,
  );
});

test('metrics are behind a token and count what was pushed', async () => {
  const { ask, push } = await aServer();
  await push([doseOf('101'), {}]);
  expect((await ask('/metrics', { as: 'crew' })).status).toBe(403);
  const text = await (await ask('/metrics')).text();
  expect(text).toContain('byrebook_entries_total{outcome="recorded"} 1');
  expect(text).toContain('byrebook_entries_total{outcome="refused"} 1');
});

test('stopping lets what has begun finish and takes nothing new', async () => {
  const { ask, serving } = await aServer();
  const running = ask('/milkings/2026-03-14/afternoon/sheets/wall.pdf');
  await later(20);
  const stopped = serving.stop();
  expect((await running).status).toBe(200);
  await stopped;
  await expect(ask('/healthz')).rejects.toThrow();
});
