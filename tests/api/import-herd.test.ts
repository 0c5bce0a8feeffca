import { describe, expect, test } from 'vitest';
import { againstHerd } from '../../api/import-herd/against-herd.ts';
import { type HerdImportOptions, herdEntryId, readHerdFile } from '../../api/import-herd/import-herd.ts';
import { readLine, readValue } from '../../events/door.ts';
import { know } from '../../projections/know.ts';
import { type Instant, parseInstant } from '../../shared/instant.ts';
import { mustBe } from '../../shared/refusal.ts';
import { milker } from '../projections/evening.ts';
import { entriesOf } from '../published/paper-farm.ts';

const at = (text: string): Instant => mustBe(parseInstant(text));

const DUBLIN: HerdImportOptions = {
  asOf: at('2026-03-14T00:00:00Z'),
  zone: 'Europe/Dublin',
  groups: [
    { name: 'Heifers', kind: 'milking' },
    { name: 'Cows', kind: 'milking' },
    { name: 'Dry', kind: 'dry' },
  ],
  source: 'office',
  author: 'Marta',
};

const read = (text: string, more: Partial<HerdImportOptions> = {}) =>
  readHerdFile(new TextEncoder().encode(text), { ...DUBLIN, ...more });

const cows = (text: string, more: Partial<HerdImportOptions> = {}) => {
  const result = read(text, more);
  expect(result.problem).toBeUndefined();
  return Object.fromEntries(result.entries.map(({ value }) => [value.subject, value.data]));
};

const NONE = { milkHoldUntil: 'none', meatHoldUntil: 'none' };

describe('headings', () => {
  test('headings are matched by meaning, in any order, and the mapping says which was taken for what', () => {
    const result = read(
      'Calving date,Parity,Pen,Ear tag,Date of birth (ISO),Bred,Yield,Due to calve,Dried off,Dry-cow product,EID,Milk hold until,Meat withdrawal,Bought from\n' +
        '2026-01-20,3,Cows,412,2021-02-03,2025-04-01,38,2026-12-01,2025-11-20,none,999 000 000 000 412,none,none,Anvil Farm\n',
    );
    expect(result.mapping.map(({ field }) => field)).toEqual([
      'calvedOn',
      'lactation',
      'group',
      'number',
      'born',
      'servedOn',
      null,
      'dueOn',
      'driedOffOn',
      'driedOffWith',
      'officialId',
      'milkHoldUntil',
      'meatHoldUntil',
      'from',
    ]);
    expect(result.entries[0]?.value).toMatchObject({
      type: 'cow-entered',
      subject: '412',
      time: '2026-03-14T00:00:00Z',
      source: 'office',
      author: 'Marta',
      data: {
        group: 'Cows',
        officialId: '999000000000412',
        born: '2021-02-03',
        lactation: 3,
        calvedOn: '2026-01-20',
        servedOn: '2025-04-01',
        dueOn: '2026-12-01',
        driedOffOn: '2025-11-20',
        driedOffWith: 'none',
        ...NONE,
        from: 'Anvil Farm',
      },
    });
  });

  test.each([
    ['COW NO.', 'number'],
    ['Cow #', 'number'],
    ['Lact. No', 'lactation'],
    ['Fresh Date', 'calvedOn'],
    ['Last calving date', 'calvedOn'],
    ['Calving due date', 'dueOn'],
    ['Date served', 'servedOn'],
    ['Dry-off date', 'driedOffOn'],
    ['Official number', 'officialId'],
    ['DOB', 'born'],
  ])('the heading "%s" is the field %s', (heading, field) => {
    const others = ['Number', 'Group', 'Lactation', 'Milk hold'].filter(
      (each) => !(each === 'Number' && field === 'number') && !(each === 'Lactation' && field === 'lactation'),
    );
    const result = read(`${[heading, ...others].join(',')}\n${[heading, ...others].map(() => 'x').join(',')}\n`);
    expect(result.problem).toBeUndefined();
    expect(result.mapping[0]).toEqual({ heading, field });
  });

  test('two headings for one field are refused with the way to say which is meant', () => {
    const list = 'Cow,Ear tag,Group,Lactation\n12,412,Cows,2\n';
    expect(read(list, { holds: 'none' }).problem).toBe(
      'Columns 1 and 2, "Cow" and "Ear tag", both read as the cow\'s number; say which is meant with --map number="Cow" or --map number="Ear tag"',
    );
    expect(Object.keys(cows(list, { holds: 'none', map: { number: 'ear tag' } }))).toEqual(['412']);
    expect(read('Cow,Cow,Group,Lactation\n1,2,Cows,2\n', { holds: 'none' }).problem).toContain(
      'give one of them another heading in the file',
    );
  });

  test("--map takes a heading nobody could guess, by the field's name or a word for it", () => {
    const list = 'Naam,Group,Lactation,Datum\n412,Cows,2,2026-01-02\n';
    expect(cows(list, { holds: 'none', map: { number: 'Naam', calved: 'Datum' } })).toEqual({
      412: { group: 'Cows', lactation: 2, calvedOn: '2026-01-02', ...NONE },
    });
  });

  test('--map with an empty heading leaves the field out', () => {
    const list = 'Cow,Group,Lactation,Due\n412,Cows,2,soon\n';
    expect(read(list, { holds: 'none' }).refusals).toHaveLength(1);
    expect(cows(list, { holds: 'none', map: { due: '' } })).toEqual({ 412: { group: 'Cows', lactation: 2, ...NONE } });
  });

  test.each([
    [
      { number: 'Tagg' },
      '--map number=Tagg: "Tagg" is not a heading of the file; the headings are "Tag", "Group", "Lactation". Did you mean "Tag"?',
    ],
    [{ colour: 'Tag' }, '"colour" is not a field of a herd list; the fields are number, officialId, group,'],
    [{ number: 'Tag', born: 'Tag' }, '--map gives the column "Tag" to both number and born; give it to one'],
    [{ calved: 'Tag', calvedOn: 'Group' }, "--map gives the cow's calved twice; give it once"],
  ])('a wrong --map %j is a sentence', (map, sentence) => {
    expect(read('Tag,Group,Lactation\n1,Cows,1\n', { holds: 'none', map }).problem).toContain(sentence);
  });

  test('a list without the number, the group or the lactation is refused, and its headings are named', () => {
    expect(read('Name,Group,Yield\nBella,Cows,30\n', { holds: 'none' }).problem).toBe(
      'No column is the cow\'s number, nor her lactation; the headings are "Name", "Group", "Yield". Say which with --map number="heading"',
    );
  });
});

