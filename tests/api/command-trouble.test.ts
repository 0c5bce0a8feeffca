/** What a command says where the disk or the file is not as it should be, and what it has done by then. */
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import process from 'node:process';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { PENICILLIN, SET_UP } from './alder-bank.ts';
import { type KeeperBook, keeperBook } from './keeper-papers.ts';

const EARLY = '2026-01-10T12:00:00Z';
const lines = [
  { type: 'farm-set-up', time: EARLY, data: SET_UP },
  {
    type: 'medicine-listed',
    time: EARLY,
    data: { name: PENICILLIN, milkHold: { hours: 60 }, meatDays: 3 },
  },
  ...['101', '102'].map((subject) => ({
    type: 'cow-entered',
    time: EARLY,
    subject,
    data: { group: 'Milkers', lactation: 2, calvedOn: '2026-01-05', milkHoldUntil: 'none', meatHoldUntil: 'none' },
  })),
  { type: 'treatment', time: '2026-03-14T05:40:00Z', subject: '101', data: { medicine: PENICILLIN } },
];

let farm: KeeperBook;
beforeAll(() => {
  farm = keeperBook(lines);
});
afterAll(() => farm.remove());

const issued = (): boolean => {
  const db = new Database(path.join(farm.folder, 'farm.book'), { readonly: true });
  const found = db.prepare(`select 1 from entries where entry like '%"sheet-issued"%'`).get();
  db.close();
  return found !== undefined;
};

test('a set is not issued where its papers can’t be laid down', () => {
  fs.writeFileSync(path.join(farm.folder, 'a-file'), '');
  for (const folder of ['a-file', 'a-file/sheets']) {
    const { status, err } = farm.run('print', '--issue', '--out', folder);
    expect([status, err]).toEqual([1, expect.stringContaining(`The sheets cannot be written to ${folder}`)]);
  }
  expect(issued()).toBe(false);
  expect(farm.run('print', '--issue', '--out', 'sheets').status).toBe(0);
  expect(issued()).toBe(true);
});

test('issued papers that replay can’t lay down are said in a sentence, as those of print are', ({ skip }) => {
  skip(!fs.existsSync('/dev/full'), 'there is no disk that is always full');
  const [ref = ''] = /[A-Z0-9]{4}-[A-Z0-9]{4}-[A-Z0-9]/.exec(farm.run('print', '--issue', '--out', 'sheets').out) ?? [];
  fs.mkdirSync(path.join(farm.folder, 'full'));
  fs.symlinkSync('/dev/full', path.join(farm.folder, 'full', `${ref}-milk-hold.pdf`));
  for (const [folder, why] of [
    ['full', 'ENOSPC'],
    ['a-file', 'EEXIST'],
  ] as const) {
    const { status, err } = farm.run('replay', '--ref', ref, '--out', folder);
    expect([status, err]).toEqual([1, expect.stringContaining(`cannot be written to ${folder} (${why})`)]);
  }
  expect(farm.run('replay', '--ref', ref, '--out', 'again').status).toBe(0);
});

test('serve says aloud that it begins a new book, and nothing of the kind where there is one', async () => {
  const served = async (book: string): Promise<string> => {
    const args = [path.resolve('api/byrebook.mjs'), '--book', book, 'serve', '--port', '0', '--desk', 'office'];
    const child = spawn(process.execPath, args, { cwd: farm.folder });
    let said = '';
    child.stderr.on('data', (piece) => {
      said += String(piece);
    });
    const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()));
    const address = await new Promise<string>((resolve, reject) => {
      child.stdout.on('data', (piece) => {
        const found = /http:\/\/\S+\/sign-in\S+/.exec(String(piece))?.[0];
        if (found !== undefined) resolve(found);
      });
      void ended.then(() => reject(new Error('serve ended')));
    });
    expect((await fetch(address)).status).toBe(200);
    child.kill('SIGTERM');
    await ended;
    return said;
  };
  expect(await served('frm.book')).toContain('frm.book: a new one begins there');
  expect(await served('frm.book')).not.toContain('a new one begins there');
});

