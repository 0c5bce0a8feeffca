/** The walk-through in `api/residue-scare.md`: each of its commands is run, and prints the lines that stand under it. */
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';

const COMMAND = path.resolve('api/byrebook.mjs');
const steps = [...fs.readFileSync('api/residue-scare.md', 'utf8').matchAll(/```\n([\s\S]*?)```/g)].flatMap(
  ([, block = '']) =>
    block
      .split('$ byrebook ')
      .filter((part) => part.trim() !== '')
      .map((part) => {
        const [command = '', ...lines] = part.trim().split('\n');
        return { command, lines };
      }),
);

let folder = '';
beforeAll(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'byrebook-'));
});
afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

test('the walk-through has its steps', () => expect(steps.length).toBeGreaterThan(7));

test.each(steps)('$command', ({ command, lines }) => {
  const [words = '', into] = command.split(' > ');
  if (command.startsWith('record')) {
    // The key of the alert, as a person copies it from the sheet.
    const said = spawnSync(process.execPath, [COMMAND, '--book', 'demo.book', 'print', '--json'], {
      cwd: folder,
      encoding: 'utf8',
      timeout: 60_000,
    });
    const alerts = (JSON.parse(said.stdout) as { alerts: { key: string; says: string }[] }).alerts;
    const about = alerts.find(({ says }) => says.startsWith('274'))?.key;
    const entry = {
      type: 'settled',
      time: '2026-03-31T12:00:00Z',
      author: 'Nuala Terpstra',
      data: { about, how: 'the load was poured away' },
    };
    fs.writeFileSync(path.join(folder, 'settled.jsonl'), JSON.stringify(entry));
  }
  const made = spawnSync(process.execPath, [COMMAND, '--book', 'demo.book', ...words.split(' ')], {
    cwd: folder,
    encoding: 'utf8',
    timeout: 60_000,
  });
  expect([made.status, made.stderr]).toEqual([0, '']);
  if (into !== undefined) fs.writeFileSync(path.join(folder, into), made.stdout);
  for (const line of lines) expect(made.stdout).toContain(line);
});
