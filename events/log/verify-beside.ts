/** Checks what stands beside the log: printed papers by their hash, and what was set aside by its chain. */
import { sha256 } from '../../shared/fingerprint.ts';
import { chainOf } from './set-aside-chain.ts';
import { type Connection, sqlFor, type Tables } from './tables.ts';
import type { Tell } from './verify-roots.ts';

/** How many papers there are. */
export const checkPapers = (db: Connection, tell: Tell): number => {
  let count = 0;
  for (const { hash, bytes } of db
    .prepare<[], { hash: string; bytes: Uint8Array }>('select hash, bytes from papers order by number')
    .iterate()) {
    count += 1;
    if (sha256(bytes) !== hash) tell(null, `the paper kept as ${hash.slice(0, 12)} is not the one that was printed`);
  }
  return count;
};

/** How many refused lines are kept. `end` is the chain value that the head keeps. */
export const checkSetAside = (db: Connection, end: string, tell: Tell): number => {
  let count = 0;
  let chain = '';
  const rows = db.prepare<[], Tables['set_aside']>(
    sqlFor.selectFrom('set_aside').selectAll().orderBy('number').compile().sql,
  );
  for (const row of rows.iterate()) {
    count += 1;
    if (row.number !== count) tell(null, `of what was set aside, number ${count} is missing`);
    const expected = chainOf(chain, row);
    if (sha256(row.text) !== row.hash || expected !== row.chain) {
      tell(null, `of what was set aside, number ${row.number} (${row.key}) was changed`);
    }
    chain = row.chain;
    count = Math.max(count, row.number);
  }
  if (chain !== end)
    tell(null, 'of what was set aside, the last is not the one the head names: some was taken out or added');
  return count;
};
