import { describe, expect, test } from 'vitest';
import { type HerdImportOptions, readHerdFile } from '../../api/import-herd/import-herd.ts';
import { parseInstant } from '../../shared/instant.ts';
import { mustBe } from '../../shared/refusal.ts';

const OPTIONS: HerdImportOptions = {
  holds: 'none',
  asOf: mustBe(parseInstant('2026-03-14T00:00:00Z')),
  zone: 'Europe/Dublin',
  groups: [{ name: 'Cows', kind: 'milking' }],
  source: 'office',
  author: 'Marta',
};

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const read = (file: Uint8Array | string, more: Partial<HerdImportOptions> = {}) =>
  readHerdFile(typeof file === 'string' ? bytes(file) : file, { ...OPTIONS, ...more });
const froms = (file: Uint8Array | string) =>
  read(file).entries.map(({ value: { subject, data } }) => [subject, (data as { from?: string }).from]);

const LIST = 'Cow,Group,Lactation,From\n007,Cows,2,Łódź\n8,Cows,3,Ñandú\n';
const WANTED = [
  ['007', 'Łódź'],
  ['8', 'Ñandú'],
];

describe('separators and quotes', () => {
  test.each([
    ['comma', ','],
    ['semicolon', ';'],
    ['tab', '\t'],
  ])('a list separated by %s is read', (_, separator) => {
    expect(froms(LIST.replaceAll(',', separator))).toEqual(WANTED);
  });

  test('a semicolon list with commas in its headings and fields is read by its semicolons', () => {
    expect(froms('Cow;Group;Lactation;From;Yield, kg, last\n1;Cows;2;Mill Lane, North;31,5\n')).toEqual([
      ['1', 'Mill Lane, North'],
    ]);
  });

  test('a first line "sep=;" is obeyed and does not shift the lines', () => {
    const result = read('sep=;\nCow;Group;Lactation\n1;Cows;2\n2;Nowhere;2\n');
    expect(result.entries.map(({ line }) => line)).toEqual([3]);
    expect(result.refusals[0]).toMatchObject({ line: 4, column: 'Group' });
  });

  test('any other separator is named in a sentence', () => {
    expect(read('Cow|Group|Lactation\n1|Cows|2\n').problem).toBe(
      'The first line "Cow|Group|Lactation" is one field; separate the fields with commas, semicolons or tabs',
    );
  });

  test.each(['\n', '\r\n', '\r'])('line ends %j count lines alike', (end) => {
    const result = read(['Cow,Group,Lactation', '', '1,Cows,2', '2,Cows,x'].join(end));
    expect(result.entries.map(({ line }) => line)).toEqual([3]);
    expect(result.refusals.map(({ line }) => line)).toEqual([4]);
  });

  test('quoted fields keep separators, doubled quotes and line breaks, and the rows after them keep their lines', () => {
    const result = read(
      'Cow,Note,Group,Lactation,From\n1,"big,\n""old""\n cow",Cows,2,"Mill ""Lane"""\n2,,Cows,none,\n',
    );
    expect(result.entries).toMatchObject([{ line: 2, value: { subject: '1', data: { from: 'Mill "Lane"' } } }]);
    expect(result.refusals).toMatchObject([{ line: 5, column: 'Lactation', text: '2,,Cows,none,' }]);
  });

  test('a line break inside a name is refused with its row, since paper has one line for it', () => {
    expect(read('Cow,Group,Lactation,From\n1,Cows,2,"a\nb"\n').refusals).toMatchObject([{ line: 2, column: 'From' }]);
  });

  test('a quote that is never closed costs its own row and no other', () => {
    const result = read('Cow,Group,Lactation,From\n1,Cows,2,Mill\n2,Cows,2,"Mill\n3,Cows,2,Mill\n4,Cows,2,"Mill"\n');
    expect(result.entries.map(({ line, value }) => [line, value.subject])).toEqual([
      [2, '1'],
      [4, '3'],
      [5, '4'],
    ]);
    expect(result.refusals).toHaveLength(1);
    expect(result.refusals[0]).toMatchObject({ line: 3, column: null, text: '2,Cows,2,"Mill' });
    expect(result.refusals[0]?.problem).toContain('quote mark opens in this row');
  });

  test('a quote in the middle of a field is named with its line', () => {
    const result = read('Cow,Group,Lactation,From\n1,Cows,2,6" tag\n2,Cows,2,\n');
    expect(result.entries.map(({ value }) => value.subject)).toEqual(['2']);
    expect(result.refusals[0]).toMatchObject({ line: 2, column: null });
    expect(result.refusals[0]?.problem).toContain('middle of a field');
  });

  test('a quote opened in the headings is named', () => {
    expect(read('Cow,"Group,Lactation\n1,Cows,2\n').problem).toContain(
      'The headings in line 1 cannot be read: a quote mark opens',
    );
  });

  test('a file whose quotes are wrong throughout is refused as a whole, with the line where it begins', () => {
    const rows = Array.from({ length: 300 }, (_, index) => `${index + 1},Cows,2,6" tag`).join('\n');
    expect(read(`Cow,Group,Lactation,From\n${rows}\n`).problem).toContain('do not pair, from line 2 on');
  });

  test('a row with too few or too many fields is refused; blank fields at its end are not too many', () => {
    const result = read('Cow,Group,Lactation\n1,Cows\n2,Cows,2,,,\n3,Cows,2,5\n4,Cows,2\n');
    expect(result.entries.map(({ value }) => value.subject)).toEqual(['2', '4']);
    expect(result.refusals).toMatchObject([
      { line: 2, column: null },
      { line: 4, column: null },
    ]);
    expect(result.refusals[0]?.problem).toContain('has 2 fields, but there are 3 headings');
  });
});

