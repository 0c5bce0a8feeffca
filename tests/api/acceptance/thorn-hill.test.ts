/**
 * A stranger's evening, by the command alone: a herd list and entries written by hand from what the book promises, every
 * expectation worked out on paper. Clocks in Dublin go forward on 29 March 2026.
 */
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';

const COMMAND = path.resolve('api/byrebook.mjs');
const HERE = path.resolve('tests/api/acceptance');
const NOW = '2026-03-27T19:00:00Z';

let folder = '';
let file = '';
beforeAll(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'byrebook-'));
  file = path.join(folder, 'farm.book');
});
afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

const run = (args: readonly string[], options: { now?: string | null; input?: string } = {}) => {
  const clock = options.now === null ? [] : ['--now', options.now ?? NOW];
  const made = spawnSync(process.execPath, [COMMAND, '--book', file, ...clock, ...args], {
    encoding: 'utf8',
    cwd: folder,
    input: options.input ?? '',
  });
  expect(made.stderr).not.toMatch(/\n\s+at /);
  return { status: made.status, out: made.stdout, problems: made.stderr };
};

const sheets = z.looseObject({
  milking: z.object({ id: z.string(), start: z.string() }),
  position: z.number(),
  alerts: z.array(z.looseObject({ key: z.string(), says: z.string() })),
  doubts: z.array(z.looseObject({ key: z.string(), says: z.string(), entries: z.array(z.string()) })),
  sheets: z.looseObject({
    'milk-hold': z.looseObject({
      held: z.array(
        z.looseObject({
          cow: z.string(),
          group: z.string(),
          until: z.string().nullable(),
          tankFrom: z.string().nullable(),
          milkingsLeft: z.number().nullable(),
          reasons: z.array(z.string()),
          isNew: z.boolean(),
        }),
      ),
      cleared: z.array(z.looseObject({ cow: z.string(), since: z.string() })),
      treat: z.array(z.looseObject({ cow: z.string(), medicine: z.string(), dose: z.number(), of: z.number() })),
      unplaced: z.array(z.looseObject({ number: z.string().nullable(), says: z.string() })),
    }),
    counts: z.looseObject({
      groups: z.array(
        z.looseObject({
          group: z.string(),
          head: z.number(),
          inMilk: z.number(),
          held: z.number(),
          lastCount: z.number().nullable(),
          countedDifference: z.number().nullable(),
        }),
      ),
    }),
    'beef-hold': z.looseObject({ cows: z.array(z.looseObject({ cow: z.string(), until: z.string().nullable() })) }),
  }),
});

const print = (args: readonly string[] = [], now = NOW) =>
  sheets.parse(JSON.parse(run(['print', '--json', ...args], { now }).out));

