/** The chain over what was set aside: each row's value is taken over the row and the value before, so none goes unseen. */
import { canonicalJson, sha256 } from '../../shared/fingerprint.ts';
import type { Tables } from './tables.ts';

export type Unchained = Omit<Tables['set_aside'], 'chain'>;

/** The chain value of a row behind `before` (the empty text for the first). */
export const chainOf = (before: string, row: Unchained): string =>
  sha256(
    canonicalJson([
      before,
      row.number,
      row.key,
      row.hash,
      row.text,
      row.problem,
      row.pointer,
      row.id,
      row.cows,
      row.mentions,
      row.recordedtime,
      row.after,
      row.door,
    ]),
  );
