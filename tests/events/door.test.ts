/** The door: what people and devices write is taken whole, or turned away with a sentence that says what to do. */
import { describe, expect, test } from 'vitest';
import { readLine, readValue, type TurnedAway } from '../../events/door.ts';
import { ENTRY_TYPES, KINDS } from '../../events/kinds.ts';
import { readStored } from '../../events/stored.ts';
import { DOOR, line, newBook, passed, said, turnedAway } from './a-book.ts';

const TIME = '2026-03-14T16:40:00Z';
const DOSE = { type: 'treatment', subject: '412', time: TIME, data: { medicine: 'Penicillin G procaine, udder' } };
const SET_UP = { type: 'farm-set-up', time: TIME, data: KINDS['farm-set-up'].example };
const LISTED = { name: 'Penicillin G procaine, udder', milkHold: { hours: 60 }, meatDays: 3 };
const json = (...parts: readonly object[]): string => JSON.stringify(Object.assign({}, ...parts));
const dosed = (data: object): string => json(DOSE, { data });

const problemIn = (text: string): string => {
  const read = line(text);
  return read.outcome === 'refused' ? read.problem : '';
};

describe('what is turned away, why, and at which field', () => {
  test('a field that is missing because it is misspelt is said once, and what else is missing is named', () => {
    expect(problemIn(dosed({ medicin: 'x' }))).toBe(
      '"data" has a field "medicin" that is not known there; did you mean "medicine"?',
    );
    expect(problemIn(json({ type: 'medicine-received', time: TIME, data: { medicin: 'x' } }))).toBe(
      '"data" has a field "medicin" that is not known there; did you mean "medicine"? "data.quantity" is missing',
    );
    expect(problemIn(json({ type: 'farm-set-up', time: TIME, data: {} }))).toBe(
      '"data.name" is missing; "data.timeZone" is missing; "data.milkings" is missing (and 2 more)',
    );
  });

  test('of one field one thing is said', () => {
    expect(problemIn(dosed({ medicine: '' }))).toBe('"data.medicine" must not be empty');
  });

  test.each<[string, string, string, string | undefined]>([
    ['an unreadable line', '{"type":"treatment"', 'not readable JSON', undefined],
    ['a field said twice', '{"type":"treatment","type":"calving"}', '"type" is said twice', undefined],
    [
      'a number that cannot be kept',
      dosed({ medicine: 'x', milkHoldHours: 77 }).replace('77', '60.00000000000000000001'),
      'cannot be kept exactly',
      undefined,
    ],
    [
      'a misspelt field of the data',
      dosed({ medicin: 'x' }),
      '"medicin" that is not known there; did you mean "medicine"?',
      '/data/medicin',
    ],
    ['a misspelt field of the entry', json(DOSE, { sbject: '412' }), 'did you mean "subject"?', '/sbject'],
    [
      'a field that nothing is like',
      dosed({ medicine: 'x', weather: 'fine' }),
      '"weather" that is not known there; take it out, or use one of "medicine", ',
      '/data/weather',
    ],
    [
      'a field that another kind has',
      json({ type: 'settled', time: TIME, data: { key: 'unplaced:1', how: 'found' } }),
      '"data" has a field "key" that is not known there; take it out, or use one of "about", "how"; "data.about" is missing',
      '/data/key',
    ],
    [
      'a field of another kind, by its right name',
      json({ type: 'sort-done', subject: '412', time: TIME, data: { medicine: 'x' } }),
      '"medicine" that is not known there; take it out, or use one of "request"; "data.request" is missing',
      '/data/medicine',
    ],
    [
      'a misspelt field deep within',
      json(SET_UP, { data: { ...SET_UP.data, groups: [{ name: 'Cows', knd: 'milking' }] } }),
      '"data.groups[0]" has a field "knd" that is not known there; did you mean "kind"?',
      '/data/groups/0/knd',
    ],
    [
      'a strange field in one of two shapes',
      json({ type: 'farm-set-up', time: TIME, data: { ...SET_UP.data, milkTo: { ill: 'bucket' } } }),
      'use one of "treated", "fresh", "abnormal"',
      '/data/milkTo/ill',
    ],
    [
      'several fields that are wrong',
      json({ type: 'medicine-received', time: TIME, data: { kilos: 3, weather: 'fine', batch: '', proof: '' } }),
      '"kilos" that is not known there; take it out, or use one of "medicine", "quantity", "batch", "expires", "supplier", "supplierAddress", "proof"; "data" has a field "weather" that is not known there; take it out, or use one of',
      '/data/kilos',
    ],
    [
      'a position given by the writer',
      json(DOSE, { sequence: '0000000001' }),
      'leave it out, the book gives it itself',
      '/sequence',
    ],
    [
      'a recorded time given by the writer',
      json(DOSE, { recordedtime: TIME }),
      'leave it out, the book gives it itself',
      '/recordedtime',
    ],
    ['data without a required field', dosed({}), '"data.medicine" is missing', '/data/medicine'],
    ['an entry without a time', json({ ...DOSE, time: undefined }), '"time" is missing', '/time'],
    ['an entry without data', json({ ...DOSE, data: undefined }), '"data" is missing', '/data'],
    ['an entry without a kind', json({ ...DOSE, type: undefined }), '"type" is missing', '/type'],
    ['a treatment of no cow', json({ ...DOSE, subject: undefined }), '"subject" is missing', '/subject'],
    ['a farm-wide entry about a cow', json(SET_UP, { subject: '412' }), 'leave "subject" out', '/subject'],
    ['a kind that is not known', json(DOSE, { type: 'treatmint' }), '"treatmint" is not a kind of entry', '/type'],
    ['a kind by the name of a built-in', json(DOSE, { type: 'constructor' }), 'is not a kind of entry', '/type'],
    [
      'a kind that the book alone writes',
      json({ type: 'sheet-issued', time: TIME, data: KINDS['sheet-issued'].example }),
      'written by the book alone',
      '/type',
    ],
    ['a date that does not exist', json(DOSE, { time: '2026-02-30T10:00:00Z' }), 'not a date that exists', '/time'],
    [
      '29 February of an ordinary year',
      json(DOSE, { time: '2026-02-29T10:00:00Z' }),
      'not a date that exists',
      '/time',
    ],
    ['a time without its zone', json(DOSE, { time: '2026-03-14T16:40:00' }), 'end it with Z or an offset', '/time'],
    [
      'a time finer than milliseconds',
      json(DOSE, { time: '2026-03-14T16:40:00.0001Z' }),
      'finer than milliseconds',
      '/time',
    ],
    [
      'a time of day that does not exist',
      json(DOSE, { time: '2026-03-14T24:00:00Z' }),
      'not a time that exists',
      '/time',
    ],
    ['a date alone', json(DOSE, { time: '2026-03-14' }), 'is not a time', '/time'],
    [
      'a time more than five minutes ahead',
      json(DOSE, { time: '2026-03-14T18:05:00.001Z' }),
      'more than 5 minutes ahead',
      '/time',
    ],
    [
      'a time zone that does not exist',
      json(SET_UP, { data: { ...SET_UP.data, timeZone: 'Europe/Dubln' } }),
      '"Europe/Dubln" is not a time zone',
      '/data/timeZone',
    ],
    ['negative hours', dosed({ medicine: 'x', milkHoldHours: -1 }), 'must not be negative', '/data/milkHoldHours'],
    ['negative days', dosed({ medicine: 'x', meatHoldDays: -1 }), 'must not be negative', '/data/meatHoldDays'],
    [
      'an empty hold',
      json(DOSE, { type: 'medicine-listed', subject: undefined, data: { ...LISTED, milkHold: {} } }),
      'is empty; give hours, milkings or both',
      '/data/milkHold',
    ],
    [
      'a hold of no hours',
      json(DOSE, { type: 'medicine-listed', subject: undefined, data: { ...LISTED, milkHold: { hours: 0 } } }),
      'no hold is written "none"',
      '/data/milkHold/hours',
    ],
    ['a cow number that is a number', json(DOSE, { subject: 412 }), 'must be text in quotes', '/subject'],
    ['a cow number too long', json(DOSE, { subject: '12345678901' }), 'must be a barn number', '/subject'],
    ['a cow number with spaces around', json(DOSE, { subject: ' 412 ' }), 'must be a barn number', '/subject'],
    ['an empty id', json(DOSE, { id: '' }), 'must not be empty', '/id'],
    [
      'control characters',
      json(DOSE, { author: 'Mar\u0007ta' }),
      'has control or text-direction characters',
      '/author',
    ],
    ['a line break', dosed({ medicine: 'x\ny' }), 'has control or text-direction characters', '/data/medicine'],
    [
      'text that would run backwards',
      dosed({ medicine: 'x\u202ey' }),
      'has control or text-direction characters',
      '/data/medicine',
    ],
    ['half a character', json(DOSE, { id: 'x', author: '\ud800' }), 'has a broken character', '/author'],
    ['half a character in an entry without an id', dosed({ medicine: '\ud800' }), 'has a broken character', undefined],
    [
      'a field that would vanish',
      dosed({ medicine: 'x' }).replace('"medicine"', '"__proto__":{"a":1},"medicine"'),
      '"__proto__"',
      undefined,
    ],
    [
      'a field that would vanish, in escapes',
      dosed({ medicine: 'x' }).replace('"medicine"', '"\\u005f_proto__":{},"medicine"'),
      '"__proto__"',
      undefined,
    ],
    ['data that is a list', json(DOSE, { data: [] }), '"data" must be an object in braces', '/data'],
    ['a list where one value belongs', dosed({ medicine: ['x'] }), 'must be text in quotes', '/data/medicine'],
    [
      'one value where a list belongs',
      dosed({ medicine: 'x', quarters: 'left-front' }),
      'must be a list in square brackets',
      '/data/quarters',
    ],
    [
      'one of a list that is not known',
      dosed({ medicine: 'x', quarters: ['left-frnt'] }),
      'must be one of "left-front"',
      '/data/quarters/0',
    ],
    [
      'a word where yes or no belongs',
      dosed({ medicine: 'x', offLabel: 'yes' }),
      'must be true or false',
      '/data/offLabel',
    ],
    [
      'half a dose in a course',
      dosed({ medicine: 'x', course: { id: 'c', dose: 1.5, of: 3, everyHours: 12 } }),
      'must be a whole number',
      '/data/course/dose',
    ],
    [
      'a group milked at a milking that the farm does not have',
      json(SET_UP, { data: { ...SET_UP.data, groups: [{ name: 'A', kind: 'milking', milkedAt: ['noon'] }] } }),
      '"noon", which is not one of the milkings',
      '/data/groups/0/milkedAt',
    ],
    ['endless nesting', `{"data":${'['.repeat(20_000)}`, 'nested too deeply', undefined],
    ['another version of the envelope', json(DOSE, { specversion: '0.3' }), 'must be "1.0"', '/specversion'],
    [
      'a residue test of a cow that names none',
      json({ type: 'residue-test', time: TIME, data: { result: 'clear', of: 'cow' } }),
      'names her in "subject"',
      '/subject',
    ],
    ['a line that is a list', JSON.stringify([DOSE]), 'it is not an entry', undefined],
    ['a line that is a text', '"412"', 'it is not an entry', undefined],
    ['a line that is nothing', 'null', 'it is not an entry', undefined],
    ['an empty line', '', 'not readable JSON', undefined],
    [
      'a line of more than 65,536 characters',
      dosed({ medicine: 'x'.repeat(70_000) }),
      'characters long; an entry has 65536 at most',
      undefined,
    ],
  ])('%s', (_, text, problem, pointer) => {
    const away = turnedAway(text);
    expect(away.problem).toContain(problem);
    expect(away.pointer).toBe(pointer);
    expect(away.text).toBe(text);
    expect(away.problem).not.toMatch(/\n|at .*:\d+:\d+/);
  });
});

