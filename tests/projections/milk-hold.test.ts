/** Milk holds of treatments, courses, people, tests and entering. */
import { describe, expect, test } from 'vitest';
import { about, CUPBOARD, dose, evening, farm, farmWide, keysOf, medicine, milker, type Saying } from './evening.ts';

const DOSE = '2026-03-14T16:40:00Z';
const NEXT = '2026-03-15/morning';

const with1 = (...more: readonly Saying[]) => evening([farm(), ...CUPBOARD, milker('1'), ...more]);

describe('milk hold', () => {
  test('R-10 milk drawn at the very minute a hold ends stays out of the tank', () => {
    const book = with1(dose('1', '2026-03-12T17:00:00Z'));
    const row = book.held('1', '2026-03-15/morning');
    expect(row).toMatchObject({ until: '2026-03-15T05:00:00Z', tankFrom: '2026-03-15/afternoon', milkingsLeft: 1 });
    expect(book.held('1', '2026-03-15/afternoon')).toBeUndefined();
  });

  test('R-11 hours run from the last dose, whatever order the doses came in', () => {
    const first = dose('1', '2026-03-13T16:40:00Z');
    const last = dose('1', DOSE);
    expect(with1(last, first).held('1', NEXT)?.until).toBe('2026-03-17T04:40:00Z');
  });

  test('R-12 a label in milkings alone is never less than twelve hours each', () => {
    // Dose 04:00: the fifth milking after it starts 05:00 two days on, after 49 hours; five times twelve are sixty.
    const book = with1(dose('1', '2026-03-14T04:00:00Z', { medicine: 'Five milkings' }));
    expect(book.held('1', '2026-03-14/morning')).toMatchObject({
      until: '2026-03-16T16:00:00Z',
      tankFrom: '2026-03-16/afternoon',
    });
  });

  test('R-12 only milkings that her group is milked at are counted', () => {
    const groups = [{ name: 'Cows', kind: 'milking' as const, milkedAt: ['morning'] }];
    const book = evening([farm({ groups }), ...CUPBOARD, milker('1'), dose('1', DOSE, { medicine: 'Five milkings' })]);
    expect(book.held('1', NEXT)).toMatchObject({
      until: '2026-03-19T05:00:00Z',
      tankFrom: '2026-03-20/morning',
      milkingsLeft: 5,
    });
  });

  test('R-13 of several reasons the latest end governs, and all print', () => {
    const row = with1(
      dose('1', DOSE),
      about('1', 'milk-hold', DOSE, { reason: 'clots' }),
      dose('1', DOSE, { medicine: 'Both' }),
    ).held('1', NEXT);
    expect(row?.until).toBeNull();
    expect(keysOf(row)).toEqual(['hold.set-by-person', 'hold.hours-and-milkings', 'hold.hours']);
  });

  test('R-14 a medicine that is not on the list holds without end, and says so', () => {
    const row = with1(dose('1', DOSE, { medicine: 'Something else' })).held('1', NEXT);
    expect([row?.until, row?.tankFrom, row?.milkingsLeft]).toEqual([null, null, null]);
    expect(keysOf(row)).toEqual(['hold.not-listed']);
  });

  test.each([
    ['R-14 a label whose milk hold is unknown holds without end', 'Not known', 'hold.label-unknown'],
    ['R-14 a medicine not for milking cows holds without end', 'Not for milkers', 'hold.not-for-milking-cows'],
  ])('%s', (_, name, key) => {
    const row = with1(dose('1', DOSE, { medicine: name })).held('1', NEXT);
    expect([row?.until, keysOf(row)]).toEqual([null, [key]]);
  });

  test('R-15 off-label use without the vet is held without end', () => {
    const row = with1(dose('1', DOSE, { offLabel: true, milkHoldHours: 96 })).held('1', NEXT);
    expect([row?.until, keysOf(row)]).toEqual([null, ['hold.off-label-no-vet']]);
  });

  test("R-15 off-label use with the vet's hours ends by them, and they lengthen the label's", () => {
    const row = with1(dose('1', DOSE, { offLabel: true, milkHoldHours: 96, prescribedBy: 'Dr Vane' })).held('1', NEXT);
    expect([row?.until, keysOf(row)]).toEqual(['2026-03-18T16:40:00Z', ['hold.vet']]);
  });

  test("R-15 a vet's time at or under the label's leaves the label's, and is a doubt", () => {
    const book = with1(dose('1', DOSE, { milkHoldHours: 60, prescribedBy: 'Dr Vane' }));
    expect(book.held('1', NEXT)?.until).toBe('2026-03-17T04:40:00Z');
    expect(book.doubts(NEXT, 'doubt.vet-time-not-longer')).toHaveLength(1);
  });

  test("R-15 a vet's time that comes later gives an open hold its end", () => {
    const time = (id: string) =>
      about('1', 'vet-hold-time', '2026-03-15T10:00:00Z', { treatment: id, milkHours: 72, prescribedBy: 'Dr Vane' });
    for (const name of ['Something else', 'Not for milkers', 'Not known']) {
      expect(with1(dose('1', DOSE, { medicine: name }, 'd1'), time('d1')).held('1', NEXT)?.until).toBe(
        '2026-03-17T16:40:00Z',
      );
    }
  });

  test('R-16 a label of "none" holds nothing', () => {
    expect(with1(dose('1', DOSE, { medicine: 'Nothing held' })).held('1', NEXT)).toBeUndefined();
  });

  test('R-28 a cow that came with a hold that is unknown or not stated is held while in milk; "none" is free', () => {
    const bought = (until?: string) =>
      evening([
        farm(),
        about('2', 'cow-entered', '2026-02-01T12:00:00Z', {
          group: 'Cows',
          lactation: 2,
          calvedOn: '2026-01-05',
          ...(until === undefined ? {} : { milkHoldUntil: until }),
        }),
      ]).held('2', NEXT);
    expect(bought()?.until).toBeNull();
    expect(bought('unknown')?.until).toBeNull();
    expect(bought('none')).toBeUndefined();
    expect(bought('2026-03-15T06:00:00Z')).toMatchObject({
      until: '2026-03-15T06:00:00Z',
      tankFrom: '2026-03-15/afternoon',
    });
  });
});

