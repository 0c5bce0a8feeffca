/** A cow's history on paper, read back: both times of each entry, who said so, what was struck, whose it is, doubts. */

import { describe, expect, test } from 'vitest';
import type { Entry } from '../../events/entry.ts';
import { ENTRY_TYPES, KINDS } from '../../events/kinds.ts';
import { entryLike } from '../../events/stored-entry.ts';
import { historyPaper } from '../../print/history.ts';
import { COW_FIELDS } from '../../print/words/keeper.ts';
import { LANGUAGES } from '../../print/words.ts';
import { cowHistory } from '../../projections/history.ts';
import { know } from '../../projections/know.ts';
import { viewsAt } from '../../projections/views-at.ts';
import { plusHours } from '../../shared/instant.ts';
import { about, CUPBOARD, dose, farm, farmWide, milker, type Saying } from '../projections/evening.ts';
import { faults, isStruck, linesAcross } from './drawn-lines.ts';
import { asked, drawn, KEEPER_MARKS, read, wordsOf } from './keeper-farm.ts';
import { readPdf } from './read-pdf.ts';

const OLD = '999000000000412';
const NEW = '999000000000413';

/** Every entry reaches the book five hours after it happened. */
const historyOf = (number: string, sayings: readonly Saying[]) => {
  const said = asked(sayings);
  const entries = said.entries.map((entry) => entryLike(entry, { recordedAt: plusHours(entry.at, 5) }) as Entry);
  const known = know(entries, []);
  const { moment } = said;
  const { doubts } = viewsAt(known, { milking: moment.milking, asOf: moment.asOf, position: entries.length });
  const places = new Map(entries.map((entry) => [entry.id, entry.position]));
  const history = cowHistory(known, entries, doubts, number);
  return { history, placeOf: (id: string) => places.get(id) };
};

const paperOf = (number: string, sayings: readonly Saying[]) => {
  const { history, placeOf } = historyOf(number, sayings);
  return (voice: Parameters<Parameters<typeof drawn>[0]>[0]) => historyPaper(history, placeOf, voice);
};

/** 412 becomes 1412; afterwards another cow gets the free number. */
const RENUMBERED: readonly Saying[] = [
  farm(),
  ...CUPBOARD,
  milker('412', { officialId: OLD }),
  dose('412', '2026-02-01T06:00:00Z', { reason: 'before the change' }),
  about('412', 'number-changed', '2026-02-10T12:00:00Z', { to: '1412' }),
  dose('1412', '2026-02-20T06:00:00Z', { reason: 'after the change' }),
  about('412', 'cow-entered', '2026-03-01T12:00:00Z', {
    group: 'Cows',
    lactation: 1,
    officialId: NEW,
    milkHoldUntil: 'none',
    meatHoldUntil: 'none',
  }),
  dose('412', '2026-03-10T06:00:00Z', { reason: 'the other cow' }),
];

