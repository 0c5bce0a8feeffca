/** Devices whose clock is off, over real HTTP: a clear answer, nothing lost, nobody else's entries or times touched. */
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { DAY, HOUR, type Instant, instantText, MINUTE } from '../../../shared/instant.ts';
import { at } from '../../events/a-book.ts';
import { type AServer, aServer, doseOf, START } from './a-server.ts';

const after = (milliseconds: number): string => instantText((START + milliseconds) as Instant);

const sheet = z.object({
  sheets: z.object({
    'milk-hold': z.object({
      held: z.array(z.object({ cow: z.string(), until: z.string().nullable() })),
      unplaced: z.array(z.unknown()),
    }),
  }),
});

const heldNow = async ({ ask }: AServer) => {
  const rows = sheet.parse(await (await ask('/milkings/2026-03-14/afternoon/sheets/milk-hold.json')).json());
  return rows.sheets['milk-hold'].held;
};

const recordedTimes = ({ book }: AServer): string[] =>
  book
    .rows(0, 1_000)
    .map((row) => z.looseObject({ recordedtime: z.string() }).parse(JSON.parse(row.entry)).recordedtime);

/** As a device with such a clock says it: stamped by that clock, and sent with what it says now. */
const saidBy = async (server: AServer, skew: number) =>
  server.push([doseOf('101', 'said-by-it', after(skew - 10 * MINUTE))], {
    as: 'crew',
    headers: { 'byrebook-time': after(skew) },
  });

describe.each([
  ['an hour ahead', HOUR, '60 minutes ahead'],
  ['an hour behind', -HOUR, '60 minutes behind'],
  ['six minutes ahead', 6 * MINUTE, '6 minutes ahead'],
  ['a year ahead', 365 * DAY, '365 days ahead'],
  ['a year behind', -365 * DAY, '365 days behind'],
  ['in 1970', -START, '20527 days behind'],
])('R-27 a device that says its clock and is %s', (_, skew, spoken) => {
  test('is told how far it is off and what to do, and by which clock', async () => {
    const answer = await saidBy(await aServer(), skew);
    expect(answer).toMatchObject({ time: instantText(START), skewSeconds: skew / 1_000 });
    expect(answer.receipts).toEqual([
      {
        id: 'said-by-it',
        outcome: 'refused',
        pointer: '/time',
        problem: `this device's clock is ${spoken} (here it is ${instantText(START)}); set its clock, say this again with the right time, and settle this one`,
        key: expect.stringMatching(/^set-aside:[0-9a-f]{12}$/),
        skewSeconds: skew / 1_000,
      },
    ]);
  });

  test('loses nothing: what it said is set aside whole, holds that cow and no other, until it is settled', async () => {
    const server = await aServer();
    const { receipts } = await saidBy(server, skew);
    expect(await heldNow(server)).toEqual([{ cow: '101', until: null }]);
    const [aside] = server.book.read().asides;
    expect(aside).toMatchObject({ key: receipts[0]?.key, id: 'said-by-it', cows: ['101'] });
    await server.push([doseOf('101', 'said-again')]);
    await server.push([
      {
        type: 'settled',
        time: instantText(START),
        data: { about: receipts[0]?.key ?? '', how: 'said again with the right time' },
      },
    ]);
    expect(await heldNow(server)).toEqual([{ cow: '101', until: '2026-03-16T23:00:00Z' }]);
  });

  test('moves no time of the book: what others say is recorded by its own clock, before and after', async () => {
    const server = await aServer();
    await server.push([doseOf('102', 'before')]);
    await saidBy(server, skew);
    server.clock.set((START + MINUTE) as Instant);
    await server.push([doseOf('103', 'after')]);
    expect(recordedTimes(server).slice(-2)).toEqual([instantText(START), after(MINUTE)]);
    expect(recordedTimes(server).every((time) => at(time) <= START + MINUTE)).toBe(true);
    expect(server.book.verify().ok).toBe(true);
  });

  test('may say it again as often as it likes: it is set aside once', async () => {
    const server = await aServer();
    const first = await saidBy(server, skew);
    server.clock.set((START + 10_000) as Instant);
    const again = await saidBy(server, skew);
    expect(again.receipts[0]?.key).toBe(first.receipts[0]?.key);
    expect(server.book.read().asides).toHaveLength(1);
  });
});

