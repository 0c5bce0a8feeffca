/** The statement for the buyer of a cow that leaves, read back: who she is, what holds her, what stands behind it, what is not known. */
import { describe, expect, test } from 'vitest';
import type { Aside } from '../../events/entry.ts';
import { buyerPaper } from '../../print/buyer.ts';
import { LANGUAGES } from '../../print/words.ts';
import { cowMeant } from '../../projections/cow-meant.ts';
import { type Leaving, leavingOfCow } from '../../projections/leaving.ts';
import { viewsAt } from '../../projections/views-at.ts';
import { mustBeInstant } from '../../shared/instant.ts';
import { about, CUPBOARD, dose, dryCow, farm, medicine, milker, type Saying } from '../projections/evening.ts';
import { faults } from './drawn-lines.ts';
import { asked, KEEPER_MARKS, read, wordsOf } from './keeper-farm.ts';

const ROSIE = '999000000000101';

/** Asked on 14 March 2026 at 15:40. */
const leavingOf = (cow: string, sayings: readonly Saying[], asides: readonly Aside[] = []): Leaving => {
  const { known, moment, entries } = asked([farm(), ...CUPBOARD, ...sayings], undefined, asides);
  const views = viewsAt(known, { milking: moment.milking, asOf: moment.asOf, position: entries.length });
  const [animal] = cowMeant(known, cow).animals;
  const file = known.files.find((each) => each.cow.key === animal?.key);
  if (file === undefined) throw new Error(`${cow} is on the book`);
  return leavingOfCow(known, moment, file, views.doubts);
};

const tightOf = async (leaving: Leaving, language = 'en'): Promise<string> =>
  wordsOf(await read((voice) => buyerPaper(leaving, voice), language)).replace(/ /g, '');

const rosie = milker('101', { officialId: ROSIE, born: '2021-09-18' });
const treated = dose('101', '2026-03-13T06:00:00Z', {
  amount: { value: 1, unit: 'tube' },
  batch: 'B-17',
  route: 'udder',
  reason: 'mastitis',
  prescribedBy: 'Dr Okafor',
});
const leaves = (time: string): Saying =>
  about('101', 'cow-left', time, { reason: 'sold-for-milking', to: 'Corran Bridge' });

