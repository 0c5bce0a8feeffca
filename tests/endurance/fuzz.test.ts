/** A hundred thousand requests that no client of ours would send: no 5xx, nothing recorded that should not be, no growth. */
import net from 'node:net';
import v8 from 'node:v8';
import vm from 'node:vm';
import { pino } from 'pino';
import { expect, onTestFinished, test } from 'vitest';
import { z } from 'zod';
import { ROLES } from '../../api/devices/roles.ts';
import { appOf } from '../../api/server/app.ts';
import { openBook } from '../../events/book.ts';
import { readValue } from '../../events/door.ts';
import { aServer, BATCH, farmEntries, START, tell } from '../api/server/a-server.ts';
import { handClock, newPath } from '../events/a-book.ts';
import { broken, brokenRequest } from './broken.ts';
import { diceOf, seedOf } from './dice.ts';

const REQUESTS = 100_000;
const WARM = 30_000;
/** So many that none of them asks too often. */
const DEVICES = 800;

const receiptsOf = z.object({
  receipts: z.array(z.looseObject({ outcome: z.string(), id: z.string().nullable(), key: z.string().optional() })),
});
const stored = z.looseObject({ id: z.string(), source: z.string(), sequence: z.string(), recordedtime: z.string() });

/** Bytes in use once what nobody holds is gone. */
const memory = (): number => {
  v8.setFlagsFromString('--expose-gc');
  const collect: unknown = vm.runInNewContext('gc');
  if (typeof collect === 'function') collect();
  const { heapUsed, external } = process.memoryUsage();
  return heapUsed + external;
};

test('a hundred thousand broken requests: every answer below 500, only what has a receipt is in the book, memory stands still', async () => {
  const dice = diceOf(seedOf('fuzz'));
  const clock = handClock(START);
  const book = openBook(newPath(), { clock, create: true });
  onTestFinished(() => book.close());
  tell(book, START, farmEntries());
  const roles = ROLES.filter((role) => role !== 'book');
  const tokens = Array.from(
    { length: DEVICES },
    (_, each) => book.devices.add(`d${each}`, roles[each % roles.length] ?? 'crew').token,
  );
  const part = (): number => dice.whole(0, 255);
  const addressOf = (): string => `10.${part()}.${part()}.${part()}`;
  const app = appOf({ book, log: pino({ level: 'silent' }), addressOf });
  const first = book.head().position;
  const statuses: Record<number, number> = {};
  const [recorded, aside] = [new Set<string>(), new Set<string>()];
  let warm = 0;
  for (let nth = 0; nth < REQUESTS; nth += 1) {
    if (nth === WARM) warm = memory();
    const request = brokenRequest(dice, tokens, nth);
    const answer = await app.fetch(request);
    statuses[answer.status] = (statuses[answer.status] ?? 0) + 1;
    if (answer.status >= 500) throw new Error(`${nth}: ${request.method} ${request.url}: ${await answer.text()}`);
    if (answer.status !== 200 || request.method !== 'POST' || !request.url.endsWith('/sync/push')) {
      await answer.body?.cancel();
      continue;
    }
    for (const { outcome, id, key } of receiptsOf.parse(await answer.json()).receipts) {
      if (outcome === 'recorded') recorded.add(id ?? '');
      if (key !== undefined) aside.add(key);
    }
  }
  const grown = (memory() - warm) / 1_048_576;
  process.stdout.write(
    `fuzz: ${JSON.stringify(statuses)}, ${recorded.size} recorded, ${aside.size} set aside, ${grown.toFixed(1)} MiB grown\n`,
  );
  const rows = book.rows(first, REQUESTS).map(({ entry }) => stored.parse(JSON.parse(entry)));
  expect(new Set(rows.map(({ id }) => id))).toEqual(recorded);
  expect(rows).toHaveLength(recorded.size);
  expect(new Set(book.read().asides.map(({ key }) => key))).toEqual(aside);
  const names = new Set(tokens.map((_, each) => `d${each}`));
  const strangers = rows.filter(({ sequence: _, recordedtime: __, ...said }) => {
    const again = readValue(said, { source: 'nobody', author: 'nobody', now: START });
    return !names.has(said.source) || again.outcome === 'refused' || again.said.type !== 'treatment';
  });
  expect(strangers).toEqual([]);
  const enough = { 200: 10_000, 400: 10_000, 401: 3_000, 403: 1_000, 404: 1_000, 405: 1_000, 415: 3_000, 421: 1_000 };
  const missed = Object.entries(enough).filter(([status, least]) => (statuses[Number(status)] ?? 0) < least);
  expect(missed).toEqual([]);
  expect(recorded.size).toBeGreaterThan(500);
  expect(aside.size).toBeGreaterThan(5_000);
  expect(grown).toBeLessThan(30);
  expect(book.verify()).toMatchObject({ ok: true, problems: [] });
});

test('three thousand connections that speak no HTTP, or half of it, leave the server answering', async () => {
  const dice = diceOf(seedOf('raw sockets'));
  const server = await aServer();
  const { port } = new URL(server.url);
  const before = server.book.head();
  // Known from before the storm, so that the guesses of others do not lock it out.
  expect((await server.ask('/sync/book')).status).toBe(200);
  const good = `POST /sync/push HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\nAuthorization: Bearer ${server.tokens.crew}\r\nContent-Type: ${BATCH}\r\nContent-Length: 2\r\n\r\n[]`;
  const once = (): Promise<string> =>
    new Promise((resolve) => {
      const socket = net.connect(Number(port), '127.0.0.1');
      let said = '';
      socket.setTimeout(300, () => socket.destroy());
      socket.on('data', (piece) => {
        said += piece.toString('latin1');
      });
      socket.on('error', () => resolve(said));
      socket.on('close', () => resolve(said));
      socket.end(Buffer.from(broken(good, dice), 'latin1'));
    });
  const answers: string[] = [];
  for (let round = 0; round < 150; round += 1)
    answers.push(...(await Promise.all(Array.from({ length: 20 }, () => once()))));
  expect(answers.filter((each) => /^HTTP\/1\.1 5/.test(each))).toEqual([]);
  const refused = answers.filter((each) => /^HTTP\/1\.1 4/.test(each));
  expect(refused.length).toBeGreaterThan(500);
  expect(refused.filter((each) => !/content-type: application\/problem\+json/i.test(each))).toEqual([]);
  expect((await server.ask('/sync/book')).status).toBe(200);
  expect(server.book.head()).toEqual(before);
  await expect.poll(() => server.serving.app.streams.count()).toBe(0);
});