describe('what a history says', () => {
  test('each entry says when it happened, when this book learnt of it, what, and who said so', async () => {
    const said = wordsOf(
      await read(
        paperOf('101', [
          farm(),
          ...CUPBOARD,
          milker('101'),
          dose('101', '2026-03-11T05:30:00Z', { amount: { value: 12.5, unit: 'ml' }, quarters: ['left-front'] }),
        ]),
      ),
    );
    const tight = said.replace(/ /g, '');
    expect(tight).toContain('Wed11Mar202605:30');
    expect(tight).toContain('Wed11Mar202610:30');
    expect(tight).toContain('medicine:Sixtyhours;quantity:12.5ml;quarters:leftfront');
    expect(tight).toContain('Marta,onoffice');
    expect(tight).toContain('Nodoubtsstand.');
  });

  test('R-25 a cow whose number changed is one cow under both numbers, without what the next bearer of the old one had', () => {
    for (const number of ['1412', OLD]) {
      const { history } = historyOf(number, RENUMBERED);
      expect(history.animals).toMatchObject([
        { officialId: OLD, bore: [{ number: '412' }, { number: '1412', to: null }] },
      ]);
      expect(history.lines.map(({ entry }) => entry.type)).toEqual([
        'cow-entered',
        'treatment',
        'number-changed',
        'treatment',
      ]);
    }
  });

  test('R-25 a number that meant two cows says so, and each entry says whose it is', async () => {
    const { history } = historyOf('412', RENUMBERED);
    expect(history.lines.map(({ whose }) => whose)).toEqual([[0], [0], [0], [0], [1], [1]]);
    const tight = wordsOf(await read(paperOf('412', RENUMBERED))).replace(/ /g, '');
    expect(tight).toContain('Number412hasmeant2cows.');
    expect(tight).toContain(`cow1·officialnumber:${OLD}·barnnumber:412`);
    expect(tight).toContain(`cow2·officialnumber:${NEW}`);
  });

  test('R-25 an entry for a number that two cows bore at that time is nobody’s for certain, and its doubt stands', async () => {
    const twins: Saying[] = [
      farm(),
      ...CUPBOARD,
      milker('412', { officialId: OLD }),
      milker('412', { officialId: NEW }),
      dose('412', '2026-03-10T06:00:00Z'),
    ];
    const { history } = historyOf('412', twins);
    expect(history.lines.at(-1)).toMatchObject({ whose: [], mayBe: [0, 1] });
    const tight = wordsOf(await read(paperOf('412', twins))).replace(/ /g, '');
    expect(tight).toContain('notcertain,maybecow1/cow2');
    expect(tight).toContain(`Number412maymean${OLD}and${NEW}:which?`);
  });

  test('R-25 entries for a number that no cow bore are laid to nobody’s door, and still there to be read', async () => {
    const tight = wordsOf(
      await read(paperOf('888', [farm(), ...CUPBOARD, milker('101'), dose('888', '2026-03-10T06:00:00Z')])),
    ).replace(/ /g, '');
    expect(tight).toContain('Nocowoftheherdeverborethenumber888');
    expect(tight).toContain('medicine:Sixtyhours');
  });

  test('R-23 a struck entry stands with a line through it, who struck it, when, why and what instead; so does the strike', async () => {
    const sayings: Saying[] = [
      farm(),
      ...CUPBOARD,
      milker('101'),
      dose('101', '2026-03-11T05:30:00Z', { reason: 'lame' }, 'slip'),
      about('101', 'entry-struck', '2026-03-11T09:00:00Z', {
        entry: 'slip',
        reason: 'bottle was empty',
        instead: 'nothing',
      }),
    ];
    const bytes = await drawn(paperOf('101', sayings));
    const { pages } = await readPdf(bytes);
    const lines = await linesAcross(bytes);
    const boxes = pages.flatMap((page, index) =>
      page.boxes.map((box) => ({ ...box, struck: isStruck(box, lines[index] ?? []) })),
    );
    expect(boxes.filter(({ text }) => /reason: lame/.test(text)).map(({ struck }) => struck)).toEqual([true]);
    const tight = boxes
      .map(({ text }) => text)
      .join('')
      .replace(/ /g, '');
    expect(tight).toContain('STRUCKbyMarta,Wed11Mar202614:00:bottlewasempty');
    expect(tight).toContain('instead:nothing,itneverhappened');
    expect(boxes.filter(({ text, struck }) => struck && /STRUCK|empty|group/.test(text))).toEqual([]);
    expect(tight).toContain('entry:entryatposition');
  });

  test('how a doubt was settled stands in the history of the cow that it was about', () => {
    const { history } = historyOf('101', [
      farm(),
      ...CUPBOARD,
      milker('101'),
      dose('101', '2026-03-11T05:30:00Z', {}, 'a-dose-of-hers'),
      farmWide('settled', '2026-03-12T09:00:00Z', { about: 'late-news:a-dose-of-hers', how: 'poured away' }),
      farmWide('settled', '2026-03-12T09:30:00Z', { about: 'late-news:somebody-else', how: 'not hers' }),
    ]);
    expect(history.lines.map(({ entry }) => entry.type)).toEqual(['cow-entered', 'treatment', 'settled']);
  });
});

describe('the pages', () => {
  const busy = (count: number): Saying[] => [
    farm(),
    ...CUPBOARD,
    milker('W-12345678', { from: 'a farm with a name as long as the door lets in, Łukasz, Íñigo and Ґанна' }),
    ...Array.from({ length: count - 1 }, (_, index) =>
      dose('W-12345678', new Date(Date.UTC(2026, 1, 1, index)).toISOString(), {
        reason: `reason ${index}: ${'Wwwwwwwwww'.repeat(12)} and words`,
        givenBy: 'a name as long as the door lets in, Łukasz, Íñigo and Ґанна',
      }),
    ),
  ];

  test.each([
    [1, 'A4'],
    [400, 'Letter'],
  ] as const)(
    'a history of %i entries on %s: nothing off the page or over another, nothing lost',
    async (count, paper) => {
      const { pages } = await read(paperOf('W-12345678', busy(count)), 'en', { ...KEEPER_MARKS, paper });
      for (const page of pages) expect(faults(page)).toEqual([]);
      pages.forEach((page, index) => {
        const said = page.lines.join(' ');
        for (const mark of [
          'History of cow W-12345678',
          `Page ${index + 1} of ${pages.length}`,
          'position 1841',
          'Follow the label',
        ])
          expect(said).toContain(mark);
        expect(said).not.toMatch(/undefined|…/);
      });
      const doses = pages.flatMap(({ boxes }) => boxes.filter(({ text }) => text.startsWith('a treatment')));
      expect(doses).toHaveLength(count - 1);
    },
  );

  test.each(LANGUAGES)('in %s it stands on the page like the English one', async (language) => {
    const { pages, text } = await read(paperOf('412', RENUMBERED), language);
    for (const page of pages) expect(faults(page)).toEqual([]);
    expect(text).not.toMatch(/undefined|NaN|\[object/);
  });

  test('every field that an entry about a cow may have has a name in the reader’s language', () => {
    const ofCows = ENTRY_TYPES.filter((type) => KINDS[type].subject !== 'farm');
    const fields = ofCows.flatMap((type) => Object.keys(KINDS[type].schema.shape));
    const named: readonly string[] = COW_FIELDS;
    expect(ofCows.length).toBeGreaterThan(15);
    expect([...new Set(fields)].filter((field) => !named.includes(field))).toEqual([]);
  });
});
