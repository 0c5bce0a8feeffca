/** What another program's file becomes here: every door a resource can go through, on a real book. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type AdeImport, importAde } from '../../api/ade/import-ade.ts';
import type { Entry } from '../../events/entry.ts';
import { know } from '../../projections/know.ts';
import { liveEntries } from '../../projections/live.ts';
import { type AFarm, aFarm, CEPHAPIRIN, PENICILLIN } from './a-farm.ts';

let farm: AFarm;
beforeEach(() => {
  farm = aFarm();
  farm.at('2026-03-04T12:00:00Z');
});
afterEach(() => farm.close());

const SOURCE = 'example.milking-parlour';
const animal = (id: string) => ({ id, scheme: 'example.herd' });
const meta = (sourceId: string, more: Record<string, unknown> = {}) => ({
  source: SOURCE,
  sourceId,
  modified: '2026-03-04T08:00:00Z',
  creator: 'Parlour',
  ...more,
});
const event = (type: string, sourceId: string, cow: string, fields: Record<string, unknown> = {}) => ({
  resourceType: `icar${type}EventResource`,
  meta: meta(sourceId),
  id: sourceId,
  eventDateTime: '2026-03-04T07:00:00Z',
  animal: animal(cow),
  ...fields,
});
const dose = (sourceId: string, cow: string, fields: Record<string, unknown> = {}) =>
  event('Treatment', sourceId, cow, { medicine: { name: PENICILLIN }, ...fields });
const bring = (document: unknown, more: { group?: string; dryRun?: boolean } = {}): AdeImport =>
  importAde(farm.book, JSON.stringify(document), { author: 'Marta', ...more });
const live = (): readonly Entry[] => {
  const { entries, asides } = farm.book.read();
  return liveEntries(know(entries, asides).strikes.live);
};
const ofType = <T extends Entry['type']>(type: T) =>
  live()
    .filter((entry): entry is Extract<Entry, { type: T }> => entry.type === type)
    .sort((a, b) => a.position - b.position);
const held = (): readonly string[] => farm.print().sheets['milk-hold'].held.map((row) => row.cow);
const until = (cow: string) => farm.print().sheets['milk-hold'].held.find((row) => row.cow === cow)?.until;

describe('the shape of the file', () => {
  test('one resource, an array, a collection and collections in an array are all read', () => {
    expect(bring(dose('a', '101')).recorded).toBe(1);
    expect(bring([dose('b', '101'), dose('c', '102')]).recorded).toBe(2);
    expect(bring({ view: { totalItems: 1 }, member: [dose('d', '103')] }).recorded).toBe(1);
    expect(bring([{ view: {}, member: [dose('e', '104')] }, { member: [dose('f', '105')] }]).recorded).toBe(2);
    expect(ofType('treatment').map((entry) => entry.subject)).toEqual(['101', '101', '102', '103', '104', '105']);
  });

  test('the type may be written as an address, without its ending, in any case', () => {
    const types = [
      'https://example.org/types/icarTreatmentEventResource',
      'icarTreatmentEvent',
      'ICARTREATMENTEVENTRESOURCE',
    ];
    expect(bring(types.map((resourceType, index) => ({ ...dose(`t${index}`, '101'), resourceType }))).recorded).toBe(3);
  });

  test('an entry says who, where from and when as the file does', () => {
    bring(dose('a', '101', { responsible: 'Bram' }));
    expect(ofType('treatment')[0]).toMatchObject({
      subject: '101',
      source: SOURCE,
      author: 'Parlour',
      data: { medicine: PENICILLIN, givenBy: 'Bram' },
    });
  });

  test('seven decimals of a second are cut to three, as programs write them without meaning them', () => {
    bring(dose('a', '101', { eventDateTime: '2026-03-04T07:00:00.1234567Z' }));
    expect(ofType('treatment')[0]?.at).toBe(Date.parse('2026-03-04T07:00:00.123Z'));
  });

  test('a file that is no JSON is turned away with a sentence, and nothing is recorded', () => {
    const before = farm.book.head().position;
    expect(() => importAde(farm.book, '{"resourceType": ', { author: 'Marta' })).toThrow(
      /cannot be read.*Nothing was recorded/,
    );
    expect(farm.book.head().position).toBe(before);
  });

  test('a dry run says what would be recorded and records nothing', () => {
    const before = farm.book.head().position;
    expect(bring([dose('a', '101'), event('Unheard', 'b', '102')], { dryRun: true })).toMatchObject({
      recorded: 1,
      dryRun: true,
      refused: [{ cows: ['102'] }],
    });
    expect(farm.book.head().position).toBe(before);
    expect(farm.book.read().asides).toEqual([]);
  });
});

describe('what is refused by name', () => {
  test.each([
    [
      'no event time',
      { ...dose('a', '101'), eventDateTime: undefined },
      /icarTreatmentEventResource "a" of 101: it has no "eventDateTime"/,
    ],
    ['a time without a zone', dose('a', '101', { eventDateTime: '2026-03-04T07:00:00' }), /does not say which zone/],
    ['no meta', { ...dose('a', '101'), meta: undefined }, /icarTreatmentEventResource "a" of 101: it has no "meta"/],
    [
      'no sourceId',
      { ...dose('a', '101'), meta: { source: SOURCE, modified: '2026-03-04T08:00:00Z' } },
      /no "sourceId"/,
    ],
    [
      'no source',
      { ...dose('a', '101'), meta: { sourceId: 'a', modified: '2026-03-04T08:00:00Z' } },
      /names no "source"/,
    ],
    ['no modified', { ...dose('a', '101'), meta: { source: SOURCE, sourceId: 'a' } }, /last "modified"/],
    [
      'no type, though with lists in it',
      { ...dose('a', '101', { withdrawals: [{}] }), resourceType: undefined },
      /no "resourceType"/,
    ],
    ['a kind nobody knows', event('Unheard', 'a', '101'), /this kind of resource is not known/],
    [
      'a time tomorrow',
      dose('a', '101', { eventDateTime: '2026-03-05T07:00:00Z' }),
      /icarTreatmentEventResource "a" of 101: .*ahead of this book's clock/,
    ],
  ])('R-27 a resource with %s is set aside and holds the cow it names', (_, resource, says) => {
    const done = bring([resource, dose('good', '102')]);
    expect(done.recorded).toBe(1);
    expect(done.refused).toHaveLength(1);
    expect(done.refused[0]).toMatchObject({
      cows: ['101'],
      problem: expect.stringMatching(says),
      key: expect.stringMatching(/^set-aside:/),
    });
    expect(held()).toEqual(['101', '102']);
    expect(until('101')).toBeNull();
  });

  test('R-27 an animal that no number of the herd can be read in stands at the head of the sheet', () => {
    const done = bring(dose('a', 'IE-8812-very-long-herdbook-name'));
    expect(done.refused[0]?.problem).toMatch(/no number of the herd can be read in "IE-8812/);
    expect(farm.print().sheets['milk-hold'].unplaced).toHaveLength(1);
  });

  test('the same file again adds nothing to what is set aside', () => {
    const document = [{ ...dose('a', '101'), meta: undefined }];
    bring(document);
    bring(document);
    expect(farm.book.read().asides).toHaveLength(1);
  });
});

describe('versions', () => {
  test('the same file twice adds nothing', () => {
    const document = [
      dose('a', '101'),
      event('MilkingDryOff', 'b', '102'),
      event('Withdrawal', 'c', '103', { productType: 'Milk', endDateTime: '2026-03-04T09:00:00Z' }),
    ];
    expect(bring(document).recorded).toBe(4);
    const { position } = farm.book.head();
    expect(bring(document)).toMatchObject({ recorded: 0, alreadyKnown: 4, struck: 0 });
    expect(farm.book.head().position).toBe(position);
  });

  test('R-23 a newer version strikes the older entry, names the new one instead, and counts alone', () => {
    bring(dose('a', '101'));
    const old = ofType('treatment')[0]?.id;
    const newer = { ...dose('a', '102'), meta: meta('a', { modified: '2026-03-04T09:00:00Z' }) };
    expect(bring(newer)).toMatchObject({ recorded: 1, struck: 1 });
    const [now] = ofType('treatment');
    expect(now?.subject).toBe('102');
    expect(ofType('entry-struck')[0]?.data).toMatchObject({ entry: old, instead: now?.id });
    expect(held()).toEqual(['102']);
    expect(farm.print().sheets['milk-hold'].unplaced).toEqual([]);
    expect(bring(newer)).toMatchObject({ recorded: 0, struck: 0 });
  });

  test('an older version than the one in the book changes nothing and is said', () => {
    bring({ ...dose('a', '101'), meta: meta('a', { modified: '2026-03-04T09:00:00Z' }) });
    const done = bring(dose('a', '102'));
    expect(done).toMatchObject({ recorded: 0, struck: 0 });
    expect(done.notes.join()).toMatch(/a newer version of it is in the book already/);
    expect(held()).toEqual(['101']);
  });

  test('R-23 a deleted dose is struck, and asks which cow had it, because nobody says what was true instead', () => {
    bring(dose('a', '101'));
    const gone = { ...dose('a', '101'), meta: meta('a', { modified: '2026-03-04T09:00:00Z', isDeleted: true }) };
    expect(bring(gone)).toMatchObject({ recorded: 0, struck: 1 });
    expect(held()).toEqual([]);
    expect(farm.print().sheets['milk-hold'].unplaced.map((row) => row.number)).toEqual(['101']);
    expect(bring(gone)).toMatchObject({ recorded: 0, struck: 0 });
  });

  test('R-23 a dose that was never known and comes as deleted still asks which cow had it', () => {
    const gone = { ...dose('a', '101'), meta: meta('a', { isDeleted: true }) };
    expect(bring(gone)).toMatchObject({ recorded: 1, struck: 1 });
    expect(farm.print().sheets['milk-hold'].unplaced.map((row) => row.number)).toEqual(['101']);
  });

  test('what is deleted, was never known and holds nothing adds nothing', () => {
    const gone = {
      ...event('ReproInsemination', 'a', '101', { inseminationType: 'Insemination' }),
      meta: meta('a', { isDeleted: true }),
    };
    expect(bring(gone)).toMatchObject({
      recorded: 0,
      struck: 0,
      notUsed: [{ why: expect.stringMatching(/never known/) }],
    });
  });

  test('an older version stands while the newer one is turned away at the door', () => {
    bring(dose('a', '101'));
    const broken = {
      ...dose('a', '101', { dose: { doseQuantity: -1, doseUnits: 'MLT' } }),
      meta: meta('a', { modified: '2026-03-04T09:00:00Z' }),
    };
    expect(bring(broken)).toMatchObject({ recorded: 0, struck: 0, refused: [{ cows: ['101'] }] });
    expect(ofType('treatment')).toHaveLength(1);
  });
});

describe('treatments', () => {
  test('route, amount, quarters, batch and remark go where the book has a place, and the rest is named', () => {
    const done = bring(
      dose('a', '101', {
        procedure: 'udder',
        dose: { doseQuantity: 1, doseUnits: 'XTU' },
        positions: [{ position: 'UdderRearLeft' }, { position: 'Neck' }],
        batches: [{ identifier: 'B-7', expiryDate: '2027-05-31T00:00:00Z' }],
        remark: 'clots\nin the milk',
        parlourUnit: 4,
      }),
    );
    expect(ofType('treatment')[0]?.data).toEqual({
      medicine: PENICILLIN,
      route: 'udder',
      amount: { value: 1, unit: 'tube' },
      quarters: ['left-hind'],
      batch: 'B-7',
      reason: 'clots in the milk',
    });
    expect(done.leftOut.map(({ field }) => field)).toEqual(['positions.position', 'batches.expiryDate', 'parlourUnit']);
  });

  test('R-14 a medicine that is not listed and states no withdrawal is not known, never zero', () => {
    bring([
      dose('a', '101', { medicine: { name: 'From the other shelf' } }),
      dose('b', '102', { medicine: { name: 'From the other shelf' }, withdrawals: [] }),
    ]);
    expect([until('101'), until('102')]).toEqual([null, null]);
    const beef = farm.print().sheets['beef-hold'].cows.filter((row) => ['101', '102'].includes(row.cow));
    expect(beef.map((row) => row.until)).toEqual([null, null]);
  });

  test('R-14 a stated end does not free her while the medicine is not listed and no vet is named, and it is said', () => {
    const withdrawals = [{ productType: 'Milk', endDate: '2026-03-06T07:00:00Z' }];
    const done = bring(dose('a', '101', { medicine: { name: 'From the other shelf' }, withdrawals }));
    expect(until('101')).toBeNull();
    expect(done.notes.join()).toMatch(
      /cow 101: milk withheld until 2026-03-06T07:00:00Z .* without end until the medicine is listed/,
    );
  });

  test('R-15 with a prescriber the stated end of a medicine that is not listed is the end', () => {
    const withdrawals = [
      { productType: 'Milk', endDate: '2026-03-06T07:00:00Z' },
      { productType: 'Meat', endDate: '2026-03-20T07:00:00Z' },
    ];
    bring(
      event('TreatmentProgram', 'p', '101', {
        responsible: 'Dr Okafor',
        treatments: [dose('a', '101', { medicine: { name: 'From the other shelf' }, withdrawals })],
      }),
    );
    expect(until('101')).toBe('2026-03-06T07:00:00Z');
    expect(farm.print().sheets['beef-hold'].cows.find((row) => row.cow === '101')?.until).toBe('2026-03-20T07:00:00Z');
  });

  test('R-15 a stated end lengthens the label’s and never shortens it', () => {
    const ends = (endDate: string) => [{ productType: 'Milk', endDate }];
    bring([
      dose('a', '101', { withdrawals: ends('2026-03-09T07:00:00Z') }),
      dose('b', '102', { withdrawals: ends('2026-03-05T07:00:00Z') }),
    ]);
    expect(until('101')).toBe('2026-03-09T07:00:00Z');
    // 60 hours by the label.
    expect(until('102')).toBe('2026-03-06T19:00:00Z');
    expect(ofType('treatment').map(({ data }) => data.milkHoldHours)).toEqual([120, undefined]);
  });

  test('R-14 a withdrawal that names no end holds without end', () => {
    bring(dose('a', '101', { withdrawals: [{ productType: 'Milk' }] }));
    expect(until('101')).toBeNull();
  });

  test('R-14 a dose whose medicine has no name holds without end, a procedure without a medicine does not', () => {
    const done = bring([
      event('Treatment', 'a', '101', { dose: { doseQuantity: 10, doseUnits: 'MLT' } }),
      event('Treatment', 'b', '102', { procedure: 'hoof trimming' }),
    ]);
    expect(held()).toEqual(['101']);
    expect(done.notUsed[0]?.why).toMatch(/hoof trimming.*without a medicine/);
  });

  test('R-17 a planned course is no dose given', () => {
    const plan = {
      planOrActual: 'Plan',
      startDate: '2026-03-04T17:00:00Z',
      endDate: '2026-03-05T17:00:00Z',
      numberOfTreatments: 3,
      treatmentInterval: 12,
      medicine: { name: PENICILLIN },
    };
    const done = bring(event('TreatmentProgram', 'p', '101', { courses: [plan] }));
    expect(done).toMatchObject({ recorded: 0, refused: [] });
    expect(done.notes.join()).toMatch(/planned course with no dose given/);
    expect(held()).toEqual([]);
  });

  test('R-17 doses given of a planned course hold her through the doses still to come', () => {
    const plan = {
      planOrActual: 'Plan',
      startDate: '2026-03-04T07:00:00Z',
      numberOfTreatments: 3,
      treatmentInterval: 12,
      medicine: { name: PENICILLIN },
    };
    bring(
      event('TreatmentProgram', 'p', '101', {
        diagnoses: [{ name: 'mastitis' }],
        courses: [plan],
        treatments: [dose('a', '101')],
      }),
    );
    expect(ofType('treatment')[0]?.data).toMatchObject({
      reason: 'mastitis',
      course: { dose: 1, of: 3, everyHours: 12 },
    });
    // The last planned dose is at 07:00 on the 5th.
    expect(until('101')).toBe('2026-03-07T19:00:00Z');
  });

  test('an actual course without its doses is one at its end', () => {
    const course = {
      planOrActual: 'Actual',
      startDate: '2026-03-02T07:00:00Z',
      endDate: '2026-03-04T07:00:00Z',
      medicine: { name: CEPHAPIRIN },
    };
    bring(event('TreatmentProgram', 'p', '101', { courses: [course] }));
    expect(until('101')).toBe('2026-03-08T07:00:00Z');
  });

  test('R-27 a course that does not say whether it was given is set aside and holds her', () => {
    const done = bring(event('TreatmentProgram', 'p', '101', { courses: [{ medicine: { name: CEPHAPIRIN } }] }));
    expect(done.refused[0]).toMatchObject({
      cows: ['101'],
      problem: expect.stringMatching(/whether it is a plan or was given/),
    });
    expect(held()).toEqual(['101']);
  });

  test('R-27 a program whose list of doses cannot be read is set aside and holds her', () => {
    const done = bring(event('TreatmentProgram', 'p', '101', { treatments: ['dose 1', dose('a', '101')] }));
    expect(done.refused[0]).toMatchObject({
      cows: ['101'],
      problem: expect.stringMatching(/its treatments cannot be read/),
    });
  });

  test('a dose whose own meta cannot be used falls back on its program’s', () => {
    const nested = { ...dose('a', '101'), meta: { source: SOURCE, sourceId: 'a' } };
    expect(bring(event('TreatmentProgram', 'p', '101', { treatments: [nested] }))).toMatchObject({
      recorded: 1,
      refused: [],
    });
    expect(held()).toEqual(['101']);
  });

  test('a program’s doses without meta of their own are the program’s, and the same file adds nothing', () => {
    const { meta: _, ...bare } = dose('a', '101');
    const program = event('TreatmentProgram', 'p', '101', {
      treatments: [bare, { ...bare, eventDateTime: '2026-03-04T09:00:00Z' }],
    });
    expect(bring(program)).toMatchObject({ recorded: 2, refused: [] });
    expect(ofType('treatment').map(({ at, data }) => [new Date(at).getUTCHours(), data.medicine])).toEqual([
      [7, PENICILLIN],
      [9, PENICILLIN],
    ]);
    expect(bring(program)).toMatchObject({ recorded: 0, alreadyKnown: 2 });
  });
});

describe('groups of animals', () => {
  const group = (fields: Record<string, unknown>) => ({
    resourceType: 'icarGroupTreatmentEventResource',
    meta: meta('g'),
    id: 'g',
    eventDateTime: '2026-03-04T07:00:00Z',
    medicine: { name: PENICILLIN },
    ...fields,
  });

  test('a group event that names its animals is an event of each', () => {
    bring(
      group({
        groupMethod: 'EmbeddedAnimalSet',
        embeddedAnimalSet: { id: 's', member: [animal('101'), animal('103')] },
        dosePerAnimal: { doseQuantity: 20, doseUnits: 'MLT' },
      }),
    );
    expect(ofType('treatment').map(({ subject, data }) => [subject, data.amount])).toEqual([
      ['101', { value: 20, unit: 'ml' }],
      ['103', { value: 20, unit: 'ml' }],
    ]);
  });

  test('R-27 a group event that names no animals holds every cow of the group until it is settled', () => {
    farm.say('group-move', '2026-03-04T09:00:00Z', '106', { to: 'Fresh' });
    farm.say('group-move', '2026-03-03T09:00:00Z', '105', { to: 'Fresh' });
    const done = bring(
      group({
        groupMethod: 'ExistingAnimalSet',
        animalSetReference: { identifier: { id: 'milkers', scheme: 'example.sets' } },
      }),
    );
    // 105 had left the group by then; 106 was still in it.
    expect(done.refused[0]?.cows).toEqual(['101', '102', '103', '104', '106']);
    expect(held()).toEqual(['101', '102', '103', '104', '106']);
    farm.say('settled', '2026-03-04T10:00:00Z', undefined, { about: done.refused[0]?.key, how: 'it was a footbath' });
    expect(held()).toEqual([]);
  });

  test('R-27 a group event that counts more animals than it names holds the group too', () => {
    const set = { id: 'Milkers', name: 'Milkers', member: [animal('101')] };
    const done = bring(group({ groupMethod: 'EmbeddedAnimalSet', countObserved: 3, embeddedAnimalSet: set }));
    expect(done.recorded).toBe(1);
    expect(done.refused[0]).toMatchObject({
      cows: ['101', '102', '103', '104', '105', '106'],
      problem: expect.stringMatching(/3 animals and names 1/),
    });
  });

  test('R-27 a group that nobody knows stands at the head of the sheet', () => {
    bring(
      group({
        groupMethod: 'InventoryClassification',
        inventoryClassification: { name: 'the lame ones', species: 'Cattle' },
      }),
    );
    expect(farm.print().sheets['milk-hold'].unplaced).toHaveLength(1);
  });
});

describe('animals that come and go', () => {
  const arrival = (sourceId: string, fields: Record<string, unknown> = {}) =>
    event('MovementArrival', sourceId, '372000000000501', {
      animal: { id: '372000000000501', scheme: 'example.official' },
      animalDetail: {
        resourceType: 'icarAnimalCoreResource',
        identifier: { id: '372000000000501', scheme: 'example.official' },
        specie: 'Cattle',
        gender: 'Female',
        managementTag: '501',
        birthDate: '2022-04-01T00:00:00Z',
      },
      ...fields,
    });

  test('R-28 an arrival enters her with what happened before it, and holds that are not stated are not known', () => {
    const before = {
      eventDateTime: '2026-01-05T10:00:00Z',
      animal: { id: '372000000000501', scheme: 'example.official' },
    };
    const done = bring([
      arrival('a', { consignment: { originAddress: 'a farm in the next valley' } }),
      event('ReproParturition', 'b', '', { ...before, damParity: 3, progenyDetails: [] }),
      event('AnimalSetJoin', 'c', '', { animal: before.animal, animalSetId: 'Milkers' }),
      dose('d', '501', { eventDateTime: '2026-03-04T08:00:00Z' }),
    ]);
    expect(done).toMatchObject({ recorded: 2, refused: [] });
    expect(ofType('cow-entered').at(-1)).toMatchObject({
      subject: '501',
      data: {
        group: 'Milkers',
        lactation: 3,
        calvedOn: '2026-01-05',
        officialId: '372000000000501',
        born: '2022-04-01',
        from: 'a farm in the next valley',
      },
    });
    expect(until('501')).toBeNull();
  });

  test('a cow of whom the file says no group is refused by name, or goes where --group says', () => {
    const done = bring(arrival('a'));
    expect(done.refused[0]?.problem).toMatch(/nothing says which group cow 501 went to; import again with --group/);
    expect(bring(arrival('a'), { group: 'Dry' })).toMatchObject({ recorded: 1 });
  });

  test('a cow that is in the herd already does not come in a second time', () => {
    const detail = {
      resourceType: 'icarAnimalCoreResource',
      identifier: animal('101'),
      specie: 'Cattle',
      gender: 'Female',
      managementTag: '101',
    };
    const done = bring(event('MovementArrival', 'a', '101', { animalDetail: detail }), { group: 'Milkers' });
    expect(done).toMatchObject({
      recorded: 0,
      notUsed: [{ why: expect.stringMatching(/101 is in the herd already/) }],
    });
  });

  test('animals listed in a set of the farm come in without an arrival; others are named and left out', () => {
    const core = (id: string, more: Record<string, unknown> = {}) => ({
      resourceType: 'icarAnimalCoreResource',
      meta: meta(`core-${id}`),
      identifier: animal(id),
      specie: 'Cattle',
      gender: 'Female',
      ...more,
    });
    const set = {
      resourceType: 'icarAnimalSetResource',
      meta: meta('set'),
      id: 's1',
      name: 'milkers',
      member: [animal('HB-501-LONG-NAME')],
    };
    const lactation = {
      resourceType: 'icarLactationResource',
      meta: meta('l'),
      id: 'l',
      animal: animal('HB-501-LONG-NAME'),
      parity: 2,
      beginDate: '2025-12-01T00:00:00Z',
    };
    const done = bring([
      core('HB-501-LONG-NAME', { managementTag: '501' }),
      core('900'),
      set,
      lactation,
      dose('d', 'HB-501-LONG-NAME'),
    ]);
    expect(done).toMatchObject({ recorded: 2, refused: [] });
    expect(ofType('cow-entered').at(-1)).toMatchObject({ subject: '501', data: { group: 'Milkers' } });
    expect(ofType('treatment')[0]?.subject).toBe('501');
  });

  test('departures and deaths are leavings; a kind without a word of its own is "other", and said', () => {
    const done = bring([
      event('MovementDeparture', 'a', '101', { departureKind: 'Slaughter' }),
      event('MovementDeparture', 'b', '102', {
        departureKind: 'Sale',
        departureReason: 'Sale',
        consignment: { destinationPostalAddress: { streetAddress: 'Hill farm' } },
      }),
      event('MovementDeparture', 'c', '103', { departureKind: 'Agistment' }),
      event('MovementDeath', 'd', '104', { deathReason: 'Age' }),
    ]);
    expect(ofType('cow-left').map(({ subject, data }) => [subject, data.reason, data.to])).toEqual([
      ['101', 'sold-for-beef', undefined],
      ['102', 'sold-for-milking', 'Hill farm'],
      ['103', 'other', undefined],
      ['104', 'died', undefined],
    ]);
    expect(done.notes).toEqual([expect.stringMatching(/"Agistment", recorded as "other"/)]);
    expect(done.leftOut).toEqual([expect.objectContaining({ field: 'deathReason', value: 'Age' })]);
  });

  test('an animal under a new management tag has a new number from then on', () => {
    bring({
      resourceType: 'icarAnimalCoreResource',
      meta: meta('a', { validFrom: '2026-03-03T10:00:00Z' }),
      identifier: animal('101'),
      specie: 'Cattle',
      gender: 'Female',
      managementTag: '1101',
    });
    // The identifier is her number before, the tag her number now.
    bring(dose('b', '1101'));
    expect(held()).toEqual(['1101']);
  });
});

describe('calving, breeding, drying off', () => {
  test('R-20 a calving holds fresh milk, with or without calves described', () => {
    bring([
      event('ReproParturition', 'a', '101', {
        totalProgeny: 2,
        calvingEase: 'EasyAssisted',
        progenyDetails: [
          { specie: 'Cattle', gender: 'Female', managementTag: 'C-9', birthStatus: 'Alive' },
          { specie: 'Cattle', gender: 'Male', birthStatus: 'Stillborn' },
        ],
      }),
      event('ReproParturition', 'b', '102', { liveProgeny: 1 }),
    ]);
    expect(ofType('calving').map(({ data }) => data)).toEqual([
      {
        calves: [
          { sex: 'female', alive: true, number: 'C-9' },
          { sex: 'male', alive: false },
        ],
        ease: 2,
      },
      { calves: [] },
    ]);
    expect(held()).toEqual(['101', '102']);
  });

  test('R-27 the birth of a calf whose dam has no calving holds the dam', () => {
    const birth = (id: string, dam: string) =>
      event('MovementBirth', id, `C-${id}`, {
        location: animal('farm'),
        animalDetail: {
          identifier: animal(`C-${id}`),
          specie: 'Cattle',
          gender: 'Female',
          parentage: [{ parentOf: animal(`C-${id}`), gender: 'Female', identifier: animal(dam) }],
        },
      });
    const done = bring([
      birth('1', '101'),
      birth('2', '102'),
      event('ReproParturition', 'p', '102'),
      birth('3', '999'),
    ]);
    expect(done.refused.map(({ cows }) => cows)).toEqual([['101']]);
  });

  test('R-42 the age of the foetus gives the service; a service of the file within ten days is the better date', () => {
    bring([
      event('ReproInsemination', 'a', '101', {
        eventDateTime: '2026-01-08T10:00:00Z',
        inseminationType: 'RunWithBull',
        sireOfficialName: 'Alder 7',
      }),
      event('ReproPregnancyCheck', 'b', '101', { result: 'Pregnant', foetalAge: 50, foetusCount: 2 }),
      event('ReproPregnancyCheck', 'c', '102', { result: 'Pregnant', foetalAge: 50 }),
      event('ReproPregnancyCheck', 'd', '103', { result: 'Perhaps' }),
    ]);
    expect(ofType('service')[0]?.data).toEqual({ how: 'natural', sire: 'Alder 7' });
    expect(ofType('pregnancy-check').map(({ data }) => data)).toEqual([
      { result: 'twins', servedOn: '2026-01-08' },
      { result: 'pregnant', servedOn: '2026-01-13' },
      { result: 'unsure' },
    ]);
  });

  test('R-07 an abortion with a lactation seen at the same time begins one', () => {
    bring([
      event('ReproAbortion', 'a', '101'),
      event('LactationStatusObserved', 'b', '101', { observedStatus: 'Fresh' }),
      event('ReproAbortion', 'c', '102'),
    ]);
    expect(ofType('abortion').map(({ data }) => data)).toEqual([{ milked: true }, {}]);
  });

  test('R-19 a dry-off alone states no product', () => {
    bring(event('MilkingDryOff', 'a', '101'));
    expect(ofType('dry-off')[0]?.data).toEqual({});
  });
});

describe('withdrawals and visits', () => {
  const withdrawal = (sourceId: string, cow: string, fields: Record<string, unknown>) =>
    event('Withdrawal', sourceId, cow, { productType: 'Milk', ...fields });

  test('R-21 milk withheld is a hold, lifted at its end once that has passed, also by the same file read later', () => {
    const document = [
      withdrawal('a', '101', {}),
      withdrawal('b', '102', { endDateTime: '2026-03-04T09:00:00Z' }),
      withdrawal('c', '103', { endDateTime: '2026-03-05T09:00:00Z' }),
    ];
    const done = bring(document);
    expect(held()).toEqual(['101', '103']);
    expect(done.notes.join()).toMatch(/withheld until 2026-03-05T09:00:00Z; the hold stays until it is lifted/);
    farm.at('2026-03-05T12:00:00Z');
    expect(bring(document)).toMatchObject({ recorded: 1, refused: [] });
    expect(held()).toEqual(['101']);
  });

  test('R-27 meat withheld for no treatment is set aside while it runs', () => {
    const done = bring([
      withdrawal('a', '101', { productType: 'Meat', endDateTime: '2026-03-20T09:00:00Z' }),
      withdrawal('b', '102', { productType: 'Meat', endDateTime: '2026-03-04T09:00:00Z' }),
    ]);
    expect(done.refused.map(({ cows }) => cows)).toEqual([['101']]);
    expect(farm.print().sheets['beef-hold'].cows.map((row) => row.cow)).toEqual(['101']);
  });

  test('R-81 a visit is the milk record of the milking that it began in', () => {
    bring(
      event('MilkingVisit', 'a', '101', {
        milkingStartingDateTime: '2026-03-04T06:20:00Z',
        milkingDuration: { unitCode: 'SEC', value: 390 },
        milkingMilkWeight: { unitCode: 'KGM', value: 17.4 },
        milkCharacteristics: [
          { characteristic: 'MAXFLWR', value: '3.9' },
          { characteristic: 'SCC', value: '120' },
        ],
      }),
    );
    expect(ofType('milk-record')[0]?.data).toEqual({
      milking: '2026-03-04/morning',
      kg: 17.4,
      minutes: 6.5,
      peakFlow: 3.9,
    });
  });
});