describe('what holds her', () => {
  test('R-90 a cow about to leave: both holds with their ends as of now, and the treatment behind them', async () => {
    const leaving = leavingOf('101', [
      medicine(
        'Sixty hours',
        { active: 'cloxacillin sodium', milkHold: { hours: 60 }, meatDays: 3 },
        '2026-01-02T09:00:00Z',
      ),
      rosie,
      treated,
    ]);
    expect(leaving).toMatchObject({
      officialId: ROSIE,
      left: null,
      milk: { held: true, until: '2026-03-15T18:00:00Z' },
      meat: { held: true, until: '2026-03-16T06:00:00Z' },
    });
    const tight = await tightOf(leaving);
    for (const said of [
      `officialnumber:${ROSIE}`,
      'barnnumber:101',
      'born:Sat18Sept2021',
      'HoldsonSat14Mar202615:40',
      'Milkhold:untilSun15Mar202618:00',
      'Meathold:untilMon16Mar202606:00',
      'Fri13Mar202606:00+60h=Sun15Mar202618:00',
      'activeingredient:cloxacillinsodium',
      'batch:B-17',
      'prescribedby:DrOkafor',
      'Fri13Mar202606:00,1tube',
      'Itisnotaguarantee.',
      'Statedby',
      'signature',
      'Receivedbythebuyer',
    ])
      expect(tight).toContain(said);
  });

  test('R-90 a cow that left: the holds of the minute she left, though they are over by now', async () => {
    const leaving = leavingOf('101', [
      rosie,
      dose('101', '2026-03-01T06:00:00Z', { batch: 'B-17' }),
      leaves('2026-03-02T09:00:00Z'),
    ]);
    expect(leaving).toMatchObject({
      at: '2026-03-02T09:00:00Z',
      left: { reason: 'sold-for-milking', to: 'Corran Bridge' },
      milk: { held: true, until: '2026-03-03T18:00:00Z' },
      meat: { held: true, until: '2026-03-04T06:00:00Z' },
    });
    const tight = await tightOf(leaving);
    expect(tight).toContain('Holdswhensheleft,Mon2Mar202609:00');
    expect(tight).toContain('left:Mon2Mar202609:00,soldformilking');
    expect(tight).toContain('to:CorranBridge');
  });

  test('R-10 R-90 a hold that ends at the very minute she leaves is still stated', () => {
    const at = (time: string) => leavingOf('101', [rosie, dose('101', '2026-03-01T06:00:00Z'), leaves(time)]).milk.held;
    expect([at('2026-03-03T18:00:00Z'), at('2026-03-03T18:01:00Z')]).toEqual([true, false]);
  });

  test('R-12 R-90 a hold of five milkings has no known end once she is milked elsewhere', () => {
    const { milk } = leavingOf('101', [
      rosie,
      dose('101', '2026-03-01T06:00:00Z', { medicine: 'Five milkings' }),
      leaves('2026-03-02T09:00:00Z'),
    ]);
    expect(milk).toMatchObject({ held: true, until: null });
  });

  test('R-14 R-90 a medicine whose hold nobody knows: no end known, ask the vet', async () => {
    const leaving = leavingOf('101', [rosie, dose('101', '2026-03-13T06:00:00Z', { medicine: 'Not known' })]);
    expect([leaving.milk, leaving.meat]).toMatchObject([
      { held: true, until: null },
      { held: true, until: null },
    ]);
    const tight = await tightOf(leaving);
    expect(tight).toContain('Milkhold:noendknown:askthevet');
    expect(tight).toContain('Meathold:noendknown:askthevet');
  });

  test('R-19 R-90 a dry cow leaves with her dry-cow product: her milk is held past her calving', () => {
    const { milk, treatments } = leavingOf('201', [
      dryCow('201'),
      dose('201', '2026-01-12T06:00:00Z', { medicine: 'Dry-cow tube' }),
    ]);
    expect(milk).toMatchObject({ held: true, until: null });
    expect(milk.reasons.map(({ key }) => key)).toContain('hold.dry-cow-until-calving');
    expect(treatments.map((row) => row.medicine)).toEqual(['Dry-cow tube']);
  });

  test('R-25 R-90 a dose for a number that two cows bore is stated for her too, as not certain', async () => {
    const leaving = leavingOf(ROSIE, [
      rosie,
      milker('101', { officialId: '999000000000202' }),
      dose('101', '2026-03-13T06:00:00Z'),
    ]);
    expect(leaving.milk).toMatchObject({ held: true, until: '2026-03-15T18:00:00Z' });
    expect(leaving.treatments).toHaveLength(1);
    const tight = await tightOf(leaving);
    expect(tight).toContain(`Number101maymean${ROSIE}and999000000000202:which?`);
  });

  test('R-27 R-90 an entry set aside that may concern her holds her without end, also when she has left', () => {
    const aside: Aside = {
      key: 'set-aside:1',
      problem: 'the time is not a time',
      cows: ['101'],
      recordedAt: mustBeInstant('2026-03-13T06:00:00Z'),
    };
    for (const gone of [[], [leaves('2026-03-14T09:00:00Z')]]) {
      const { milk, meat } = leavingOf('101', [rosie, ...gone], [aside]);
      expect([milk, meat]).toMatchObject([
        { held: true, until: null },
        { held: true, until: null },
      ]);
    }
  });
});

describe('what it rests on', () => {
  test('R-90 nothing on hold is said plainly, with what that rests on', async () => {
    const leaving = leavingOf('101', [
      rosie,
      dose('101', '2026-02-01T06:00:00Z'),
      about('101', 'service', '2026-02-20T09:00:00Z', { how: 'natural' }),
    ]);
    expect([leaving.milk.held, leaving.meat.held, leaving.treatments]).toEqual([false, false, []]);
    const tight = await tightOf(leaving);
    for (const said of [
      'Milkhold:noneinthebook',
      'Meathold:noneinthebook',
      'Nothinginthebookholdshermilkorhermeat.',
      'Thatrestson3entriesabouthersinceSat10Jan202612:00.Whatnobodywrotedownisnotinit.',
      '1treatmentinthebook;thelast:Sixtyhours,Sun1Feb202606:00.',
      'Nothingisknowntobemissing.',
      'Itisnotaguarantee.',
      'Followthelabel',
    ])
      expect(tight).toContain(said);
    expect(tight).not.toContain('Treatmentsbehind');
  });

  test('R-23 a treatment that was struck holds nothing and stands behind nothing', () => {
    const leaving = leavingOf('101', [
      rosie,
      { ...treated, id: 'slip' },
      about('101', 'entry-struck', '2026-03-13T07:00:00Z', { entry: 'slip', reason: 'not she', instead: 'nothing' }),
    ]);
    expect([leaving.milk.held, leaving.treatmentsInBook]).toEqual([false, 0]);
  });

  test('what is not written down is listed as not known: official number, batch, who prescribed', async () => {
    const tight = await tightOf(leavingOf('102', [milker('102'), dose('102', '2026-03-13T06:00:00Z')]));
    expect(tight).toContain('officialnumber:notwrittendown');
    expect(tight).toContain('102:notwrittendown:officialnumber');
    expect(tight).toContain(
      'Sixtyhours,Fri13Mar202606:00:notwrittendown:quantity,route,batch,prescribedby,activeingredient',
    );
  });
});