describe('running holds', () => {
  const list = (cell: string) => `Cow,Group,Lactation,Milk hold until,Meat hold until\n412,Cows,2,${cell},none\n`;
  const hold = (cell: string, more: Partial<HerdImportOptions> = {}) => {
    const result = read(list(cell), more);
    expect(result.refusals).toEqual([]);
    return result.entries[0]?.value.data;
  };

  test('R-28 a list that says nothing of running holds is refused, and both ways of saying it are named', () => {
    const result = read('Cow,Group,Lactation\n412,Cows,2\n');
    expect(result.entries).toEqual([]);
    expect(result.problem).toContain('"Milk hold until"');
    expect(result.problem).toContain('--holds none');
  });

  test('R-28 --holds none states for every cow that she has no hold', () => {
    expect(cows('Cow,Group,Lactation\n412,Cows,2\n', { holds: 'none' })).toEqual({
      412: { group: 'Cows', lactation: 2, ...NONE },
    });
  });

  test.each([
    ['none', 'none'],
    ['No', 'none'],
    ['unknown', 'unknown'],
    ['', 'unknown'],
    ['2026-03-16T10:00:00Z', '2026-03-16T10:00:00Z'],
    ['2026-03-16T10:00:00+02:00', '2026-03-16T08:00:00Z'],
    ['2026-03-16 17:30', '2026-03-16T17:30:00Z'],
    ['2026-03-30 17:30', '2026-03-30T16:30:00Z'],
    ['2026-03-16', '2026-03-17T00:00:00Z'],
    ['2026-03-31', '2026-03-31T23:00:00Z'],
  ])('R-28 the hold "%s" is %s: a time on the farm\'s clock, a date to its end, a blank unknown', (cell, value) => {
    expect(hold(cell)).toMatchObject({ milkHoldUntil: value });
  });

  test('R-28 a wall time that the clock shows twice holds to the second', () => {
    expect(hold('2025-10-26 01:30', { asOf: at('2025-10-25T23:00:00Z') })).toMatchObject({
      milkHoldUntil: '2025-10-26T01:30:00Z',
    });
  });

  test("R-28 a hold in the farm's own way of writing dates is read as --dates says", () => {
    expect(hold('05/04/2026 06:00', { dates: 'dd/mm/yyyy' })).toMatchObject({ milkHoldUntil: '2026-04-05T05:00:00Z' });
    expect(hold('05/04/2026', { dates: 'mm/dd/yyyy' })).toMatchObject({ milkHoldUntil: '2026-05-04T23:00:00Z' });
  });

  test.each(['0', '-', 'free', 'ok', 'false', 'nil', '5', '72 h'])(
    'R-28 the hold "%s" is refused: only "none" or "no" says that there is none',
    (cell) => {
      const result = read(list(cell));
      expect(result.entries).toEqual([]);
      expect(result.refusals[0]).toMatchObject({ line: 2, column: 'Milk hold until' });
      expect(result.refusals[0]?.problem).toContain('"none" or "unknown"');
    },
  );

  test('R-28 a hold in a column counts though --holds none is given, and that is said', () => {
    const result = read(list('2026-03-16'), { holds: 'none' });
    expect(result.entries[0]?.value.data).toMatchObject({ milkHoldUntil: '2026-03-17T00:00:00Z' });
    expect(result.notes.join('\n')).toContain('the columns give these one, and that counts: 412');
    expect(cows(list(''), { holds: 'none' })).toMatchObject({ 412: NONE });
  });

  test('R-28 a list with milk holds and no word on meat leaves meat unknown, and says so', () => {
    const result = read('Cow,Group,Lactation,Milk hold\n412,Cows,2,none\n');
    expect(result.entries[0]?.value.data).toEqual({ group: 'Cows', lactation: 2, milkHoldUntil: 'none' });
    expect(result.notes.join('\n')).toContain('no column for meat holds, so every cow is on meat hold');
  });

  test('R-19 a dry cow without a stated product is taken, and what follows is said', () => {
    const result = read(
      'Cow,Group,Lactation,Dried off,Dry-cow product\n7,Dry,2,2026-02-01,\n8,Dry,2,2026-02-01,none\n',
      { holds: 'none' },
    );
    expect(result.entries).toHaveLength(2);
    expect(result.notes.join('\n')).toMatch(/held after calving until it is \(R-19\): 7$/m);
  });
});

