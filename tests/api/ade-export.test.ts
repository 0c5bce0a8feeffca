/** What the export says, on a small farm: the essentials of each resource, whether or not the standard's schemas are at hand. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { AdeExport } from '../../api/ade/export-ade.ts';
import type { Resource } from '../../api/ade/resource.ts';
import { type AFarm, aFarm } from './a-farm.ts';
import { DRY_COW, exported, resourcesIn, richFarm } from './ade-farm.ts';

let farm: AFarm;
let made: AdeExport;
let all: readonly Resource[];
beforeAll(() => {
  farm = richFarm();
  made = exported(farm.book);
  all = resourcesIn(made);
});
afterAll(() => farm.close());

const animalOf = (resource: Resource): string => String((resource.animal as { id?: unknown } | undefined)?.id ?? '');
const of = (type: string, cow?: string): Resource[] =>
  all.filter((each) => each.resourceType === `icar${type}Resource` && (cow === undefined || animalOf(each) === cow));
const entryIds = () => farm.book.read().entries.map(({ id }) => id);

describe('each resource', () => {
  test('says its source, the entry it comes from, and when the book learnt of it, under one identity each', () => {
    const ids = new Set(entryIds());
    const asides = farm.book.read().asides.map(({ key }) => key);
    for (const { meta } of all) {
      expect(meta.source).toBe(`internal.byrebook.${farm.book.farmId}`);
      const whole = meta.sourceId.replace(/#[^#]*$/, '');
      expect(ids.has(whole) || asides.includes(whole)).toBe(true);
      expect(meta.modified).toMatch(/^\d{4}-\d{2}-\d{2}T[\d:.]+Z$/);
    }
    const identities = all
      .filter(({ resourceType }) => resourceType !== 'icarProgenyDetailsResource')
      .map(({ meta }) => meta.sourceId);
    const programs = new Set(of('TreatmentProgramEvent').map(({ meta }) => meta.sourceId));
    expect(new Set(identities).size).toBe(identities.length);
    expect(programs.size).toBe(2);
  });

  test('every event has a time in UTC, but for what is deleted and asks nothing', () => {
    const untimed = all.filter((each) => /Event/.test(each.resourceType) && each.eventDateTime === undefined);
    expect(untimed.map(({ meta }) => [meta.sourceId, meta.isDeleted])).toEqual([['dose-106', true]]);
    expect(all.every((each) => each.eventDateTime === undefined || String(each.eventDateTime).endsWith('Z'))).toBe(
      true,
    );
  });

  test('the same book gives the same bytes', () => {
    expect(JSON.stringify(exported(farm.book))).toBe(JSON.stringify(made));
  });

  test('collections hold one type each and count their members', () => {
    for (const { view, member } of made.collections) {
      expect(new Set(member.map(({ resourceType }) => resourceType)).size).toBe(1);
      expect(view.totalItems).toBe(member.length);
    }
  });
});

describe('withdrawals are the ends that the sheets say', () => {
  const ends = (cow: string): unknown => of('TreatmentEvent', cow).map(({ withdrawals }) => withdrawals);

  test('R-17 a running course ends by its planned last dose', () => {
    // Doses at 17:00, 06:00 and, planned, 18:00; 60 hours and 3 days.
    const course = [
      { productType: 'Milk', endDate: '2026-03-07T06:00:00Z' },
      { productType: 'Meat', endDate: '2026-03-07T18:00:00Z' },
    ];
    expect(ends('101')).toEqual([course, course]);
    expect(of('TreatmentProgramEvent', '101')[0]).toMatchObject({
      diagnoses: [{ name: 'mastitis' }],
      courses: [
        { planOrActual: 'Plan', numberOfTreatments: 3, treatmentInterval: 12, endDate: '2026-03-04T18:00:00Z' },
      ],
    });
  });

  test('R-15 the vet’s longer time is the end, and who said it stands in the program', () => {
    expect(ends('102')).toEqual([
      [
        { productType: 'Milk', endDate: '2026-03-06T07:00:00Z' },
        { productType: 'Meat', endDate: '2026-03-12T07:00:00Z' },
      ],
    ]);
    expect(of('TreatmentProgramEvent', '102')[0]?.responsible).toBe('Dr Okafor');
  });

  test('R-14 a hold without end names no end', () => {
    expect(ends('103')).toEqual([[{ productType: 'Milk' }, { productType: 'Meat' }]]);
  });

  test('R-19 a dry-cow product given with the drying-off is a treatment of its own, open until she calves', () => {
    expect(of('TreatmentEvent', '301')).toEqual([
      expect.objectContaining({
        medicine: { name: DRY_COW },
        withdrawals: [{ productType: 'Milk' }, { productType: 'Meat', endDate: '2026-03-28T10:00:00Z' }],
      }),
    ]);
    expect(of('TreatmentEvent', '302')).toEqual([expect.objectContaining({ procedure: 'no dry-cow product' })]);
  });

  test('R-16 a hold of zero is written as one that ends with the dose', () => {
    const other = aFarm();
    try {
      other.say('medicine-listed', '2026-02-02T12:00:00Z', undefined, {
        name: 'Oral calcium',
        milkHold: 'none',
        meatDays: 0,
      });
      other.say('treatment', '2026-03-01T10:00:00Z', '101', { medicine: 'Oral calcium' });
      const dose = resourcesIn(exported(other.book)).find(
        ({ resourceType }) => resourceType === 'icarTreatmentEventResource',
      );
      expect(dose?.withdrawals).toEqual([
        { productType: 'Milk', endDate: '2026-03-01T10:00:00Z' },
        { productType: 'Meat', endDate: '2026-03-01T10:00:00Z' },
      ]);
    } finally {
      other.close();
    }
  });

  test('a label corrected longer changes the end and when it was last modified', () => {
    const other = aFarm();
    try {
      other.say('treatment', '2026-03-01T10:00:00Z', '101', { medicine: 'Penicillin G procaine, udder' }, 'dose');
      const dose = () => resourcesIn(exported(other.book)).find(({ meta }) => meta.sourceId === 'dose');
      const before = dose();
      other.at('2026-03-01T14:00:00Z');
      other.say('medicine-listed', '2026-03-01T13:00:00Z', undefined, {
        name: 'Penicillin G procaine, udder',
        milkHold: { hours: 96 },
        meatDays: 3,
      });
      expect(before?.meta.modified).toBe('2026-03-01T12:00:00Z');
      expect(dose()?.meta.modified).toBe('2026-03-01T14:00:00Z');
      expect(dose()?.withdrawals).toContainEqual({ productType: 'Milk', endDate: '2026-03-05T10:00:00Z' });
    } finally {
      other.close();
    }
  });

  test('holds without a treatment are withdrawal events: set by a person, a positive test, fresh milk, an entry set aside', () => {
    const says = of('WithdrawalEvent').map((each) => [
      animalOf(each),
      each.productType,
      each.endDateTime ?? null,
      each.remark,
    ]);
    expect(says).toEqual(
      expect.arrayContaining([
        ['105', 'Milk', '2026-03-02T06:00:00Z', 'clots'],
        ['106', 'Milk', null, 'watery'],
        ['104', 'Milk', null, 'residue test positive'],
        ['202', 'Milk', '2026-03-03T16:30:00Z', 'fresh milk'],
        ['105', 'Milk', null, expect.stringMatching(/^an entry was set aside: /)],
        ['105', 'Meat', null, expect.stringMatching(/^an entry was set aside: /)],
        ['372000000000201', 'Meat', '2026-02-10T09:00:00Z', undefined],
      ]),
    );
  });
});

describe('cows, calves and groups', () => {
  test('a cow with an official number is named by it, with her barn number beside it', () => {
    const arrival = of('MovementArrivalEvent', '372000000000201')[0];
    expect(arrival?.animalDetail).toMatchObject({
      managementTag: '201',
      birthDate: '2022-04-01T00:00:00Z',
      alternativeIdentifiers: [{ id: '201' }],
    });
    expect(of('AnimalCore').find(({ managementTag }) => managementTag === '201')).toMatchObject({
      identifier: { id: '372000000000201', scheme: 'org.iso.11784' },
      status: 'Alive',
      lactationStatus: 'Lactating',
    });
  });

  test('a calving has its calves, and a live calf with a number is born as an animal of her own', () => {
    expect(of('ReproParturitionEvent', '202')[0]).toMatchObject({
      liveProgeny: 1,
      totalProgeny: 2,
      calvingEase: 'EasyAssisted',
      damParity: 4,
      progenyDetails: [
        { gender: 'Female', birthStatus: 'Alive', managementTag: 'C-31' },
        { gender: 'Male', birthStatus: 'Stillborn' },
      ],
    });
    expect(of('MovementBirthEvent').map((each) => animalOf(each))).toEqual(['C-31']);
    expect(of('MovementBirthEvent')[0]?.animalDetail).toMatchObject({
      parentage: [{ gender: 'Female', identifier: { id: '202' } }],
    });
  });

  test('a move is joining one set and leaving another, and each set lists who stands in it', () => {
    expect(of('AnimalSetJoinEvent', '301').map(({ animalSetId }) => animalSetId)).toEqual(['Milkers', 'Dry']);
    expect(of('AnimalSetLeaveEvent', '301').map(({ animalSetId }) => animalSetId)).toEqual(['Milkers']);
    const dry = of('AnimalSet').find(({ id }) => id === 'Dry');
    expect(dry?.member).toHaveLength(3);
    expect(dry?.member).toEqual(
      expect.arrayContaining(['203', '301', '302'].map((id) => expect.objectContaining({ id }))),
    );
  });

  test('leaving is a death or a departure with its reason', () => {
    expect(of('MovementDeathEvent').map(animalOf)).toEqual(['401']);
    expect(
      of('MovementDepartureEvent')
        .map((each) => [animalOf(each), each.departureKind])
        .sort(),
    ).toEqual([
      ['402', 'Slaughter'],
      ['403', 'Sale'],
    ]);
  });

  test('R-42 the age of the foetus follows from the service that the check confirms', () => {
    expect(of('ReproPregnancyCheckEvent', '105')[0]).toMatchObject({
      result: 'Multiple',
      foetalAge: 51,
      foetusCount: 2,
    });
    expect(of('ReproPregnancyCheckEvent', '103')[0]).toMatchObject({ result: 'Empty' });
  });
});

describe('what is struck or has no place', () => {
  test('R-23 a struck dose is deleted; it keeps its time only where nobody said what was true instead', () => {
    const deleted = all.filter(({ meta }) => meta.isDeleted === true);
    expect(deleted.map(({ meta, eventDateTime }) => [meta.sourceId, eventDateTime ?? null])).toEqual([
      ['dose-104', '2026-03-03T07:30:00Z'],
      ['dose-106', null],
    ]);
  });

  test('what it cannot carry is listed with how often and why', () => {
    const what = new Map(made.cannotCarry.map((each) => [each.what, each]));
    expect([...what.keys()]).toEqual(
      expect.arrayContaining([
        'farm-set-up',
        'medicine-listed',
        'medicine-received',
        'vet-hold-time',
        'sort-request',
        'entry-struck',
        'treatment.amount',
        'abortion.daysCarried',
        'set aside',
      ]),
    );
    expect(what.get('medicine-listed')).toMatchObject({ count: 3, why: expect.stringMatching(/no label/) });
  });
});
