/** Roots and paths from remembered tiles are those of the whole tree, before and after it grows. */
import { expect, test } from 'vitest';
import { consistencyProof, EMPTY_RANGE, extend, leafHash, provesConsistency, rootOf } from '../../events/log/merkle.ts';
import { dose, newBook } from './a-book.ts';

const sizes = (head: number): number[] =>
  [0, 1, 2, 3, 1_023, 1_024, 1_025, 2_047, 2_048, 2_049, 2_500, 3_071, 3_072, head - 1, head].filter(
    (size) => size >= 0 && size <= head,
  );

test('every continuation is what the whole tree gives, asked once or again, and after the log has grown', () => {
  const book = newBook();
  for (const head of [1_500, 2_500, 3_300]) {
    const from = book.head().position;
    for (let at = from; at < head; at += 500)
      book.record(Array.from({ length: Math.min(500, head - at) }, (_, index) => dose(`d${at + index}`, '412')));
    const leaves = book.rows(0, head).map(({ entry }) => leafHash(entry));
    const rootAt = (size: number) => rootOf(extend(EMPTY_RANGE, leaves.slice(0, size)));
    expect(rootAt(head)).toBe(book.head().root);
    for (const size of sizes(head)) {
      for (const oldSize of sizes(size)) {
        const shown = book.continuation(oldSize, size);
        expect(shown).toEqual({
          oldSize,
          oldRoot: rootAt(oldSize),
          size,
          root: rootAt(size),
          path: consistencyProof(leaves.slice(0, size), oldSize),
        });
        expect(provesConsistency(oldSize, size, rootAt(oldSize), rootAt(size), shown?.path ?? [])).toBe(true);
      }
    }
    expect(book.continuation(3, head + 1)).toBeUndefined();
    expect(book.continuation(4, 3)).toBeUndefined();
  }
}, 60_000);