describe('encodings', () => {
  const utf16 = (text: string, big: boolean): Uint8Array => {
    const file = new Uint8Array(2 + text.length * 2);
    const view = new DataView(file.buffer);
    view.setUint16(0, 0xfeff, !big);
    for (let index = 0; index < text.length; index++) view.setUint16(2 + index * 2, text.charCodeAt(index), !big);
    return file;
  };

  test('UTF-8 is read with and without its mark', () => {
    expect(froms(LIST)).toEqual(WANTED);
    expect(froms(`\ufeff${LIST}`)).toEqual(WANTED);
    expect(read(`\ufeff${LIST}`).mapping[0]).toEqual({ heading: 'Cow', field: 'number' });
  });

  test('UTF-16 with its mark is read, in both byte orders', () => {
    expect(froms(utf16(LIST, false))).toEqual(WANTED);
    expect(froms(utf16(LIST, true))).toEqual(WANTED);
  });

  test('what is not UTF-8 is read as Windows-1252, and that is said', () => {
    const file = Uint8Array.from('Cow,Group,Lactation,From\n8,Cows,3,\u00d1and\u00fa \u0080\n', (letter) =>
      letter.charCodeAt(0),
    );
    expect(froms(file)).toEqual([['8', 'Ñandú €']]);
    expect(read(file).notes[0]).toContain('read as Windows-1252');
  });
});

describe('files that are no list', () => {
  test.each([
    ['an empty file', new Uint8Array(0), 'The file is empty'],
    ['blank lines', bytes('\n\n  \n'), 'The file has no rows'],
    ['headings alone', bytes('Cow,Group,Lactation\n'), 'headings but no cows under them'],
    ['a workbook', Uint8Array.of(0x50, 0x4b, 3, 4, 20, 0, 6, 0), 'a workbook or a zip file'],
    ['a PDF', bytes('%PDF-1.7\n'), 'is a PDF'],
    [
      'bytes of anything',
      Uint8Array.from({ length: 4_000 }, (_, index) => (index * 97 + 13) % 256),
      'is not text that can be read',
    ],
    [
      'UTF-16 without its mark',
      Uint8Array.from(LIST.slice(0, 30), (c) => c.charCodeAt(0)).reduce((all, byte, i) => {
        all[i * 2] = byte;
        return all;
      }, new Uint8Array(60)),
      'is not text',
    ],
  ])('%s is refused with a sentence that says what to do', (_, file, sentence) => {
    const result = read(file);
    expect(result.problem).toContain(sentence);
    expect(result.entries).toEqual([]);
  });

  test('a book that has no groups yet is said before the file is looked at', () => {
    expect(read(LIST, { groups: [] }).problem).toContain('record its farm-set-up first');
    expect(read(LIST, { zone: 'Atlantis/Sunken' }).problem).toContain('not a time zone');
  });
});

test('a hundred thousand rows are read in seconds', () => {
  const rows = Array.from(
    { length: 100_000 },
    (_, index) => `${index + 1},99900${String(index).padStart(10, '0')},Cows,${index % 6},Mill Lane,2020-01-02`,
  );
  const started = performance.now();
  const result = read(`Cow,Official number,Group,Lactation,From,Born\n${rows.join('\n')}\n`);
  expect(result.entries).toHaveLength(100_000);
  expect(performance.now() - started).toBeLessThan(30_000);
});
