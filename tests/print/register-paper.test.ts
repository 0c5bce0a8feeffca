/** The printed register of medicines, read back by an independent reader: every field, zeros, what is missing, what was struck, the stock. */
import { spawnSync } from 'node:child_process';
import { describe, expect, test } from 'vitest';
import { registerPaper } from '../../print/register.ts';
import { formatFor } from '../../print/words/format.ts';
import { LANGUAGES, wordsFor } from '../../print/words.ts';
import { wholeRegister } from '../../projections/whole-register.ts';
import { mustBeInstant } from '../../shared/instant.ts';
import { mustBe } from '../../shared/refusal.ts';
import { parseZone } from '../../shared/zone.ts';
import { about, CUPBOARD, dose, farm, farmWide, medicine, milker, type Saying } from '../projections/evening.ts';
import { faults, isStruck, linesAcross } from './drawn-lines.ts';
import { asked, drawn, KEEPER_MARKS, read, wordsOf } from './keeper-farm.ts';
import { readPdf, type TextBox } from './read-pdf.ts';
import { paperHashes } from './register-bytes.ts';

const ROSIE = '999000000000101';

const register = (sayings: readonly Saying[], more: Parameters<typeof wholeRegister>[2] = {}) => {
  const { known, moment } = asked(sayings);
  return wholeRegister(known, moment, more);
};

const FULL: readonly Saying[] = [
  farm(),
  ...CUPBOARD,
  medicine('Penicillin, udder', { active: 'penicillin G procaine', milkHold: { hours: 60 }, meatDays: 3 }),
  milker('101', { officialId: ROSIE }),
  milker('102'),
  milker('103'),
  farmWide('medicine-received', '2026-02-01T09:00:00Z', {
    medicine: 'Penicillin, udder',
    quantity: { value: 24, unit: 'tube' },
    batch: 'B-17',
    expires: '2027-05-31',
    supplier: 'Corran Veterinary Practice',
    supplierAddress: '3 Tannery Row',
    proof: 'invoice 77',
  }),
  farmWide('medicine-disposed', '2026-03-01T09:00:00Z', {
    medicine: 'Penicillin, udder',
    quantity: { value: 2, unit: 'tube' },
    batch: 'B-17',
    how: 'back to the practice',
  }),
  dose('101', '2026-03-10T05:30:00Z', {
    medicine: 'Penicillin, udder',
    amount: { value: 1, unit: 'tube' },
    route: 'udder',
    reason: 'mastitis',
    givenBy: 'Bram',
    prescribedBy: 'Dr Okafor',
    batch: 'B-17',
    course: { id: 'course-1', dose: 1, of: 2, everyHours: 11 },
  }),
  dose('101', '2026-03-10T16:30:00Z', {
    medicine: 'Penicillin, udder',
    amount: { value: 1, unit: 'tube' },
    route: 'udder',
    reason: 'mastitis',
    givenBy: 'Bram',
    prescribedBy: 'Dr Okafor',
    batch: 'B-17',
    course: { id: 'course-1', dose: 2, of: 2, everyHours: 11 },
  }),
  dose('102', '2026-03-11T05:30:00Z', { medicine: 'Nothing held' }),
];

const STRUCK: readonly Saying[] = [
  ...FULL,
  dose(
    '103',
    '2026-03-12T06:00:00Z',
    { medicine: 'Penicillin, udder', amount: { value: 1, unit: 'tube' }, batch: 'B-99', reason: 'swollen hock' },
    'wrong-cow',
  ),
  dose('102', '2026-03-12T06:00:00Z', { medicine: 'Penicillin, udder' }, 'right-cow'),
  about('103', 'entry-struck', '2026-03-12T09:00:00Z', {
    entry: 'wrong-cow',
    reason: 'read the band wrong',
    instead: 'right-cow',
  }),
];

