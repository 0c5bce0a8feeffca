/** The record keeper's commands as they are typed: a farm's book in a folder of its own, and what a command answers. */
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';

const COMMAND = path.resolve('api/byrebook.mjs');

export interface Answer {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

export interface KeeperBook {
  readonly folder: string;
  readonly run: (...words: string[]) => Answer;
  readonly file: (name: string) => Buffer;
  readonly remove: () => void;
}

const NOW = '2026-03-14T15:40:00Z';

/** A rehearsal's book with these lines in it. */
export const keeperBook = (lines: readonly Readonly<Record<string, unknown>>[]): KeeperBook => {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'byrebook-'));
  const run = (...words: string[]): Answer => {
    const { status, stdout, stderr } = spawnSync(process.execPath, [COMMAND, '--now', NOW, ...words], {
      cwd: folder,
      encoding: 'utf8',
      timeout: 60_000,
    });
    return { status, out: stdout, err: stderr };
  };
  const text = lines.map((line) => JSON.stringify({ author: 'Marta', source: 'office', ...line })).join('\n');
  fs.writeFileSync(path.join(folder, 'said.jsonl'), `${text}\n`);
  const recorded = run('record', 'said.jsonl');
  if (recorded.status !== 0) throw new Error(recorded.err + recorded.out);
  return {
    folder,
    run,
    file: (name) => fs.readFileSync(path.join(folder, name)),
    remove: () => fs.rmSync(folder, { recursive: true, force: true }),
  };
};

const EARLY = '2026-01-10T12:00:00Z';
export const ROSIE = '999000000000101';
export const DAISY = '999000000000202';

const entered = (subject: string, officialId: string) => ({
  type: 'cow-entered',
  time: EARLY,
  subject,
  data: {
    group: 'Milkers',
    lactation: 2,
    calvedOn: '2026-01-05',
    officialId,
    milkHoldUntil: 'none',
    meatHoldUntil: 'none',
  },
});

/** 101 treated yesterday, 102 never, 103 sold on hold, 104 borne by two; a treatment of 102 struck. */
export const LINES: readonly Readonly<Record<string, unknown>>[] = [
  {
    type: 'farm-set-up',
    time: EARLY,
    data: {
      name: 'Alder Bank',
      timeZone: 'Europe/Dublin',
      languages: ['pl', 'en'],
      milkings: [{ name: 'morning', start: '05:00' }],
      parlour: { stalls: 20, turnMinutes: 10 },
      groups: [{ name: 'Milkers', kind: 'milking' }],
    },
  },
  {
    type: 'medicine-listed',
    time: EARLY,
    data: { name: 'Penicillin, udder', active: 'penicillin G procaine', milkHold: { hours: 60 }, meatDays: 3 },
  },
  entered('101', ROSIE),
  entered('102', DAISY),
  entered('103', '999000000000303'),
  entered('104', '999000000000404'),
  entered('104', '999000000000505'),
  {
    type: 'treatment',
    time: '2026-03-13T06:00:00Z',
    subject: '101',
    data: { medicine: 'Penicillin, udder', amount: { value: 1, unit: 'tube' }, reason: '=1+1', batch: 'B-17' },
  },
  {
    type: 'treatment',
    id: 'slip',
    time: '2026-03-13T07:00:00Z',
    subject: '102',
    data: { medicine: 'Penicillin, udder', batch: 'B-99', route: 'udder' },
  },
  {
    type: 'entry-struck',
    time: '2026-03-13T08:00:00Z',
    subject: '102',
    data: { entry: 'slip', reason: 'not she', instead: 'nothing' },
  },
  {
    type: 'treatment',
    time: '2026-03-10T06:00:00Z',
    subject: '103',
    data: { medicine: 'Penicillin, udder', reason: 'mastitis' },
  },
  { type: 'cow-left', time: '2026-03-11T09:00:00Z', subject: '103', data: { reason: 'sold-for-beef' } },
];
