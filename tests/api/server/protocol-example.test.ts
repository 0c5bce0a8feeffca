/** The Python example against a real server: what it keeps, sends and pulls, twice, through cuts, and with a wrong token. */
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import net from 'node:net';
import path from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { folder } from '../../events/a-book.ts';
import { type AServer, aServer, doseOf } from './a-server.ts';

interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly complaint: string;
}

const run = (url: string, token: string, where: string, entries: readonly unknown[] = []): Promise<Ran> =>
  new Promise((resolve) => {
    const child = spawn('python3', ['-I', 'api/protocol-example.py', url, token, where], { timeout: 60_000 });
    let [out, complaint] = ['', ''];
    child.stdout.on('data', (piece) => {
      out += String(piece);
    });
    child.stderr.on('data', (piece) => {
      complaint += String(piece);
    });
    child.on('close', (code) => resolve({ code, out, complaint }));
    child.stdin.end(entries.map((entry) => `${JSON.stringify(entry)}\n`).join(''));
  });

const linesOf = (file: string): unknown[] =>
  fs.existsSync(file)
    ? fs
        .readFileSync(file, 'utf8')
        .split('\n')
        .filter(Boolean)
        .map((line): unknown => JSON.parse(line))
    : [];

const copyOf = ({ book }: AServer, where: string) => linesOf(path.join(where, `${book.bookId}.jsonl`));
const logOf = ({ book }: AServer) => book.rows(0, 1_000).map((row): unknown => JSON.parse(row.entry));

/** The server's clock is fixed and this computer's is not, so the server is given this computer's time. */
const aServerNow = async (): Promise<AServer> => {
  const server = await aServer();
  server.clock.set(Date.now() as Parameters<typeof server.clock.set>[0]);
  return server;
};

test('the example sends what it was told, pulls the whole log, and a second time adds nothing', async () => {
  const server = await aServerNow();
  const where = folder();
  const entries = [doseOf('101', 'with-an-id'), doseOf('102'), { ...doseOf('103'), author: 'Łucja' }];
  const first = await run(server.url, server.tokens.manager, where, entries);
  expect(first).toMatchObject({ code: 0, complaint: '' });
  expect(copyOf(server, where)).toEqual(logOf(server));
  expect(logOf(server)).toHaveLength(11);
  expect(linesOf(path.join(where, 'unsent.jsonl'))).toEqual([]);

  const second = await run(server.url, server.tokens.manager, where, entries);
  expect(second).toMatchObject({ code: 0, complaint: '' });
  expect(logOf(server)).toHaveLength(11);
  expect(copyOf(server, where)).toEqual(logOf(server));
});

test('a wrong token is said, and what is unsent is kept and goes with the right one', async () => {
  const server = await aServerNow();
  const where = folder();
  const wrong = await run(server.url, `byre_0123456789ab_${'A'.repeat(43)}`, where, [doseOf('101', 'kept')]);
  expect(wrong).toMatchObject({ code: 1, complaint: expect.stringMatching(/^401 .*token is not good here/) });
  expect(linesOf(path.join(where, 'unsent.jsonl'))).toEqual([doseOf('101', 'kept')]);
  expect(logOf(server)).toHaveLength(8);
  expect(await run(server.url, server.tokens.manager, where)).toMatchObject({ code: 0 });
  expect(linesOf(path.join(where, 'unsent.jsonl'))).toEqual([]);
  expect(copyOf(server, where)).toHaveLength(9);
});

test('R-27 what is refused is kept beside with its receipt and said to the person, the rest is sent', async () => {
  const server = await aServerNow();
  const where = folder();
  const { code, out } = await run(server.url, server.tokens.manager, where, [
    { type: 'treatmnt', subject: '101', time: '2026-03-14T11:00:00Z', data: {} },
    doseOf('102', 'good'),
  ]);
  expect([code, out]).toEqual([0, expect.stringContaining('"treatmnt" is not a kind of entry')]);
  expect(linesOf(path.join(where, 'refused.jsonl'))).toEqual([
    {
      entry: expect.objectContaining({ type: 'treatmnt' }),
      receipt: expect.objectContaining({ outcome: 'refused', pointer: '/type' }),
    },
  ]);
  expect(copyOf(server, where)).toHaveLength(9);
});

const WHOLE = Number.POSITIVE_INFINITY;

/** Passes everything on, but cuts the first answers off after so many bytes: what was pushed is recorded, the receipts are lost. */
const cutting = async (url: string, cuts: readonly number[]): Promise<string> => {
  const { port } = new URL(url);
  const left = [...cuts];
  const proxy = net.createServer((near) => {
    const far = net.connect(Number(port), '127.0.0.1');
    const most = left.shift() ?? WHOLE;
    let passed = 0;
    near.pipe(far);
    far.on('data', (piece: Buffer) => {
      near.write(piece.subarray(0, Math.max(0, most - passed)));
      passed += piece.length;
      if (passed >= most) near.destroy();
    });
    far.on('end', () => near.end());
    for (const socket of [near, far]) socket.on('error', () => far.destroy());
  });
  await new Promise<void>((resolve) => proxy.listen(0, '127.0.0.1', resolve));
  onTestFinished(() => void proxy.close());
  const address = proxy.address();
  if (address === null || typeof address === 'string') throw new Error('The proxy has a port');
  return `http://127.0.0.1:${address.port}`;
};

test('a connection that is cut before and in the middle of an answer loses nothing and doubles nothing', async () => {
  const server = await aServerNow();
  const where = folder();
  const url = await cutting(server.url, [0, 900, WHOLE, WHOLE, 2_500]);
  const { code, complaint } = await run(url, server.tokens.manager, where, [doseOf('101', 'a'), doseOf('102')]);
  expect({ code, complaint }).toEqual({ code: 0, complaint: '' });
  expect(logOf(server)).toHaveLength(10);
  expect(copyOf(server, where)).toEqual(logOf(server));
  const counted = await (await server.ask('/metrics')).text();
  expect(counted).toContain('byrebook_entries_total{outcome="known"} 4');
});

test('a copy of the log that a power cut left half written is made whole', async () => {
  const server = await aServerNow();
  const where = folder();
  await run(server.url, server.tokens.manager, where);
  const file = path.join(where, `${server.book.bookId}.jsonl`);
  const whole = fs.readFileSync(file);
  fs.truncateSync(file, whole.length - 25);
  expect(await run(server.url, server.tokens.manager, where)).toMatchObject({ code: 0 });
  expect(Buffer.compare(fs.readFileSync(file), whole)).toBe(0);
});

test('without a server it says so, and keeps what it was told', { timeout: 90_000 }, async () => {
  const where = folder();
  const { code, complaint } = await run('http://127.0.0.1:9', 'byre_x', where, [doseOf('101', 'kept')]);
  expect([code, complaint]).toEqual([1, expect.stringContaining('what is unsent is kept')]);
  expect(linesOf(path.join(where, 'unsent.jsonl'))).toEqual([doseOf('101', 'kept')]);
});
