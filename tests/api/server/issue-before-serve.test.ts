/** `serve --issue-before` as a process: killed and started again, with a printer that is a program named `lp` and counts its jobs. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { openBook } from '../../../events/book.ts';
import { fixedClock } from '../../../shared/clock.ts';
import { at, folder } from '../../events/a-book.ts';
import { BATCH, doseOf, farmEntries, tell } from './a-server.ts';
import { filesIn, paperOn } from './issue-before-watch.ts';

const NOW = '2026-03-14T16:05:00Z';
const MILK_HOLD = '2026-03-14-afternoon-milk-hold.pdf';

const rehearsal = () => {
  const where = folder();
  const file = path.join(where, 'farm.book');
  const book = openBook(file, { clock: fixedClock(at(NOW)), create: true });
  tell(book, at(NOW), farmEntries());
  const { token } = book.devices.add('office', 'manager');
  book.close();
  return { where, file, token, wall: path.join(where, 'wall') };
};

/** A program of that name in a folder of its own; each job is a line with the files in it. */
const printer = (where: string): { bin: string; jobs: () => string[] } => {
  const bin = path.join(where, 'bin');
  const jobs = path.join(where, 'jobs');
  fs.mkdirSync(bin);
  fs.writeFileSync(
    path.join(bin, 'lp'),
    `#!/bin/sh\n[ -e "${where}/no-paper" ] && { echo "lp: no paper" >&2; exit 1; }\necho "$@" >> "${jobs}"\necho "request id is wall-1"\n`,
  );
  fs.chmodSync(path.join(bin, 'lp'), 0o755);
  return { bin, jobs: () => (fs.existsSync(jobs) ? fs.readFileSync(jobs, 'utf8').trim().split('\n') : []) };
};

interface Running {
  readonly child: ChildProcess;
  readonly url: string;
  readonly log: () => string;
}

const serve = async (file: string, options: readonly string[], bin: string): Promise<Running> => {
  const child = spawn(process.execPath, ['api/byrebook.mjs', '--book', file, 'serve', '--port', '0', ...options], {
    env: { ...process.env, PATH: `${bin}:${process.env.PATH}` },
  });
  onTestFinished(() => void child.kill('SIGKILL'));
  let [said, log] = ['', ''];
  child.stdout.on('data', (piece) => (said += String(piece)));
  child.stderr.on('data', (piece) => (log += String(piece)));
  await until(() => /http:\S+ /.test(said));
  return { child, url: /http:\/\/[^\s]+/.exec(said)?.[0] ?? '', log: () => log };
};

const until = async (is: () => boolean): Promise<void> => {
  for (let tries = 0; !is(); tries += 1) {
    if (tries > 200) throw new Error('It did not come about in 20 seconds');
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
};

const ended = (child: ChildProcess): Promise<number | null> =>
  new Promise((resolve) => child.once('exit', (code) => resolve(code)));

test('the server prints the set, again with REPLACES for late news, and nothing twice when killed and started again', {
  timeout: 90_000,
}, async () => {
  const { where, file, token, wall } = rehearsal();
  const { bin, jobs } = printer(where);
  const options = ['--issue-before', '30m', '--out', wall, '--to', 'wall'];
  const first = await serve(file, options, bin);
  await until(() => jobs().length === 1);
  expect(jobs()[0]?.split(' ').slice(0, 3)).toEqual(['-d', 'wall', '--']);
  expect(jobs()[0]?.split(' ').slice(3)).toEqual(
    filesIn(wall)
      .filter((name) => name.endsWith('.pdf'))
      .sort()
      .map((name) => expect.stringContaining(name.slice(0, 20))),
  );
  const { text } = await paperOn(wall, MILK_HOLD);
  const ref = /[A-Z0-9]{4}-[A-Z0-9]{4}-[A-Z0-9]/.exec(text)?.[0];
  const died = ended(first.child);
  first.child.kill('SIGKILL');
  await died;

  const second = await serve(file, options, bin);
  const answer = await fetch(`${second.url}/sync/push`, {
    method: 'POST',
    headers: { authorization: `Bearer ${token}`, 'content-type': BATCH },
    body: JSON.stringify([doseOf('101')]),
  });
  expect(answer.status).toBe(200);
  await until(() => jobs().length === 2);
  expect((await paperOn(wall, MILK_HOLD)).text.replace(/\s+/g, ' ')).toContain(`REPLACES ${ref}`);
  const stopped = ended(second.child);
  second.child.kill('SIGTERM');
  expect(await stopped).toBe(0);

  const third = await serve(file, options, bin);
  await new Promise((resolve) => setTimeout(resolve, 2_000));
  expect(jobs()).toHaveLength(2);
  expect(third.log()).not.toContain('issued by the clock');
});

test('a printer that takes nothing is said in the log, and the server goes on serving', {
  timeout: 90_000,
}, async () => {
  const { where, file, wall } = rehearsal();
  const { bin, jobs } = printer(where);
  fs.writeFileSync(path.join(where, 'no-paper'), '');
  const { url, log } = await serve(file, ['--issue-before', '45', '--out', wall, '--to', 'wall'], bin);
  await until(() => log().includes('did not take'));
  expect(log()).toContain('lp: no paper');
  expect((await fetch(`${url}/healthz`)).status).toBe(200);
  fs.rmSync(path.join(where, 'no-paper'));
  await until(() => jobs().length === 1);
});

test.each([
  [
    ['--issue-before', 'half an hour', '--out', 'x'],
    /"half an hour" is not a length of time that is taken; write 30m, 1h or 45/,
  ],
  [['--issue-before', '0', '--out', 'x'], /from 1 minute to 12 hours/],
  [['--issue-before', '13h', '--out', 'x'], /from 1 minute to 12 hours/],
  [['--issue-before', '30m'], /needs --out/],
  [['--out', 'x'], /with --issue-before: say how long/],
  [['--issue-before', '30m', '--out', 'package.json'], /is a file; name a folder/],
  [['--issue-before', '30m', '--out', 'x', '--to', '-d'], /not the name of a printer/],
])('serve %s is refused in a sentence before anything is served', (options, sentence) => {
  const { file } = rehearsal();
  const { status, stderr, stdout } = spawnSync(
    process.execPath,
    ['api/byrebook.mjs', '--book', file, 'serve', '--port', '0', ...options],
    { encoding: 'utf8', timeout: 20_000 },
  );
  expect(stderr).toMatch(sentence);
  expect([status, stdout]).toEqual([2, '']);
});
