/** Proofs that an outsider can check without the book, and what each kind of forgery comes to. */
import fs from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Book } from '../../events/book.ts';
import { takeNewKey } from '../../events/log/backup.ts';
import { checkProof } from '../../events/log/check-proof.ts';
import { leafHash } from '../../events/log/merkle.ts';
import { type Proof, proveConsistency, proveInclusion, type Tree } from '../../events/log/proofs.ts';
import { dose, handClock, newBook, opened, passed } from './a-book.ts';

const grow = (book: Book, entries: number, reason = 'clots'): void => {
  for (let each = 0; each < entries; each += 1) {
    const id = `${reason}-${book.head().position}`;
    book.record([passed({ id, type: 'milk-hold', subject: '101', data: { reason: `${reason} ${id}` } })]);
  }
};
const aBook = (entries: number, reason?: string): Book => {
  const book = newBook();
  grow(book, entries, reason);
  return book;
};

const treeOf = (book: Book): Tree => ({
  leaves: book.rows(0, 10_000).map(({ entry }) => leafHash(entry)),
  checkpoint: book.checkpoint(),
  verifierKey: book.verifierKey,
});
const inclusion = (book: Book, position: number): Proof & { proof: 'inclusion' } => {
  const proof = proveInclusion(treeOf(book), position, book.rows(position - 1, 1)[0]?.entry ?? '');
  if (proof.proof !== 'inclusion') throw new Error('asked for an inclusion proof');
  return proof;
};
const consistency = (book: Book, older: number): Proof => proveConsistency(treeOf(book), older);

describe('inclusion', () => {
  test('every entry of books of every size up to twenty proves its place', () => {
    const book = newBook();
    for (let size = 1; size <= 20; size += 1) {
      grow(book, 1);
      for (let position = 1; position <= size; position += 1) {
        const result = checkProof(JSON.parse(JSON.stringify(inclusion(book, position))), { key: book.verifierKey });
        expect(result).toMatchObject({
          ok: true,
          value: expect.stringContaining(`position ${position} of the book of ${size}`),
        });
      }
    }
  });

  test('carries what the standard counts by: the leaf from nought, the size, the root, the path', () => {
    const book = aBook(7);
    expect(inclusion(book, 4)).toMatchObject({
      position: 4,
      leafIndex: 3,
      treeSize: 7,
      root: book.head().root,
      entry: book.rows(3, 1)[0]?.entry,
      checkpoint: book.checkpoint(),
      path: { length: 3 },
    });
  });

  test.each<[string, (proof: Proof & { proof: 'inclusion' }) => unknown]>([
    ['one letter of the entry', (proof) => ({ ...proof, entry: proof.entry.replace('clots', 'Clots') })],
    ['a space after the entry', (proof) => ({ ...proof, entry: `${proof.entry} ` })],
    ['the position', (proof) => ({ ...proof, position: 5, leafIndex: 4 })],
    ['the position without its leaf', (proof) => ({ ...proof, position: 5 })],
    ['a hash of the path left out', (proof) => ({ ...proof, path: proof.path.slice(1) })],
    ['the order of the path', (proof) => ({ ...proof, path: [...proof.path].reverse() })],
    ['a hash added to the path', (proof) => ({ ...proof, path: [...proof.path, proof.root] })],
    ['the root', (proof) => ({ ...proof, root: '0'.repeat(64) })],
    ['the size', (proof) => ({ ...proof, treeSize: 8 })],
    ['the key', (proof) => ({ ...proof, verifierKey: aBook(1).verifierKey })],
    [
      'a letter of the key',
      (proof) => ({ ...proof, verifierKey: proof.verifierKey.replace(/.$/, (last) => (last === 'A' ? 'B' : 'A')) }),
    ],
    [
      'the size that the checkpoint says',
      (proof) => ({ ...proof, checkpoint: proof.checkpoint.replace(/\n\d+\n/, '\n9\n') }),
    ],
    ['the signature', (proof) => ({ ...proof, checkpoint: proof.checkpoint.replace(/\n\n— .*/, '\n\nunsigned') })],
    ['another field added', (proof) => ({ ...proof, note: 'trust me' })],
  ])('with %s changed does not hold', (_, forge) => {
    const proof = inclusion(aBook(7), 4);
    expect(checkProof(proof).ok).toBe(true);
    expect(checkProof(forge(proof))).toMatchObject({ ok: false, problem: expect.stringMatching(/^(The|This) /) });
  });

  test('says which key signs, and refuses another than the one that was given', () => {
    const [book, forger] = [aBook(5), aBook(5)];
    expect(checkProof(inclusion(book, 2))).toMatchObject({ value: expect.stringContaining(book.verifierKey) });
    expect(checkProof(inclusion(forger, 2), { key: book.verifierKey })).toMatchObject({
      ok: false,
      problem: expect.stringContaining('not the key that was given'),
    });
  });

  test('is held against a checkpoint that was kept of the same size, and of no other', () => {
    const book = aBook(5);
    const kept = book.checkpoint();
    expect(checkProof(inclusion(book, 2), { checkpoint: kept }).ok).toBe(true);
    expect(checkProof(inclusion(aBook(5, 'other'), 2), { checkpoint: kept }).ok).toBe(false);
    grow(book, 1);
    expect(checkProof(inclusion(book, 2), { checkpoint: kept })).toMatchObject({
      ok: false,
      problem: expect.stringContaining('"proof consistency 5"'),
    });
  });
});