describe('which label', () => {
  const listed = (hours: number, time: string, id?: string) =>
    medicine('Changed', { milkHold: { hours }, meatDays: 3 }, time, id);
  const given = dose('1', DOSE, { medicine: 'Changed' });

  test('R-29 the listing in force at the dose counts, and a later shorter one never shortens', () => {
    expect(
      with1(listed(60, '2026-01-01T09:00:00Z'), listed(24, '2026-03-15T01:00:00Z'), given).held('1', NEXT)?.until,
    ).toBe('2026-03-17T04:40:00Z');
  });

  test('R-29 a later longer listing extends a hold that still runs, and leaves one that is over', () => {
    const early = listed(60, '2026-01-01T09:00:00Z');
    const running = with1(early, given, listed(96, '2026-03-16T09:00:00Z')).held('1', NEXT);
    expect([running?.until, keysOf(running)]).toEqual(['2026-03-18T16:40:00Z', ['hold.hours', 'hold.label-longer']]);
    expect(with1(early, given, listed(96, '2026-03-17T09:00:00Z')).held('1', '2026-03-17/afternoon')).toBeUndefined();
  });

  test('R-29 a medicine listed only after the dose goes by its first listing', () => {
    expect(with1(given, listed(72, '2026-03-15T01:00:00Z')).held('1', NEXT)?.until).toBe('2026-03-17T16:40:00Z');
  });

  test('R-29 a listing is corrected by striking it and listing again at the same time', () => {
    const wrong = listed(24, '2026-01-01T09:00:00Z', 'misread');
    const strike = farmWide('entry-struck', '2026-03-14T20:00:00Z', {
      entry: 'misread',
      reason: 'misread',
      instead: 'right',
    });
    expect(with1(wrong, listed(72, '2026-01-01T09:00:00Z', 'right'), strike, given).held('1', NEXT)?.until).toBe(
      '2026-03-17T16:40:00Z',
    );
  });

  const strict = medicine('Strict', {
    route: 'udder',
    for: ['milking'],
    milkHold: { hours: 60 },
    meatDays: 3,
    maxDoses: 2,
    minIntervalHours: 12,
    notFromAgeMonths: 60,
  });
  const causes = (...more: readonly Saying[]) => {
    const row = evening([farm(), ...CUPBOARD, strict, milker('1', { born: '2023-01-10' }), ...more]).held('1', NEXT);
    const reason = row?.reasons.find(({ key }) => key === 'hold.off-label-no-vet');
    return reason?.key === 'hold.off-label-no-vet' ? reason.values.causes : [];
  };
  const strictDose = (time: string, more = {}) => dose('1', time, { medicine: 'Strict', route: 'udder', ...more });

  test('R-29 use by the label is not off-label', () => expect(causes(strictDose(DOSE))).toEqual([]));
  test("R-29 a route that is not the label's is off-label", () =>
    expect(causes(strictDose(DOSE, { route: 'muscle' }))).toEqual(['route']));
  test("R-29 more doses than the label's are off-label", () =>
    expect(causes(strictDose('2026-03-13T16:40:00Z'), strictDose('2026-03-14T04:40:00Z'), strictDose(DOSE))).toEqual([
      'doses',
    ]));
  test("R-29 a shorter interval than the label's is off-label", () =>
    expect(causes(strictDose('2026-03-14T05:40:00Z'), strictDose(DOSE))).toEqual(['interval']));
  test('R-29 two quarters treated at one time are two first doses, not a dose too soon', () =>
    expect(
      causes(strictDose(DOSE, { quarters: ['left-front'] }), strictDose(DOSE, { quarters: ['right-front'] })),
    ).toEqual([]));
  test('R-29 an age past its limit is off-label, and so is an unknown birth', () => {
    const row = (born?: string) =>
      evening([farm(), strict, milker('1', born === undefined ? {} : { born }), strictDose(DOSE)]).held('1', NEXT);
    expect(row('2021-03-14')?.until).toBeNull();
    expect(row()?.until).toBeNull();
    expect(row('2021-03-15')?.until).toBe('2026-03-17T04:40:00Z');
  });
  test('R-29 an animal outside its class is off-label', () => {
    const dry = evening([
      farm(),
      medicine('For dry', { for: ['dry'], milkHold: { hours: 60 }, meatDays: 3 }),
      milker('1'),
      dose('1', DOSE, { medicine: 'For dry' }),
    ]);
    expect(dry.held('1', NEXT)?.until).toBeNull();
  });
});