describe('what the register says', () => {
  test('R-95 a treatment with all its fields stands there with each of them, and lacks nothing', async () => {
    const said = wordsOf(await read((voice) => registerPaper(register(FULL), voice)));
    for (const field of [
      '101',
      `official number: ${ROSIE}`,
      'Penicillin, udder',
      'active ingredient: penicillin G procaine',
      'batch: B-17',
      'route: udder',
      'Tue 10 Mar 2026 05:30 , 1 tube',
      'Tue 10 Mar 2026 16:30 , 1 tube',
      '2 doses, in all 2 tube',
      'reason: mastitis',
      'given by: Bram',
      'prescribed by: Dr Okafor',
      'by the label',
      'supplier: Corran Veterinary Practice',
      'address: 3 Tannery Row',
      'proof of purchase: invoice 77',
    ]) {
      // A reader finds the words of a cell in the pieces that they were drawn in: spaces between pieces do not count.
      expect(said.replace(/ /g, ''), field).toContain(field.replace(/ /g, ''));
    }
    const tight = said.replace(/ /g, '');
    expect(tight).toContain('untilFri13Mar202604:30,over');
    expect(tight).toContain('writtendownTue10Mar202605:30');
    expect(tight).toContain('1treatmentlackssomethingthatalawasksfor');
  });

  test('R-16 R-95 a hold of zero is written as zero, for milk and for meat', async () => {
    const rows = register([
      farm(),
      ...CUPBOARD,
      milker('102'),
      dose('102', '2026-03-11T05:30:00Z', { medicine: 'Nothing held' }),
    ]);
    const said = wordsOf(await read((voice) => registerPaper(rows, voice)));
    expect(said.match(/0 ?\(none\)/g)).toHaveLength(2);
  });

  test('R-95 what a law asks for and nobody wrote down is said in its place, in bold', async () => {
    const rows = register([
      farm(),
      ...CUPBOARD,
      milker('102'),
      dose('102', '2026-03-11T05:30:00Z', { medicine: 'Nothing held' }),
    ]);
    const { pages } = await read((voice) => registerPaper(rows, voice));
    const boxes = pages.flatMap((page) => page.boxes);
    const names = [
      'official number:',
      'active ingredient:',
      'batch:',
      'route:',
      'quantity:',
      'reason:',
      'prescribed by:',
      'supplier:',
    ];
    for (const name of names)
      expect(
        boxes.some(({ text }) => text.trim().startsWith(name)),
        name,
      ).toBe(true);
    const loud = boxes.filter(({ text, font }) => /^(not written|not$|not )/.test(text) && font.includes('Bold'));
    expect(loud.length).toBeGreaterThanOrEqual(names.length);
  });

  test('R-95 a batch that only one dose of two has is given, and said not to be that of all', async () => {
    const rows = register([
      ...FULL,
      dose('103', '2026-03-12T06:00:00Z', { batch: 'ONE', course: { id: 'c', dose: 1, of: 2, everyHours: 12 } }),
      dose('103', '2026-03-12T18:00:00Z', { course: { id: 'c', dose: 2, of: 2, everyHours: 12 } }),
    ]);
    const tight = wordsOf(await read((voice) => registerPaper(rows, voice))).replace(/ /g, '');
    expect(tight).toContain('batch:ONE');
    expect(tight).toContain('forsomedosesnotwrittendown');
  });

  test('R-25 a dose whose number meant two cows says whose it may be; one for no cow says so', async () => {
    const rows = register([
      farm(),
      ...CUPBOARD,
      milker('101', { officialId: ROSIE }),
      about('101', 'cow-entered', '2026-02-10T12:00:00Z', {
        group: 'Cows',
        lactation: 1,
        officialId: '999000000000202',
        milkHoldUntil: 'none',
        meatHoldUntil: 'none',
      }),
      dose('101', '2026-03-11T05:30:00Z'),
      dose('777', '2026-03-11T05:40:00Z'),
    ]);
    const tight = wordsOf(await read((voice) => registerPaper(rows, voice))).replace(/ /g, '');
    expect(tight).toContain(`notcertain,maybe${ROSIE}/999000000000202`);
    expect(tight).toContain('nosuchcowintheherd');
  });

  test('R-27 entries set aside are said to be possible treatments', async () => {
    const { known, moment } = asked(FULL, undefined, [
      { key: 'set-aside:1', problem: 'unreadable', cows: [], recordedAt: mustBeInstant('2026-03-11T05:40:00Z') },
    ]);
    const { text } = await read((voice) => registerPaper(wholeRegister(known, moment), voice));
    expect(text).toContain('1 entry could not be used and may be a treatment');
  });

  test('R-95 the stock of each batch is what was received less used less disposed of, and doses without a quantity are counted', async () => {
    const { pages } = await read((voice) => registerPaper(register(FULL), voice));
    const line = pages.flatMap(({ lines }) => lines).find((each) => each.includes('24 tube'));
    expect(line?.replace(/ /g, '')).toBe('Penicillin,udderB-17Mon31May202724tube2tube2tube20tube');
    expect(pages.flatMap(({ lines }) => lines).join(' ')).toContain('1 dose has no quantity written down');
  });

  test('R-95 a dose with no quantity is said beside what is left of its medicine, in every language', async () => {
    const without = [...FULL, dose('103', '2026-03-11T05:30:00Z', { medicine: 'Penicillin, udder' })];
    for (const language of LANGUAGES) {
      const { keeper } = wordsFor(language);
      const words = keeper
        .notTakenOff(1, formatFor(wordsFor(language), { zone: mustBe(parseZone('UTC')) }))
        .replace(/\s/g, '');
      const textOf = async (sayings: readonly Saying[]) =>
        (await read((voice) => registerPaper(register(sayings), voice), language)).text.replace(/\s/g, '');
      expect([(await textOf(FULL)).includes(words), (await textOf(without)).includes(words)]).toEqual([false, true]);
    }
  });

  test('R-95 a cow renumbered since is named by the number of then and that of now', async () => {
    const renumbered = ['101', '102'].map((cow) =>
      about(cow, 'number-changed', '2026-03-12T09:00:00Z', { to: `6${cow}` }),
    );
    const paper = await read((voice) => registerPaper(register([...FULL, ...renumbered]), voice));
    // The other one has her official number beside it.
    expect(wordsOf(paper)).toContain('102 now 6102');
    expect(wordsOf(paper)).not.toContain('now 6101');
  });
});