describe('R-27 the cows a refused line may concern', () => {
  test.each<[string, string, readonly string[]]>([
    ['its subject', json(DOSE, { data: {} }), ['412']],
    ['its subject written as a number', json(DOSE, { subject: 412 }), ['412']],
    ['its subject with spaces around', json(DOSE, { subject: ' 412 ' }), ['412']],
    ['an official number', json(DOSE, { subject: '372 123456789012', data: {} }), ['372 123456789012']],
    ['a subject in text that cannot be read', '{"subject": "412", "data":', ['412']],
    ['a bare number in text that cannot be read', '{"subject":412, "data":', ['412']],
    ['two subjects said at once', '{"subject":"412","subject":"413"}', ['412', '413']],
    ['the subject of a line too long', json(DOSE, { note: 'x'.repeat(70_000) }), ['412']],
    ['none, where there is none to read', '{"type":', []],
    ['none, where the subject is no cow number', json(DOSE, { subject: 'the red one' }), []],
  ])('are %s', (_, text, cows) => {
    expect(turnedAway(text).cows).toEqual(cows);
  });

  test('are all cows of a list on one line', () => {
    expect(turnedAway(JSON.stringify([DOSE, { ...DOSE, subject: '413' }])).cows).toEqual(['412', '413']);
  });

  test('are found through the entries it names', () => {
    const away = said({ type: 'entry-struck', data: { entry: 'a', instead: 'b', reason: '' } }) as TurnedAway;
    expect(away.mentions).toEqual(['a', 'b']);
  });
});

