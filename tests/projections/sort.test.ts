/** The sort gate at its edges, worked by hand from the rules. */
import { describe, expect, test } from 'vitest';
import { about, CUPBOARD, dryCow, evening, farm, farmWide, milker, type Saying } from './evening.ts';

const MORNING = '2026-03-14/morning';
const AFTERNOON = '2026-03-14/afternoon';
const book = (...more: readonly Saying[]) => evening([farm(), ...CUPBOARD, ...more]);
type Book = ReturnType<typeof book>;
const gate = (each: Book, milking = AFTERNOON) => each.at(milking).sheets.sort;
const on = (each: Book, milking = AFTERNOON) => gate(each, milking).cows.map(({ cow }) => cow);
const cannot = (each: Book, milking = AFTERNOON) =>
  gate(each, milking).cannot.map(({ cow, because }) => [cow, because.key]);

const asked = (cow: string, more = {}, time = '2026-03-13T09:00:00Z') =>
  about(cow, 'sort-request', time, { reason: 'lame', ...more }, 'asked');
const done = (cow: string, time: string) => about(cow, 'sort-done', time, { request: 'asked' });

describe('when a request begins and ends', () => {
  test('R-60 asked for between two milkings it begins at the second; asked for inside one it is on that one', () => {
    // The morning of one cow: a turn of ten minutes and an hour, until 06:10.
    const noon = book(milker('1'), asked('1', {}, '2026-03-14T12:00:00Z'));
    expect([on(noon, MORNING), on(noon)]).toEqual([[], ['1']]);
    expect(on(book(milker('1'), asked('1', {}, '2026-03-14T05:30:00Z')), MORNING)).toEqual(['1']);
  });

  test('R-60 done inside a milking, she was on its list, and is not on the next', () => {
    const each = book(milker('1'), asked('1'), done('1', '2026-03-14T05:30:00Z'));
    expect([on(each, MORNING), on(each)]).toEqual([['1'], []]);
  });

  test('R-60 the request that is done ends, and no other of hers', () => {
    const other = about('1', 'sort-request', '2026-03-13T10:00:00Z', { reason: 'ear tag' }, 'other');
    const each = book(milker('1'), asked('1'), other, done('1', '2026-03-14T09:00:00Z'));
    expect(gate(each).cows.map(({ reasons }) => reasons.map(({ entries }) => entries))).toEqual([[['other']]]);
  });

  test('R-60 until a milking, until a date and until a time all count their last one', () => {
    const until = (text: string) => {
      const each = book(milker('1'), asked('1', { until: text }));
      return [on(each, MORNING), on(each), on(each, '2026-03-15/morning')].map((rows) => rows.length);
    };
    expect(until(MORNING)).toEqual([1, 0, 0]);
    expect(until('2026-03-14')).toEqual([1, 1, 0]);
    expect(until('2026-03-14T16:30:00Z')).toEqual([1, 1, 0]);
    expect(until('2026-03-14T16:29:00Z')).toEqual([1, 0, 0]);
  });

  test('R-60 done is done, under whatever number it was written down', () => {
    const renumbered = about('1', 'number-changed', '2026-03-13T12:00:00Z', { to: '77' });
    const each = (number: string) => book(milker('1'), asked('1'), renumbered, done(number, '2026-03-14T09:00:00Z'));
    expect([on(each('77')), on(each('1'))]).toEqual([[], []]);
    expect(on(book(milker('1'), asked('1'), renumbered))).toEqual(['77']);
  });

  test('R-60 R-25 a request for a number that two cows bear brings both; done ends it for both', () => {
    const two = [milker('1', { officialId: '999000000000001' }), milker('1', { officialId: '999000000000002' })];
    expect(on(book(...two, asked('1')))).toEqual(['1', '1']);
    expect(on(book(...two, asked('1'), done('1', '2026-03-14T09:00:00Z')))).toEqual([]);
  });

  test('R-60 a cow that left and came back is not asked for any more', () => {
    const back = { ...milker('1', { officialId: '999000000000001' }), time: '2026-03-14T08:00:00Z' };
    const each = book(
      milker('1', { officialId: '999000000000001' }),
      asked('1'),
      about('1', 'cow-left', '2026-03-13T12:00:00Z', { reason: 'other' }),
      back,
    );
    expect([on(each), cannot(each)]).toEqual([[], []]);
  });

  test('R-60 a done that is struck was not done', () => {
    const struck = farmWide('entry-struck', '2026-03-14T10:00:00Z', { entry: 'said-done', reason: 'wrong cow' });
    const saidDone = { ...done('1', '2026-03-14T09:00:00Z'), id: 'said-done' };
    expect(on(book(milker('1'), asked('1'), saidDone, struck))).toEqual(['1']);
  });
});