test('who goes on from a backup or an archive is told which devices may connect', () => {
  farm.run('--book', 'farm.book', 'backup', 'before.copy');
  farm.run('device', 'add', 'barn', '--role', 'crew');
  farm.run('backup', 'after.copy');
  farm.run('archive', 'all.archive');
  const restored = (file: string, to: string): string => {
    const { status, out: said } = farm.run('--book', to, 'restore', file);
    expect(status).toBe(0);
    return said;
  };
  expect(restored('before.copy', 'one.restored')).toContain('No device may connect to it yet; device add');
  expect(restored('after.copy', 'two.restored')).toContain(
    '1 device may connect to it with the tokens of the day of the backup',
  );
  expect(restored('all.archive', 'three.restored')).toContain('none may connect to it yet; device add');
  expect(farm.run('--book', 'two.restored', 'device', 'list').out).toContain('barn');
  expect(farm.run('--book', 'three.restored', 'device', 'list').out).not.toContain('barn');
});

test('a file of which nothing is an entry is another file: nothing of it is kept aside, but one bad line among good ones is', () => {
  fs.writeFileSync(path.join(farm.folder, 'herd.csv'), 'cow;group\n101;Milkers\n102;Milkers\n');
  const other = farm.run('--book', 'other.book', 'record', 'herd.csv');
  expect([other.status, other.err]).toEqual([
    1,
    expect.stringContaining('None of the 3 lines of herd.csv is an entry'),
  ]);
  fs.writeFileSync(path.join(farm.folder, 'mixed.jsonl'), `${JSON.stringify(lines[0])}\nmilk out: 101\n`);
  const mixed = farm.run('--book', 'other.book', 'record', '--json', 'mixed.jsonl');
  expect(JSON.parse(mixed.out).map(({ outcome }: { outcome: string }) => outcome)).toEqual(['recorded', 'refused']);
});

test('a book that may only be read answers all that is asked of it', ({ skip }) => {
  skip(process.getuid?.() === 0, 'the superuser may write every file');
  const folder = path.join(farm.folder, 'handed-over');
  fs.mkdirSync(folder);
  for (const name of ['farm.book', 'farm.book.key'])
    fs.copyFileSync(path.join(farm.folder, name), path.join(folder, name));
  fs.chmodSync(path.join(folder, 'farm.book'), 0o444);
  fs.chmodSync(folder, 0o555);
  for (const words of [
    ['why', '101'],
    ['history', '101'],
    ['print', '--json'],
    ['print', '--out', 'elsewhere'],
  ]) {
    const { status, err } = farm.run('--book', 'handed-over/farm.book', ...words);
    expect([words, status, err]).toEqual([words, 0, '']);
  }
  fs.chmodSync(folder, 0o755);
});

test('R-27 entries that were taken out of the file stand at the head of the sheet: nobody knows whom they held', () => {
  const whole = path.join(farm.folder, 'farm.book');
  const heads = [
    { name: 'one.book', taken: 'position = 5', says: 'the entry at position 5 is missing' },
    { name: 'more.book', taken: 'position in (4, 5)', says: 'the entries at positions 4 to 5 are missing' },
    { name: 'end.book', taken: 'position >= 5', says: 'missing' },
  ].map(({ name, taken, says }) => {
    const file = path.join(farm.folder, name);
    fs.copyFileSync(whole, file);
    fs.copyFileSync(`${whole}.key`, `${file}.key`);
    const db = new Database(file);
    db.exec('drop trigger entries_are_never_removed');
    db.exec(`delete from entries where ${taken}`);
    db.close();
    const { status, out } = farm.run('--book', name, 'print', '--json');
    const { unplaced } = JSON.parse(out).sheets['milk-hold'];
    return [status, unplaced.map((row: { says: string }) => row.says), says] as const;
  });
  for (const [status, rows, says] of heads) expect([status, rows]).toEqual([0, [expect.stringContaining(says)]]);
});
