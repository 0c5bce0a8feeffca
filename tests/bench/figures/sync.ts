/** Two books of one farm over loopback, from nothing to the same, one of them served by the real `serve`; beside other ways to keep entries or to carry them over. */
import { spawnSync } from 'node:child_process';
import path from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { otherBookAt } from '../../../api/sync/other-book.ts';
import { sync } from '../../../api/sync/sync.ts';
import { openBook } from '../../../events/book.ts';
import { readLine } from '../../../events/door.ts';
import { know } from '../../../projections/know.ts';
import type { Instant } from '../../../shared/instant.ts';
import { type Figure, median, millisecondsOf, plainFigure, rateFigure, whole } from '../measure.ts';
import { inBatches, linesOf, newFile, removeBook, type Setting } from '../setting.ts';
import { served } from './commands.ts';
import { PEERS_MISSING } from './wall.ts';

export const syncFigure = async (setting: Setting): Promise<Figure[]> => {
  const { lines, now } = linesOf(setting.long, setting.synced);
  const clock = { now: () => now, fixed: true };
  const file = newFile(setting, 'office.book');
  const office = openBook(file, { clock, create: true, name: 'office' });
  for (const batch of inBatches(lines, 1_000)) office.record(batch.map((line) => read(line, now)));
  const { token } = office.devices.add('barn', 'book');
  office.close();
  const { url, stop } = await served(file);
  const times: number[] = [];
  for (let run = 0; run < setting.runs; run += 1) {
    const barnFile = newFile(setting, 'barn.book');
    const barn = openBook(barnFile, { clock, create: true, name: `barn ${run}` });
    times.push(
      await millisecondsOf(async () => {
        const { same } = await sync(barn, otherBookAt(url, token));
        if (!same) throw new Error('after the sync the two books do not hold the same');
      }),
    );
    barn.close();
    removeBook(barnFile);
  }
  await stop();
  removeBook(file);
  const synced = { count: lines.length, milliseconds: median(times) };
  const on = `${whole(lines.length)} entries, two books, each in a process of its own`;
  return [
    plainFigure('sync over loopback', on, `${whole((synced.count / synced.milliseconds) * 1_000)} entries a second`),
    ...pouch(setting, on, synced),
    ...emmett(setting, lines.slice(0, Math.min(lines.length, 10_000)), now),
  ];
};

const read = (line: string, now: Instant) => readLine(line, { source: 'bench', author: 'bench', now });

const peerSays = (setting: Setting, script: string, input: unknown): Record<string, number> | string => {
  if (setting.peers === undefined) return PEERS_MISSING;
  const run = spawnSync(
    process.execPath,
    [fileURLToPath(new URL(`../peers/${script}`, import.meta.url)), path.join(setting.peers, 'package.json')],
    { input: JSON.stringify(input), encoding: 'utf8', timeout: 600_000, cwd: setting.scratch },
  );
  if (run.status !== 0) return `skipped: ${/^\w*Error.*$/m.exec(run.stderr)?.[0] ?? 'it did not run'}`;
  return JSON.parse(run.stdout.trim().split('\n').at(-1) ?? '{}') as Record<string, number>;
};

const pouch = (setting: Setting, on: string, ours: { count: number; milliseconds: number }): Figure[] => {
  const count = setting.quick ? 500 : 10_000;
  const said = peerSays(setting, 'pouchdb.mjs', count);
  if (typeof said === 'string') return [plainFigure('  beside PouchDB replicating', on, '', said)];
  const against = `PouchDB on LevelDB replicating ${whole(count)} small documents`;
  return [
    rateFigure({ figure: '  the same beside', on, against, least: 10 }, ours, {
      count,
      milliseconds: said.replicated ?? 0,
    }),
  ];
};

const emmett = (setting: Setting, lines: readonly string[], now: Instant): Figure[] => {
  const on = `${whole(lines.length)} entries`;
  const said = peerSays(setting, 'emmett.mjs', lines);
  if (typeof said === 'string') return [plainFigure('appending and rebuilding beside emmett-sqlite', on, '', said)];
  const inOnes = lines.slice(0, Math.min(lines.length, 1_000));
  const recorded = (batches: readonly string[][]): number => {
    const file = newFile(setting, 'emmett.book');
    const book = openBook(file, { clock: { now: () => now, fixed: true }, create: true });
    const began = performance.now();
    for (const batch of batches) book.record(batch.map((line) => read(line, now)));
    const took = performance.now() - began;
    book.close();
    removeBook(file);
    return took;
  };
  const file = newFile(setting, 'emmett.book');
  const book = openBook(file, { clock: { now: () => now, fixed: true }, create: true });
  for (const batch of inBatches(lines, 1_000)) book.record(batch.map((line) => read(line, now)));
  const began = performance.now();
  const { entries, asides } = book.read();
  know(entries, asides);
  const rebuilt = performance.now() - began;
  book.close();
  const beside = (
    figure: string,
    least: number,
    ours: { count: number; milliseconds: number },
    theirs: { count: number; milliseconds: number },
  ) => rateFigure({ figure, on, against: '@event-driven-io/emmett-sqlite 0.38.5', least }, ours, theirs);
  return [
    beside(
      'appending one by one',
      10,
      { count: inOnes.length, milliseconds: recorded(inBatches(inOnes, 1)) },
      { count: said.ones ?? 0, milliseconds: said.onesTook ?? 1 },
    ),
    beside(
      'appending in hundreds',
      4,
      { count: lines.length, milliseconds: recorded(inBatches(lines, 100)) },
      { count: lines.length, milliseconds: said.hundredsTook ?? 1 },
    ),
    beside(
      'states rebuilt',
      5,
      { count: lines.length, milliseconds: rebuilt },
      { count: lines.length, milliseconds: said.rebuiltTook ?? 1 },
    ),
  ];
};
