/** A file may be damaged anywhere: what can be read is still taken, and nothing that could hold a cow disappears without a word. */
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { importAde } from '../../api/ade/import-ade.ts';
import type { AFarm } from './a-farm.ts';
import { aFarm } from './a-farm.ts';
import { exported, richFarm } from './ade-farm.ts';

type Json = Record<string, unknown>;

let resources: readonly Json[];
let target: AFarm;
beforeAll(() => {
  const farm = richFarm();
  // From a stranger, so that nothing is read as a part of an entry.
  const text = JSON.stringify(exported(farm.book).collections).replaceAll('internal.byrebook.', 'example.neighbour.');
  farm.close();
  resources = (JSON.parse(text) as { member: Json[] }[]).flatMap(({ member }) => member);
  target = aFarm();
  target.at('2026-03-04T12:00:00Z');
});
afterAll(() => target.close());

/** Every place in a value, as a path. */
const pathsIn = (value: unknown, path: readonly string[] = []): string[][] =>
  typeof value !== 'object' || value === null
    ? [[...path]]
    : [[...path], ...Object.entries(value).flatMap(([name, each]) => pathsIn(each, [...path, name]))];

const damaged = (resource: Json, path: readonly string[], odd: unknown): unknown => {
  if (path.length === 0) return odd;
  const copy = structuredClone(resource);
  const last = path.at(-1) ?? '';
  const inside = path.slice(0, -1).reduce<unknown>((at, name) => (at as Json)[name], copy) as Json;
  if (odd === undefined) delete inside[last];
  else inside[last] = odd;
  return copy;
};

const ODD = fc.constantFrom<unknown>(
  undefined,
  null,
  '',
  ' ',
  'odd\u0000\u202e',
  '9'.repeat(400),
  -1,
  1e300,
  true,
  [],
  [null, 7, 'x'],
  {},
  { id: 7 },
  '2026-02-30T00:00:00Z',
  '0001-01-01T00:00:00Z',
  '2026-03-04',
);

describe('a damaged file', () => {
  test('never stops the import, and the resources beside the damaged one are taken', () => {
    const whole = {
      resourceType: 'icarTreatmentEventResource',
      meta: { source: 'example.other', sourceId: 'whole', modified: '2026-03-04T08:00:00Z' },
      eventDateTime: '2026-03-04T07:00:00Z',
      animal: { id: '101', scheme: 'example.other' },
      medicine: { name: 'Something else' },
    };
    fc.assert(
      fc.property(fc.nat(), fc.nat(), ODD, (which, where, odd) => {
        const resource = resources[which % resources.length] ?? {};
        const paths = pathsIn(resource);
        const document = [damaged(resource, paths[where % paths.length] ?? [], odd) ?? null, whole];
        const done = importAde(target.book, JSON.stringify(document), {
          author: 'Marta',
          group: 'Milkers',
          dryRun: true,
        });
        expect(done.recorded).toBeGreaterThan(0);
        expect(done.resources).toBeGreaterThan(0);
      }),
      { seed: 20260304, numRuns: 1_500 },
    );
  });

  test('R-27 a dose damaged anywhere is recorded, refused or named; it never passes unsaid', () => {
    const doses = resources.filter(
      ({ resourceType, meta }) => resourceType === 'icarTreatmentEventResource' && (meta as Json).isDeleted !== true,
    );
    expect(doses.length).toBeGreaterThan(3);
    fc.assert(
      fc.property(fc.nat(), fc.nat(), ODD, (which, where, odd) => {
        const resource = doses[which % doses.length] ?? {};
        const paths = pathsIn(resource).slice(1);
        const document = damaged(resource, paths[where % paths.length] ?? [], odd) ?? null;
        const done = importAde(target.book, JSON.stringify(document), { author: 'Marta', dryRun: true });
        expect(done.recorded + done.refused.length + done.notUsed.length).toBeGreaterThan(0);
      }),
      { seed: 20260305, numRuns: 600 },
    );
  });
});
