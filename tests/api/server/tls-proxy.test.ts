/** Behind a proxy that carries the TLS: its word on where a request came from is taken, nobody else's is. */
import os from 'node:os';
import { pino } from 'pino';
import { expect, test } from 'vitest';
import { startServing } from '../../../api/server/listen.ts';
import { newBook } from '../../events/a-book.ts';
import { aServer, problemOf } from './a-server.ts';

const wrong = (each: number): string => `byre_0123456789ab_${String(each % 10).repeat(43)}`;

test('what a named proxy says last in X-Forwarded-For is where a request came from; what stands before it is hearsay', async () => {
  const { ask } = await aServer({ proxy: '127.0.0.1' });
  const from = (said: string, as: string) => ask('/sync/pull?limit=1', { as, headers: { 'x-forwarded-for': said } });
  for (let each = 0; each < 10; each += 1)
    expect((await from(`192.0.2.${each}, 203.0.113.9`, wrong(each))).status).toBe(401);
  expect((await from('192.0.2.77, 203.0.113.9', 'manager')).status).toBe(429);
  expect((await from('203.0.113.9:4711', 'manager')).status).toBe(429);
  expect((await from('203.0.113.9, 192.0.2.77', 'manager')).status).toBe(200);
});

test('an address of the newer kind, with or without brackets and port, is one and the same', async () => {
  const { ask } = await aServer({ proxy: '127.0.0.1' });
  const from = (said: string, as: string) => ask('/sync/pull?limit=1', { as, headers: { 'x-forwarded-for': said } });
  for (let each = 0; each < 10; each += 1) {
    expect((await from(each % 2 === 0 ? '2001:db8::7' : '[2001:db8::7]:443', wrong(each))).status).toBe(401);
  }
  expect((await from('[2001:db8::7]', 'manager')).status).toBe(429);
});

test('without a named proxy, X-Forwarded-For changes nothing: a guesser cannot pass for many', async () => {
  const { ask } = await aServer();
  const from = (said: string, as: string) => ask('/sync/pull?limit=1', { as, headers: { 'x-forwarded-for': said } });
  for (let each = 0; each < 10; each += 1) await from(`203.0.113.${each}`, wrong(each));
  expect((await from('203.0.113.99', wrong(1))).status).toBe(429);
});

test('what the proxy says that is no address counts as the proxy itself', async () => {
  const { ask } = await aServer({ proxy: '127.0.0.1' });
  for (let each = 0; each < 10; each += 1) {
    await ask('/sync/pull', { as: wrong(each), headers: { 'x-forwarded-for': `barn ${each}` } });
  }
  expect((await ask('/sync/pull', { as: 'manager' })).status).toBe(429);
});

const outside = Object.values(os.networkInterfaces())
  .flatMap((each) => each ?? [])
  .find(({ internal, family }) => !internal && family === 'IPv4')?.address;

test('in the open, only the proxy and this computer are let in over the network', async ({ skip }) => {
  if (outside === undefined) return skip('this computer has no address on a network');
  const { url, tokens } = await aServer({ listen: '0.0.0.0', proxy: '192.0.2.1' });
  const { port } = new URL(url);
  const headers = { authorization: `Bearer ${tokens.manager}` };
  const answer = await fetch(`http://${outside}:${port}/sync/pull`, { headers });
  expect(await problemOf(answer)).toMatchObject({ status: 403, type: '/problems/not-encrypted' });
  expect((await fetch(`http://127.0.0.1:${port}/sync/pull`, { headers })).status).toBe(200);
  const behind = await aServer({ listen: '0.0.0.0', proxy: outside });
  const open = { authorization: `Bearer ${behind.tokens.manager}` };
  expect((await fetch(`http://${outside}:${new URL(behind.url).port}/sync/pull`, { headers: open })).status).toBe(200);
});

test('a proxy by a name is refused with a sentence: a name cannot be compared with an address', async () => {
  const serving = startServing({ book: newBook(), log: pino({ level: 'silent' }), port: 0, proxy: 'proxy.example' });
  await expect(serving).rejects.toThrow('--proxy: "proxy.example" is not an address');
});