describe('what was struck', () => {
  test('R-23 R-95 a struck treatment stands in its place with a line through each text, and who, when, why and what instead beside it', async () => {
    const bytes = await drawn((voice) => registerPaper(register(STRUCK), voice));
    const { pages } = await readPdf(bytes);
    const lines = await linesAcross(bytes);
    const boxes = pages.flatMap((page, index) =>
      page.boxes.map((box) => ({ ...box, struck: isStruck(box, lines[index] ?? []) })),
    );
    const at = (text: RegExp) => boxes.filter((box) => text.test(box.text));
    for (const written of [/^103$/, /B-$/, /swollen hock/]) {
      expect(at(written).length, String(written)).toBeGreaterThan(0);
    }
    expect(at(/^103$/).filter((box) => !box.struck && box.size > 10)).toEqual([]);
    expect(at(/swollen hock/).every(({ struck }) => struck)).toBe(true);
    // What stands is not struck, nor is what is said about the striking.
    for (const stands of [/STRUCK by/, /wrong/, /instead/, /mastitis/, /by the label/, /^101$/]) {
      expect(at(stands).length, String(stands)).toBeGreaterThan(0);
      expect(at(stands).filter(({ struck }) => struck)).toEqual([]);
    }
    const tight = boxes
      .map(({ text }) => text)
      .join('')
      .replace(/ /g, '');
    expect(tight).toContain('STRUCKbyMarta,Thu12Mar202609:00:readthebandwrong');
    expect(tight).toContain('instead:atreatment102,Thu12Mar202606:00');
  });

  test('R-23 a struck delivery and a struck label stand among the other corrections', async () => {
    const rows = register([
      ...FULL,
      {
        ...farmWide('medicine-received', '2026-03-02T09:00:00Z', {
          medicine: 'Sixty hours',
          quantity: { value: 5, unit: 'tube' },
        }),
        id: 'delivery',
      },
      farmWide('entry-struck', '2026-03-03T09:00:00Z', { entry: 'delivery', reason: 'sent back', instead: 'nothing' }),
    ]);
    expect(rows.struck.others).toMatchObject([
      { type: 'medicine-received', medicine: 'Sixty hours', by: 'Marta', reason: 'sent back', instead: 'nothing' },
    ]);
    const bytes = await drawn((voice) => registerPaper(rows, voice));
    const { pages } = await readPdf(bytes);
    const lines = await linesAcross(bytes);
    const [page, index] = pages.flatMap((each, place) =>
      each.boxes.some(({ text }) => text.includes('a medicine received')) ? [[each, place] as const] : [],
    )[0] ?? [undefined, 0];
    const struck = page?.boxes.filter((box) => isStruck(box, lines[index] ?? [])).map(({ text }) => text);
    expect(struck?.join('')).toContain('a medicine received, Sixty hours');
    expect(page?.lines.join(' ')).toContain('it never happened');
  });
});

