/** `export` and `import ade` by the command alone: files, summaries, exit codes, sentences. */
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { parse } from 'csv-parse/sync';
import { beforeEach, describe, expect, test } from 'vitest';
import { storedRows } from '../../api/export/rows.ts';
import { folder, newBook, passed } from '../events/a-book.ts';

const COMMAND = path.resolve('api/byrebook.mjs');
const NOW = '2026-03-04T12:00:00Z';

let here = '';
beforeEach(() => {
  here = folder();
});

const run = (...args: readonly string[]) => {
  const made = spawnSync(process.execPath, [COMMAND, '--book', 'farm.book', '--now', NOW, ...args], {
    encoding: 'utf8',
    cwd: here,
    maxBuffer: 64 * 1024 * 1024,
  });
  expect(made.stderr).not.toMatch(/\n\s+at /);
  return { status: made.status, out: made.stdout, problems: made.stderr };
};

const SET_UP = {
  type: 'farm-set-up',
  time: '2026-03-01T12:00:00Z',
  data: {
    name: 'Alder Bank',
    timeZone: 'UTC',
    milkings: [{ name: 'morning', start: '05:00' }],
    parlour: { stalls: 8, turnMinutes: 10 },
    groups: [{ name: 'Milkers', kind: 'milking' }],
  },
};
const cow = (subject: string) => ({
  type: 'cow-entered',
  time: '2026-03-01T12:00:00Z',
  subject,
  data: { group: 'Milkers', lactation: 2, milkHoldUntil: 'none', meatHoldUntil: 'none' },
});
const hold = (subject: string, reason: string) => ({
  type: 'milk-hold',
  time: '2026-03-04T10:00:00Z',
  subject,
  data: { reason },
});

const record = (...entries: readonly object[]): void => {
  const file = path.join(here, 'said.jsonl');
  fs.writeFileSync(file, entries.map((entry) => JSON.stringify(entry)).join('\n'));
  expect(run('record', file).status).toBe(0);
};
const textOf = (file: string): string => fs.readFileSync(path.join(here, file), 'utf8');

describe('export --format jsonl', () => {
  test('gives every stored entry as it stands, with its sequence and recorded time, one a line', () => {
    record(SET_UP, cow('101'), hold('101', 'clots'));
    const { status, out, problems } = run('export');
    const lines = out.trimEnd().split('\n');
    expect(status).toBe(0);
    expect(lines.map((line) => JSON.parse(line))).toMatchObject([
      { type: 'farm-set-up', sequence: '0000000001', recordedtime: NOW },
      { type: 'cow-entered', sequence: '0000000002', recordedtime: NOW },
      { type: 'milk-hold', sequence: '0000000003', recordedtime: NOW, data: { reason: 'clots' } },
    ]);
    expect(problems).toMatch(/^3 entries \(jsonl\)\./);
  });

  test('with --json standard output is the summary alone', () => {
    record(SET_UP, cow('101'));
    const { status, out } = run('export', '--out', 'all.jsonl', '--json');
    expect(status).toBe(0);
    expect(JSON.parse(out)).toEqual({ format: 'jsonl', file: 'all.jsonl', entries: 2 });
    expect(textOf('all.jsonl').trimEnd().split('\n')).toHaveLength(2);
  });

  test('reads a long log a page at a time and gives all of it in order', () => {
    const book = newBook();
    const many = Array.from({ length: 2_500 }, (_, index) =>
      passed({ id: `hold-${index}`, type: 'milk-hold', subject: '101', data: { reason: 'clots' } }),
    );
    book.record(many);
    const asked: number[] = [];
    const counting = {
      ...book,
      head: book.head,
      rows: (after: number, limit: number) => {
        asked.push(limit);
        return book.rows(after, limit);
      },
    };
    const positions = [...storedRows(counting)].map(({ position }) => position);
    expect(positions).toEqual(Array.from({ length: 2_500 }, (_, index) => index + 1));
    expect(asked).toEqual([1_000, 1_000, 500]);
  });
});

describe('export --format csv', () => {
  test('gives one row an entry', () => {
    record(SET_UP, cow('101'));
    const { status, out } = run('export', '--format', 'csv');
    const rows: Record<string, string>[] = parse(out, { columns: true, bom: true });
    expect(status).toBe(0);
    expect(rows).toHaveLength(2);
    expect(rows[1]).toMatchObject({ position: '2', kind: 'cow-entered', cow: '101', recorded: NOW });
    expect(JSON.parse(rows[1]?.data ?? '')).toMatchObject({ group: 'Milkers' });
  });

  test.each(['=1+1', '+1', '-1', '@sum', '=cmd|x'])(
    'writes an author such as %s as text, never as a formula',
    (author) => {
      record(SET_UP, { ...hold('101', 'clots'), author });
      const rows: Record<string, string>[] = parse(run('export', '--format', 'csv').out, { columns: true, bom: true });
      expect(rows[1]?.author).toBe(`'${author}`);
      expect(Object.values(rows[1] ?? {}).filter((cell) => /^[=+\-@\t\r]/.test(cell))).toEqual([]);
    },
  );
});

