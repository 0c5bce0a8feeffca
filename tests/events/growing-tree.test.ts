/** The tree that verify grows knows the root of each of its last states. */
import { expect, test } from 'vitest';
import { growingTree } from '../../events/log/growing-tree.ts';
import { EMPTY_RANGE, extend, leafHash, rootOf } from '../../events/log/merkle.ts';

test('every root it still knows is that of the tree over as many leaves, and what it no longer knows it does not say', () => {
  const tree = growingTree();
  const roots = [rootOf(EMPTY_RANGE)];
  let range = EMPTY_RANGE;
  for (let size = 1; size <= 5_000; size += 1) {
    const leaf = leafHash(String(size));
    tree.add(leaf);
    range = extend(range, [leaf]);
    roots.push(rootOf(range));
  }
  expect(tree.size()).toBe(5_000);
  expect(tree.peaks()).toEqual(range.peaks);
  const known = roots.map((_, size) => tree.rootAt(size));
  expect(known.filter((root) => root !== undefined)).toHaveLength(4_097);
  for (const [size, root] of known.entries()) if (root !== undefined) expect(root).toBe(roots[size]);
  expect([tree.rootAt(1), tree.rootAt(5_001), tree.rootAt(0), tree.rootAt(5_000)]).toEqual([
    undefined,
    undefined,
    roots[0],
    roots[5_000],
  ]);
});