describe('Thorn Hill', () => {
  test('there are no sheets before there is a farm: a sentence, not a trace', () => {
    const none = run(['print']);
    expect([none.status, none.problems]).toEqual([1, expect.stringContaining('There is no book')]);
  });

  test('record takes the farm, and the same file twice adds nothing', () => {
    expect(run(['record', path.join(HERE, 'farm.jsonl')])).toMatchObject({
      status: 0,
      out: expect.stringContaining('3 entries recorded'),
    });
    expect(run(['record', path.join(HERE, 'farm.jsonl')]).out).toContain('3 entries were already known');
  });

  test('import herd understands the headings, keeps leading zeros and names the bad rows by line and column', () => {
    const file_ = path.join(HERE, 'herd.csv');
    const unsaid = run(['import', 'herd', file_]);
    expect([unsaid.status, unsaid.out]).toEqual([1, expect.stringContaining('--dates')]);
    const dry = run(['import', 'herd', file_, '--dates', 'dd/mm/yyyy', '--dry-run']);
    expect(dry.out).toContain('nothing was');
    const made = run(['import', 'herd', file_, '--dates', 'dd/mm/yyyy']);
    expect(made.status).toBe(1);
    expect(made.out).toContain('3 cows recorded');
    expect(made.out).toMatch(/line 5, column "Calving date"/);
    expect(made.out).toMatch(/line 6, column "Pen"/);
    expect(made.out).toContain('Ear tag → number');
    expect(run(['import', 'herd', file_, '--dates', 'dd/mm/yyyy'], { now: '2026-03-28T19:00:00Z' }).out).toContain(
      '3 already known',
    );
  });

  test('record keeps the good lines, sets the others aside with their line numbers, and exits 1', () => {
    const made = run(['record', path.join(HERE, 'evening.jsonl'), '--json']);
    const receipts = z.array(z.looseObject({ outcome: z.string(), line: z.number() })).parse(JSON.parse(made.out));
    expect(made.status).toBe(1);
    expect(receipts.map(({ outcome, line }) => [outcome, line])).toEqual([
      ['recorded', 1],
      ['recorded', 2],
      ['recorded', 3],
      ['refused', 4],
      ['refused', 6],
      ['recorded', 7],
    ]);
  });

  test('R-11 R-17 R-25 R-27 R-28 the sheets for the next morning say what was worked out on paper', () => {
    const { milking, position, sheets: all, doubts } = print();
    expect([milking.id, milking.start, position]).toEqual(['2026-03-28/morning', '2026-03-28T05:30:00Z', 10]);
    const hold = all['milk-hold'];
    // 7: the list says 16 March, over; a line with a naive time is set aside and holds her. 007: dose 2 of 2 planned
    // 28 March 05:15, and 96 hours: 1 April 05:15 UTC, 06:15 by the clock; the 05:30 milking (04:30 UTC) is before that.
    // 21: 27 March 17:10 and 60 hours: 30 March 05:10 UTC, 06:10 by the clock, after the morning milking at 04:30 UTC.
    expect(
      hold.held.map(({ cow, group, until, tankFrom, milkingsLeft, isNew }) => [
        cow,
        group,
        until,
        tankFrom,
        milkingsLeft,
        isNew,
      ]),
    ).toEqual([
      ['7', 'Heifers', null, null, null, true],
      ['007', 'Milkers', '2026-04-01T05:15:00Z', '2026-04-01/evening', 9, true],
      ['21', 'Milkers', '2026-03-30T05:10:00Z', '2026-03-30/evening', 5, true],
    ]);
    expect(hold.treat.map(({ cow, medicine, dose, of }) => [cow, medicine, dose, of])).toEqual([
      ['007', 'Cephapirin sodium, udder', 2, 2],
    ]);
    expect(hold.unplaced.map(({ number }) => number)).toEqual(['99', null]);
    expect(all['beef-hold'].cows.map(({ cow, until }) => [cow, until])).toEqual([
      ['7', null],
      ['007', '2026-04-01T05:15:00Z'],
      ['21', '2026-04-08T17:10:00Z'],
    ]);
    expect(all.counts.groups[1]).toMatchObject({
      group: 'Milkers',
      head: 2,
      inMilk: 2,
      held: 2,
      lastCount: 3,
      countedDifference: 1,
    });
    expect(doubts.map(({ key }) => key.split(':')[0])).toEqual(['head-count', 'set-aside', 'set-aside', 'unplaced']);
  });

  test('why gives the entries, the rule and the arithmetic, the clock change said', () => {
    const { out, status } = run(['why', '21']);
    expect(status).toBe(0);
    expect(out).toContain('R-11  Amoxicillin, udder: last dose Fri 27 Mar 17:10 + 60 h = Mon 30 Mar 06:10');
    expect(out).toContain('her milk may go in the tank from Mon 30 Mar evening');
    expect(out).toContain('by Jun');
    expect(run(['why', '5000'])).toMatchObject({ status: 1, problems: expect.stringContaining('no cow 5000') });
  });

  test('R-26 after an issue a cow still held is not new, and one that is free is cleared', () => {
    const issued = run(['print', '--issue', '--out', path.join(folder, 'sheets')]);
    expect([issued.status, issued.out]).toEqual([
      0,
      expect.stringMatching(/Issued as [3479ACEFHJKMNPRTWXY]{4}-[3479ACEFHJKMNPRTWXY]{4}-[3479ACEFHJKMNPRTWXY]/),
    ]);
    expect(fs.readdirSync(path.join(folder, 'sheets'))).toContain('2026-03-28-morning-milk-hold.pdf');
    const again = run(['print', '--issue', '--out', path.join(folder, 'again')]);
    expect(again.out).toContain('Already issued');
    expect(fs.readFileSync(path.join(folder, 'again', '2026-03-28-morning-milk-hold.pdf'))).toEqual(
      fs.readFileSync(path.join(folder, 'sheets', '2026-03-28-morning-milk-hold.pdf')),
    );
    const key = print().doubts.find(({ says }) => says.includes('2026-03-27 17:25'))?.key ?? '';
    const settled = {
      type: 'settled',
      time: '2026-03-27T20:00:00Z',
      author: 'Ines',
      data: { about: key, how: 'given to 21, written twice' },
    };
    expect(run(['record', '-'], { input: JSON.stringify([settled]), now: '2026-03-27T20:00:00Z' }).status).toBe(0);
    const next = print(['--milking', '2026-03-28/evening'], '2026-03-28T09:00:00Z').sheets['milk-hold'];
    expect(next.held.map(({ cow, isNew }) => [cow, isNew])).toEqual([
      ['007', false],
      ['21', false],
    ]);
    expect(next.cleared.map(({ cow }) => cow)).toEqual(['7']);
  });

  test('R-17 the dose that nobody wrote down holds her without end at the next milking', () => {
    const { held, treat } = print([], '2026-03-28T15:00:00Z').sheets['milk-hold'];
    expect(held.find(({ cow }) => cow === '007')?.until).toBeNull();
    expect(treat).toEqual([expect.objectContaining({ cow: '007', dose: 2, overdue: true })]);
  });

  test('known at an earlier time, the later entries are not there', () => {
    expect(print(['--known-at', NOW, '--milking', '2026-03-28/evening'], '2026-03-29T09:00:00Z').position).toBeLessThan(
      print([], '2026-03-29T09:00:00Z').position,
    );
  });

  test('history tells both times, verify agrees, medicines writes the zero', () => {
    expect(run(['history', '21']).out).toMatch(/treatment 21 .*by Jun/);
    expect(run(['verify'])).toMatchObject({ status: 0, out: expect.stringContaining('Everything agrees') });
    expect(run(['medicines', '--format', 'csv']).out).toContain('"Amoxicillin, udder",amoxicillin');
  });
});

