/**
 * What several senders said at the same time, in one commit: the disk is waited for once. Nothing else may be told from
 * recording each by itself, so where anything throws, nothing of it is kept and each is recorded by itself after all.
 */
import type { Appender, Batch, Taken } from './append.ts';
import { onBook } from './trouble.ts';

/** What became of one batch: `thrown` is what recording it by itself would have thrown. */
export type Attempt = { readonly taken: Taken } | { readonly thrown: unknown };

export const recordEach = (log: Pick<Appender, 'recordEach'>, batches: readonly Batch[], at: string): Attempt[] => {
  let begun = false;
  const noted = batches.map(({ entries, make }) => {
    const first = () => {
      begun = true;
      return make();
    };
    return { entries, make: first };
  });
  const together = attempt(() => onBook(at, () => log.recordEach(noted)));
  if ('done' in together) return together.done.map((taken) => ({ taken }));
  // Where another program kept its lock for as long as is waited, it is not waited for once more for each of them.
  if (!begun || batches.length === 1) return batches.map(() => together);
  return batches.map((batch) => {
    const alone = attempt(() => onBook(at, () => log.recordEach([batch])));
    if ('thrown' in alone) return alone;
    const [taken] = alone.done;
    if (taken === undefined) throw new Error('A batch that was recorded has no receipts');
    return { taken };
  });
};

const attempt = <T>(work: () => T): { readonly done: T } | { readonly thrown: unknown } => {
  try {
    return { done: work() };
  } catch (thrown) {
    return { thrown };
  }
};
