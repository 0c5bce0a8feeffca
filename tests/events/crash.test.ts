/** A program that is killed at any moment loses nothing that it was told is recorded, and leaves a book that verifies. */
import { spawn } from 'node:child_process';
import { expect, test } from 'vitest';
import { z } from 'zod';
import type { Book } from '../../events/book.ts';
import { newPath, opened } from './a-book.ts';

const told = z.object({
  receipts: z.array(
    z.object({ id: z.string().nullable(), position: z.number().optional(), key: z.string().optional() }),
  ),
  paper: z.string().nullable(),
});
type Told = z.infer<typeof told>;

/** Runs the recording program, kills it so long after its first word, and gives every whole line it said. */
const recordUntilKilled = (file: string, round: number, killAfter: number): Promise<Told[]> =>
  new Promise((resolve, reject) => {
    const child = spawn(
      process.execPath,
      ['--import', 'tsx', 'tests/events/record-until-killed.ts', file, String(round)],
      {
        stdio: ['ignore', 'pipe', 'pipe'],
      },
    );
    let [out, wrong] = ['', ''];
    child.stdout.on('data', (chunk: Buffer) => {
      if (out === '') setTimeout(() => child.kill('SIGKILL'), killAfter);
      out += chunk.toString();
    });
    child.stderr.on('data', (chunk: Buffer) => {
      wrong += chunk.toString();
    });
    child.on('error', reject);
    child.on('close', (_, signal) => {
      if (signal !== 'SIGKILL') reject(new Error(`The program ended by itself: ${wrong}`));
      else {
        const lines = out.split('\n').slice(0, -1);
        resolve(lines.map((line) => told.parse(JSON.parse(line))));
      }
    });
  });

/** Everything that was acknowledged is in the book, in its place. */
const expectKept = (book: Book, said: readonly Told[]): void => {
  const positions = new Map(book.read().entries.map(({ id, position }) => [id, position]));
  const keys = new Set(book.read().asides.map(({ key }) => key));
  const receipts = said.flatMap((each) => each.receipts);
  expect(receipts.filter(({ id, position }) => id !== null && positions.get(id) !== position)).toEqual([]);
  expect(receipts.filter(({ id, key }) => id === null && !keys.has(key ?? ''))).toEqual([]);
  expect(said.filter(({ paper }) => paper !== null && book.paper(paper) === undefined)).toEqual([]);
};

test('nothing acknowledged is lost when the program is killed, twelve times over in one book', async () => {
  const file = newPath();
  const everything: Told[] = [];
  for (const [round, killAfter] of [0, 1, 2, 3, 5, 8, 13, 21, 34, 55, 89, 13].entries()) {
    const said = await recordUntilKilled(file, round, killAfter);
    expect(said.length).toBeGreaterThan(0);
    everything.push(...said);
    const book = opened(file);
    expectKept(book, everything);
    expect(book.verify()).toMatchObject({ ok: true, problems: [], signed: true });
    book.close();
  }
  expect(everything.length).toBeGreaterThan(24);
}, 120_000);