describe('off-label by regulation', () => {
  const eu = (label: Parameters<typeof medicine>[1], more = {}) =>
    evening([
      farm({ offLabel: 'eu-2019-6' }),
      medicine('Its label', label),
      milker('1'),
      dose('1', DOSE, { medicine: 'Its label', offLabel: true, prescribedBy: 'Dr Vane', ...more }),
    ]).held('1', NEXT);

  test('R-18 milk is held one and a half times the label, up to whole days', () =>
    expect(eu({ milkHold: { hours: 60 }, meatDays: 3 })?.until).toBe('2026-03-18T16:40:00Z'));
  test('R-18 a label of zero is held a day', () =>
    expect(eu({ milkHold: 'none', meatDays: 3 })?.until).toBe('2026-03-15T16:40:00Z'));
  test('R-18 a medicine not authorised for milk animals is held seven days', () =>
    expect(eu({ milkHold: { hours: 60 }, meatDays: 3, authorisedForMilkAnimals: false })?.until).toBe(
      '2026-03-21T16:40:00Z',
    ));
  test('R-18 one not for milking cows is held seven days when the treatment says off-label', () =>
    expect(eu({ milkHold: 'not-for-milking-cows', meatDays: 3 })?.until).toBe('2026-03-21T16:40:00Z'));
  test("R-18 a longer vet's time stands as given", () =>
    expect(eu({ milkHold: { hours: 60 }, meatDays: 3 }, { milkHoldHours: 100 })?.until).toBe('2026-03-18T20:40:00Z'));
  test('R-18 without the vet, or with milkings alone on the label, it stays open', () => {
    expect(eu({ milkHold: { hours: 60 }, meatDays: 3 }, { prescribedBy: undefined })?.until).toBeNull();
    expect(eu({ milkHold: { milkings: 5 }, meatDays: 3 })?.until).toBeNull();
  });
});

