/** How often, and who is locked out: over real HTTP, with the right device never shut out by somebody else's guesses. */
import { expect, test } from 'vitest';
import { allowanceOf, lockoutOf, paceOf } from '../../../api/server/limits.ts';
import { MOST_REFUSED } from '../../../api/server/refusals.ts';
import { aServer, BATCH, doseOf, problemOf } from './a-server.ts';

/** A token of the right form that no book made; `id` is the part that is no secret. */
const guess = (id: string, each: number): string => `byre_${id}_${String(each % 10).repeat(43)}`;
const idOf = (token: string): string => /^byre_([0-9a-f]{12})_/.exec(token)?.[1] ?? '';

test('a device that is told to wait so many seconds is served when it did', async () => {
  const { ask } = await aServer();
  const answers = await Promise.all(
    Array.from({ length: 80 }, () => ask('/sync/pull?limit=1', { as: 'record-keeper' })),
  );
  const slow = answers.find(({ status }) => status === 429);
  expect(slow).toBeDefined();
  const problem = await problemOf(slow ?? new Response());
  expect(problem).toMatchObject({ type: '/problems/too-often', detail: expect.stringContaining('wait') });
  const seconds = Number(slow?.headers.get('retry-after'));
  expect(seconds).toBeGreaterThanOrEqual(1);
  await new Promise((resolve) => setTimeout(resolve, seconds * 1_000));
  expect((await ask('/sync/pull?limit=1', { as: 'record-keeper' })).status).toBe(200);
});

test('one device that asks too often slows down no other', async () => {
  const { ask } = await aServer();
  await Promise.all(Array.from({ length: 80 }, () => ask('/sync/pull?limit=1', { as: 'record-keeper' })));
  expect((await ask('/sync/pull?limit=1', { as: 'manager' })).status).toBe(200);
});

test('a push that came too often is not recorded, and is when it is sent again later', async () => {
  const { ask, book } = await aServer();
  const send = (each: number) =>
    ask('/sync/push', {
      as: 'crew',
      method: 'POST',
      headers: { 'content-type': BATCH },
      body: JSON.stringify([doseOf('101', `dose-${each}`)]),
    });
  const answers = await Promise.all(Array.from({ length: 80 }, (_, each) => send(each)));
  for (const [each, { status }] of answers.entries()) {
    expect([each, book.find(`dose-${each}`).length]).toEqual([each, status === 200 ? 1 : 0]);
  }
  const refused = answers.findIndex(({ status }) => status === 429);
  expect(refused).toBeGreaterThanOrEqual(0);
  await new Promise((resolve) => setTimeout(resolve, 1_100));
  expect((await send(refused)).status).toBe(200);
  expect(book.find(`dose-${refused}`)).toHaveLength(1);
});

test('guesses at a device, from where it connects itself, lock the guesser out and not the device', async () => {
  const { ask, tokens } = await aServer();
  expect((await ask('/sync/pull?limit=1')).status).toBe(200);
  for (let each = 0; each < 12; each += 1) await ask('/sync/pull', { as: guess('0123456789ab', each) });
  expect((await ask('/sync/pull', { as: guess('0123456789ab', 1) })).status).toBe(429);
  expect((await ask('/sync/pull', { as: guess('ba9876543210', 1) })).status).toBe(429);
  expect((await ask('/sync/pull?limit=1')).status).toBe(200);
  expect(idOf(tokens.manager)).toMatch(/^[0-9a-f]{12}$/);
});

test('guesses at a known device from elsewhere lock that token out there, and not where the device is', async () => {
  const proxied = await aServer({ proxy: '127.0.0.1' });
  const from = (address: string, as: string) =>
    proxied.ask('/sync/pull?limit=1', { as, headers: { 'x-forwarded-for': address } });
  expect((await from('192.0.2.7', 'manager')).status).toBe(200);
  const guessed = guess(idOf(proxied.tokens.manager), 3);
  for (let each = 0; each < 10; each += 1) expect((await from(`203.0.113.${each}`, guessed)).status).toBe(401);
  const locked = await from('203.0.113.200', guessed);
  expect(await problemOf(locked)).toMatchObject({ type: '/problems/locked-out' });
  expect(Number(locked.headers.get('retry-after'))).toBeGreaterThan(0);
  expect((await from('192.0.2.7', 'manager')).status).toBe(200);
  expect((await from('203.0.113.200', 'record-keeper')).status).toBe(200);
});

test('a lock-out ends by itself, and each new one is twice as long, up to an hour', () => {
  const lockout = lockoutOf();
  let now = 0;
  const waits: number[] = [];
  for (let each = 0; each < 24; each += 1) {
    lockout.wrong('', 'road', now);
    const wait = lockout.wait('', 'road', now);
    waits.push(wait);
    now += wait * 1_000;
    expect(lockout.wait('', 'road', now)).toBe(0);
  }
  expect(waits.slice(0, 9)).toEqual(Array(9).fill(0));
  expect(waits.slice(9)).toEqual([30, 60, 120, 240, 480, 960, 1_920, ...Array(8).fill(3_600)]);
});

test('a hundred thousand strangers leave no more behind than ten thousand', () => {
  const [pace, lockout] = [paceOf(3, 2), lockoutOf()];
  const before = process.memoryUsage().heapUsed;
  for (let each = 0; each < 100_000; each += 1) {
    pace.take(`device ${each}`, each);
    lockout.wrong(`token ${each}`, `address ${each}`, each);
  }
  expect((process.memoryUsage().heapUsed - before) / 1_048_576).toBeLessThan(40);
});

test('an allowance may be overspent once, and comes back by the hour', () => {
  const allowance = allowanceOf(100, 60);
  allowance.spend('gate', 99, 0);
  expect(allowance.wait('gate', 0)).toBe(0);
  allowance.spend('gate', 31, 0);
  expect(allowance.wait('gate', 0)).toBe(31 * 60);
  expect(allowance.wait('tablet', 0)).toBe(0);
  expect(allowance.wait('gate', 30 * 60_000)).toBe(60);
  expect(allowance.wait('gate', 31 * 60_000)).toBe(0);
});

test('R-27 what one device may have set aside is bounded; beyond that nothing is taken, and others go on', async () => {
  const { push, book, ask } = await aServer();
  const bad = (round: number) =>
    Array.from({ length: 1_000 }, (_, each) => ({ type: 'treatmnt', subject: '101', round, each }));
  let rounds = 0;
  let last = 200;
  while (last === 200 && rounds < 20) {
    const answer = await ask('/sync/push', {
      as: 'machine',
      method: 'POST',
      body: JSON.stringify(bad(rounds)),
      headers: { 'content-type': BATCH },
    });
    last = answer.status;
    if (last === 200) rounds += 1;
    else {
      expect(await problemOf(answer)).toMatchObject({ type: '/problems/too-often' });
      expect(Number(answer.headers.get('retry-after'))).toBeGreaterThan(0);
    }
  }
  expect(rounds).toBe(MOST_REFUSED / 1_000);
  expect(book.read().asides).toHaveLength(MOST_REFUSED);
  expect((await push([{ type: 'x' }, doseOf('102')], { as: 'crew' })).receipts.map(({ outcome }) => outcome)).toEqual([
    'refused',
    'recorded',
  ]);
  expect(book.verify().ok).toBe(true);
});
