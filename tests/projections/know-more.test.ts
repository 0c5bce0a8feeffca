/** Knowing more says what knowing everything at once says, whatever comes, in whatever portions, and leaves what was known alone. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Aside, Entry } from '../../events/entry.ts';
import { entryLike } from '../../events/stored-entry.ts';
import type { CowFile } from '../../projections/cow-file.ts';
import { medicineKey } from '../../projections/farm.ts';
import { type Known, know } from '../../projections/know.ts';
import { knowMore } from '../../projections/know-more.ts';
import { liveEntries } from '../../projections/live.ts';
import { medicinesGiven } from '../../projections/medicines-given.ts';
import { viewsAt } from '../../projections/views-at.ts';
import { DAY, plusHours } from '../../shared/instant.ts';
import { entriesOf } from '../published/paper-farm.ts';
import { about, farm, farmWide, medicine, type Saying } from './evening.ts';
import { anything, aside, at, cow, HERD, hour, NUMBERS, said } from './histories.ts';

const OFFICIAL = ['826000000000001', '826 0000 0000 0001', '826000000000002'];
const MILKINGS = ['2026-03-11/afternoon', '2026-03-13/morning', '2026-03-14/morning', '2026-03-25/morning'];

/** What changes who is meant, what is struck, or what the whole farm goes by. */
const upheaval: fc.Arbitrary<Saying> = fc.oneof(
  fc
    .record({
      cow: fc.constantFrom(...NUMBERS, ...OFFICIAL),
      hour,
      officialId: fc.option(fc.constantFrom(...OFFICIAL)),
    })
    .map((each) =>
      about(each.cow, 'cow-entered', at(each.hour), {
        group: 'Cows',
        lactation: 1,
        calvedOn: '2026-02-20',
        milkHoldUntil: 'none',
        meatHoldUntil: 'none',
        ...(each.officialId === null ? {} : { officialId: each.officialId }),
      }),
    ),
  fc
    .record({ cow: fc.constantFrom(...OFFICIAL), hour })
    .map((each) => about(each.cow, 'treatment', at(each.hour), { medicine: 'Sixty hours' })),
  fc
    .record({ cow, hour, to: fc.constantFrom(...NUMBERS) })
    .map((each) => about(each.cow, 'number-changed', at(each.hour), { to: each.to })),
  fc
    .record({ hour, entry: fc.integer({ min: 0, max: 20 }), instead: fc.option(fc.integer({ min: 0, max: 20 })) })
    .map((each) =>
      farmWide('entry-struck', at(each.hour), {
        entry: `e${each.entry}`,
        reason: 'wrong cow',
        ...(each.instead === null ? {} : { instead: `e${each.instead}` }),
      }),
    ),
  fc
    .record({
      cow: fc.constantFrom(...NUMBERS, ...OFFICIAL),
      hour,
      treatment: fc.integer({ min: 0, max: 20 }),
      hours: fc.integer({ min: 1, max: 200 }),
    })
    .map((each) =>
      about(each.cow, 'vet-hold-time', at(each.hour), {
        treatment: `e${each.treatment}`,
        milkHours: each.hours,
        prescribedBy: 'Dr Vane',
      }),
    ),
  fc
    .record({ hour, entry: fc.integer({ min: 0, max: 9 }) })
    .map((each) => farmWide('entry-struck', at(each.hour), { entry: `herd-${each.entry}`, reason: 'never so' })),
  fc.record({ hour, milkings: fc.integer({ min: 1, max: 8 }) }).map((each) => ({
    ...farm({ freshHold: { milkings: each.milkings } }),
    time: at(each.hour),
  })),
  fc
    .record({ hour, hours: fc.integer({ min: 1, max: 200 }) })
    .map((each) => medicine('Sixty hours', { milkHold: { hours: each.hours }, meatDays: 3 }, at(each.hour))),
  fc
    .record({ hour, key: fc.integer({ min: 0, max: 96 }) })
    .map((each) => farmWide('settled', at(each.hour), { about: `set-aside:${each.key}:1`, how: 'asked' })),
  fc
    .record({ hour, tank: fc.constantFrom('1', '2') })
    .map((each) => farmWide('tank-collection', at(each.hour), { tank: each.tank, litres: 9_000 })),
  fc
    .record({ hour, request: fc.integer({ min: 0, max: 20 }), cow })
    .map((each) => about(each.cow, 'sort-done', at(each.hour), { request: `e${each.request}` })),
);

const history = fc.array(fc.oneof(anything, upheaval), { minLength: 1, maxLength: 20 });

/** All that anybody can ask of what is known, as text. */
const everything = (known: Known): string => {
  const { schedule } = known.farm;
  const views = MILKINGS.map((id) => {
    const milking = schedule?.find(id);
    return [-30, 0, 7].map((hours) =>
      milking === undefined ? null : viewsAt(known, { milking, asOf: plusHours(milking.start, hours), position: 0 }),
    );
  });
  return JSON.stringify([
    views,
    {
      ...known,
      files: known.files.map(({ cow, lactations, dosings, closedAt, others }) => ({
        cow,
        lactations,
        dosings,
        closedAt,
        others: others.map((other) => [other.cow, other.dosings]),
      })),
      lookup: null,
      ids: [...known.ids.twice].sort(),
      strikes: { ...known.strikes, live: liveEntries(known.strikes.live) },
      farm: { ...known.farm, schedule: schedule?.setUps.map(({ id }) => id) },
    },
    [
      ...known.farm.listings,
      ...known.farm.finished,
      ...known.farm.sorted,
      ...known.farm.settled,
      ...known.farm.returned,
      ...known.farm.vetTimes,
      ...[...known.strikes.corrections].sort(([a], [b]) => (a < b ? -1 : 1)),
    ],
  ]);
};

