/** Eight writers in processes of their own and four readers on the real `serve`, and the command line on the same book. */
import { execFile } from 'node:child_process';
import fs from 'node:fs';
import { promisify } from 'node:util';
import { expect, onTestFinished, test } from 'vitest';
import { openBook } from '../../events/book.ts';
import { systemClock } from '../../shared/clock.ts';
import { folder } from '../events/a-book.ts';
import { aBusyFarm, expectWhole, type Seen, seenOf, toldBy } from './a-busy-farm.ts';
import { pulled, type Receipt, streamed } from './client.ts';
import { seedOf } from './dice.ts';
import { batchOf } from './doses.ts';
import { serveCommand } from './server-process.ts';

const run = promisify(execFile);
const WRITERS = 8;
const BATCHES = 30;

test('every acknowledged entry is there once, and no reader sees a gap, a repeat or what was not committed', async () => {
  const seed = seedOf('many at once');
  const farm = aBusyFarm([...Array<'crew'>(WRITERS).fill('crew'), ...Array<'manager'>(4).fill('manager')]);
  const server = await serveCommand(farm.file);
  const stop = new AbortController();
  onTestFinished(() => stop.abort());

  const readers = farm.tokens.slice(WRITERS).map((token, which) => {
    const seen: Seen[] = [];
    const door = { url: server.url, token, signal: stop.signal };
    const reading = (async () => {
      const source = which < 2 ? pulled(door, 41 + which * 90) : streamed(door);
      for await (const { position, entry } of source) seen.push(seenOf(entry, position));
    })();
    return { seen, reading };
  });

  const commands = (async () => {
    const lines: string[] = [];
    for (let each = 0; each < 3; each += 1) {
      const file = `${folder()}/lines-${each}.jsonl`;
      fs.writeFileSync(
        file,
        batchOf(`command-${each}`, each, 200)
          .map((entry) => JSON.stringify(entry))
          .join('\n'),
      );
      const { stdout } = await run(
        process.execPath,
        ['api/byrebook.mjs', '--book', farm.file, 'record', file, '--json'],
        { timeout: 60_000, maxBuffer: 16 * 1024 * 1024 },
      );
      lines.push(stdout);
    }
    return lines.flatMap((text) => JSON.parse(text) as Receipt[]);
  })();

  const writers = farm.tokens
    .slice(0, WRITERS)
    .map((token, which) =>
      run(
        process.execPath,
        [
          '--import',
          'tsx',
          'tests/endurance/writer.ts',
          server.url,
          token,
          `w${which}`,
          String(BATCHES),
          String(seed + which),
        ],
        { timeout: 240_000, maxBuffer: 64 * 1024 * 1024 },
      ),
    );
  const told = (await Promise.all(writers)).map(({ stdout }) => JSON.parse(stdout) as Receipt[]);
  told.push(await commands);
  expect(told.flat().every(({ outcome }) => outcome !== undefined)).toBe(true);
  expect(told.flat().filter(({ outcome }) => outcome === 'already-known').length).toBeGreaterThan(20);
  expect(told.flat().filter(({ outcome }) => outcome === 'refused').length).toBeGreaterThan(5);

  const book = openBook(farm.file, { clock: systemClock });
  onTestFinished(() => book.close());
  const { position } = book.head();
  for (let tries = 0; tries < 200 && readers.some(({ seen }) => seen.length < position); tries += 1)
    await new Promise((resolve) => setTimeout(resolve, 50));
  stop.abort();
  await Promise.allSettled(readers.map(({ reading }) => reading));
  expect(readers.map(({ seen }) => seen.length)).toEqual(readers.map(() => position));
  expect(await server.end()).toBe(0);
  expect(server.complaints()).toBe('');
  expectWhole(
    book,
    told.map(toldBy),
    readers.map(({ seen }) => seen),
  );
  const recorded = new Set(told.flat().flatMap(({ id, outcome }) => (outcome === 'refused' ? [] : [id])));
  expect(position).toBe(farm.first + recorded.size);
});