describe('which cow a number means', () => {
  const known = asked([
    farm(),
    rosie,
    leaves('2026-02-01T09:00:00Z'),
    { ...milker('101', { officialId: '999000000000202' }), time: '2026-02-15T12:00:00Z' },
    milker('7'),
    about('7', 'number-changed', '2026-02-01T09:00:00Z', { to: '1007' }),
  ]).known;
  const officials = (number: string) => cowMeant(known, number).animals.map((animal) => animal.officialId);

  test('R-25 one that left under it and one that bears it now are two cows; her official number or a date tells them apart', () => {
    expect(officials('101')).toEqual([ROSIE, '999000000000202']);
    expect(officials(ROSIE)).toEqual([ROSIE]);
    const day = (date: string) => ({
      from: mustBeInstant(`${date}T00:00:00Z`),
      to: mustBeInstant(`${date}T23:59:59Z`),
    });
    const on = (date: string) => cowMeant(known, '101', day(date)).animals.map((animal) => animal.officialId);
    expect([on('2026-01-20'), on('2026-02-10'), on('2026-03-01')]).toEqual([[ROSIE], [], ['999000000000202']]);
  });

  test('R-25 a number she bore once finds her while nobody else has it; zeros in front are only asked about', () => {
    expect(cowMeant(known, '7').animals.map(({ spans }) => spans.at(-1)?.number)).toEqual(['1007']);
    expect(cowMeant(known, '007')).toEqual({ animals: [], near: ['7'] });
    expect(cowMeant(known, '999')).toEqual({ animals: [], near: [] });
  });
});

describe('the pages', () => {
  const long = 'a name as long as the door lets in, with Łukasz, Íñigo and Ґанна in it, and on'.slice(0, 80);
  const busy: readonly Saying[] = [
    medicine(long, { active: long, milkHold: { hours: 600 }, meatDays: 90 }),
    milker('W-12345678', { officialId: ROSIE }),
    ...Array.from({ length: 40 }, (_, index) =>
      dose('W-12345678', new Date(Date.UTC(2026, 2, 1, index * 6)).toISOString(), {
        medicine: long,
        reason: `${'Wwwwwwwwww'.repeat(12)} and words`,
        route: 'into the vein of the neck, slowly, twice',
      }),
    ),
  ];

  test.each(['A4', 'Letter'] as const)(
    'forty treatments with long names on %s: nothing off the page or over another, each treatment whole',
    async (paper) => {
      const leaving = leavingOf('W-12345678', busy);
      expect(leaving.treatments).toHaveLength(40);
      const { pages } = await read((voice) => buyerPaper(leaving, voice), 'en', { ...KEEPER_MARKS, paper });
      expect(pages.length).toBeGreaterThan(3);
      for (const page of pages) expect(faults(page)).toEqual([]);
      pages.forEach((page, index) => {
        const said = page.lines.join(' ');
        for (const mark of [
          'Statement for the buyer of a cow',
          'Windmill Dairy',
          `Page ${index + 1} of ${pages.length}`,
          'Follow the label',
        ])
          expect(said).toContain(mark);
        expect(said).not.toMatch(/undefined|…/);
      });
      // The places to sign stand together on one page.
      const signing = pages.filter(({ boxes }) => boxes.some(({ text }) => text.startsWith('Stated by')));
      expect(signing.map((page) => page.lines.join(' ').includes('Received by the buyer'))).toEqual([true]);
    },
  );

  test.each(LANGUAGES)('in %s it stands on the page like the English one', async (language) => {
    const { pages, text } = await read((voice) => buyerPaper(leavingOf('101', [rosie, treated]), voice), language);
    expect(pages).toHaveLength(1);
    for (const page of pages) expect(faults(page)).toEqual([]);
    expect(text).not.toMatch(/undefined|NaN|\[object/);
  });
});
