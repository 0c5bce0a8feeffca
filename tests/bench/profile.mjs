/**
 * Where the time goes: `node tests/bench/profile.mjs --only states --cows 1000 --years 3`. Takes the benchmark's own
 * options, runs it as one plain file under Node's profiler (tsx hides the names of functions), and prints the functions
 * that took most, by themselves and with all that they called.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { bundled } from '../../api/kept-program.mjs';

const home = fileURLToPath(new URL('../../', import.meta.url));
// Inside the clone, so that the packages are found.
const cache = join(home, 'node_modules', '.cache');
mkdirSync(cache, { recursive: true });
const folder = mkdtempSync(join(cache, 'bench-'));
try {
  const bundle = join(folder, 'bench.mjs');
  await bundled({ bench: join(home, 'tests/bench/bench.ts') }, { outdir: folder, outExtension: { '.js': '.mjs' } });
  const run = spawnSync(
    process.execPath,
    ['--cpu-prof', `--cpu-prof-dir=${folder}`, '--cpu-prof-interval=500', bundle, ...process.argv.slice(2)],
    { cwd: home, stdio: 'inherit' },
  );
  const profile = readdirSync(folder).find((name) => name.endsWith('.cpuprofile'));
  if (profile !== undefined) tell(JSON.parse(readFileSync(join(folder, profile), 'utf8')));
  process.exitCode = run.status ?? 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}

function tell({ nodes, samples, timeDeltas }) {
  const byId = new Map(nodes.map((node) => [node.id, node]));
  const callers = new Map(nodes.flatMap((node) => (node.children ?? []).map((child) => [child, node.id])));
  const nameOf = ({ callFrame: { functionName, url, lineNumber } }) =>
    `${functionName || '(no name)'}${url === '' ? '' : ` ${url.split('/').slice(-2).join('/')}:${lineNumber + 1}`}`;
  const spent = new Map();
  samples.forEach((id, index) => {
    spent.set(id, (spent.get(id) ?? 0) + (timeDeltas[index] ?? 0));
  });
  const [own, withCalled] = [new Map(), new Map()];
  let all = 0;
  for (const [id, time] of spent) {
    all += time;
    const name = nameOf(byId.get(id));
    own.set(name, (own.get(name) ?? 0) + time);
    const seen = new Set();
    for (let at = id; at !== undefined; at = callers.get(at)) seen.add(nameOf(byId.get(at)));
    for (const each of seen) withCalled.set(each, (withCalled.get(each) ?? 0) + time);
  }
  const list = (title, times, most) => {
    console.log(`\n${title}`);
    const sorted = [...times].sort((a, b) => b[1] - a[1]).slice(0, most);
    for (const [name, time] of sorted)
      console.log(
        `${String(Math.round(time / 1_000)).padStart(8)} ms ${((100 * time) / all).toFixed(1).padStart(5)} %  ${name}`,
      );
  };
  list('by themselves', own, 30);
  list('with all they called', withCalled, 60);
}
