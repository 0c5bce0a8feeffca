/**
 * Labels from outside, entered as a farm enters them, and the sheets that follow. Sources: the sections of title 21 of
 * the Code of Federal Regulations named beside each; what a section leaves out is left out here too.
 */
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { LACTATING, type Label } from './lactating-labels.ts';
import { about, bookOf, cowInMilk, farmWide, heldAt, heldRow, march, type Saying, setUp } from './paper-farm.ts';

const LISTED = '2026-01-01T00:00:00Z';
const MILKINGS = march([1, 14], ['morning', 'afternoon']);
/** Ten minutes into the afternoon milking of 1 March, when she had been milked. */
const DOSE = '2026-03-01T17:10:00Z';

const later = (from: string, hours: number): string => Temporal.Instant.from(from).add({ hours }).toString();

const listing = ({ name, route, hours, meatDays }: Label, milkings?: number): Saying =>
  farmWide('medicine-listed', LISTED, {
    name,
    route,
    milkHold: hours === 'none' ? 'none' : { hours, ...(milkings === undefined ? {} : { milkings }) },
    meatDays,
  });

const treated = (label: Label, milkings?: number) =>
  bookOf([
    setUp(),
    listing(label, milkings),
    cowInMilk('412'),
    about('412', 'treatment', DOSE, { medicine: label.name, route: label.route }),
  ]);

const beefRow = (book: ReturnType<typeof bookOf>, milking: string, cow: string) =>
  book(milking).sheets['beef-hold'].cows.find((row) => row.cow === cow);

describe.each(LACTATING.filter((label) => label.hours !== 'none'))('21 CFR $section, $name', (label) => {
  const hours = label.hours === 'none' ? 0 : label.hours;
  const book = treated(label);
  const first = '2026-03-02/morning';

  test(`R-11 milk is held ${hours} hours from the minute of the last dose`, () => {
    expect(heldRow(book(first), '412')?.until).toBe(later(DOSE, hours));
  });

  test('R-10 her milk goes in the tank from the first milking that starts after that, and not before', () => {
    const ends = Temporal.Instant.from(DOSE).add({ hours });
    const free = MILKINGS.find((id) => {
      const start = `${id.slice(0, 10)}T${id.endsWith('morning') ? '05' : '17'}:00:00Z`;
      return Temporal.Instant.compare(Temporal.Instant.from(start), ends) > 0;
    });
    expect(heldRow(book(first), '412')?.tankFrom).toBe(free);
    expect(heldAt(book, '412', MILKINGS.slice(2)).at(-1)).toBe(MILKINGS[MILKINGS.indexOf(free ?? '') - 1]);
  });

  test(`R-90 meat is held ${label.meatDays} days of 24 hours`, () => {
    expect(beefRow(book, first, '412')?.until).toBe(later(DOSE, label.meatDays * 24));
  });
});

describe.each(LACTATING.filter((label) => label.milkings !== undefined))(
  '21 CFR $section, $name, milkings',
  (label) => {
    test(`R-12 the milkings thrown after a dose at milking time are the label's own ${label.milkings}`, () => {
      expect(heldAt(treated(label), '412', MILKINGS.slice(2))).toHaveLength(label.milkings ?? 0);
    });
    test('R-12 entered with its milkings beside its hours, the label throws as many', () => {
      const book = treated(label, label.milkings);
      expect(heldAt(book, '412', MILKINGS.slice(2))).toHaveLength(label.milkings ?? 0);
      expect(heldRow(book('2026-03-02/morning'), '412')?.milkingsLeft).toBe(label.milkings);
    });
  },
);

describe('21 CFR 522.313c, ceftiofur sodium: no milk clause', () => {
  const label = LACTATING.find(({ section }) => section === '522.313c');
  if (label === undefined) throw new Error('522.313c is not in the table');
  const book = treated(label);

  test('R-16 a label that asks no milk to be kept out holds none, at this milking or a later one', () => {
    expect(heldAt(book, '412', MILKINGS)).toEqual([]);
  });
  test('R-13 its four days of meat stand all the same', () => {
    expect(beefRow(book, '2026-03-02/morning', '412')?.until).toBe('2026-03-05T17:10:00Z');
  });
});

