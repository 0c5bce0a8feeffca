/** Papers of sets issued by the clock where the folder gives trouble: whole or not at all, said, tried again, never twice. */
import fs from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { folder } from '../../events/a-book.ts';
import { doseOf } from './a-server.ts';
import { aWatch, filesIn, paperOn } from './issue-before-watch.ts';

const MILK_HOLD = '2026-03-14-afternoon-milk-hold.pdf';

test('a folder of the same name that is a file is said, tried again, and filled when it is put right', async () => {
  const where = path.join(folder(), 'wall');
  fs.writeFileSync(where, 'not a folder');
  const { lookAt, look, sets, said } = await aWatch({ folder: where });
  await lookAt('16:00');
  expect(said()).toContain(`The folder ${where} is a file; name a folder`);
  await look();
  expect(sets()).toHaveLength(1);
  fs.rmSync(where);
  await look();
  expect(filesIn(where)).toHaveLength(8);
  expect(sets()).toHaveLength(1);
});

test('a set whose last paper cannot be written leaves the set before it whole, and no half files', async () => {
  const { lookAt, look, say, sets, folder, said } = await aWatch();
  await lookAt('16:00');
  const before = fs.readFileSync(path.join(folder, MILK_HOLD));
  fs.mkdirSync(path.join(folder, '.2026-03-14-afternoon-office.pdf.unfinished'));
  say(doseOf('101'));
  await look();
  expect(said().at(-1)).toMatch(/^The folder .* cannot be written to/);
  expect(filesIn(folder)).toHaveLength(8);
  expect(Buffer.compare(fs.readFileSync(path.join(folder, MILK_HOLD)), before)).toBe(0);
  await look();
  expect(filesIn(folder)).toHaveLength(8);
  expect((await paperOn(folder, MILK_HOLD)).text).toContain(sets()[1]?.ref);
});

test('what fails is tried ever more seldom, and said once more when the milking is over', async () => {
  const where = path.join(folder(), 'wall');
  fs.writeFileSync(where, 'not a folder');
  const { lookAt, look, said } = await aWatch({ folder: where, paces: { again: 60_000, longest: 60_000 } });
  await lookAt('16:00');
  for (let looks = 0; looks < 20; looks += 1) await look();
  expect(said().filter((line) => line.includes('is a file'))).toHaveLength(1);
  await lookAt('23:00');
  await look();
  expect(said().filter((line) => line.includes('was never printed here'))).toHaveLength(1);
});
