/**
 * Proofs against RFC 6962 section 2.1.3 ("Example"): which nodes of a tree of seven leaves make the audit paths of d0, d3, d4
 * and d6, and which make the consistency proofs from three, four and six leaves. The nodes are hashed here by the definitions
 * of section 2.1, with nothing of ours.
 */
import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import {
  consistencyProof,
  EMPTY_RANGE,
  extend,
  inclusionProof,
  provesConsistency,
  provesInclusion,
  rootOf,
} from '../../events/log/merkle.ts';

const leaf = (data: string): string => createHash('sha256').update(Buffer.of(0)).update(data).digest('hex');
const node = (left: string, right: string): string =>
  createHash('sha256')
    .update(Buffer.of(1))
    .update(Buffer.from(left, 'hex'))
    .update(Buffer.from(right, 'hex'))
    .digest('hex');

const [a, b, c, d, e, f, j] = [leaf('d0'), leaf('d1'), leaf('d2'), leaf('d3'), leaf('d4'), leaf('d5'), leaf('d6')];
const [g, h, i] = [node(a, b), node(c, d), node(e, f)];
const [k, l] = [node(g, h), node(i, j)];
const root = node(k, l);
const leaves = [a, b, c, d, e, f, j];

describe('the seven leaves of RFC 6962 section 2.1.3', () => {
  test('have the root that its drawing shows, and so have its trees of three, four and six', () => {
    const rootOver = (size: number): string => rootOf(extend(EMPTY_RANGE, leaves.slice(0, size)));
    expect([3, 4, 6, 7].map(rootOver)).toEqual([node(g, c), k, node(k, i), root]);
  });

  test.each<[number, string, string[]]>([
    [0, '[b, h, l]', [b, h, l]],
    [3, '[c, g, l]', [c, g, l]],
    [4, '[f, j, k]', [f, j, k]],
    [6, '[i, k]', [i, k]],
  ])('the audit path of d%i is %s, and it proves', (index, _, path) => {
    expect(inclusionProof(leaves, index)).toEqual(path);
    expect(provesInclusion(leaves[index] ?? '', index, 7, path, root)).toBe(true);
  });

  test.each<[number, string, string[], string]>([
    [3, '[c, d, g, l]', [c, d, g, l], node(g, c)],
    [4, '[l]', [l], k],
    [6, '[i, j, k]', [i, j, k], node(k, i)],
  ])('PROOF(%i, D[7]) is %s, and it proves', (size, _, path, older) => {
    expect(consistencyProof(leaves, size)).toEqual(path);
    expect(provesConsistency(size, 7, older, root, path)).toBe(true);
    expect(provesConsistency(size, 7, older, root, [...path].reverse())).toBe(path.length === 1);
  });
});