describe('export --format ade', () => {
  test('writes one document and lists what it cannot carry, in words and in the summary', () => {
    record(SET_UP, cow('101'), hold('101', 'clots'), {
      type: 'sort-request',
      time: NOW,
      subject: '101',
      data: { reason: 'lame' },
    });
    const words = run('export', '--format', 'ade');
    expect(words.status).toBe(0);
    expect(JSON.parse(words.out)).toContainEqual({ view: { totalItems: 3 }, member: expect.any(Array) });
    expect(words.problems).toMatch(/Not carried, because the standard has no place for it:\n[\s\S]*sort-request \(1\)/);
    const told: unknown = JSON.parse(run('export', '--format', 'ade', '--out', 'farm.json', '--json').out);
    expect(told).toMatchObject({
      format: 'ade',
      entries: 4,
      cannotCarry: [
        { what: 'farm-set-up', count: 1 },
        { what: 'sort-request', count: 1 },
      ],
    });
    expect(textOf('farm.json')).toBe(words.out);
  });

  test('wants a farm', () => {
    record(hold('101', 'clots'));
    expect(run('export', '--format', 'ade')).toMatchObject({
      status: 1,
      problems: expect.stringMatching(/has no farm yet/),
    });
  });
});

describe('wrong use of export', () => {
  test('is said in a sentence, with code 2, and leaves nothing behind', () => {
    record(SET_UP);
    expect(run('export', '--json')).toMatchObject({ status: 2, problems: expect.stringMatching(/add --out FILE/) });
    expect(run('export', '--format', 'xml').status).toBe(2);
    expect(run('export', '--out', 'farm.book')).toMatchObject({
      status: 2,
      problems: expect.stringMatching(/is the book itself/),
    });
    expect(run('export', '--out', 'nowhere/all.jsonl')).toMatchObject({
      status: 1,
      problems: expect.stringMatching(/nowhere\/all\.jsonl cannot be written/),
    });
    expect(fs.readdirSync(here).filter((name) => name.includes('unfinished'))).toEqual([]);
  });
});

describe('import ade', () => {
  const dose = (cowNumber: string, more: Record<string, unknown> = {}) => ({
    resourceType: 'icarTreatmentEventResource',
    meta: { source: 'example.parlour', sourceId: `dose-${cowNumber}`, modified: NOW },
    eventDateTime: '2026-03-04T07:00:00Z',
    animal: { id: cowNumber, scheme: 'example.herd' },
    medicine: { name: 'From the other shelf' },
    ...more,
  });
  const put = (document: unknown): void => fs.writeFileSync(path.join(here, 'in.json'), JSON.stringify(document));

  test('ends with 0 when all is taken and with 1 when something is refused, which it names', () => {
    record(SET_UP, cow('101'), cow('102'));
    put(dose('101', { colour: 'red' }));
    const good = run('import', 'ade', 'in.json');
    expect(good).toMatchObject({
      status: 0,
      out: expect.stringMatching(/^1 resource read: 1 entry recorded, 0 already known/),
    });
    expect(good.out).toMatch(/icarTreatmentEventResource\.colour \(1, such as "red"\)/);
    put([dose('101'), { ...dose('102'), eventDateTime: undefined }]);
    const mixed = run('import', 'ade', 'in.json');
    expect(mixed.status).toBe(1);
    expect(mixed.out).toMatch(
      /0 entries recorded, 1 already known[\s\S]*"dose-102" of 102: it has no "eventDateTime"[\s\S]*holds 102; set aside as set-aside:/,
    );
    const held = JSON.parse(run('print', '--json').out).sheets['milk-hold'].held.map((row: { cow: string }) => row.cow);
    expect(held).toEqual(['101', '102']);
  });

  test('with --json standard output is the outcome alone', () => {
    record(SET_UP, cow('101'));
    put(dose('101'));
    expect(JSON.parse(run('import', 'ade', 'in.json', '--json').out)).toMatchObject({
      file: 'in.json',
      resources: 1,
      recorded: 1,
      refused: [],
      leftOut: [],
    });
  });

  test('says in a sentence what is wrong with the file or the book', () => {
    record(hold('101', 'clots'));
    put(dose('101'));
    expect(run('import', 'ade', 'in.json')).toMatchObject({
      status: 1,
      problems: expect.stringMatching(/no farm yet/),
    });
    expect(run('import', 'ade', 'other.json')).toMatchObject({
      status: 2,
      problems: expect.stringMatching(/no file other\.json/),
    });
    record(SET_UP);
    fs.writeFileSync(path.join(here, 'in.json'), '{');
    expect(run('import', 'ade', 'in.json')).toMatchObject({
      status: 1,
      problems: expect.stringMatching(/cannot be read.*Nothing was recorded/),
    });
  });
});
