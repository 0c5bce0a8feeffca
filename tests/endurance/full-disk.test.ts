/** A disk that fills up under the server: 507 and no harm, reading goes on, and writing too when there is room again. */
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { openBook } from '../../events/book.ts';
import { systemClock } from '../../shared/clock.ts';
import { BATCH, farmEntries, problemOf, serveBook, tell } from '../api/server/a-server.ts';
import { folder, handClock } from '../events/a-book.ts';
import { batchOf } from './doses.ts';

const mounted = (place: string): boolean => {
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=4m', 'tmpfs', place], { stdio: 'ignore' });
    onTestFinished(() => {
      execFileSync('umount', ['-l', place], { stdio: 'ignore' });
    });
    return true;
  } catch {
    return false;
  }
};

test('a full disk is said as 507, harms nothing, and the same batch goes in when there is room', async ({ skip }) => {
  const place = folder();
  skip(!mounted(place), 'no small disk can be made here');
  const clock = handClock(systemClock.now());
  const book = openBook(path.join(place, 'farm.book'), { clock, create: true });
  tell(book, clock.now(), farmEntries());
  const server = await serveBook(book, clock);
  await server.push(batchOf('before', 0, 20), { as: 'crew' });
  const head = book.head();

  const filler = path.join(place, 'filler');
  fs.writeFileSync(filler, '');
  try {
    for (;;) fs.appendFileSync(filler, Buffer.alloc(4_096));
  } catch {
    // Full now.
  }
  const entries = batchOf('full', 1, 900);
  const post = { method: 'POST', as: 'crew', headers: { 'content-type': BATCH }, body: JSON.stringify(entries) };
  const answer = await server.ask('/sync/push', post);
  expect(answer.status).toBe(507);
  expect(await problemOf(answer)).toMatchObject({
    type: '/problems/disk-full',
    contentType: 'application/problem+json',
  });
  expect(book.head()).toEqual(head);
  expect((await server.ask('/sync/pull?after=0')).status).toBe(200);
  expect((await server.ask('/healthz', { as: null })).status).toBe(200);
  expect(book.verify()).toMatchObject({ ok: true, problems: [] });

  fs.rmSync(filler);
  const { receipts } = await server.push(entries, { as: 'crew' });
  expect(receipts).toHaveLength(900);
  expect(receipts.every(({ outcome }) => outcome === 'recorded')).toBe(true);
  expect(book.verify()).toMatchObject({ ok: true, problems: [], position: head.position + 900 });
});
