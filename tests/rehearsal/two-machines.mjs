/**
 * Two machines, rehearsed: the office serves its book, a laptop in the far barn syncs with it. Both write while they are
 * apart, the server is killed in the middle of an exchange, twice, and at the end both must hold the same entries and
 * print the same sheets. Real processes, real files, real clocks. Says in plain lines what it does; exits 1 where the two
 * books do not agree.
 */
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { isDeepStrictEqual } from 'node:util';

const PROGRAM = new URL('../../api/byrebook.mjs', import.meta.url).pathname;
/** A slow machine may need it; an ordinary one is done in half a minute. */
const LONGEST = 110_000;
const APART = 1_000;

const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'byrebook-rehearsal-'));
const running = new Set();
const began = Date.now();
const say = (text) => console.log(`${((Date.now() - began) / 1_000).toFixed(1).padStart(5)} s  ${text}`);
const end = (code) => {
  for (const child of running) child.kill('SIGKILL');
  fs.rmSync(folder, { recursive: true, force: true });
  process.exit(code);
};
const fail = (text) => {
  say(`FAILED: ${text}`);
  end(1);
};
setTimeout(() => fail(`not done after ${LONGEST / 1_000} seconds`), LONGEST).unref();

const start = (book, args, more = {}) => {
  const child = spawn(process.execPath, [PROGRAM, '--book', path.join(folder, book), ...args], {
    env: { ...process.env, ...more },
  });
  running.add(child);
  const said = { out: '', wrong: '' };
  child.stdout.on('data', (piece) => {
    said.out += piece;
  });
  child.stderr.on('data', (piece) => {
    said.wrong += piece;
  });
  const ended = new Promise((resolve) => {
    child.on('close', (code, signal) => {
      running.delete(child);
      resolve({ code, signal, ...said });
    });
  });
  return { child, said, ended };
};

/** Runs a command to its end and gives its output; any other exit code than the one expected ends the rehearsal. */
const run = async (book, args, { input, expected = 0, env } = {}) => {
  const { child, ended } = start(book, args, env);
  child.stdin.end(input ?? '');
  const { code, out, wrong } = await ended;
  if (code !== expected) fail(`${args[0]} on ${book} ended with ${code}, not ${expected}: ${wrong || out}`);
  return { out, wrong };
};

