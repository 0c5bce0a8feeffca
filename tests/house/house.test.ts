/** What the house promises about its own files: pure rules, exact versions, a complete register, a fixed top level. */
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { ENTRY_TYPES, KINDS } from '../../events/kinds.ts';
import { FOLDED } from '../../projections/farm.ts';

const sources = (...folders: string[]) =>
  folders.flatMap((folder) =>
    readdirSync(folder, { recursive: true })
      .map((path) => `${folder}/${path}`)
      .filter((path) => /\.tsx?$/.test(path)),
  );
const textOf = (path: string) => readFileSync(path, 'utf8');

describe('packages', () => {
  const versions = z.record(z.string(), z.string());
  const pack = z
    .object({ dependencies: versions, devDependencies: versions, license: z.string() })
    .parse(JSON.parse(textOf('package.json')));

  test('every version in package.json is exact', () => {
    const all = Object.entries({ ...pack.dependencies, ...pack.devDependencies });
    expect(all.length).toBeGreaterThan(20);
    expect(all.filter(([, version]) => !/^\d+\.\d+\.\d+(-[\w.]+)?$/.test(version))).toEqual([]);
  });

  test('the lock file names no place to download from, and locks what package.json asks for', () => {
    const text = textOf('package-lock.json');
    expect(text).not.toMatch(/"resolved"|https?:\/\/[^"]*\.tgz/);
    const root = z
      .object({ packages: z.object({ '': z.object({ dependencies: versions, devDependencies: versions }) }) })
      .parse(JSON.parse(text)).packages[''];
    expect(root).toEqual({ dependencies: pack.dependencies, devDependencies: pack.devDependencies });
  });

  test('the licence that package.json names is the one that lies there', () => {
    expect(pack.license).toBe('Apache-2.0');
    expect(textOf('LICENSE')).toMatch(/Apache License\s+Version 2\.0/);
  });
});

describe('the pure house', () => {
  const CLOCKS_AND_DICE =
    /Date\.now\b|new Date\(\s*\)|Math\.random|DateTime\.(now|local|utc)\(\)|performance\.now|hrtime/;

  test('nothing but shared/clock.ts asks what time it is, and no rule throws dice', () => {
    const files = sources('shared', 'events', 'projections', 'print').filter((path) => path !== 'shared/clock.ts');
    expect(files.length).toBeGreaterThan(40);
    expect(files.filter((path) => CLOCKS_AND_DICE.test(textOf(path)))).toEqual([]);
    expect(textOf('shared/clock.ts')).toMatch(CLOCKS_AND_DICE);
  });

  test('folds and rules wait for nothing', () => {
    expect(sources('projections').filter((path) => /\bawait\b|\basync\b|\bPromise\b/.test(textOf(path)))).toEqual([]);
  });
});

describe('entry kinds', () => {
  const files = readdirSync('events/kinds').map((name) => name.replace(/\.ts$/, ''));

  test('each file in events/kinds is in the register under its own name, and nothing else is', () => {
    expect([...ENTRY_TYPES].sort()).toEqual([...files].sort());
    for (const type of ENTRY_TYPES) expect(KINDS[type].type).toBe(type);
  });

  test.each(ENTRY_TYPES)(
    '%s has an example that its schema accepts, and says in a sentence when it is recorded',
    (type) => {
      const { schema, example, when } = KINDS[type];
      expect(schema.safeParse(example)).toEqual({ success: true, data: example });
      expect(when).toMatch(/^Recorded .+\.$/);
    },
  );

  test.each(ENTRY_TYPES)('%s is picked up by the fold that it is said to be in', (type) => {
    const named = (file: string): number =>
      textOf(file).split(`'${type}'`).length - 1 + (/\W/.test(type) ? 0 : textOf(file).split(` ${type}: '`).length - 1);
    const where = FOLDED[type];
    if (where !== 'cow' && where !== 'book') expect(named('projections/farm.ts')).toBeGreaterThan(1);
    if (where === 'cow' || where === 'farm-and-cow')
      expect(named('projections/cow.ts') + named('projections/who.ts')).toBeGreaterThan(0);
  });

  test.each(ENTRY_TYPES)('%s refuses a field that it does not know, rather than dropping it', (type) => {
    const { schema, example } = KINDS[type];
    expect(schema.safeParse({ ...example, 'not-a-field': 1 }).success).toBe(false);
  });
});

describe('the top level', () => {
  const tracked = execFileSync('git', ['-c', 'safe.directory=*', 'ls-files'], { encoding: 'utf8' })
    .split('\n')
    .filter(Boolean);

  test('has the folders of the house and no others', () => {
    const folders = new Set(tracked.filter((path) => path.includes('/')).map((path) => path.split('/')[0]));
    const house = ['api', 'events', 'projections', 'print', 'tests', 'shared', 'seeds'];
    expect([...folders].filter((name) => name !== undefined && !name.startsWith('.') && !house.includes(name))).toEqual(
      [],
    );
  });

  test('has the known files and tool configs and no others', () => {
    const files = tracked.filter((path) => !path.includes('/') && !path.startsWith('.'));
    const known =
      /^(README\.md|DEVELOPERS\.md|CHANGELOG\.md|LICENSE|package\.json|package-lock\.json|tsconfig\.json|biome\.json|vitest(\.journeys|\.endurance)?\.config\.ts)$/;
    expect(files.filter((path) => !known.test(path))).toEqual([]);
  });

  test('no file names a package registry or a place on one machine', () => {
    const foreign = /https?:\/\/registry\.|(^|[\s"'`(])\/(home|root|work)\/\w/m;
    const texts = tracked.filter((path) => /(\.(ts|mjs|md|json|csv)|\.npmrc|\.ci\/run)$/.test(path));
    expect(texts.length).toBeGreaterThan(50);
    expect(texts.filter((path) => foreign.test(textOf(path)))).toEqual([]);
  });

  test('no file carries a book, a key or a printed sheet', () => {
    expect(tracked.filter((path) => /\.(book|book-wal|book-shm|key|pdf)$/.test(path))).toEqual([]);
  });
});

describe('names', () => {
  test('no file is called after a drawer that holds anything', () => {
    const drawers = /(^|\/)(utils?|helpers?|managers?|services?|common|types|misc|index)\.ts$/;
    const ours = sources('shared', 'events', 'projections', 'print', 'api', 'seeds', 'tests');
    // `service` is a kind of entry here: a cow is served.
    expect(ours.filter((path) => drawers.test(path) && path !== 'events/kinds/service.ts')).toEqual([]);
  });

  test('each source file begins by saying what it is for', () => {
    const ours = sources('shared', 'events', 'projections', 'print', 'api', 'seeds');
    expect(ours.filter((path) => !textOf(path).startsWith('/**'))).toEqual([]);
  });

  test('nothing shipped is left unfinished in words', () => {
    const unfinished = new RegExp(
      `\\b(${['TO' + 'DO', 'FIX' + 'ME', 'X' + 'XX', 'not imple' + 'mented'].join('|')})\\b`,
    );
    const ours = sources('shared', 'events', 'projections', 'print', 'api', 'seeds', 'tests');
    expect(ours.filter((path) => unfinished.test(textOf(path)))).toEqual([]);
  });
});