describe('the dry ones', () => {
  test('R-19 one left among them just after calving is in milk; of one whose product has no date it is said what counts', () => {
    const result = read(
      'Cow,Group,Lactation,Calved,Dry-cow product\n7,Dry,2,2026-03-12,\n8,Dry,2,2025-02-01,\n9,Dry,2,2025-02-01,Dry-cow tube\n10,Dry,2,2025-02-01,none\n',
      { holds: 'none' },
    );
    expect(result.entries).toHaveLength(4);
    expect(result.notes.join('\n')).toMatch(/held after calving until it is \(R-19\): 8$/m);
    expect(result.notes.join('\n')).toMatch(/counted from the time of the list \(R-19\): 9$/m);
  });
});

describe('dates', () => {
  const calved = (cell: string, dates?: string) =>
    read(`Cow;Group;Lactation;Calved\n412;Cows;2;${cell}\n`, { holds: 'none', dates });

  test.each([
    ['2026-01-20', undefined],
    ['2026-01-20 00:00:00', undefined],
    ['20/01/2026', 'dd/mm/yyyy'],
    ['20/1/2026', 'dd/mm/yyyy'],
    ['01/20/2026', 'mm/dd/yyyy'],
    ['20.01.2026', 'dd.mm.yyyy'],
    ['20/01/26', 'dd/mm/yy'],
    ['20-Jan-2026', 'dd-mmm-yyyy'],
    ['2026-01-20', 'dd/mm/yyyy'],
  ])('the date "%s" with --dates %s is 20 January 2026', (cell, dates) => {
    expect(calved(cell, dates).entries[0]?.value.data).toMatchObject({ calvedOn: '2026-01-20' });
  });

  test.each([
    ['3/4/2026', undefined, '--dates dd/mm/yyyy'],
    ['25/12/2025', undefined, '--dates dd/mm/yyyy'],
    ['01/20/2026', 'dd/mm/yyyy', 'read as dd/mm/yyyy is not a date that exists'],
    ['20.01.2026', 'dd/mm/yyyy', 'written neither as dd/mm/yyyy nor like 2026-03-14'],
    ['2026-02-30', undefined, 'not a date that exists'],
    ['20-Juni-2026', 'dd-mmm-yyyy', 'not a date that exists'],
    ['46042', undefined, "spreadsheet's own day count"],
    ['2026-03-15', undefined, 'is after the day of the list, 2026-03-14'],
    ['2026-01-20 16:40', undefined, 'is not a date like'],
  ])('the date "%s" with --dates %s is refused, never guessed', (cell, dates, sentence) => {
    const result = calved(cell, dates);
    expect(result.entries).toEqual([]);
    expect(result.refusals).toHaveLength(1);
    expect(result.refusals[0]).toMatchObject({ line: 2, column: 'Calved', text: `412;Cows;2;${cell}` });
    expect(result.refusals[0]?.problem).toContain(sentence);
  });

  test.each(['dmy', 'dd/mm', 'dd/dd/yyyy', 'dd/mm/yyy', 'day/month/year', ''])(
    '--dates %j is not a way of writing dates, and a sentence says so',
    (dates) => {
      expect(calved('2026-01-20', dates).problem).toContain('is not a way of writing dates');
    },
  );

  test('a due date may lie ahead of the list, and behind it', () => {
    expect(cows('Cow,Group,Lactation,Due\n1,Dry,2,2026-04-01\n2,Dry,2,2026-03-01\n', { holds: 'none' })).toMatchObject({
      1: { dueOn: '2026-04-01' },
      2: { dueOn: '2026-03-01' },
    });
  });
});

