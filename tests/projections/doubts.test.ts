/** Every doubt that the book can have: it comes when it should, not for its near neighbour, and ends with `settled`. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Aside } from '../../events/entry.ts';
import type { DataOf } from '../../events/kinds.ts';
import { mustBeInstant } from '../../shared/instant.ts';
import { about, CUPBOARD, dose, dryCow, evening, farm, farmWide, medicine, milker, type Saying } from './evening.ts';

const AT = '2026-03-14/afternoon';
const NOON = '2026-03-14T12:00:00Z';

interface Case {
  readonly rule: string;
  readonly key: `doubt.${string}`;
  readonly when: string;
  readonly sayings: readonly Saying[];
  readonly asides?: readonly Aside[];
  readonly values: object;
  /** Nearly the same, and no such doubt. */
  readonly but: { readonly when: string; readonly sayings: readonly Saying[] };
}

const official = (last: number) => ({ officialId: `99900000000000${last}` });
const one = { ...milker('1', official(1)), id: 'one' };
const another = { ...milker('1', official(2)), id: 'two' };
const strike = (entry: string, more: Partial<DataOf<'entry-struck'>> = {}, id = `strike-${entry}`): Saying => ({
  ...farmWide('entry-struck', NOON, { entry, reason: 'wrong cow', ...more }),
  id,
});
const vetTime = (milkHours: number) =>
  about('1', 'vet-hold-time', NOON, { treatment: 'dose', milkHours, prescribedBy: 'Dr Vane' }, 'vet');
const course = (number: number, time: string) =>
  dose('1', time, { course: { id: 'course', dose: number, of: 3, everyHours: 12 } }, `dose-${number}`);
const moved = (to: string, id: string, time = NOON) => about('1', 'group-move', time, { to }, id);
const left = about('1', 'cow-left', '2026-03-10T09:00:00Z', { reason: 'died' }, 'left');
const calving = (time: string) =>
  about('1', 'calving', time, { calves: [{ sex: 'female', alive: true }], group: 'Fresh' }, 'calving');
const dried = (id: string, time = NOON) => about('1', 'dry-off', time, { product: 'none' }, id);
const asked = (to: string, id: string) => about('1', 'sort-request', NOON, { reason: 'lame', to }, id);
const counted = (count: number): Saying => ({ ...farmWide('head-count', NOON, { group: 'Cows', count }), id: 'count' });
const enteredWith = (group: string, lactation: number) =>
  about('1', 'cow-entered', '2026-01-10T12:00:00Z', { group, lactation, milkHoldUntil: 'none', meatHoldUntil: 'none' });

