/** Proofs that an outsider can check without the book, and what each kind of forgery comes to. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { issuedChecks } from '../../api/replay.ts';
import { checkProof, type Proof, proveConsistency, proveInclusion } from '../../events/log/proofs.ts';
import { type AFarm, aFarm } from './a-farm.ts';

let farm: AFarm;
beforeEach(() => {
  farm = aFarm();
});
afterEach(() => farm.close());

const signed = () => ({ checkpoint: farm.book.checkpoint(), verifierKey: farm.book.verifierKey });
const texts = () => farm.book.rows(0, 10_000).map(({ entry }) => entry);
const inclusion = (position: number): Proof => proveInclusion(texts(), position, farm.book.head().root, signed());
const consistency = (older: number): Proof =>
  proveConsistency(texts(), older, farm.book.read({ position: older }).root, farm.book.head().root, signed());
let grown = 0;
const grow = (entries: number): void => {
  for (let each = 0; each < entries; each += 1) {
    grown += 1;
    farm.say('milk-hold', '2026-03-01T10:00:00Z', '101', { reason: `clots ${grown}` });
  }
};

describe('inclusion', () => {
  test('every entry of books of every size up to twenty proves its place', () => {
    for (let size = farm.book.head().position; size < 20; size += 1) {
      for (let position = 1; position <= size; position += 1)
        expect(checkProof(inclusion(position))).toMatchObject({ ok: true });
      grow(1);
    }
  });

  test('another text, another place, another root or a checkpoint of another key does not hold', () => {
    grow(3);
    const proof = inclusion(4);
    if (proof.proof !== 'inclusion') throw new Error('asked for an inclusion proof');
    const other = aFarm();
    other.say('milk-hold', '2026-03-01T10:00:00Z', '102', { reason: 'x' });
    const forged: unknown[] = [
      { ...proof, entry: proof.entry.replace('penicillin', 'Penicillin').replace('"id"', '"iD"') },
      { ...proof, position: 5 },
      { ...proof, path: proof.path.slice(1) },
      { ...proof, root: '0'.repeat(64) },
      { ...proof, verifierKey: proof.verifierKey.replace(/.$/, 'A') },
      { ...proof, checkpoint: proof.checkpoint.replace(/\n\d+\n/, '\n9\n') },
      { ...proof, checkpoint: other.book.checkpoint() },
      { anything: 'else' },
    ];
    other.close();
    for (const each of forged) expect(checkProof(each).ok).toBe(false);
  });
});

describe('consistency', () => {
  test('a book continues itself at every earlier position, and agrees with a checkpoint kept then', () => {
    const kept = farm.book.checkpoint();
    const older = farm.book.head().position;
    grow(7);
    for (let position = 0; position <= farm.book.head().position; position += 1)
      expect(checkProof(consistency(position))).toMatchObject({ ok: true });
    expect(checkProof(consistency(older), kept)).toMatchObject({ ok: true });
  });

  test('a book that was made anew does not agree with the checkpoint that was kept', () => {
    grow(2);
    const kept = farm.book.checkpoint();
    const older = farm.book.head().position;
    farm.close();
    farm = aFarm();
    farm.say('milk-hold', '2026-03-01T10:00:00Z', '101', { reason: 'another history' });
    grow(3);
    expect(checkProof(consistency(older), kept)).toMatchObject({
      ok: false,
      problem: expect.stringContaining('changed since, or this is another book'),
    });
  });
});

test('issued sets are worked out again from the log, and agree', async () => {
  await farm.issue();
  grow(1);
  await farm.issue();
  expect(issuedChecks(farm.book).map(({ agrees }) => agrees)).toEqual([true, true]);
});
