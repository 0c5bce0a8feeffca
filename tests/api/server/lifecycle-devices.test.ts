/** The real `serve` and the real `device` command on one book: who is added may connect, who is revoked is out at once. */
import { type ChildProcess, execFile, spawn } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { promisify } from 'node:util';
import { expect, onTestFinished, test } from 'vitest';
import { z } from 'zod';
import { folder } from '../../events/a-book.ts';
import { BATCH, doseOf } from './a-server.ts';

const run = promisify(execFile);

const byrebook = async (book: string, ...args: string[]): Promise<{ code: number; stdout: string; stderr: string }> => {
  try {
    return {
      code: 0,
      ...(await run(process.execPath, ['api/byrebook.mjs', '--book', book, ...args], { timeout: 30_000 })),
    };
  } catch (error) {
    return z.looseObject({ code: z.number(), stdout: z.string(), stderr: z.string() }).parse(error);
  }
};

const serve = async (
  book: string,
  ...args: string[]
): Promise<{ child: ChildProcess; url: string; stderr: () => string; ended: Promise<number | null> }> => {
  const child = spawn(process.execPath, ['api/byrebook.mjs', '--book', book, 'serve', '--port', '0', ...args]);
  onTestFinished(() => {
    child.kill('SIGKILL');
  });
  const ended = new Promise<number | null>((resolve) => child.on('close', resolve));
  let [out, wrong] = ['', ''];
  child.stderr.on('data', (piece: Buffer) => {
    wrong += piece.toString();
  });
  const url = await new Promise<string>((resolve, reject) => {
    child.stdout.on('data', (piece: Buffer) => {
      out += piece.toString();
      const at = / at (http\S+) /.exec(out)?.[1];
      if (at !== undefined) resolve(at);
    });
    void ended.then(() => reject(new Error(`serve ended: ${wrong}`)));
  });
  return { child, url, stderr: () => wrong, ended };
};

const added = z.object({ token: z.string(), role: z.string() });

test('devices are added, listed and revoked while the server runs; a revoked one hears nothing more on an open stream', async () => {
  const book = path.join(folder(), 'farm.book');
  const add = async (name: string, role: string) =>
    added.parse(JSON.parse((await byrebook(book, 'device', 'add', name, '--role', role, '--json')).stdout)).token;
  const office = await add('office', 'manager');
  const { child, url, stderr, ended } = await serve(book);
  const tablet = await add('tablet', 'record-keeper');
  const as = (token: string) => ({ authorization: `Bearer ${token}` });
  const say = async (id: string) => {
    const answer = await fetch(`${url}/sync/push`, {
      method: 'POST',
      headers: { ...as(office), 'content-type': BATCH },
      body: JSON.stringify([doseOf('101', id)]),
    });
    expect(await answer.json()).toMatchObject({ receipts: [{ outcome: 'recorded' }] });
  };
  const stream = await fetch(`${url}/sync/stream`, { headers: as(tablet) });
  expect(stream.status).toBe(200);
  let heard = '';
  const over = (async () => {
    const decoder = new TextDecoder();
    for await (const piece of stream.body ?? []) heard += decoder.decode(piece);
  })();
  await say('before');
  await expect.poll(() => heard).toContain('"before"');
  expect((await byrebook(book, 'device', 'list')).stdout).toMatch(/2 devices[\s\S]*tablet {2}record-keeper/);

  expect((await byrebook(book, 'device', 'revoke', 'tablet')).code).toBe(0);
  await say('after');
  await over;
  expect(heard).not.toContain('"after"');
  expect((await fetch(`${url}/sync/pull`, { headers: as(tablet) })).status).toBe(401);
  expect((await fetch(`${url}/sync/pull`, { headers: as(office) })).status).toBe(200);
  expect((await byrebook(book, 'device', 'list')).stdout).toMatch(/tablet {2}record-keeper, since \S+, revoked \S+/);

  child.kill('SIGTERM');
  expect(await ended).toBe(0);
  const lines = stderr().trimEnd().split('\n');
  expect(lines.length).toBeGreaterThan(4);
  for (const line of lines) expect(z.looseObject({ time: z.number() }).safeParse(JSON.parse(line)).success).toBe(true);
  for (const token of [office, tablet]) expect(stderr()).not.toContain(token.slice(18));
}, 120_000);

test('what is wrong at the start is one sentence and code 2, and no trace of the program', async () => {
  const place = folder();
  const book = path.join(place, 'farm.book');
  const junk = path.join(place, 'junk.pem');
  fs.writeFileSync(junk, 'x');
  const { url } = await serve(book, '--log', 'silent');
  const tries: [string[], RegExp][] = [
    [['--port', new URL(url).port], /Port \d+ is in use/],
    [['--port', '0', '--tls-cert', junk, '--tls-key', junk], /junk\.pem is not a certificate/],
  ];
  for (const [args, sentence] of tries) {
    const { code, stdout, stderr } = await byrebook(book, 'serve', ...args);
    expect([args, code]).toEqual([args, 2]);
    expect(stderr).toMatch(sentence);
    expect(stdout + stderr).not.toMatch(/\n\s+at |node:|Error:/);
  }
}, 120_000);