describe('wrong words', () => {
  test.each([
    [['print', '--milking', 'tonight'], 2, '2026-03-14/afternoon'],
    [['print', '--milking', '2026-03-28/noon'], 2, 'morning, evening'],
    [['print', '--sheet', 'wallpaper'], 2, 'milk-hold'],
    [['print', '--issue', '--known-at', NOW], 2, 'do not go together'],
    [['print', '--known-at', 'yesterday'], 2, 'write it like'],
    [['record', 'nowhere.jsonl'], 2, 'nowhere.jsonl'],
    [['record', '.'], 2, 'folder'],
    [['import', 'herd', 'nowhere.csv'], 2, 'nowhere.csv'],
    [['prnt'], 2, 'print'],
    [['print', '--out', 'farm.book/sheets'], 1, 'cannot be written'],
    [['replay', '--ref', 'ACEF-3479-Z', '--json'], 2, 'ref'],
  ])('%j ends with %i and a sentence', (args, status, words) => {
    const made = run(args);
    expect([made.status, made.problems]).toEqual([status, expect.stringContaining(words)]);
  });

  test('a real clock works on by the rehearsal own clock; a fixed one is refused on a real book', () => {
    expect(run(['print', '--json'], { now: null }).status).toBe(0);
    const real = path.join(folder, 'real.book');
    const made = spawnSync(process.execPath, [COMMAND, '--book', real, 'record', path.join(HERE, 'farm.jsonl')], {
      encoding: 'utf8',
    });
    expect(made.status).toBe(0);
    const fixed = spawnSync(process.execPath, [COMMAND, '--book', real, '--now', NOW, 'print'], { encoding: 'utf8' });
    expect([fixed.status, fixed.stderr]).toEqual([2, expect.stringContaining("can't be fixed")]);
  });

  test.each([
    ['nothing', ''],
    ['blank lines', '\n\n  \n'],
  ])('%s records nothing and says so', (_, input) => {
    expect(run(['record'], { input })).toMatchObject({ status: 0, out: expect.stringContaining('no entries') });
  });

  test('a byte-order mark, Windows line ends and an entry over several lines are all read', () => {
    const one = {
      type: 'milk-hold',
      subject: '21',
      time: '2026-03-27T18:00:00Z',
      author: 'Jun',
      data: { reason: 'clots' },
    };
    const two = { ...one, data: { reason: 'flakes' } };
    expect(run(['record'], { input: `\ufeff${JSON.stringify(one)}\r\n${JSON.stringify(two)}\r\n` }).out).toContain(
      '2 entries recorded',
    );
    expect(run(['record'], { input: JSON.stringify(one, null, 2) }).out).toContain('1 entry was already known');
  });

  test('a line of ten megabytes is refused in a sentence, kept aside whole, and the next line is recorded', () => {
    const long = JSON.stringify({
      type: 'milk-hold',
      subject: '21',
      time: '2026-03-27T18:00:00Z',
      data: { reason: 'x'.repeat(10_000_000) },
    });
    const after = JSON.stringify({
      type: 'milk-hold',
      subject: '21',
      time: '2026-03-27T18:30:00Z',
      data: { reason: 'clots again' },
    });
    const made = run(['record'], { input: `${long}\n${after}\n` });
    expect(made.out).toContain('1 entry recorded');
    expect(made.out).toContain('an entry has 65536 at most');
    expect(run(['verify']).status).toBe(0);
  });
});
