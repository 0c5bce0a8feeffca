/**
 * Who may import whom: shared <- events <- projections <- print <- api, seeds on shared and events alone, and each
 * impure library behind its one door. `npm run directions` checks it, and that every rule here can fail.
 */
const folders = (...names) => `^(${names.join('|')})/`;
const npm = (...names) => `(^|/)node_modules/(${names.join('|')})(/|$)`;

const forbid = (name, comment, from, to) => ({ name, comment, severity: 'error', from, to });

/** A library and the only folders that may import it, tests apart. */
const onlyIn = (name, libraries, ...homes) =>
  forbid(
    `${name}-only-in-${homes.join('-')}`,
    `${libraries.join(', ')} is known to ${homes.join(', ')} alone.`,
    { path: folders('shared', 'events', 'projections', 'print', 'api', 'seeds'), pathNot: folders(...homes) },
    { path: npm(...libraries) },
  );

/** @type {import('dependency-cruiser').IConfiguration} */
export default {
  forbidden: [
    forbid(
      'shared-stands-alone',
      'shared/ imports packages only.',
      { path: folders('shared') },
      {
        path: folders('events', 'projections', 'print', 'api', 'seeds', 'tests'),
      },
    ),
    forbid(
      'events-on-shared',
      'events/ imports shared/ only.',
      { path: folders('events') },
      {
        path: folders('projections', 'print', 'api', 'seeds', 'tests'),
      },
    ),
    forbid(
      'projections-on-events',
      'projections/ imports events/ and shared/ only.',
      { path: folders('projections') },
      {
        path: folders('print', 'api', 'seeds', 'tests'),
      },
    ),
    forbid(
      'print-below-api',
      'print/ imports projections/, events/ and shared/ only.',
      { path: folders('print') },
      {
        path: folders('api', 'seeds', 'tests'),
      },
    ),
    forbid(
      'seeds-on-events',
      'seeds/ imports events/ and shared/ only.',
      { path: folders('seeds') },
      {
        path: folders('projections', 'print', 'api', 'tests'),
      },
    ),
    forbid(
      'api-without-tests',
      'Nothing that ships imports tests/.',
      { path: folders('api') },
      {
        path: folders('tests'),
      },
    ),
    forbid('no-circle', 'A circle of imports has no direction.', {}, { circular: true }),
    forbid('no-unknown', 'Every import is found.', {}, { couldNotResolve: true }),
    forbid(
      'no-development-package',
      'What ships imports only packages that are installed with it.',
      { path: folders('shared', 'events', 'projections', 'print', 'api', 'seeds') },
      { dependencyTypes: ['npm-dev'] },
    ),
    forbid(
      'no-undeclared-package',
      'Every imported package is named in package.json.',
      {},
      { dependencyTypes: ['npm-no-pkg', 'npm-unknown'] },
    ),
    onlyIn('pdf', ['pdfkit'], 'print'),
    onlyIn('database', ['better-sqlite3', 'kysely'], 'events'),
    onlyIn('http', ['hono', '@hono'], 'api'),
    onlyIn('command-line', ['commander', 'csv-parse', 'cli-progress'], 'api'),
    onlyIn('calendar', ['luxon'], 'shared', 'print', 'api'),
    forbid(
      'projections-without-node',
      'Folds and rules are pure: nothing built into Node.',
      { path: folders('projections') },
      { dependencyTypes: ['core'] },
    ),
    forbid(
      'projections-without-the-log',
      'Folds and rules never reach the database, a file, a process or the network, not even through another module.',
      { path: folders('projections') },
      {
        path: `${npm('better-sqlite3', 'kysely')}|^(node:)?(fs|fs/promises|child_process|worker_threads|net|http|https|os)$`,
        reachable: true,
      },
    ),
    forbid(
      'no-clock-below-api',
      'The time comes in as an argument; only the shell asks the clock.',
      { path: folders('projections', 'print') },
      { path: '^shared/clock\\.ts$' },
    ),
  ],
  options: {
    parser: 'swc',
    // tests/bench has a package.json of its own for what it stands beside, below the one of the house.
    combinedDependencies: true,
    tsPreCompilationDeps: true,
    doNotFollow: { path: 'node_modules' },
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'node', 'default', 'types'] },
  },
};