describe('numbers', () => {
  const one = (number: string, official = '') =>
    read(`Cow,Official number,Group,Lactation\n${number},${official},Cows,2\n`, { holds: 'none' });

  test.each(['007', '7', 'C-31', '0412', '1E5'])('the number "%s" is kept as it is written', (number) => {
    expect(one(number).entries[0]?.value.subject).toBe(number);
  });

  test.each([
    ["'007", '007'],
    ['"=""007"""', '007'],
  ])('the number %s, kept as text in a spreadsheet, is %s', (cell, number) => {
    expect(one(cell).entries[0]?.value.subject).toBe(number);
  });

  test.each([
    ['', 'is missing'],
    ['412.0', 'has a decimal'],
    ['2.76E+14', 'a spreadsheet has turned this number into'],
    ['4-Mar', 'turned into a date'],
    ['cow 412', "is not a cow's number"],
    ['12345678901', "is not a cow's number"],
    ['999000000000412', 'is an official number'],
  ])('the number "%s" is refused', (number, sentence) => {
    expect(one(number).entries).toEqual([]);
    expect(one(number).refusals[0]).toMatchObject({ line: 2, column: 'Cow' });
    expect(one(number).refusals[0]?.problem).toContain(sentence);
  });

  test('an official number keeps its leading zero and loses its spaces', () => {
    expect(one('412', '036 000 000 000 412').entries[0]?.value.data).toMatchObject({ officialId: '036000000000412' });
  });

  test.each([
    ['9.99E+14', 'its digits are lost'],
    ['9,99E+14', 'its digits are lost'],
    ['36000000000412', 'this has 14; a leading zero may have been lost'],
    ['UK123450600001', 'it has 15 digits and nothing else'],
  ])('the official number "%s" is refused', (official, sentence) => {
    const result = one('412', `"${official}"`);
    expect(result.entries).toEqual([]);
    expect(result.refusals[0]).toMatchObject({ line: 2, column: 'Official number' });
    expect(result.refusals[0]?.problem).toContain(sentence);
  });

  test('rows that say two things of one number are all refused, and a row said twice is taken once', () => {
    const result = read('Cow,Group,Lactation\n1,Cows,2\n2,Cows,2\n1,Cows,3\n2,Cows,2\n', { holds: 'none' });
    expect(result.entries.map(({ value }) => value.subject)).toEqual(['2']);
    expect(result.refusals.map(({ line, column }) => [line, column])).toEqual([
      [2, 'Cow'],
      [4, 'Cow'],
    ]);
    expect(result.refusals[0]?.problem).toContain(
      'the number 1 stands on more than one row, with different facts (lines 2, 4)',
    );
    expect(result.notes).toContain('Line 5 says of 2 what a line above it says; it is taken once');
  });

  test('an official number that two cows bear is refused for both', () => {
    const list = 'Cow,Official number,Group,Lactation\n1,999000000000001,Cows,2\n2,999000000000001,Cows,2\n';
    const result = read(list, { holds: 'none' });
    expect(result.entries).toEqual([]);
    expect(result.refusals).toHaveLength(2);
  });

  test('"007" beside "7" are two cows, and that is said', () => {
    const result = read('Cow,Group,Lactation\n7,Cows,2\n007,Cows,2\n', { holds: 'none' });
    expect(result.entries).toHaveLength(2);
    expect(result.notes).toContain('7 and 007 differ in leading zeros only; they are entered as different cows');
  });
});

