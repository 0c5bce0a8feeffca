/** The end of a server: what has begun is finished, what hangs is cut, and it never waits for the silent. */
import http from 'node:http';
import net from 'node:net';
import { setTimeout as later } from 'node:timers/promises';
import { pino } from 'pino';
import { expect, test } from 'vitest';
import { startServing } from '../../../api/server/listen.ts';
import { UserProblem } from '../../../shared/refusal.ts';
import { newBook } from '../../events/a-book.ts';
import { type AServer, aServer, BATCH, doseOf } from './a-server.ts';

/** A push of which the first half has been sent; `finish` sends the rest and gives the answer. */
const halfAPush = async ({ url, tokens }: AServer, entries: unknown) => {
  const whole = JSON.stringify(entries);
  const request = http.request(`${url}/sync/push`, {
    method: 'POST',
    agent: new http.Agent({ keepAlive: true }),
    headers: { authorization: `Bearer ${tokens.crew}`, 'content-type': BATCH, 'content-length': whole.length },
  });
  const answer = new Promise<{ status: number; connection: string | undefined; body: string }>((resolve, reject) => {
    request.on('error', reject);
    request.on('response', async (came) => {
      const body = Buffer.concat(await came.toArray()).toString();
      resolve({ status: came.statusCode ?? 0, connection: came.headers.connection, body });
    });
  });
  answer.catch(() => undefined);
  request.write(whole.slice(0, 20));
  await later(100);
  return {
    finish: () => {
      request.end(whole.slice(20));
      return answer;
    },
    answer,
  };
};

test('with streams open and a push half sent, the end waits for the push, records it, and ends the streams whole', async () => {
  const server = await aServer();
  const stream = await server.ask('/sync/stream');
  const heard = stream.text();
  const push = await halfAPush(server, [doseOf('101', 'last-dose')]);
  const began = performance.now();
  const stopped = server.serving.stop();
  await later(200);
  await expect(server.ask('/healthz')).rejects.toThrow();
  expect(server.book.find('last-dose')).toHaveLength(0);
  const answer = await push.finish();
  await stopped;
  expect(performance.now() - began).toBeLessThan(3_000);
  expect(answer).toMatchObject({ status: 200, connection: 'close', body: expect.stringContaining('"recorded"') });
  expect(server.book.find('last-dose')).toHaveLength(1);
  expect(await heard).toMatch(/id: 8\ndata: .*\n\n$/);
  expect(server.book.verify().ok).toBe(true);
});

test('a push that never comes to its end is cut after a while, and nothing of it is recorded', async () => {
  const server = await aServer({ patience: 300 });
  const before = server.book.head();
  const push = await halfAPush(server, [doseOf('101', 'half')]);
  const began = performance.now();
  await server.serving.stop();
  expect(performance.now() - began).toBeLessThan(2_000);
  await expect(push.answer).rejects.toThrow();
  expect(server.book.head()).toEqual(before);
});

test('connections on which nobody ever asked anything do not hold up the end', async () => {
  const server = await aServer();
  const silent = Array.from({ length: 20 }, () => net.connect(Number(new URL(server.url).port), '127.0.0.1'));
  const closed = Promise.all(silent.map((socket) => new Promise((resolve) => socket.on('close', resolve).resume())));
  await later(100);
  const began = performance.now();
  await server.serving.stop();
  expect(performance.now() - began).toBeLessThan(1_000);
  await closed;
});

test('after the end the port is free for the next server, which goes on with the same book', async () => {
  const { serving, book, push, tokens } = await aServer();
  await push([doseOf('101', 'a')]);
  await serving.stop();
  const next = await startServing({ book, log: pino({ level: 'silent' }), port: Number(new URL(serving.url).port) });
  const answer = await fetch(`${next.url}/sync/pull`, { headers: { authorization: `Bearer ${tokens.manager}` } });
  expect(await answer.text()).toContain('"id":"a"');
  await next.stop();
});

const problemOf = async (settings: { port: number; listen?: string }): Promise<UserProblem> => {
  try {
    await startServing({ book: newBook(), log: pino({ level: 'silent' }), ...settings });
  } catch (error) {
    if (error instanceof UserProblem) return error;
    throw error;
  }
  throw new Error('It listens');
};

test('a port in use, and an address that is not this computer, say so in a sentence', async () => {
  const { url } = await aServer();
  const port = Number(new URL(url).port);
  expect(await problemOf({ port })).toMatchObject({
    message: expect.stringMatching(/^Port \d+ is in use on 127\.0\.0\.1: .*--port/),
    exitCode: 2,
  });
  expect((await problemOf({ port: 0, listen: '192.0.2.1' })).message).toMatch(
    /needs --tls-cert and --tls-key, or --proxy/,
  );
});
