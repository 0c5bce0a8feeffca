/** `kill -9` at any moment of recording loses nothing that was acknowledged. */
import { spawn } from 'node:child_process';
import path from 'node:path';
import { expect, test } from 'vitest';
import { newPath, opened } from './a-book.ts';

const SCRIPT = path.resolve('tests/events/record-and-crash.ts');

/** Runs the recorder until it has acknowledged something, and some milliseconds more; gives what it acknowledged. */
const recordAndKill = (file: string, from: number, milliseconds: number): Promise<number[]> =>
  new Promise((resolve, reject) => {
    const child = spawn(process.execPath, ['--import', 'tsx', SCRIPT, file, String(from)], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    let output = '';
    child.stdout.on('data', (chunk: Buffer) => {
      if (output === '') setTimeout(() => child.kill('SIGKILL'), milliseconds);
      output += chunk.toString();
    });
    child.on('error', reject);
    // A number cut off by the kill was not acknowledged.
    child.on('close', () => resolve(output.split('\n').slice(0, -1).map(Number)));
  });

test('killed at random moments, a recorder has lost nothing it acknowledged, and the book verifies', {
  timeout: 120_000,
}, async () => {
  const file = newPath();
  const acknowledged = new Set<number>();
  let next = 0;
  for (const milliseconds of [1, 4, 9, 17, 30, 47, 3, 12]) {
    for (const number of await recordAndKill(file, next, milliseconds)) acknowledged.add(number);
    next = Math.max(...acknowledged) + 1;
  }
  const book = opened(file);
  const kept = new Set(book.read().entries.map(({ id }) => id));
  expect(acknowledged.size).toBeGreaterThan(8);
  expect([...acknowledged].filter((number) => !kept.has(`dose-${number}`))).toEqual([]);
  expect(book.verify()).toMatchObject({ ok: true, signed: true });
});