describe('what passes', () => {
  test.each(ENTRY_TYPES.filter((type) => !('bookOnly' in KINDS[type])))(
    'the example of %s, stored and read back unchanged',
    (type) => {
      const { subject, example } = KINDS[type];
      const cow = subject === 'cow' || type === 'residue-test' ? { subject: '412' } : {};
      const arrival = passed({ type, data: example, ...cow });
      const book = newBook();
      book.record([arrival]);
      const [row] = book.rows(0, 1);
      const read = row && readStored(row);
      expect(read).toMatchObject({
        ok: true,
        entry: { type, data: example, ...cow, author: 'Marta', source: 'office' },
      });
    },
  );

  test('"007" and "7" are two cows, and both stay text', () => {
    expect(passed({ ...DOSE, subject: '007' }).said.subject).toBe('007');
    expect(passed({ ...DOSE, subject: '7' }).said.subject).toBe('7');
  });

  test('a time exactly five minutes ahead, as clocks differ', () => {
    expect(passed({ ...DOSE, time: '2026-03-14T18:05:00Z' }).at).toBe(DOOR.now + 300_000);
  });

  test('a time with an offset, kept as it was written', () => {
    const arrival = passed({ ...DOSE, time: '2026-03-14T17:40:00+01:00' });
    expect(arrival.said.time).toBe('2026-03-14T17:40:00+01:00');
    expect(arrival.at).toBe(passed(DOSE).at);
  });

  test('letters of every language, and signs joined from several', () => {
    expect(passed({ ...DOSE, author: 'Łucja Žižková 👩‍🌾' }).said.author).toBe('Łucja Žižková 👩‍🌾');
  });

  test('a line says more than is filled in: its own source and author stand', () => {
    const arrival = passed({ ...DOSE, source: 'parlour', author: 'Jonas', id: 'x' });
    expect(arrival).toMatchObject({ derivedId: false, said: { source: 'parlour', author: 'Jonas', id: 'x' } });
    expect(passed(DOSE)).toMatchObject({
      derivedId: true,
      said: { source: 'office', author: 'Marta', specversion: '1.0' },
    });
  });

  test('the id of a line without one comes from its source and content alone', () => {
    const id = passed(DOSE).said.id;
    expect(line(` ${json({ data: DOSE.data, time: TIME }, DOSE)} `)).toMatchObject({ said: { id } });
    expect(passed({ ...DOSE, author: 'Jonas' }).said.id).toBe(id);
    expect(passed({ ...DOSE, source: 'parlour' }).said.id).not.toBe(id);
    expect(passed({ ...DOSE, subject: '413' }).said.id).not.toBe(id);
  });

  test('the content type that CloudEvents allows for JSON, which is not kept', () => {
    const arrival = passed({ ...DOSE, datacontenttype: 'application/json' });
    expect(arrival.said).not.toHaveProperty('datacontenttype');
    expect(arrival.content).toBe(passed({ ...DOSE, id: arrival.said.id }).content);
  });

  test('a value is read at the door as its line would be', () => {
    expect(readValue(DOSE, DOOR)).toEqual(readLine(JSON.stringify(DOSE), DOOR));
    expect(readValue(JSON.parse('{"__proto__":1}'), DOOR)).toMatchObject({ outcome: 'refused' });
  });
});