const LONG = 'a name as long as the door lets in, with Łukasz, Íñigo and Ґанна in it, and more';
const many = (count: number): Saying[] => [
  farm(),
  medicine(LONG.slice(0, 80), { active: LONG, milkHold: { hours: 60 }, meatDays: 3 }),
  ...Array.from({ length: count }, (_, index) => milker(`C-${String(index).padStart(8, '0')}`)),
  ...Array.from({ length: count }, (_, index) =>
    dose(`C-${String(index).padStart(8, '0')}`, '2026-03-12T06:00:00Z', {
      medicine: LONG.slice(0, 80),
      amount: { value: 12.25, unit: 'millilitres' },
      reason: `${LONG} ${LONG}`.slice(0, 200),
      givenBy: LONG.slice(0, 80),
      prescribedBy: LONG.slice(0, 80),
      batch: 'Wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww'.slice(0, 60),
      route: 'into the vein of the neck, slowly, twice',
    }),
  ),
];

/** A cow's number in the first column. */
const isNumber = ({ text, size }: TextBox): boolean => size > 10 && /^\d{8}$/.test(text);

describe('the pages', () => {
  test.each([
    [0, 'A4'],
    [1, 'A4'],
    [1, 'Letter'],
    [400, 'Letter'],
  ] as const)(
    '%i treatments on %s: nothing off the page or over another, each row whole, each page numbered',
    async (count, paper) => {
      const rows = register(many(count));
      const { pages } = await read((voice) => registerPaper(rows, voice), 'en', { ...KEEPER_MARKS, paper });
      for (const page of pages) expect(faults(page)).toEqual([]);
      pages.forEach((page, index) => {
        const said = page.lines.join(' ');
        for (const mark of [
          'Register of medicines',
          'Windmill Dairy',
          `Page ${index + 1} of ${pages.length}`,
          'position 1841',
          KEEPER_MARKS.root.slice(0, 32),
          KEEPER_MARKS.bookId,
          'Follow the label',
        ])
          expect(said).toContain(mark);
        expect([page.width > page.height, said.includes('undefined')]).toEqual([true, false]);
      });
      const numbers = pages.flatMap(({ boxes }) => boxes.filter(isNumber));
      expect(numbers).toHaveLength(count);
      if (count === 0) expect(pages[0]?.lines.join(' ')).toContain('No treatment is written down for this time.');
      // Each row stands on one page with all that it says: its last words are there as often as its number.
      for (const { boxes } of pages) {
        const on = boxes.filter(isNumber).length;
        expect(boxes.filter(({ text }) => text.startsWith('by the label'))).toHaveLength(on);
      }
    },
  );

  test.each(LANGUAGES)('in %s the register stands on the page like the English one', async (language) => {
    const { pages, text } = await read((voice) => registerPaper(register(STRUCK), voice), language);
    for (const page of pages) expect(faults(page)).toEqual([]);
    expect(text).not.toMatch(/undefined|NaN|\[object/);
  });

  test('the period asked for stands on every page, and leaves out what lies outside it', async () => {
    const made = register(FULL, {
      from: mustBeInstant('2026-03-11T00:00:00Z'),
      to: mustBeInstant('2026-03-11T23:59:59Z'),
      fromDay: '2026-03-11',
      toDay: '2026-03-11',
    });
    const { text } = await read((voice) => registerPaper(made, voice));
    expect(text).toContain('Wed 11 Mar 2026 to Wed 11 Mar 2026 · 1 treatment · 0 struck');
    expect(text).not.toContain('mastitis');
  });
});

test('the same rows give the same bytes of each paper, twice here and once in another process, zone and locale', async () => {
  const here = await paperHashes();
  expect(new Set(here).size).toBe(3);
  expect(await paperHashes()).toEqual(here);
  const script = `
    import { paperHashes } from './tests/print/register-bytes.ts';
    for (const hash of await paperHashes()) console.log(hash);
  `;
  const other = spawnSync(process.execPath, ['--import', 'tsx', '--input-type=module', '-e', script], {
    encoding: 'utf8',
    timeout: 60_000,
    env: { ...process.env, TZ: 'Pacific/Apia', LC_ALL: 'C' },
  });
  expect(other.stdout.trim().split('\n')).toEqual(here);
});