describe('labels that are not for cows in milk', () => {
  const given = (data: Record<string, unknown>, cow: Saying) =>
    bookOf([
      setUp(),
      { type: 'medicine-listed', time: LISTED, data: { name: 'The medicine', meatDays: 28, ...data } },
      cow,
      about(cow.subject ?? '', 'treatment', DOSE, { medicine: 'The medicine' }),
    ]);

  test.each([
    ['522.2471', 'tilmicosin'],
    ['522.956', 'florfenicol with flunixin'],
  ])('R-14 21 CFR %s, %s, not for female dairy cattle from 20 months: milk held without end', (_, active) => {
    const label = { active, milkHold: 'not-for-milking-cows', notFromAgeMonths: 20 };
    const row = heldRow(given(label, cowInMilk('412', { born: '2022-01-01' }))('2026-03-14/morning'), '412');
    expect(row).toMatchObject({ until: null, tankFrom: null, milkingsLeft: null });
  });

  test('R-29 21 CFR 522.2471: a heifer of 19 months is inside the label, one of 20 months is not and holds without end', () => {
    const label = { milkHold: 'not-for-milking-cows', notFromAgeMonths: 20 };
    const heifer = (born: string) =>
      about('31', 'cow-entered', '2026-02-01T12:00:00Z', {
        group: 'Dry',
        lactation: 0,
        born,
        driedOffWith: 'none',
        milkHoldUntil: 'none',
        meatHoldUntil: 'none',
      });
    const meat = (born: string) => beefRow(given(label, heifer(born)), '2026-03-02/morning', '31');
    expect(meat('2024-08-01')?.until).toBe('2026-03-29T17:10:00Z');
    expect(meat('2024-07-01')?.until).toBeNull();
    expect(meat('2024-07-02')?.until).toBe('2026-03-29T17:10:00Z');
  });

  test('R-29 21 CFR 522.970, flunixin is not for dry cows: given to one, it is off-label and holds meat without end', () => {
    const label = { milkHold: { hours: 36 }, for: ['milking', 'young'] };
    const dry = cowInMilk('77', { group: 'Dry', driedOffOn: '2026-01-25', driedOffWith: 'none' });
    expect(beefRow(given(label, dry), '2026-03-02/morning', '77')?.until).toBeNull();
    expect(beefRow(given(label, cowInMilk('77')), '2026-03-02/morning', '77')?.until).toBe('2026-03-29T17:10:00Z');
  });
});

describe('labels of dry-cow products', () => {
  const DRIED = '2026-01-10T08:00:00Z';
  const dried = (dryCow: Record<string, unknown>, meatDays: number, calved: string) =>
    bookOf([
      setUp(),
      {
        type: 'medicine-listed',
        time: LISTED,
        data: { name: 'Dry tube', milkHold: 'not-for-milking-cows', meatDays, dryCow },
      },
      about('88', 'cow-entered', '2026-01-05T12:00:00Z', {
        group: 'Cows',
        lactation: 3,
        calvedOn: '2025-02-20',
        milkHoldUntil: 'none',
        meatHoldUntil: 'none',
      }),
      about('88', 'dry-off', DRIED, { product: 'Dry tube', group: 'Dry' }),
      about('88', 'calving', calved, { calves: [{ sex: 'female', alive: true }], group: 'Cows' }),
    ]);

  test('R-19 21 CFR 526.464, cloxacillin benzathine, 30 days, no milk hold after calving: calved on day 50, only her fresh hold counts', () => {
    const book = dried({ minimumDryDays: 30, milkHoldAfterCalving: 'none' }, 30, '2026-03-01T08:00:00Z');
    const after = heldRow(book('2026-03-01/afternoon'), '88');
    expect(after?.reasons.map(({ key }) => key)).toEqual(['hold.fresh']);
    expect(heldRow(book('2026-03-02/morning'), '88')).toBeUndefined();
  });

  test('R-19 21 CFR 526.464, cloxacillin benzathine: calved on day 29, the end is open and the vet is asked', () => {
    const book = dried({ minimumDryDays: 30, milkHoldAfterCalving: 'none' }, 30, '2026-02-08T07:00:00Z');
    expect(heldRow(book('2026-03-01/morning'), '88')).toMatchObject({ until: null, tankFrom: null });
  });

  test('R-90 21 CFR 526.464, cloxacillin benzathine: meat is held 30 days from the infusion', () => {
    const book = dried({ minimumDryDays: 30, milkHoldAfterCalving: 'none' }, 30, '2026-03-20T08:00:00Z');
    expect(beefRow(book, '2026-02-01/morning', '88')?.until).toBe('2026-02-09T08:00:00Z');
    expect(beefRow(book, '2026-02-09/morning', '88')?.until).toBe('2026-02-09T08:00:00Z');
    expect(beefRow(book, '2026-02-09/afternoon', '88')).toBeUndefined();
  });

  test('R-19 21 CFR 526.1696, penicillin G procaine for dry cows: 72 hours after calving, "6 milkings"', () => {
    const book = dried({ milkHoldAfterCalving: { hours: 72 } }, 14, '2026-03-01T17:10:00Z');
    expect(heldRow(book('2026-03-02/morning'), '88')?.until).toBe('2026-03-04T17:10:00Z');
    expect(heldAt(book, '88', MILKINGS.slice(2))).toHaveLength(6);
  });

  test('R-19 21 CFR 526.1696b, penicillin with dihydrostreptomycin, 42 days: calved on day 50, 24 hours', () => {
    const book = dried(
      { minimumDryDays: 42, milkHoldAfterCalving: { hours: 24 }, meatHoursAfterCalving: 24 },
      60,
      '2026-03-01T08:00:00Z',
    );
    expect(heldRow(book('2026-03-01/afternoon'), '88')?.until).toBe('2026-03-02T08:00:00Z');
    expect(beefRow(book, '2026-03-01/afternoon', '88')?.until).toBe('2026-03-11T08:00:00Z');
  });

  test('R-90 21 CFR 526.1696b: past its 60 days, meat is still held 24 hours after calving', () => {
    const book = dried(
      { minimumDryDays: 42, milkHoldAfterCalving: { hours: 24 }, meatHoursAfterCalving: 24 },
      60,
      '2026-03-13T08:00:00Z',
    );
    expect(beefRow(book, '2026-03-13/afternoon', '88')?.until).toBe('2026-03-14T08:00:00Z');
  });
});
