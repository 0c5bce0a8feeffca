/**
 * The tree against published values: the eight leaves, roots and proofs of the test data of the Certificate
 * Transparency reference implementation, which RFC 6962 describes (sections 2.1, 2.1.1 and 2.1.2).
 */
import { describe, expect, test } from 'vitest';
import {
  consistencyProof,
  EMPTY_RANGE,
  extend,
  inclusionProof,
  leafHash,
  provesConsistency,
  provesInclusion,
  rootOf,
} from '../../events/log/merkle.ts';

const LEAVES = ['', '00', '10', '2021', '3031', '40414243', '5051525354555657', '606162636465666768696a6b6c6d6e6f'].map(
  (hex) => leafHash(Buffer.from(hex, 'hex')),
);

/** Roots over the first 0, 1, … 8 leaves. */
const ROOTS = [
  'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855',
  '6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d',
  'fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125',
  'aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77',
  'd37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7',
  '4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4',
  '76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef',
  'ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c',
  '5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328',
];
const rootAt = (size: number): string => ROOTS[size] ?? '';
const leafAt = (index: number): string => LEAVES[index] ?? '';

describe('the tree of RFC 6962', () => {
  test.each(ROOTS.map((root, size) => [size, root] as const))('over %i leaves has the published root', (size, root) => {
    expect(rootOf(extend(EMPTY_RANGE, LEAVES.slice(0, size)))).toBe(root);
  });

  test('grown leaf by leaf has the published root at every size', () => {
    let range = EMPTY_RANGE;
    for (const [index, leaf] of LEAVES.entries()) {
      range = extend(range, [leaf]);
      expect(rootOf(range)).toBe(rootAt(index + 1));
    }
  });

  test('a text leaf is the hash of a zero byte and its UTF-8 bytes', () => {
    expect(leafHash('')).toBe(rootAt(1));
    expect(leafHash('Łódź')).toBe(leafHash(Buffer.from('Łódź')));
  });

  test('the way from the first of eight leaves to the root is the published one', () => {
    expect(inclusionProof(LEAVES, 0)).toEqual([
      '96a296d224f285c67bee93c30f8a309157f0daa35dc5b87e410b78630a09cfc7',
      '5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e',
      '6b47aaf29ee3c2af9af889bc1fb9254dabd31177f16232dd6aab035ca39bf6e4',
    ]);
  });

  test('the proof that eight leaves continue six is the published one', () => {
    expect(consistencyProof(LEAVES, 6)).toEqual([
      '0ebc5d3437fbe2db158b9f126a1d118e308181031d0a949f8dededebc558ef6a',
      'ca854ea128ed050b41b35ffc1b87b8eb2bde461e9e3b5596ece6b9d5975a0ae0',
      'd37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7',
    ]);
  });

  test('every leaf of every size is proved, and no other leaf, place, size or root', () => {
    for (let size = 1; size <= 8; size += 1) {
      for (let index = 0; index < size; index += 1) {
        const proof = inclusionProof(LEAVES.slice(0, size), index);
        expect(provesInclusion(leafAt(index), index, size, proof, rootAt(size))).toBe(true);
        expect(provesInclusion(leafAt((index + 1) % 8), index, size, proof, rootAt(size))).toBe(false);
        expect(provesInclusion(leafAt(index), index, size, proof, rootAt(size - 1))).toBe(false);
        expect(provesInclusion(leafAt(index), index, size, [...proof, leafAt(0)], rootAt(size))).toBe(false);
        if (proof.length > 0) {
          expect(provesInclusion(leafAt(index), index, size, proof.slice(1), rootAt(size))).toBe(false);
          expect(provesInclusion(leafAt(index), (index + 1) % size, size, proof, rootAt(size))).toBe(false);
        }
      }
    }
    expect(provesInclusion(leafAt(0), 1, 1, [], rootAt(1))).toBe(false);
    expect(provesInclusion(leafAt(0), -1, 1, [], rootAt(1))).toBe(false);
  });

  test('every size is shown to continue every smaller one, and not another history', () => {
    for (let size = 0; size <= 8; size += 1) {
      for (let old = 0; old <= size; old += 1) {
        const proof = consistencyProof(LEAVES.slice(0, size), old);
        expect(provesConsistency(old, size, rootAt(old), rootAt(size), proof)).toBe(true);
        if (old === 0) continue;
        const other = rootAt((old % 8) + 1) === rootAt(old) ? rootAt(1) : rootAt((old % 8) + 1);
        expect(provesConsistency(old, size, other, rootAt(size), proof)).toBe(false);
        if (old < size) expect(provesConsistency(old, size, rootAt(old), rootAt(old), proof)).toBe(false);
        if (proof.length > 0) {
          expect(provesConsistency(old, size, rootAt(old), rootAt(size), proof.slice(1))).toBe(false);
        }
      }
    }
    expect(provesConsistency(2, 1, rootAt(2), rootAt(1), [])).toBe(false);
  });
});
