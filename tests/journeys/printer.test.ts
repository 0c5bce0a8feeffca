/**
 * `print --to` against a real CUPS queue, on loopback alone and put away afterwards. The printer at the end of the queue is a
 * socket that writes what it is sent into a file (CUPS hands a queue without a driver nothing for a plain file).
 */
import { execFileSync, spawn, spawnSync } from 'node:child_process';
import fs from 'node:fs';
import net from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { toPrinter } from '../../api/to-printer.ts';

const QUEUE = 'byrebook-test';
let folder = '';
let server: ReturnType<typeof spawn> | undefined;
let printer: net.Server | undefined;

const until = async (is: () => boolean): Promise<void> => {
  for (let tries = 0; tries < 100 && !is(); tries += 1) await new Promise((resolve) => setTimeout(resolve, 200));
};

beforeAll(async () => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'byrebook-'));
  fs.chmodSync(folder, 0o777);
  const root = path.join(folder, 'cups');
  for (const each of ['spool', 'spool/tmp', 'cache', 'state', 'log'])
    fs.mkdirSync(path.join(root, each), { recursive: true });
  const printed = path.join(folder, 'printed.out');
  fs.writeFileSync(printed, '');
  printer = net.createServer((socket) => {
    socket.on('data', (bytes) => fs.appendFileSync(printed, bytes));
    socket.on('end', () => socket.end());
  });
  await new Promise<void>((resolve) => printer?.listen(9_310, '127.0.0.1', resolve));
  fs.writeFileSync(
    path.join(root, 'cupsd.conf'),
    'Listen 127.0.0.1:6310\nDefaultAuthType None\n<Location />\nOrder allow,deny\nAllow from 127.0.0.1\n</Location>\n<Policy default>\n<Limit All>\nOrder allow,deny\nAllow from 127.0.0.1\n</Limit>\n</Policy>\n',
  );
  fs.writeFileSync(
    path.join(root, 'cups-files.conf'),
    [
      `ServerRoot ${root}`,
      `RequestRoot ${root}/spool`,
      `TempDir ${root}/spool/tmp`,
      `CacheDir ${root}/cache`,
      `StateDir ${root}/state`,
      `AccessLog ${root}/log/access`,
      `ErrorLog ${root}/log/error`,
      `PageLog ${root}/log/page`,
      'FileDevice Yes',
      'SystemGroup root lpadmin',
    ].join('\n'),
  );
  // A queue without a driver hands the file on as it is.
  fs.writeFileSync(
    path.join(root, 'printers.conf'),
    `<Printer ${QUEUE}>\nDeviceURI socket://127.0.0.1:9310\nState Idle\nAccepting Yes\nShared No\n</Printer>\n`,
  );
  server = spawn(
    '/usr/sbin/cupsd',
    ['-f', '-c', path.join(root, 'cupsd.conf'), '-s', path.join(root, 'cups-files.conf')],
    { stdio: 'ignore' },
  );
  process.env.CUPS_SERVER = '127.0.0.1:6310';
  await until(() => spawnSync('lpstat', ['-e'], { encoding: 'utf8' }).stdout.includes(QUEUE));
});

afterAll(() => {
  server?.kill('SIGKILL');
  printer?.close();
  fs.rmSync(folder, { recursive: true, force: true });
});

test('a sheet sent to a queue comes out of it byte for byte', async () => {
  const file = path.join(folder, 'sheet.pdf');
  execFileSync(
    process.execPath,
    ['api/byrebook.mjs', '--book', path.join(folder, 'demo.book'), 'demo', '--out', folder, '--json'],
    { stdio: 'ignore' },
  );
  fs.copyFileSync(path.join(folder, '2026-03-31-afternoon-sort.pdf'), file);
  const [job] = toPrinter(QUEUE, [file]);
  expect(job).toContain(QUEUE);
  const printed = path.join(folder, 'printed.out');
  await until(() => fs.statSync(printed).size >= fs.statSync(file).size);
  expect(Buffer.compare(fs.readFileSync(printed), fs.readFileSync(file))).toBe(0);
});

test('a printer that is not there is a sentence, and so is a name that is no name', () => {
  expect(() => toPrinter('no-such-printer', ['api/byrebook.mjs'])).toThrow(/did not take.*lpstat -e/);
  expect(() => toPrinter('-d', ['x'])).toThrow(/not the name of a printer/);
});
