/** The program kept as JavaScript: made once, made anew with every change of a source, and never in anybody's way. */
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import process from 'node:process';
import { pathToFileURL } from 'node:url';
import { afterEach, beforeEach, expect, test } from 'vitest';

const keptProgram: (home: string) => Promise<string | undefined> = (
  await import(pathToFileURL(path.resolve('api/kept-program.mjs')).href)
).keptProgram;

let home: string;
const write = (file: string, text: string) => {
  fs.mkdirSync(path.dirname(path.join(home, file)), { recursive: true });
  fs.writeFileSync(path.join(home, file), text);
};
const run = (file: string | undefined) => spawnSync(process.execPath, [file ?? ''], { encoding: 'utf8' }).stdout.trim();

beforeEach(() => {
  home = fs.mkdtempSync(path.join(os.tmpdir(), 'kept-program-'));
  for (const folder of ['events', 'print', 'projections', 'seeds', 'shared'])
    fs.mkdirSync(path.join(home, folder), { recursive: true });
  write('package.json', '{ "type": "module" }');
  write('package-lock.json', '{}');
  write('tsconfig.json', '{}');
  write('api/kept-program.mjs', '');
  write('shared/word.ts', "export const WORD: string = 'milk';");
  write('shared/beside.txt', 'beside');
  write('events/log/verify-thread.ts', "import { WORD } from '../../shared/word.ts';\nconsole.log('thread', WORD);");
  write(
    'api/command-line/main.ts',
    `import fs from 'node:fs';
     import { WORD } from '../../shared/word.ts';
     console.log(WORD, fs.readFileSync(new URL('../../shared/beside.txt', import.meta.url), 'utf8'));`,
  );
});
afterEach(() => fs.rmSync(home, { recursive: true, force: true }));

test('the program is made once and the next start takes it as it is', async () => {
  const first = await keptProgram(home);
  expect(run(first)).toBe('milk beside');
  const since = fs.statSync(first ?? '').mtimeMs;
  expect(await keptProgram(home)).toBe(first);
  expect(fs.statSync(first ?? '').mtimeMs).toBe(since);
});

test('what its threads run is kept beside it', async () => {
  const main = (await keptProgram(home)) ?? '';
  expect(run(path.join(path.dirname(main), 'verify-thread.js'))).toBe('thread milk');
});

test('a changed source, a changed lock of the packages and a changed setting each make the program anew', async () => {
  const first = await keptProgram(home);
  write('shared/word.ts', "export const WORD: string = 'none';");
  const second = await keptProgram(home);
  expect(second).not.toBe(first);
  expect(run(second)).toBe('none beside');
  write('package-lock.json', '{ "lockfileVersion": 3 }');
  const third = await keptProgram(home);
  write('tsconfig.json', '{ "compilerOptions": {} }');
  expect(new Set([first, second, third, await keptProgram(home)]).size).toBe(4);
});

test('two that start at the same moment both get a whole program', async () => {
  const both = await Promise.all([keptProgram(home), keptProgram(home)]);
  expect(both.map(run)).toEqual(['milk beside', 'milk beside']);
  expect(fs.readdirSync(path.join(home, 'node_modules/.cache/byrebook'))).toHaveLength(1);
});

test('where the program cannot be kept there is none, and the sources are run as they stand', async () => {
  write('node_modules/.cache', 'a file where a folder should be');
  expect(await keptProgram(home)).toBeUndefined();
});

test('a source that cannot be read as TypeScript is not kept', async () => {
  write('shared/word.ts', 'export const WORD: = ;');
  expect(await keptProgram(home)).toBeUndefined();
});

test('old programs make room: no more than a dozen and one stay', async () => {
  for (let turn = 0; turn < 16; turn += 1) {
    write('shared/word.ts', `export const WORD = '${turn}';`);
    expect(run(await keptProgram(home))).toBe(`${turn} beside`);
  }
  expect(fs.readdirSync(path.join(home, 'node_modules/.cache/byrebook')).length).toBeLessThanOrEqual(13);
});