describe('what stands on her row', () => {
  test('R-60 why, for whom, where to and back to which group', () => {
    const row = gate(book(milker('1'), asked('1', { to: 'Crush', forWhom: 'the hoof trimmer' }))).cows[0];
    expect(row).toMatchObject({ cow: '1', group: 'Cows', to: ['Crush'] });
    expect(row?.reasons.map(({ values }) => values)).toEqual([
      { reason: 'lame', forWhom: 'the hoof trimmer', to: 'Crush' },
    ]);
  });

  test('R-60 a dry-off day that has passed stands on it still, the one to come does not', () => {
    // 60 days before 12 and 13 and 14 May: the 13th, 14th and 15th of March.
    const each = book(
      milker('1', { dueOn: '2026-05-12' }),
      milker('2', { dueOn: '2026-05-13' }),
      milker('3', { dueOn: '2026-05-14' }),
    );
    expect(gate(each).cows.map(({ cow, to }) => [cow, to])).toEqual([
      ['1', ['Dry']],
      ['2', ['Dry']],
    ]);
  });

  test('R-60 asked for elsewhere on her dry-off day: both places are named, and it is a doubt until settled', () => {
    const sayings = [milker('1', { dueOn: '2026-05-13' }), asked('1', { to: 'Hospital' })];
    const each = book(...sayings);
    expect(gate(each).cows.map(({ to }) => to)).toEqual([['Hospital', 'Dry']]);
    const [doubt] = each.doubts(AFTERNOON, 'doubt.sort-several-places');
    expect(doubt?.because.values).toEqual({ cow: '1', places: ['Hospital', 'Dry'] });
    const settled = farmWide('settled', '2026-03-14T12:00:00Z', { about: doubt?.key ?? '', how: 'hospital first' });
    expect(book(...sayings, settled).doubts(AFTERNOON, 'doubt.sort-several-places')).toEqual([]);
  });

  test('R-60 asked for twice for one place is no doubt, and neither is a request that names no place', () => {
    const again = (more: object) => about('1', 'sort-request', '2026-03-13T10:00:00Z', { reason: 'ear tag', ...more });
    for (const more of [{ to: 'Crush' }, {}]) {
      const each = book(milker('1'), asked('1', { to: 'Crush' }), again(more));
      expect(gate(each).cows.map(({ to, reasons }) => [to, reasons.length])).toEqual([[['Crush'], 2]]);
      expect(each.doubts(AFTERNOON, 'doubt.sort-several-places')).toEqual([]);
    }
  });
});

describe('cows that will not come through', () => {
  test('R-61 a cow that has calved among the dry ones is in milk, but her group is not milked', () => {
    const calved = about('1', 'calving', '2026-03-13T20:00:00Z', { calves: [{ sex: 'female', alive: true }] });
    expect(cannot(book(dryCow('1'), asked('1'), calved))).toEqual([['1', 'sort.cannot-not-milked']]);
  });

  test('R-61 a dry cow standing in a milked group is dry all the same', () => {
    expect(cannot(book(dryCow('1', { group: 'Cows' }), asked('1')))).toEqual([['1', 'sort.cannot-dry']]);
  });

  test('R-61 a request for a number nobody bears stands until it is done or settled', () => {
    expect(cannot(book(milker('1'), asked('999')))).toEqual([['999', 'sort.cannot-unknown']]);
    expect(cannot(book(milker('1'), asked('999'), done('1', '2026-03-14T09:00:00Z')))).toEqual([]);
    const settled = farmWide('settled', '2026-03-14T09:00:00Z', { about: 'unplaced:asked', how: 'it was 1' });
    expect(cannot(book(milker('1'), asked('999'), settled))).toEqual([]);
  });

  test('R-61 R-25 a number that matches but for its leading zeros is that cow, not an unknown one', () => {
    const each = book(milker('7'), asked('007'));
    expect([on(each), cannot(each)]).toEqual([['7'], []]);
  });
});
