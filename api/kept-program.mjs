/**
 * The program as JavaScript, kept in `node_modules/.cache/byrebook` so that a command need not read five hundred TypeScript
 * files first. It is disposable and can't be stale: its folder is named by the SHA-256 of every source it was made from,
 * of the packages' lock and of Node's version, all read again at every start. Whatever is in the way of keeping it (a
 * folder that can't be written, no room), the sources are run as they stand.
 */
import crypto from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import process from 'node:process';
import { fileURLToPath, pathToFileURL } from 'node:url';

const HOME = fileURLToPath(new URL('../', import.meta.url));
const ENTRY = 'api/command-line/main.ts';
/** What its threads run; it lies beside the program. */
const THREAD = 'events/log/verify-thread.ts';
const SOURCES = ['api', 'events', 'print', 'projections', 'seeds', 'shared'];
const SETTINGS = ['package.json', 'package-lock.json', 'tsconfig.json'];
/** Packages that look for files or machine code beside themselves stay where they are. */
const APART = ['better-sqlite3', 'esbuild', 'fontkit', 'pdfkit', 'pino'];
/** A server of an older program still loads its pages from where that program is kept. */
const KEPT_AT_MOST = 12;

/** The file to run, made first where it is not there yet; undefined where it can't be kept. */
export const keptProgram = async (home = HOME) => {
  const cache = path.join(home, 'node_modules', '.cache', 'byrebook');
  const folder = path.join(cache, hashOfSources(home));
  const main = path.join(folder, 'main.js');
  if (fs.existsSync(main)) return main;
  const beside = path.join(cache, `${process.pid}-${crypto.randomUUID()}`);
  try {
    fs.mkdirSync(cache, { recursive: true });
  } catch {
    return undefined;
  }
  try {
    await bundled(
      { main: path.join(home, ENTRY), 'verify-thread': path.join(home, THREAD) },
      {
        outdir: beside,
        splitting: true,
        sourcemap: 'linked',
        sourcesContent: false,
      },
    );
    removeOldest(cache);
    fs.renameSync(beside, folder);
  } catch {
    fs.rmSync(beside, { recursive: true, force: true });
  }
  return fs.existsSync(main) ? main : undefined;
};

/**
 * Bundles sources, named as what is made of them, with all of ours and the packages' that they need, but for the packages
 * apart.
 */
export const bundled = async (entryPoints, options) => {
  const { build } = await import('esbuild');
  await build({
    entryPoints,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    external: APART,
    banner: { js: REQUIRE },
    plugins: [whereItStood],
    logLevel: 'silent',
    ...options,
  });
};

/** Older packages among the bundled ask for Node's own modules by `require`. */
const REQUIRE = `import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);`;

/** A file that looks for others beside itself finds them from within the bundle too. */
const whereItStood = {
  name: 'where it stood',
  setup: ({ onLoad }) =>
    onLoad({ filter: /\.tsx?$/ }, ({ path: file }) => ({
      contents: fs.readFileSync(file, 'utf8').replaceAll('import.meta.url', JSON.stringify(pathToFileURL(file).href)),
      loader: file.endsWith('x') ? 'tsx' : 'ts',
    })),
};

const hashOfSources = (home) => {
  const hash = crypto.createHash('sha256').update(`${process.version}\n${home}\n`);
  const add = (file) => hash.update(`${file}\n`).update(fs.readFileSync(path.join(home, file)));
  for (const file of SETTINGS) add(file);
  for (const folder of SOURCES) {
    const files = fs.readdirSync(path.join(home, folder), { recursive: true, encoding: 'utf8' });
    for (const file of files.filter((name) => /\.tsx?$/.test(name)).sort()) add(`${folder}/${file}`);
  }
  add('api/kept-program.mjs');
  return hash.digest('hex');
};

const removeOldest = (cache) => {
  const kept = fs
    .readdirSync(cache)
    .map((name) => ({ name, since: fs.statSync(path.join(cache, name)).mtimeMs }))
    .sort((a, b) => b.since - a.since);
  for (const { name } of kept.slice(KEPT_AT_MOST)) fs.rmSync(path.join(cache, name), { recursive: true, force: true });
};