describe('courses', () => {
  const course = (dose_: number, time: string, more = {}) =>
    dose('1', time, { course: { id: 'c1', dose: dose_, of: 3, everyHours: 12 }, ...more }, `dose-${dose_}`);

  test('R-17 while a course runs the hold ends by the planned last dose and the label', () => {
    // Dose 1 at 16:40; two more at twelve hours: the last planned 15 March 16:40, and sixty hours.
    expect(with1(course(1, DOSE)).held('1', NEXT)?.until).toBe('2026-03-18T04:40:00Z');
  });

  test('R-17 a dose stands on the treat list of the milking nearest to its planned time', () => {
    const treat = with1(course(1, DOSE)).at(NEXT).sheets['milk-hold'].treat;
    expect(treat).toEqual([
      expect.objectContaining({ cow: '1', medicine: 'Sixty hours', dose: 2, of: 3, overdue: false }),
    ]);
  });

  test('R-17 a planned time half way between two milkings is due at the earlier', () => {
    // Half way between 05:00 and 16:30 is 10:45; twelve hours before that is 22:45.
    const book = with1(course(1, '2026-03-13T22:45:00Z'));
    expect(book.at('2026-03-14/morning').sheets['milk-hold'].treat).toHaveLength(1);
  });

  test('R-17 planned ahead, a dose due before that milking is taken as given then', () => {
    const treat = with1(course(1, DOSE)).at('2026-03-15/afternoon', '2026-03-14T20:00:00Z').sheets['milk-hold'].treat;
    expect(treat).toEqual([expect.objectContaining({ dose: 3, overdue: false })]);
  });

  test('R-17 a due dose not recorded once its milking has ended holds her without end and asks before giving', () => {
    const book = with1(course(1, DOSE));
    const late = '2026-03-15T15:00:00Z';
    expect(book.held('1', '2026-03-15/afternoon', late)?.until).toBeNull();
    expect(book.at('2026-03-15/afternoon', late).sheets['milk-hold'].treat).toEqual([
      expect.objectContaining({ dose: 2, overdue: true }),
    ]);
    expect(book.held('1', '2026-03-15/afternoon', '2026-03-15T05:30:00Z')?.until).toBe('2026-03-18T04:40:00Z');
  });

  test('R-17 recording the dose ends the open hold; settling ends the line on the list but not the hold', () => {
    const late = '2026-03-15T15:00:00Z';
    const given = with1(course(1, DOSE), course(2, '2026-03-15T05:10:00Z'));
    expect(given.held('1', '2026-03-15/afternoon', late)?.until).toBe('2026-03-18T05:10:00Z');
    const asked = with1(course(1, DOSE))
      .at('2026-03-15/afternoon', late)
      .doubts.find(({ because }) => because.key === 'doubt.dose-not-recorded');
    const settled = with1(course(1, DOSE), farmWide('settled', late, { about: asked?.key ?? '', how: 'asked' }));
    expect(settled.held('1', '2026-03-15/afternoon', late)?.until).toBeNull();
    expect(settled.at('2026-03-15/afternoon', late).sheets['milk-hold'].treat).toEqual([]);
  });

  test('R-17 only the end of the course shortens its plan', () => {
    const ended = about('1', 'course-ended', '2026-03-15T08:00:00Z', { course: 'c1', reason: 'well again' });
    expect(with1(course(1, DOSE), ended).held('1', '2026-03-15/afternoon', '2026-03-15T15:00:00Z')?.until).toBe(
      '2026-03-17T04:40:00Z',
    );
  });

  test('R-17 another medicine does not end a course: are both still wanted?', () => {
    const book = with1(course(1, DOSE), dose('1', '2026-03-14T18:00:00Z', { medicine: 'Both' }));
    expect(book.doubts(NEXT, 'doubt.both-still-wanted')).toHaveLength(1);
    expect(book.at(NEXT).sheets['milk-hold'].treat).toHaveLength(1);
  });

  test('R-17 a dose missing between two recorded ones holds her without end', () => {
    expect(with1(course(1, '2026-03-13T16:40:00Z'), course(3, DOSE)).held('1', NEXT)?.until).toBeNull();
  });
});

