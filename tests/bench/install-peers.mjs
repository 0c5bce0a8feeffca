/** Installs what the benchmark stands beside into a folder outside the clone, by the exact versions of package.json here. */
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';

const folder = process.env.BYREBOOK_BENCH_PEERS ?? join(tmpdir(), 'byrebook-bench-peers');
mkdirSync(folder, { recursive: true });
copyFileSync(fileURLToPath(new URL('package.json', import.meta.url)), join(folder, 'package.json'));
const npm = spawnSync('npm', ['install', '--no-audit', '--no-fund', '--no-package-lock'], {
  cwd: folder,
  stdio: 'inherit',
});
process.exitCode = npm.status ?? 1;
if (npm.status === 0) console.log(`The peers are in ${folder}`);