const CASES: readonly Case[] = [
  {
    rule: 'R-25',
    key: 'doubt.unplaced',
    when: 'a dose is for a number that nobody bears',
    sayings: [milker('1'), dose('999', NOON)],
    values: { number: '999', about: 'Sixty hours', at: NOON },
    but: { when: 'somebody bears it', sayings: [milker('1'), dose('1', NOON)] },
  },
  {
    rule: 'R-25',
    key: 'doubt.two-cows',
    when: 'a dose is for a number that two cows bear',
    sayings: [one, another, dose('1', NOON)],
    values: { number: '1', cows: ['999000000000001', '999000000000002'] },
    but: {
      when: 'it names her official number',
      sayings: [one, another, dose('999000000000001', NOON)],
    },
  },
  {
    rule: 'R-25',
    key: 'doubt.number-in-use',
    when: 'a cow takes a number that another bears',
    sayings: [milker('1'), milker('2'), about('2', 'number-changed', NOON, { to: '1' })],
    values: { number: '1', at: NOON },
    but: {
      when: 'the other has left',
      sayings: [milker('1'), left, milker('2'), about('2', 'number-changed', NOON, { to: '1' })],
    },
  },
  {
    rule: 'R-25',
    key: 'doubt.leading-zeros',
    when: 'a number matches only without its leading zeros',
    sayings: [milker('7'), dose('007', NOON)],
    values: { number: '007', mayBe: ['7'] },
    but: { when: 'a cow bears it zeros and all', sayings: [milker('7'), milker('007'), dose('007', NOON)] },
  },
  {
    rule: 'R-25',
    key: 'doubt.after-leaving',
    when: 'a dose is for a cow that had left',
    sayings: [milker('1'), left, dose('1', NOON)],
    values: { cow: '1', about: 'Sixty hours', at: NOON, left: '2026-03-10' },
    but: { when: 'it was before', sayings: [milker('1'), left, dose('1', '2026-03-09T12:00:00Z')] },
  },
  {
    rule: 'R-25',
    key: 'doubt.after-renumbering',
    when: 'a dose is for a number whose cow has another by then',
    sayings: [milker('1'), about('1', 'number-changed', '2026-03-10T09:00:00Z', { to: '9' }), dose('1', NOON)],
    values: { number: '1', about: 'Sixty hours', at: NOON, cow: '9' },
    but: {
      when: 'it was before',
      sayings: [
        milker('1'),
        about('1', 'number-changed', '2026-03-10T09:00:00Z', { to: '9' }),
        dose('1', '2026-03-09T12:00:00Z'),
      ],
    },
  },
  {
    rule: 'R-25',
    key: 'doubt.entered-again',
    when: 'a cow is entered with the official number of one that is there under another',
    sayings: [one, { ...milker('2', official(1)), id: 'two', time: NOON }],
    values: { number: '2', at: NOON, cows: ['1'] },
    but: { when: 'that one has left', sayings: [one, left, { ...milker('2', official(1)), id: 'two', time: NOON }] },
  },
  {
    rule: 'R-29',
    key: 'doubt.two-labels',
    when: 'a medicine is listed twice at one time with different labels',
    sayings: [
      medicine('Listed twice', { milkHold: { hours: 96 }, meatDays: 5 }, NOON, 'long'),
      medicine('listed TWICE', { milkHold: { hours: 24 }, meatDays: 5 }, NOON, 'short'),
    ],
    values: { medicine: 'listed TWICE', at: NOON },
    but: {
      when: 'both say the same',
      sayings: [
        medicine('Listed twice', { milkHold: { hours: 96 }, meatDays: 5 }, NOON, 'long'),
        medicine('listed TWICE', { milkHold: { hours: 96 }, meatDays: 5 }, NOON, 'short'),
      ],
    },
  },
  {
    rule: 'R-29',
    key: 'doubt.two-set-ups',
    when: 'the farm is set up twice at one time and not alike',
    sayings: [farm({ freshHold: { milkings: 8 } }, 'another')],
    values: { at: '2026-01-01T09:00:00Z', from: '2026-01-01' },
    but: { when: 'both say the same', sayings: [farm({}, 'another')] },
  },
  {
    rule: 'R-23',
    key: 'doubt.struck-unplaced',
    when: 'a dose is struck and nobody says what was true instead',
    sayings: [milker('1'), dose('1', '2026-03-14T09:00:00Z', {}, 'dose'), strike('dose')],
    values: { number: '1', about: 'Sixty hours', at: '2026-03-14T09:00:00Z' },
    but: {
      when: 'it never happened',
      sayings: [milker('1'), dose('1', '2026-03-14T09:00:00Z', {}, 'dose'), strike('dose', { instead: 'nothing' })],
    },
  },
  {
    rule: 'R-23',
    key: 'doubt.strike-of-nothing',
    when: 'a strike names an entry that is not in this book',
    sayings: [milker('1'), strike('elsewhere')],
    values: { entry: 'elsewhere' },
    but: { when: 'the entry is there', sayings: [milker('1'), dose('1', NOON, {}, 'elsewhere'), strike('elsewhere')] },
  },
  {
    rule: 'R-23',
    key: 'doubt.strike-of-strike',
    when: 'a strike names a strike',
    sayings: [
      milker('1'),
      dose('1', '2026-03-14T09:00:00Z', {}, 'dose'),
      strike('dose', { instead: 'nothing' }, 'first'),
      strike('first', {}, 'second'),
    ],
    values: { entry: 'first' },
    but: {
      when: 'the same dose is struck twice',
      sayings: [
        milker('1'),
        dose('1', '2026-03-14T09:00:00Z', {}, 'dose'),
        strike('dose', { instead: 'nothing' }, 'first'),
        strike('dose', {}, 'second'),
      ],
    },
  },
  {
    rule: 'R-27',
    key: 'doubt.set-aside',
    when: 'an entry was set aside',
    sayings: [milker('1')],
    asides: [
      {
        key: 'aside',
        problem: 'a date that does not exist',
        cows: ['1'],
        recordedAt: mustBeInstant(NOON),
        id: 'refused',
      },
    ],
    values: { problem: 'a date that does not exist', cows: ['1'] },
    but: { when: 'none was', sayings: [milker('1')] },
  },
  {
    rule: 'R-27',
    key: 'doubt.one-id-two-contents',
    when: 'one id stands in the book with two contents',
    sayings: [milker('1'), milker('2'), dose('1', NOON, {}, 'dose'), dose('2', NOON, {}, 'dose')],
    values: { id: 'dose' },
    but: {
      when: 'each has its own',
      sayings: [milker('1'), milker('2'), dose('1', NOON, {}, 'dose'), dose('2', NOON)],
    },
  },
  {
    rule: 'R-06',
    key: 'doubt.milk-not-stated',
    when: 'a cow comes into a milking group without a date of calving or drying off',
    sayings: [enteredWith('Cows', 2)],
    values: { cow: '1', group: 'Cows' },
    but: { when: 'she is a heifer', sayings: [enteredWith('Cows', 0)] },
  },
  {
    rule: 'R-06',
    key: 'doubt.dry-off-when-dry',
    when: 'a dry cow is dried off',
    sayings: [dryCow('1'), dried('again')],
    values: { cow: '1', at: NOON },
    but: { when: 'she was in milk', sayings: [milker('1'), dried('once')] },
  },
  {
    rule: 'R-06',
    key: 'doubt.calved-in-milk',
    when: 'a cow calves that was never dried off',
    sayings: [milker('1', { calvedOn: '2025-02-01' }), calving(NOON)],
    values: { cow: '1', at: NOON },
    but: { when: 'she was dry', sayings: [dryCow('1'), calving(NOON)] },
  },
  {
    rule: 'R-06',
    key: 'doubt.among-dry',
    when: 'a cow in milk is put among the dry ones with no dry-off',
    sayings: [milker('1'), about('1', 'group-move', NOON, { to: 'Dry' })],
    values: { cow: '1', group: 'Dry', since: NOON.slice(0, 10) },
    but: {
      when: 'she is dried off',
      sayings: [milker('1'), dried('once'), about('1', 'group-move', NOON, { to: 'Dry' })],
    },
  },
  {
    rule: 'R-19',
    key: 'doubt.date-ahead',
    when: 'a cow comes in with a dry-off that was still to come then',
    sayings: [dryCow('1', { driedOffOn: '2026-12-20' })],
    values: { cow: '1', what: 'dry-off', day: '2026-12-20', at: '2026-01-10T12:00:00Z' },
    but: { when: 'it was of that very day', sayings: [dryCow('1', { driedOffOn: '2026-01-10' })] },
  },
  {
    rule: 'R-15',
    key: 'doubt.vet-time-not-longer',
    when: "the vet's time is no longer than the label's",
    sayings: [milker('1'), dose('1', '2026-03-14T09:00:00Z', {}, 'dose'), vetTime(60)],
    values: { cow: '1', medicine: 'Sixty hours', vetHours: 60, labelHours: 60 },
    but: {
      when: 'it is an hour longer',
      sayings: [milker('1'), dose('1', '2026-03-14T09:00:00Z', {}, 'dose'), vetTime(61)],
    },
  },
  {
    rule: 'R-15',
    key: 'doubt.vet-time-unplaced',
    when: "the vet's time names a treatment that is not on the book",
    sayings: [milker('1'), dose('1', '2026-03-14T09:00:00Z', {}, 'another'), vetTime(96)],
    values: { treatment: 'dose' },
    but: { when: 'it names hers', sayings: [milker('1'), dose('1', '2026-03-14T09:00:00Z', {}, 'dose'), vetTime(96)] },
  },
  {
    rule: 'R-15',
    key: 'doubt.vet-time-elsewhere',
    when: "the vet's time names a treatment of another cow",
    sayings: [milker('1'), milker('2'), dose('2', '2026-03-14T09:00:00Z', {}, 'dose'), vetTime(96)],
    values: { number: '1', of: '2', about: 'Sixty hours', at: '2026-03-14T09:00:00Z' },
    but: { when: 'it names hers', sayings: [milker('1'), dose('1', '2026-03-14T09:00:00Z', {}, 'dose'), vetTime(96)] },
  },
  {
    rule: 'R-17',
    key: 'doubt.both-still-wanted',
    when: 'another medicine is given while a course runs',
    sayings: [milker('1'), course(1, '2026-03-14T09:00:00Z'), dose('1', NOON, { medicine: 'Five milkings' }, 'other')],
    values: { cow: '1', course: 'Sixty hours', other: 'Five milkings' },
    but: {
      when: 'the course goes on after it',
      sayings: [
        milker('1'),
        course(1, '2026-03-14T04:00:00Z'),
        dose('1', NOON, { medicine: 'Five milkings' }, 'other'),
        course(2, '2026-03-14T16:00:00Z'),
      ],
    },
  },
  {
    rule: 'R-17',
    key: 'doubt.dose-not-recorded',
    when: 'a dose was due at a milking that has ended',
    sayings: [milker('1'), course(1, '2026-03-13T17:00:00Z')],
    values: { cow: '1', medicine: 'Sixty hours', dose: 2, of: 3 },
    but: { when: 'it is due at this one', sayings: [milker('1'), course(1, '2026-03-14T05:00:00Z')] },
  },
  {
    rule: 'R-29',
    key: 'doubt.retired-medicine',
    when: 'a medicine is given that the farm has done with',
    sayings: [
      milker('1'),
      medicine('Old', { milkHold: { hours: 60 }, meatDays: 3, retired: true }),
      dose('1', NOON, { medicine: 'Old' }),
    ],
    values: { cow: '1', medicine: 'Old' },
    but: {
      when: 'it was done with afterwards',
      sayings: [
        milker('1'),
        medicine('Old', { milkHold: { hours: 60 }, meatDays: 3 }),
        medicine('Old', { milkHold: { hours: 60 }, meatDays: 3, retired: true }, '2026-03-14T13:00:00Z'),
        dose('1', NOON, { medicine: 'Old' }),
      ],
    },
  },
  {
    rule: 'R-46',
    key: 'doubt.past-due',
    when: 'a cow is a week past due',
    sayings: [dryCow('1', { dueOn: '2026-03-07' })],
    values: { cow: '1', due: '2026-03-07', days: 7 },
    but: { when: 'it is six days', sayings: [dryCow('1', { dueOn: '2026-03-08' })] },
  },
  {
    rule: 'R-46',
    key: 'doubt.calved-early',
    when: 'a cow calves more than three weeks before due',
    sayings: [dryCow('1', { dueOn: '2026-04-05' }), calving(NOON)],
    values: { cow: '1', due: '2026-04-05', days: 22 },
    but: { when: 'it is three weeks', sayings: [dryCow('1', { dueOn: '2026-04-04' }), calving(NOON)] },
  },
  {
    rule: 'R-60',
    key: 'doubt.sort-several-places',
    when: 'a cow is asked for in two places',
    sayings: [milker('1'), asked('Crush', 'a'), asked('Hospital', 'b')],
    values: { cow: '1', places: ['Crush', 'Hospital'] },
    but: { when: 'it is one place', sayings: [milker('1'), asked('Crush', 'a'), asked('Crush', 'b')] },
  },
  {
    rule: 'R-70',
    key: 'doubt.two-groups',
    when: 'a cow is put in two groups at one time',
    sayings: [milker('1'), moved('Fresh', 'a'), moved('Hospital', 'b')],
    values: { cow: '1', groups: ['Fresh', 'Hospital'], at: NOON },
    but: {
      when: 'one came a minute later',
      sayings: [milker('1'), moved('Fresh', 'a'), moved('Hospital', 'b', '2026-03-14T12:01:00Z')],
    },
  },
  {
    rule: 'R-70',
    key: 'doubt.unknown-group',
    when: 'a cow stands in a group that the farm does not have',
    sayings: [milker('1'), moved('Orchard', 'a')],
    values: { cow: '1', group: 'Orchard' },
    but: {
      when: 'she has been moved on',
      sayings: [milker('1'), moved('Orchard', 'a'), moved('Cows', 'b', '2026-03-14T13:00:00Z')],
    },
  },
  {
    rule: 'R-70',
    key: 'doubt.head-count',
    when: 'a count differs from the book',
    sayings: [milker('1'), counted(2)],
    values: { group: 'Cows', count: 2, book: 1, at: NOON },
    but: { when: 'it agrees', sayings: [milker('1'), counted(1)] },
  },
  {
    rule: 'R-02',
    key: 'doubt.unknown-language',
    when: 'the farm wants a language that the paper does not speak',
    sayings: [{ ...farm({ languages: ['en', 'nl', 'fr-BE'], from: '2026-03-01' }), time: '2026-02-28T09:00:00Z' }],
    values: { language: 'nl' },
    but: {
      when: 'the set-up is for later',
      sayings: [{ ...farm({ languages: ['nl'], from: '2026-03-15' }), time: '2026-02-28T09:00:00Z' }],
    },
  },
];

