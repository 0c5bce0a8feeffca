/**
 * Where the peers are installed that some figures stand beside: other people's packages, which the product never uses.
 * `node tests/bench/install-peers.mjs` puts them into a folder of their own, outside the clone.
 */
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import process from 'node:process';

export const peersFolder = (): string =>
  process.env.BYREBOOK_BENCH_PEERS ?? path.join(os.tmpdir(), 'byrebook-bench-peers');

export const peersAt = (): string | undefined => {
  const folder = peersFolder();
  return fs.existsSync(path.join(folder, 'node_modules')) ? folder : undefined;
};
