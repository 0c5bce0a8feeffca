/**
 * Checks who imports whom (`.dependency-cruiser.mjs`), and checks the check: a cruise that saw too few modules
 * fails, and in a throw-away copy every rule is broken once on purpose and has to be reported.
 */

import { cpSync, mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const FOLDERS = ['shared', 'events', 'projections', 'print', 'api', 'seeds', 'tests'];
/** Fewer than this many of our own modules seen means that the parser read nothing. */
const AT_LEAST = 150;

/** One file a rule, each breaking it: path, text, and the rule that must name it. */
const PLANTED = [
  ['shared/planted.ts', "import '../events/planted-leaf.ts';", 'shared-stands-alone'],
  [
    'shared/planted-type.ts',
    "import type { Planted } from '../events/planted-leaf.ts';\nexport type Again = Planted;",
    'shared-stands-alone',
  ],
  ['events/planted.ts', "import '../projections/planted-leaf.ts';", 'events-on-shared'],
  ['projections/planted.ts', "import '../print/planted-leaf.ts';", 'projections-on-events'],
  ['print/planted.ts', "import '../api/planted-leaf.ts';", 'print-below-api'],
  ['seeds/planted.ts', "import '../projections/planted-leaf.ts';", 'seeds-on-events'],
  ['api/planted.ts', "import '../tests/planted-leaf.ts';", 'api-without-tests'],
  ['shared/planted-one.ts', "import './planted-two.ts';", 'no-circle'],
  ['shared/planted-lost.ts', "import './nowhere.ts';", 'no-unknown'],
  [
    'api/planted-page.tsx',
    "import '../tests/planted-leaf.ts';\nexport const Planted = () => <p />;",
    'api-without-tests',
  ],
  ['api/planted-tool.ts', "import 'vitest';", 'no-development-package'],
  ['api/planted-drawing.ts', "import 'pdfkit';", 'pdf-only-in-print'],
  ['api/planted-rows.ts', "import 'kysely';", 'database-only-in-events'],
  ['api/planted-database.ts', "import 'better-sqlite3';", 'database-only-in-events'],
  ['events/planted-http.ts', "import 'hono';", 'http-only-in-api'],
  ['events/planted-options.ts', "import 'commander';", 'command-line-only-in-api'],
  ['events/planted-calendar.ts', "import 'luxon';", 'calendar-only-in-shared-print-api'],
  ['projections/planted-path.ts', "import 'node:path';", 'projections-without-node'],
  ['projections/planted-file.ts', "import '../events/planted-file.ts';", 'projections-without-the-log'],
  ['projections/planted-log.ts', "import '../events/planted-log.ts';", 'projections-without-the-log'],
  ['projections/planted-clock.ts', "import { systemClock } from '../shared/clock.ts';", 'no-clock-below-api'],
  // An undeclared package that is installed all the same, as another package's own.
  ['shared/planted-undeclared.ts', "import 'fast-uri';", 'no-undeclared-package'],
];
const LEAVES = [
  ...FOLDERS.map((folder) => [`${folder}/planted-leaf.ts`, 'export type Planted = 1;\nexport const planted = 1;']),
  ['events/planted-file.ts', "import 'node:fs';"],
  ['events/planted-log.ts', "import 'better-sqlite3';"],
  ['shared/planted-two.ts', "import './planted-one.ts';"],
];

const home = dirname(dirname(fileURLToPath(import.meta.url)));

const sourcesUnder = (folder, name) =>
  readdirSync(join(folder, name), { recursive: true })
    .map((path) => `${name}/${path}`)
    .filter((path) => /\.tsx?$/.test(path));

// dependency-cruiser 17 reads TypeScript through swc without ever telling it that a .tsx file has tags in it.
const swc = createRequire(import.meta.url)('@swc/core');
const { parseFileSync } = swc;
swc.parseFileSync = (file, options) => parseFileSync(file, { ...options, tsx: file.endsWith('.tsx') });

const cruiseIn = async (folder) => {
  process.chdir(folder);
  const { cruise } = await import('dependency-cruiser');
  const { default: rules } = await import(pathToFileURL(join(home, '.dependency-cruiser.mjs')).href);
  const { options, ...ruleSet } = rules;
  const present = FOLDERS.filter((each) => readdirSync(folder).includes(each));
  const { output } = await cruise(present, { ...options, ruleSet, validate: true, outputType: 'json' });
  const { modules, summary } = typeof output === 'string' ? JSON.parse(output) : output;
  const ours = modules.filter(({ source }) => FOLDERS.some((each) => source.startsWith(`${each}/`)));
  const seen = new Set(ours.map(({ source }) => source));
  const unseen = present.flatMap((each) => sourcesUnder(folder, each)).filter((path) => !seen.has(path));
  return {
    ours: ours.length,
    unseen,
    names: ruleSet.forbidden.map(({ name }) => name),
    violations: summary.violations,
  };
};

const fail = (sentence) => {
  console.error(sentence);
  process.exitCode = 1;
};

const real = await cruiseIn(home);
for (const { rule, from, to } of real.violations) fail(`${rule.name}: ${from} -> ${to}`);
for (const path of real.unseen) fail(`${path} was not read`);
if (real.ours < AT_LEAST) fail(`saw ${real.ours} modules, at least ${AT_LEAST} were expected: the check reads nothing`);

const copy = mkdtempSync(join(tmpdir(), 'directions-'));
try {
  for (const name of [...FOLDERS, 'package.json', 'tsconfig.json']) {
    cpSync(join(home, name), join(copy, name), { recursive: true });
  }
  symlinkSync(join(home, 'node_modules'), join(copy, 'node_modules'));
  for (const [path, text] of [...LEAVES, ...PLANTED]) {
    mkdirSync(dirname(join(copy, path)), { recursive: true });
    writeFileSync(join(copy, path), `${text}\n`);
  }
  const planted = await cruiseIn(copy);
  for (const [path, , rule] of PLANTED) {
    const caught = planted.violations.some((each) => each.rule.name === rule && each.from === path);
    if (!caught) fail(`${rule} does not catch ${path}`);
  }
  for (const name of planted.names) {
    if (!PLANTED.some(([, , rule]) => rule === name)) fail(`${name} has no planted violation here; add one`);
  }
} finally {
  process.chdir(home);
  rmSync(copy, { recursive: true, force: true });
}

if (process.exitCode === undefined) {
  console.log(
    `${real.ours} modules, ${real.names.length} rules, no violation; ${PLANTED.length} planted ones all caught`,
  );
}
