/** R-31 every command that a person reads says the alerts first; what a program reads is facts alone. */
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type AFarm, aFarm, PENICILLIN } from './a-farm.ts';

let farm: AFarm;
let file = '';
beforeAll(async () => {
  farm = aFarm();
  await farm.issue();
  farm.at('2026-03-01T15:00:00Z');
  farm.say('treatment', '2026-03-01T14:30:00Z', '101', { medicine: PENICILLIN });
  file = farm.book.path;
  farm.book.close();
});
afterAll(() => fs.rmSync(farm.folder, { recursive: true, force: true }));

const run = (...args: string[]) =>
  spawnSync(process.execPath, ['api/byrebook.mjs', '--book', file, ...args], { encoding: 'utf8', timeout: 60_000 });

const ALERT = /^ALERTS \(1\):\n {2}! 101 is on hold/;

describe('R-31 late news heads', () => {
  test.each([
    ['print', '--sheet', 'counts'],
    ['why', '102'],
    ['history', '102'],
    ['replay', '--milking', '2026-03-01/afternoon', '--position', '9'],
    ['medicines', '--from', '2026-03-01'],
    ['verify'],
  ])('what %s says', (...args) => {
    const options = args[0] === 'print' ? ['--out', path.join(farm.folder, 'sheets')] : [];
    const { stdout, stderr } = run(...args, ...options);
    expect(stdout, stderr).toMatch(ALERT);
  });

  test('what record says, at once when the news itself comes in', () => {
    const line = { type: 'treatment', subject: '103', time: '2026-03-01T14:40:00Z', data: { medicine: PENICILLIN } };
    const entries = path.join(farm.folder, 'late.jsonl');
    fs.writeFileSync(entries, JSON.stringify(line));
    const { stdout } = run('record', entries);
    expect(stdout).toMatch(/^ALERTS \(2\):/);
    expect(stdout).toContain('103 is on hold');
  });

  test('what export and leaving say beside what they write', () => {
    expect(run('export', '--format', 'csv', '--out', path.join(farm.folder, 'log.csv')).stderr).toContain('ALERTS (2)');
    expect(run('leaving', '102').stderr).toContain('ALERTS (2)');
  });

  test.each([['verify'], ['why', '102'], ['replay', '--milking', '2026-03-01/afternoon', '--position', '9']])(
    'nothing of what %s --json says: that is JSON alone',
    (...args) => {
      const { stdout } = run(...args, '--json');
      expect(() => JSON.parse(stdout)).not.toThrow();
    },
  );
});
