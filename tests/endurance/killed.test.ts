/**
 * The server killed a hundred times with nobody asking it first, while eight devices go on writing and two read; one time in
 * five before it has opened the book. Five of the devices say one thing at a time, so that their pushes wait together.
 */
import { setTimeout as later } from 'node:timers/promises';
import { expect, onTestFinished, test } from 'vitest';
import { openBook } from '../../events/book.ts';
import { systemClock } from '../../shared/clock.ts';
import { aBusyFarm, expectWhole, type Seen, seenOf, toldBy } from './a-busy-farm.ts';
import { pulled, pushUntilTaken, type Receipt, streamed } from './client.ts';
import { diceOf, seedOf } from './dice.ts';
import { batchOf } from './doses.ts';
import { readyServer } from './server-process.ts';

const KILLS = 100;
const WRITERS = { many: 3, single: 5 } as const;
const ALL = WRITERS.many + WRITERS.single;

test('killed a hundred times while devices push, nothing acknowledged is lost and nothing is doubled', async () => {
  const dice = diceOf(seedOf('killed'));
  const farm = aBusyFarm([...Array<'crew'>(ALL).fill('crew'), 'manager', 'record-keeper']);
  const stop = new AbortController();
  onTestFinished(() => stop.abort());
  let server = await (await readyServer(farm.file)).serve(0);
  const { url } = server;
  const port = Number(new URL(url).port);

  const told: Receipt[][] = Array.from({ length: ALL }, () => []);
  let broken = 0;
  const writing = told.map(async (receipts, which) => {
    const lost = (): void => {
      broken += 1;
    };
    const door = { url, token: farm.tokens[which] ?? '', signal: stop.signal, broken: lost };
    for (let batch = 0; !stop.signal.aborted; batch += 1) {
      // Room for the next server to start in.
      await later(8);
      const size = which < WRITERS.many ? 1 + (batch % 12) : 1;
      receipts.push(...((await pushUntilTaken(door, batchOf(`w${which}`, batch, size))) ?? []));
    }
  });
  const readers = [streamed, pulled].map((source, which) => {
    const seen: Seen[] = [];
    const door = { url, token: farm.tokens[ALL + which] ?? '', signal: stop.signal };
    const reading = (async () => {
      for await (const { position, entry } of source(door, 97)) seen.push(seenOf(entry, position));
    })();
    return { seen, reading };
  });

  let next = readyServer(farm.file);
  for (let kills = 0; kills < KILLS; kills += 1) {
    const ready = await next;
    await later(dice.whole(0, 120));
    await server.kill();
    next = readyServer(farm.file);
    if (dice.chance(0.2)) {
      kills += 1;
      ready.serve(port).catch(() => undefined);
      await later(dice.whole(0, 40));
      await ready.kill();
      server = await (await next).serve(port);
      next = readyServer(farm.file);
    } else server = await ready.serve(port);
  }
  await later(500);
  stop.abort();
  await Promise.all([...writing, ...readers.map(({ reading }) => reading)]);
  await (await next).kill();
  expect(await server.end()).toBe(0);

  const book = openBook(farm.file, { clock: systemClock });
  onTestFinished(() => book.close());
  process.stdout.write(
    `killed: ${broken} pushes broken off, ${told.flat().length} receipts, ${book.head().position} entries\n`,
  );
  expect(broken).toBeGreaterThan(KILLS / 3);
  expect(told.flat().length).toBeGreaterThan(KILLS);
  for (const { seen } of readers) expect(seen.length).toBeGreaterThan(KILLS);
  expectWhole(
    book,
    told.map(toldBy),
    readers.map(({ seen }) => seen),
  );
}, 900_000);