const ofKey = ({ key, asides = [] }: Case, sayings: readonly Saying[]) =>
  evening([farm(), ...CUPBOARD, ...sayings], asides).doubts(AT, key);

/** A title that names the rule, and its case. */
const titled = (says: (each: Case) => string): [string, Case][] =>
  CASES.map((each) => [`${each.rule} ${each.key} ${says(each)}`, each]);

describe('a doubt', () => {
  test('each one that can be said has a case here, but for the one about a book without a farm, which has no milkings', () => {
    const said = [...readFileSync('projections/because.ts', 'utf8').matchAll(/'(doubt\.[a-z-]+)'/g)].map(
      ([, key]) => key,
    );
    expect(said.length).toBeGreaterThan(20);
    expect(CASES.map(({ key }) => key).sort()).toEqual(said.filter((key) => key !== 'doubt.no-farm').sort());
  });

  test('there is none about a herd in order', () => {
    const herd = [milker('1'), dryCow('2'), dose('1', NOON), dried('off', '2026-03-14T13:00:00Z'), counted(1)];
    expect(evening([farm(), ...CUPBOARD, ...herd]).at(AT).doubts).toEqual([]);
  });

  test.each(titled(({ when }) => `comes when ${when}`))('%s', (_, each) => {
    expect(ofKey(each, each.sayings).map(({ because }) => [because.rule, because.values])).toEqual([
      [each.rule, each.values],
    ]);
  });

  test.each(titled(({ but }) => `does not come when ${but.when}`))('%s', (_, each) => {
    expect(ofKey({ ...each, asides: [] }, each.but.sayings)).toEqual([]);
  });

  test.each(titled(() => 'ends when its key is settled, and not with another'))('%s', (_, each) => {
    const [doubt] = ofKey(each, each.sayings);
    const settled = (key: string) => farmWide('settled', '2026-03-14T14:00:00Z', { about: key, how: 'looked into' });
    expect(doubt?.key).toBeTruthy();
    expect(ofKey(each, [...each.sayings, settled(`${doubt?.key}:other`)])).toEqual([doubt]);
    expect(ofKey(each, [...each.sayings, settled(doubt?.key ?? '')])).toEqual([]);
  });

  test.each(titled(() => 'has the same key at the next milking'))('%s', (_, each) => {
    const [doubt] = ofKey(each, each.sayings);
    const next = evening([farm(), ...CUPBOARD, ...each.sayings], each.asides ?? []).doubts(
      '2026-03-15/morning',
      each.key,
    );
    expect(next.map(({ key }) => key)).toContain(doubt?.key);
  });

  test('R-17 R-25 settling a doubt frees no milk: what was not recorded and what may be hers hold on', () => {
    const settle = (key: string) => farmWide('settled', '2026-03-14T14:00:00Z', { about: key, how: 'looked into' });
    const held = (key: Case['key'], cow: string) => {
      const each = CASES.find((some) => some.key === key);
      const [doubt] = each === undefined ? [] : ofKey(each, each.sayings);
      const sayings = [...(each?.sayings ?? []), settle(doubt?.key ?? '')];
      return evening([farm(), ...CUPBOARD, ...sayings]).held(cow, AT)?.cow;
    };
    expect(held('doubt.dose-not-recorded', '1')).toBe('1');
    expect(held('doubt.two-cows', '1')).toBe('1');
    expect(held('doubt.leading-zeros', '7')).toBe('7');
  });

  test('R-27 settling what was set aside ends the hold that it made', () => {
    const each = CASES.find((some) => some.key === 'doubt.set-aside');
    const asides = each?.asides ?? [];
    const settle = farmWide('settled', '2026-03-14T14:00:00Z', { about: 'aside', how: 'entered again' });
    expect(evening([farm(), milker('1')], asides).held('1', AT)?.until).toBeNull();
    expect(evening([farm(), milker('1'), settle], asides).held('1', AT)).toBeUndefined();
  });
});