describe('fresh cows and people', () => {
  const calved = (time: string) =>
    about('1', 'calving', time, { calves: [{ sex: 'female', alive: true }], group: 'Fresh' });
  const heifer = milker('1', { group: 'Close-up', lactation: 0, calvedOn: undefined as never });
  const fresh = (wish: Parameters<typeof farm>[0], ...more: readonly Saying[]) => {
    const { calvedOn: _, ...data } = heifer.data as { calvedOn?: string };
    return evening([farm(wish), ...CUPBOARD, { ...heifer, data }, ...more]);
  };

  test("R-20 after calving milk is held for the farm's fresh hold, in milkings as the farm counts them", () => {
    const book = fresh({}, calved('2026-03-14T06:00:00Z'));
    expect(book.held('1', '2026-03-14/afternoon')).toMatchObject({
      until: '2026-03-16T05:00:00Z',
      tankFrom: '2026-03-16/afternoon',
      milkingsLeft: 4,
    });
  });

  test('R-12 a cow in milk who still stands among the dry is milked from this milking on: it counts, and is one left', () => {
    const still = (time: string) => {
      const { group: _, ...data } = calved(time).data as { group?: string };
      return fresh({}, { ...calved(time), data });
    };
    const book = still('2026-03-14T06:00:00Z');
    const asFresh = fresh({}, calved('2026-03-14T06:00:00Z')).held('1', '2026-03-14/afternoon');
    const end = { until: '2026-03-16T05:00:00Z', tankFrom: '2026-03-16/afternoon', milkingsLeft: 4 };
    expect([asFresh, book.held('1', '2026-03-14/afternoon')]).toMatchObject([end, { ...end, group: 'Close-up' }]);
    // Calved inside it: four after this one, and this one is held.
    const inside = { until: '2026-03-16T16:30:00Z', milkingsLeft: 5 };
    for (const each of [still('2026-03-14T16:50:00Z'), fresh({}, calved('2026-03-14T16:50:00Z'))])
      expect(each.held('1', '2026-03-14/afternoon')).toMatchObject(inside);
    const moved = about('412', 'group-move', '2026-03-14T06:00:00Z', { to: 'Dry' });
    const dosed = dose('412', '2026-03-14T05:10:00Z', { medicine: 'Five milkings' });
    const dryPen = evening([farm(), ...CUPBOARD, milker('412'), dosed, moved]);
    expect(dryPen.held('412', '2026-03-14/afternoon')).toMatchObject({
      until: '2026-03-16T17:10:00Z',
      milkingsLeft: 5,
    });
  });

  test('R-20 of hours and milkings the later ends it', () => {
    expect(
      fresh({ freshHold: { milkings: 4, hours: 96 } }, calved('2026-03-14T06:00:00Z')).held('1', '2026-03-14/afternoon')
        ?.until,
    ).toBe('2026-03-18T06:00:00Z');
  });

  test('R-20 where the farm has set none the hold is open', () => {
    const row = fresh({ freshHold: {} }, calved('2026-03-14T06:00:00Z')).held('1', '2026-03-14/afternoon');
    expect([row?.until, keysOf(row)]).toEqual([null, ['hold.fresh-not-set']]);
  });

  test('R-20 a cow still milked close to her due date is held', () => {
    const book = evening([
      farm({ freshHold: { milkings: 4, daysBeforeDue: 10 } }),
      milker('2', { dueOn: '2026-03-24' }),
    ]);
    expect(book.held('2', '2026-03-13/afternoon')).toBeUndefined();
    expect(keysOf(book.held('2', '2026-03-14/morning'))).toEqual(['hold.before-due']);
  });

  test('R-21 what a person set stays until it is lifted by name, or all of hers are; lifting ends nothing else', () => {
    const hold = (id: string) => about('1', 'milk-hold', DOSE, { reason: 'clots' }, id);
    const lift = (named?: string) =>
      about('1', 'milk-hold-lifted', '2026-03-14T18:00:00Z', {
        reason: 'clear',
        ...(named === undefined ? {} : { hold: named }),
      });
    expect(with1(hold('h1'), hold('h2'), lift('h1')).held('1', NEXT)?.reasons).toHaveLength(1);
    expect(with1(hold('h1'), hold('h2'), lift()).held('1', NEXT)).toBeUndefined();
    expect(keysOf(with1(hold('h1'), dose('1', DOSE), lift()).held('1', NEXT))).toEqual(['hold.hours']);
  });

  test('R-22 a positive test holds until a later clear one; milk sampled before it proves nothing', () => {
    const tested = (result: 'clear' | 'positive', time: string, sampledAt?: string) =>
      about('1', 'residue-test', time, { result, of: 'cow', ...(sampledAt === undefined ? {} : { sampledAt }) });
    const positive = tested('positive', '2026-03-13T10:00:00Z');
    expect(with1(positive).held('1', NEXT)?.until).toBeNull();
    expect(
      with1(positive, tested('clear', '2026-03-14T10:00:00Z', '2026-03-13T05:00:00Z')).held('1', NEXT)?.until,
    ).toBeNull();
    expect(with1(positive, tested('clear', '2026-03-14T10:00:00Z')).held('1', NEXT)).toBeUndefined();
  });

  test('R-22 milk is never drawn after its result: a date of sampling ahead of the entry counts as the entry', () => {
    const tested = (result: 'clear' | 'positive', time: string, sampledAt: string) =>
      about('1', 'residue-test', time, { result, of: 'cow', sampledAt });
    const positive = tested('positive', '2026-03-13T10:00:00Z', '2026-04-13T05:00:00Z');
    expect(with1(positive).held('1', NEXT)?.until).toBeNull();
    const early = tested('clear', '2026-02-13T10:00:00Z', '2027-02-13T05:00:00Z');
    expect(with1(early, positive).held('1', NEXT)?.until).toBeNull();
    const late = tested('clear', '2026-03-14T10:00:00Z', '2027-03-14T05:00:00Z');
    expect(with1(positive, late).held('1', NEXT)).toBeUndefined();
  });

  test('R-22 a clear test shortens no label', () => {
    const clear = about('1', 'residue-test', '2026-03-14T20:00:00Z', { result: 'clear', of: 'cow' });
    expect(with1(dose('1', DOSE), clear).held('1', NEXT)?.until).toBe('2026-03-17T04:40:00Z');
  });
});
