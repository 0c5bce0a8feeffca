/**
 * What is exported, against the published schemas of the ICAR Animal Data Exchange JSON standard 1.3.2 (Apache License 2.0), which
 * CI lays beside the project. Without them this file says so; the tests of the export itself run everywhere.
 */
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { makeDemoBook } from '../../api/demo.ts';
import { openBook } from '../../events/book.ts';
import { systemClock } from '../../shared/clock.ts';
import { exported, richFarm } from '../api/ade-farm.ts';
import { folder } from '../events/a-book.ts';
import { standardIn, type Validate } from './ade-standard.ts';

const standard = standardIn(fileURLToPath(new URL('../../../shared/icar-ade-1.3.2', import.meta.url)));

const errorsOf = ({ collections }: ReturnType<typeof exported>, validatorOf: (name: string) => Validate): string[] => {
  const ofCollection = validatorOf('collections/icarResourceCollection');
  return collections.flatMap(({ member, view }) => {
    const name = member[0]?.resourceType ?? 'nothing';
    const validate = validatorOf(`resources/${name}`);
    return [
      ...ofCollection({ view }).map((error) => `${name} collection: ${error}`),
      ...member.flatMap((each) => validate(each).map((error) => `${name} ${each.meta.sourceId}: ${error}`)),
    ];
  });
};

if (standard !== undefined) {
  const { validatorOf, resourceNames } = standard;
  describe('the schemas of the standard', () => {
    test('a small farm with every kind of entry exports nothing that they do not know', () => {
      const farm = richFarm();
      try {
        const made = exported(farm.book);
        expect(errorsOf(made, validatorOf)).toEqual([]);
        const types = made.collections.map(({ member }) => member[0]?.resourceType);
        expect(types.filter((type) => !resourceNames.includes(type ?? ''))).toEqual([]);
        expect(types.length).toBeGreaterThan(17);
      } finally {
        farm.close();
      }
    });

    test('the demo farm exports nothing that they do not know', async () => {
      const file = path.join(folder(), 'demo.book');
      await makeDemoBook(file);
      const book = openBook(file, { clock: systemClock });
      try {
        const made = exported(book);
        expect(made.resources).toBeGreaterThan(3_000);
        expect(errorsOf(made, validatorOf)).toEqual([]);
      } finally {
        book.close();
      }
    });

    test('an unknown key is an error, at the top and deep inside, and so is a code that is not listed', () => {
      const validate = validatorOf('resources/icarTreatmentEventResource');
      const dose = {
        resourceType: 'icarTreatmentEventResource',
        meta: { source: 'org.example', sourceId: '1', modified: '2026-03-04T06:00:00Z' },
        animal: { id: '412', scheme: 'org.example' },
        eventDateTime: '2026-03-04T06:00:00Z',
      };
      expect(validate(dose)).toEqual([]);
      expect(validate({ ...dose, milkHold: 60 })).not.toEqual([]);
      expect(validate({ ...dose, medicine: { name: 'Cephapirin', label: 1 } })).not.toEqual([]);
      expect(validate({ ...dose, withdrawals: [{ productType: 'Cream' }] })).not.toEqual([]);
      expect(validate({ ...dose, animal: { id: '412' } })).not.toEqual([]);
    });
  });
} else {
  test('the schemas of the standard do not lie beside this project, so nothing was validated against them', () => {
    console.warn(
      'ICAR ADE schemas not found beside the project: the export was NOT validated against them in this run.',
    );
    expect(standard).toBeUndefined();
  });
}
