/** A printer that takes nothing, or a folder that can't be written to, is said on the desk's first page until a try works. */
import fs from 'node:fs';
import path from 'node:path';
import { pino } from 'pino';
import { expect, onTestFinished, test, vi } from 'vitest';
import { issueBefore } from '../../../api/server/issue-before.ts';
import { MINUTE } from '../../../shared/instant.ts';
import { at, folder } from '../../events/a-book.ts';
import { aDesk } from './a-desk.ts';

/** A desk whose sheets come by the clock, and a program named `lp` that takes nothing while `no-paper` lies there. */
const aFarmWithPrinter = async () => {
  const where = folder();
  const noPaper = path.join(where, 'no-paper');
  fs.mkdirSync(path.join(where, 'bin'));
  fs.writeFileSync(
    path.join(where, 'bin', 'lp'),
    `#!/bin/sh\n[ -e "${noPaper}" ] && { echo "lp: no such printer" >&2; exit 1; }\necho "request id is wall-1"\n`,
  );
  fs.chmodSync(path.join(where, 'bin', 'lp'), 0o755);
  vi.stubEnv('PATH', `${path.join(where, 'bin')}:${process.env.PATH}`);
  onTestFinished(() => void vi.unstubAllEnvs());
  const desk = await aDesk();
  const clock = issueBefore({
    book: desk.book,
    issuing: desk.server.serving.app.issuing,
    log: pino({ level: 'silent' }),
    before: 30 * MINUTE,
    folder: path.join(where, 'wall'),
    printer: 'barn',
    paces: { lookEvery: 3_600_000, readEvery: 0, between: 0, quiet: 0, again: 0, longest: 0 },
  });
  onTestFinished(() => clock.stop());
  await clock.look();
  desk.clock.set(at('2026-03-14T16:05:00Z'));
  return { desk, clock, noPaper, wall: path.join(where, 'wall') };
};

test('a printer that did not take the set is said until it does, and nothing is said to hang on the wall', async () => {
  const { desk, clock, noPaper } = await aFarmWithPrinter();
  expect((await desk.get('/')).text).not.toContain('The printer');
  fs.writeFileSync(noPaper, '');
  await clock.look();
  const { text } = await desk.get('/');
  expect(text).toMatch(/The printer barn did not take the set \S+ \(Sat 14 Mar 16:05\): it hangs nowhere yet/);
  expect(text).toContain('lp: no such printer');
  expect(text).toContain('Issued, but not printed');
  expect(text).not.toContain('On the wall');
  await desk.post('/language', { language: 'es', to: '/' });
  expect((await desk.get('/')).text).toContain('La impresora barn no aceptó el juego');
  await desk.post('/language', { language: 'en', to: '/' });
  fs.rmSync(noPaper);
  await clock.look();
  const after = (await desk.get('/')).text;
  expect(after).toContain('On the wall');
  expect(after).not.toContain('The printer');
});

test('a folder that can not be written to is said as well', async () => {
  const { desk, clock, wall } = await aFarmWithPrinter();
  fs.writeFileSync(wall, 'a file');
  await clock.look();
  expect((await desk.get('/')).text).toMatch(/could not be laid into the folder .*wall.*is a file; name a folder/);
  fs.rmSync(wall);
  await clock.look();
  expect((await desk.get('/')).text).not.toContain('could not be laid');
});