describe('rows', () => {
  test('bad rows are named by line and column, and the good ones are kept', () => {
    const result = read(
      'Cow,Group,Lactation,Calved\n1,Cows,2,2026-01-02\n2,Cow,two,2026-01-02\n\n3,Heifers,1,2026-01-03\n4,Cows,0,2026-01-02\n5,,2,\n',
      { holds: 'none' },
    );
    expect(result.entries.map(({ line, value }) => [line, value.subject])).toEqual([
      [2, '1'],
      [5, '3'],
    ]);
    expect(result.refusals.map(({ line, column }) => [line, column])).toEqual([
      [3, 'Group'],
      [3, 'Lactation'],
      [6, 'Lactation'],
      [7, 'Group'],
    ]);
    expect(result.refusals[0]?.problem).toBe(
      '"Cow" is not a group of this farm, whose groups are Heifers, Cows, Dry; did you mean "Cows"?',
    );
    expect(result.refusals[2]?.problem).toContain('a heifer that has not calved, but this one calved on 2026-01-02');
  });

  test('a heifer has lactation 0, and a group is found whatever its case', () => {
    expect(cows('Cow,Group,Lactation\n1,dry,0\n2,HEIFERS,1.0\n', { holds: 'none' })).toMatchObject({
      1: { group: 'Dry', lactation: 0 },
      2: { group: 'Heifers', lactation: 1 },
    });
  });

  test('dates that cannot be true together are refused', () => {
    const result = read(
      'Cow,Group,Lactation,Born,Calved,Served,Due\n1,Cows,1,2026-02-01,2026-01-02,,\n2,Cows,1,2020-02-01,2022-01-02,2026-01-02,2025-10-12\n',
      { holds: 'none' },
    );
    expect(result.refusals.map(({ line, column }) => [line, column])).toEqual([
      [2, 'Calved'],
      [3, 'Due'],
    ]);
  });

  test('a control character in a field refuses its row alone', () => {
    const long = Array.from({ length: 40 }, (_, index) => `${index + 10},Cows,2,Anvil Farm`).join('\n');
    const result = read(`Cow,Group,Lactation,From\n1,Cows,2,Anvil\u0007Farm\n${long}\n`, { holds: 'none' });
    expect(result.entries).toHaveLength(40);
    expect(result.refusals[0]).toMatchObject({ line: 2, column: 'From' });
  });

  test('what is entered passes the door as it stands', () => {
    const result = read('Cow,Group,Lactation,Calved\n1,Cows,2,2026-01-02\n', { holds: 'none' });
    const value = result.entries[0]?.value;
    const settings = { source: 'x', author: 'y', now: DUBLIN.asOf };
    expect(readValue(value, settings)).toMatchObject({ outcome: 'passed', derivedId: false, said: value });
    expect(readLine(JSON.stringify(value), settings).outcome).toBe('passed');
  });
});

describe('the same list again', () => {
  const list = 'Cow,Group,Lactation,Calved\n1,Cows,2,2026-01-02\n2,Dry,0,\n';

  test('the same list on another day, in another order of columns, has the same ids', () => {
    const first = read(list, { holds: 'none' });
    const again = read('Lactation;Calved;Cow;Group\n0;;2;Dry\n2;2026-01-02;1;Cows\n', {
      holds: 'none',
      asOf: at('2026-04-01T00:00:00Z'),
      source: 'laptop',
      author: 'Piet',
    });
    const ids = (result: typeof first) => result.entries.map(({ value }) => value.id).sort();
    expect(ids(again)).toEqual(ids(first));
    expect(new Set(ids(first)).size).toBe(2);
    expect(again.entries[0]?.value.time).toBe('2026-04-01T00:00:00Z');
  });

  test('another fact about a cow is another id', () => {
    const before = read(list, { holds: 'none' }).entries[0]?.value;
    const after = read(list.replace('01-02', '01-03'), { holds: 'none' }).entries[0]?.value;
    expect(before?.subject).toBe(after?.subject);
    expect(before?.id).not.toBe(after?.id);
  });

  test('R-25 a cow whose official number another bears in the herd is not entered a second time', () => {
    const official = { officialId: '999000000000412' };
    const { herd } = know(entriesOf([milker('412', official), milker('7')]), []);
    const rows = readHerdFile(
      new TextEncoder().encode(
        'Cow,Official number,Group,Lactation\n500,999 000000 000412,Cows,2\n501,999000000000501,Cows,2\n7,,Cows,3\n',
      ),
      { ...DUBLIN, holds: 'none' },
    );
    const { fresh, already } = againstHerd(rows, herd, () => false);
    expect(fresh.map(({ value }) => value.subject)).toEqual(['501']);
    expect(already.map(({ line, problem }) => [line, problem.replace(/,.*/, '')])).toEqual([
      [2, 'the official number of cow 500 is that of cow 412'],
      [4, 'cow 7 is in the herd already'],
    ]);
  });

  test('herdEntryId gives the id of an entry from its cow and its facts', () => {
    for (const { value } of read(list, { holds: 'none' }).entries) expect(herdEntryId(value)).toBe(value.id);
  });
});