test.each([
  ['four minutes ahead', 4 * MINUTE],
  ['four minutes behind', -4 * MINUTE],
])('a clock that is %s is near enough: what it says is recorded, and the receipt notes it', async (_, skew) => {
  const server = await aServer();
  const { receipts } = await saidBy(server, skew);
  expect(receipts).toEqual([expect.objectContaining({ outcome: 'recorded', skewSeconds: skew / 1_000 })]);
});

test.each([
  ['an hour', HOUR],
  ['a year', 365 * DAY],
])(
  'R-27 a time %s ahead from a device that does not say its clock is set aside with the skew; the rest of the batch is recorded',
  async (_, skew) => {
    const server = await aServer();
    const { receipts } = await server.push([
      doseOf('102', 'good'),
      doseOf('101', 'ahead', after(skew)),
      doseOf('103', 'good-too'),
    ]);
    expect(receipts.map(({ outcome }) => outcome)).toEqual(['recorded', 'refused', 'recorded']);
    expect(receipts[1]).toMatchObject({
      pointer: '/time',
      skewSeconds: skew / 1_000,
      problem: expect.stringContaining("more than 5 minutes ahead of this book's clock (2026-03-14T12:00:00Z)"),
    });
    expect((await heldNow(server)).map(({ cow, until }) => [cow, until === null])).toEqual([
      ['101', true],
      ['102', false],
      ['103', false],
    ]);
    expect(recordedTimes(server).at(-1)).toBe(instantText(START));
  },
);

test('what was known before a clock went wrong stays known, and is not set aside', async () => {
  const server = await aServer();
  await server.push([doseOf('101', 'known')], { as: 'crew' });
  const { receipts } = await server.push([doseOf('101', 'known')], {
    as: 'crew',
    headers: { 'byrebook-time': after(365 * DAY) },
  });
  expect(receipts[0]?.outcome).toBe('already-known');
  expect(server.book.read().asides).toEqual([]);
});

test('R-27 a farm-wide entry by a wrong clock stands at the head of the sheet, and no cow is held for it', async () => {
  const server = await aServer();
  await server.push([{ type: 'tank-collection', time: after(-HOUR), data: { ticket: 'T-1' } }], {
    headers: { 'byrebook-time': after(-HOUR) },
  });
  const answer = await server.ask('/milkings/2026-03-14/afternoon/sheets/milk-hold.json');
  expect(sheet.parse(await answer.json()).sheets['milk-hold']).toMatchObject({ held: [], unplaced: [{}] });
});

test('each answer says what time it is here, so that a device can set itself by it', async () => {
  const { ask, clock } = await aServer();
  clock.set(at('2026-03-14T13:00:00.250Z'));
  for (const path of ['/sync/pull', '/checkpoint'])
    expect((await ask(path)).headers.get('byrebook-time')).toBe('2026-03-14T13:00:00.250Z');
  expect(await (await ask('/sync/book')).json()).toMatchObject({ time: '2026-03-14T13:00:00.250Z' });
});

test("another book's entries from years ahead are kept, and recorded by this book's own clock", async () => {
  const server = await aServer();
  const ahead = {
    ...doseOf('101', 'ahead', after(365 * DAY)),
    specversion: '1.0',
    source: 'laptop',
    sequence: '0000000009',
    recordedtime: after(365 * DAY),
  };
  const { receipts } = await server.push([ahead], {
    as: 'book',
    headers: { 'byrebook-farm': server.book.farmId ?? '', 'byrebook-book': 'laptop-book' },
  });
  expect(receipts[0]?.outcome).toBe('recorded');
  expect(recordedTimes(server).at(-1)).toBe(instantText(START));
  await server.push([doseOf('102', 'mine')]);
  expect(recordedTimes(server).at(-1)).toBe(instantText(START));
});