describe('consistency', () => {
  test('a book continues itself at every earlier position, and agrees with the checkpoint kept then', () => {
    const book = newBook();
    const kept: string[] = [];
    for (let size = 0; size <= 17; size += 1) {
      kept.push(book.checkpoint());
      grow(book, 1);
    }
    for (const [older, checkpoint] of kept.entries()) {
      const result = checkProof(consistency(book, older), { checkpoint, key: book.verifierKey });
      expect(result).toMatchObject({ ok: true, value: expect.stringContaining('the same key signed it') });
    }
  });

  test('a book that was made anew does not agree with the checkpoint that was kept', () => {
    const kept = aBook(5).checkpoint();
    const anew = aBook(8, 'another history');
    expect(checkProof(consistency(anew, 5), { checkpoint: kept })).toMatchObject({
      ok: false,
      problem: expect.stringContaining('changed since, or this is another book'),
    });
  });

  test.each<[string, (proof: Proof) => unknown]>([
    ['an older root that is not the log’s', (proof) => ({ ...proof, oldRoot: 'a'.repeat(64) })],
    ['another older size', (proof) => ({ ...proof, oldSize: 4 })],
    ['a hash left out', (proof) => ({ ...proof, path: proof.path.slice(1) })],
    ['no path', (proof) => ({ ...proof, path: [] })],
    ['an older size beyond the newer one', (proof) => ({ ...proof, oldSize: 80 })],
  ])('with %s does not hold', (_, forge) => {
    expect(checkProof(forge(consistency(aBook(8), 5))).ok).toBe(false);
  });

  test('a checkpoint that cannot be read is refused', () => {
    const book = aBook(3);
    expect(checkProof(consistency(book, 2), { checkpoint: 'milk 412 out' })).toMatchObject({
      problem: expect.stringContaining('cannot be read'),
    });
  });

  test('goes across a lost key: the old checkpoint agrees, and the name it was kept under is told', () => {
    const old = aBook(6);
    const kept = old.checkpoint();
    old.close();
    fs.rmSync(`${old.path}.key`);
    takeNewKey(old.path, handClock());
    const book = opened(old.path);
    book.record([dose('after', '412')]);
    expect(checkProof(consistency(book, 6), { checkpoint: kept, key: book.verifierKey })).toMatchObject({
      ok: true,
      value: expect.stringContaining(`of byrebook/${old.bookId}, and the book goes by byrebook/${book.bookId} now`),
    });
  });
});