const closedAtOf = ({ cow, lactations, others }: CowFile): number => {
  if (others.length > 0) return Number.POSITIVE_INFINITY;
  const [entered, left] = [cow.entered.at(-1), cow.left.at(-1)];
  const isGone = entered !== undefined && left !== undefined && entered.at <= left.at;
  return isGone && lactations.stretches.at(-1)?.to !== null ? cow.lastAt + 7 * DAY : Number.POSITIVE_INFINITY;
};

/** Some entries again, otherwise: as books that synced may disagree. */
const withTwins = (entries: readonly Entry[], twins: readonly number[]): readonly Entry[] => [
  ...entries,
  ...new Map(
    twins.flatMap((place) => {
      const entry = entries[place];
      return entry === undefined
        ? []
        : [[place, entryLike(entry, { content: `f${entry.content.slice(1)}` }) as Entry] as const];
    }),
  ).values(),
];

describe('knowing more', () => {
  test('in any order and any portions, says to the letter what knowing all at once says', () => {
    fc.assert(
      fc.property(
        history,
        fc.array(fc.nat({ max: 40 }), { maxLength: 2 }),
        fc.uniqueArray(aside, { maxLength: 2, selector: ({ key }) => key }),
        fc.infiniteStream(fc.nat()),
        fc.infiniteStream(fc.integer({ min: 1, max: 9 })),
        (sayings, twins, asides, dice, portions) => {
          const inOrder = withTwins(entriesOf(said(sayings)), twins);
          const arriving = inOrder
            .map((entry) => ({ entry, key: dice.next().value ?? 0 }))
            .sort((a, b) => a.key - b.key)
            .map(({ entry }) => entry);
          let known = know([], []);
          for (let next = 0; next < arriving.length; ) {
            const portion = arriving.slice(next, next + (portions.next().value ?? 1));
            next += portion.length;
            known = knowMore(known, portion, asides);
            // What is asked in between must not be remembered for what it no longer is.
            everything(known);
          }
          expect(everything(known)).toBe(everything(know(inOrder, asides)));
          // When a file was closed is told without opening it, and is what the open file says.
          for (const file of known.files) expect(file.closedAt).toBe(closedAtOf(file));
          // And what she was given, by a look at her entries alone.
          expect([...new Set([...medicinesGiven(known.files)].map(medicineKey))].sort()).toEqual(
            [...new Set(known.files.flatMap(({ dosings }) => dosings.map((dosing) => dosing.medicineKey)))].sort(),
          );
        },
      ),
      { seed: 77, numRuns: 400 },
    );
  });

  test('leaves what was known before as it was, and can go on from it another way', () => {
    fc.assert(
      fc.property(history, history, aside, (first, second, one: Aside) => {
        const [before, one_, other] = [said([]), said(first).slice(HERD.length), said(second).slice(HERD.length)];
        const [ground, here, there] = [entriesOf(before), entriesOf(one_), entriesOf(other)];
        const base = know(ground, []);
        const asked = everything(base);
        const tried = knowMore(base, here, [one]);
        expect(everything(base)).toBe(asked);
        expect(everything(knowMore(base, there, []))).toBe(everything(know([...ground, ...there], [])));
        expect(everything(tried)).toBe(everything(know([...ground, ...here], [one])));
      }),
      { seed: 78, numRuns: 120 },
    );
  });

  test('a cow that nothing new concerns keeps the very file that was opened for her', () => {
    const entries = entriesOf(said([]));
    const base = know(entries, []);
    const news = entriesOf([about('1', 'treatment', at(3), { medicine: 'Sixty hours' })]);
    const known = knowMore(base, news, []);
    const stays = known.files.filter((file) => base.files.includes(file));
    expect(stays).toHaveLength(base.files.length - 1);
    expect(known.farm.schedule).toBe(base.farm.schedule);
  });

  test('an entry among thousands is found by its id, in the table and behind it', () => {
    const entries = entriesOf(
      Array.from({ length: 3_000 }, (_, index) => ({
        ...about('1', 'milk-hold', at(index % 90), { reason: 'clots' }),
        id: `held ${index}`,
      })),
    );
    let known = know(entriesOf(said([])), []);
    for (let next = 0; next < entries.length; next += 700) known = knowMore(known, entries.slice(next, next + 700), []);
    const strikes = entriesOf(
      [5, 2_999].map((index) => farmWide('entry-struck', at(95), { entry: `held ${index}`, reason: 'wrong cow' })),
    );
    expect(knowMore(known, strikes, []).strikes.struck.map(({ entry }) => entry.id)).toEqual(['held 5', 'held 2999']);
  });
});