const until = async (what, holds) => {
  for (let waited = 0; waited < 15_000; waited += 10) {
    const value = holds();
    if (value) return value;
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
  return fail(`waited in vain for ${what}`);
};

const serve = async (port) => {
  const server = start('office.book', ['serve', '--port', String(port)]);
  const url = await until('the server', () => / at (http:\/\/\S+) /.exec(server.said.out)?.[1]);
  return { ...server, url };
};

const now = Date.now();
const ago = (minutes) => new Date(now - minutes * 60_000).toISOString();
const tomorrow = new Date(now + 86_400_000).toISOString().slice(0, 10);
const lines = (entries) => entries.map((entry) => JSON.stringify(entry)).join('\n');
const cows = Array.from({ length: 60 }, (_, index) => String(101 + index));
const counted = (place, count) =>
  Array.from({ length: count }, (_, index) => ({
    type: 'milk-record',
    id: `${place}-${index}`,
    subject: cows[index % cows.length],
    time: ago(600 - (index % 500)),
    data: { milking: `${ago(600).slice(0, 10)}/morning`, kg: 10 + (index % 90) / 10 },
  }));
const record = async (book, place, entries) => {
  await run(book, ['record', '-', '--source', place, '--author', place], { input: lines(entries) });
};

// The office has a farm, and lets the laptop in.
await record('office.book', 'office', [
  {
    type: 'farm-set-up',
    time: ago(90 * 1_440),
    data: {
      name: 'Alder Bank',
      timeZone: 'UTC',
      milkings: [
        { name: 'morning', start: '05:00' },
        { name: 'afternoon', start: '16:30' },
      ],
      parlour: { stalls: 20, turnMinutes: 10 },
      groups: [
        { name: 'Milkers', kind: 'milking' },
        { name: 'Fresh', kind: 'fresh' },
        { name: 'Dry', kind: 'dry' },
      ],
      freshHold: { milkings: 4 },
    },
  },
  {
    type: 'medicine-listed',
    time: ago(90 * 1_440),
    data: { name: 'Penicillin G procaine, udder', milkHold: { hours: 60 }, meatDays: 3 },
  },
  ...cows.map((subject) => ({
    type: 'cow-entered',
    subject,
    time: ago(80 * 1_440),
    data: { group: 'Milkers', lactation: 2, milkHoldUntil: 'none', meatHoldUntil: 'none' },
  })),
]);
const { token } = JSON.parse((await run('office.book', ['device', 'add', 'laptop', '--role', 'book', '--json'])).out);
const env = { BYREBOOK_TOKEN: token };
let server = await serve(0);
const { url } = server;
const { port } = new URL(url);
say(`the office serves its book at ${url}`);

const first = await run('barn.book', ['sync', url], { env });
say(`the laptop's new book: ${first.out.trim().replaceAll('\n', ' ')}`);
server.child.kill('SIGTERM');
const stopped = await server.ended;
if (stopped.code !== 0) fail(`the server did not stop in good order: ${stopped.wrong}`);

// Apart.
const dose = (id, subject, minutes) => ({
  type: 'treatment',
  id,
  subject,
  time: ago(minutes),
  data: { medicine: 'Penicillin G procaine, udder' },
});
const moved = (id, to) => ({ type: 'group-move', id, subject: '105', time: ago(200), data: { to } });
await Promise.all([
  record('office.book', 'office', [
    dose('office-dose', '101', 300),
    moved('b-move', 'Fresh'),
    ...counted('office', APART),
  ]),
  record('barn.book', 'laptop', [dose('barn-dose', '102', 250), moved('a-move', 'Dry'), ...counted('barn', APART)]),
]);
say(`apart: ${APART + 2} entries in each book; both put cow 105 in another group at the same minute`);

/** Kills the server without a word as soon as it has taken a batch. */
const killInTheMiddle = async () => {
  await until('a batch to be taken', () => /"recorded":[1-9].*"msg":"push"/.test(server.said.wrong));
  server.child.kill('SIGKILL');
  await server.ended;
};

server = await serve(port);
const going = start('barn.book', ['sync', url], env);
await killInTheMiddle();
say(
  'the server is killed in the middle of an exchange, and not started again; the laptop tries, and records meanwhile',
);
await record('barn.book', 'laptop', counted('late', APART));
const cutOff = await going.ended;
if (cutOff.code !== 1) fail(`a sync without a server ended with ${cutOff.code}: ${cutOff.wrong || cutOff.out}`);
say(`the laptop says: ${cutOff.wrong.trim().replaceAll('\n', ' ')}`);

server = await serve(port);
const patient = start('barn.book', ['sync', url], env);
await killInTheMiddle();
say('killed again; this time it is started again while the laptop still tries');
server = await serve(port);
const wentOn = await patient.ended;
if (wentOn.code !== 0) fail(`the sync did not go on by itself: ${wentOn.wrong}`);
say(`the laptop says: ${wentOn.out.trim().replaceAll('\n', ' ')}`);

const last = JSON.parse((await run('barn.book', ['sync', url, '--json'], { env })).out);
if (!last.same || last.pulled.recorded + last.pushed.recorded !== 0)
  fail(`one more sync moved something: ${JSON.stringify(last)}`);
say('one more sync moves nothing');
server.child.kill('SIGTERM');
await server.ended;

// The same?
const heldBy = async (book) => {
  const [{ out }, printed] = await Promise.all([
    run(book, ['export', '--format', 'jsonl']),
    run(book, ['print', '--json', '--milking', `${tomorrow}/morning`]),
    run(book, ['verify']),
  ]);
  const entries = out
    .trim()
    .split('\n')
    .map((line) => {
      const { sequence, recordedtime, via, ...said } = JSON.parse(line);
      return JSON.stringify(said);
    })
    .sort();
  const { alerts, doubts, sheets } = JSON.parse(printed.out);
  return { entries, paper: { alerts, doubts, sheets } };
};
const [office, barn] = await Promise.all([heldBy('office.book'), heldBy('barn.book')]);
const expected = 62 + 2 * (APART + 2) + APART;
if (office.entries.length !== expected) fail(`the office has ${office.entries.length} entries, not ${expected}`);
if (!isDeepStrictEqual(office.entries, barn.entries)) fail('the two books do not hold the same entries');
if (!isDeepStrictEqual(office.paper, barn.paper)) fail('the two books do not print the same');
const held = barn.paper.sheets['milk-hold'].held.map(({ cow }) => cow);
for (const cow of ['101', '102']) if (!held.includes(cow)) fail(`cow ${cow} was treated and is not held`);
if (!barn.paper.doubts.some(({ key }) => key.startsWith('two-groups:'))) fail('no doubt about the cow in two groups');
say(
  `both books hold the same ${expected} entries, verify, and print the same sheets; the cow in two groups is a doubt in both`,
);
end(0);
