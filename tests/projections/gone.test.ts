/** A herd has many more cows that left than cows that are there: they cost nothing at a milking, and say what they said. */
import { describe, expect, test } from 'vitest';
import type { Entry } from '../../events/entry.ts';
import { type CowFile, putAway } from '../../projections/cow-file.ts';
import { type Known, know } from '../../projections/know.ts';
import { knowMore } from '../../projections/know-more.ts';
import { viewsAt } from '../../projections/views-at.ts';
import { mustBeInstant } from '../../shared/instant.ts';
import { entriesOf } from '../published/paper-farm.ts';
import { about, CUPBOARD, dose, dryCow, farm, farmWide, milker, type Saying } from './evening.ts';
import { shut } from './shut.ts';

const GONE = Array.from({ length: 40 }, (_, index) => String(1_000 + index));

/** Each was treated, half of them with a doubt about it that nobody has settled, and all left a year and more ago. */
const gone: readonly Saying[] = GONE.flatMap((cow, index) => [
  milker(cow),
  dose(cow, '2026-01-12T06:00:00Z', index % 2 === 0 ? { milkHoldHours: 12, prescribedBy: 'Dr Vane' } : {}),
  about(cow, 'sort-request', '2026-01-14T06:00:00Z', { reason: 'lame' }),
  about(cow, 'cow-left', '2026-02-01T09:00:00Z', { reason: 'died' }),
]);

const there: readonly Saying[] = [milker('1'), milker('2'), dryCow('3'), dose('2', '2027-03-09T06:00:00Z')];

const issued = (): Saying => ({
  ...farmWide('head-count', '2027-03-09T15:00:00Z', { group: 'Cows', count: 2 }),
});

const entries = (): readonly Entry[] => entriesOf([farm(), ...CUPBOARD, ...gone, ...there, issued()]);

const at = (known: Known, id: string): string => {
  const milking = known.farm.schedule?.find(id);
  if (milking === undefined) throw new Error(`${id} is not on the schedule`);
  return JSON.stringify(viewsAt(known, { milking, asOf: milking.start, position: 0 }));
};

const isClosed = ({ closedAt }: CowFile): boolean => Number.isFinite(closedAt);

const MILKINGS = ['2027-03-10/morning', '2027-03-10/afternoon', '2027-03-11/morning'];

describe('cows that left', () => {
  test('are not looked at again at the milkings that follow, nor when something is said of another cow', () => {
    const known = know(entries(), []);
    const closed = known.files.filter(isClosed);
    expect(closed).toHaveLength(GONE.length);
    const [first = '', ...others] = MILKINGS;
    at(known, first);
    shut(closed, 'a cow that left long ago is looked at');
    const fresh = know(entries(), []);
    for (const milking of others) expect(at(known, milking)).toBe(at(fresh, milking));
    const news = entriesOf([about('1', 'milk-hold', '2027-03-10T04:00:00Z', { reason: 'clots' }, 'clots')]);
    const more = knowMore(known, news, []);
    for (const milking of MILKINGS) expect(at(more, milking)).toBe(at(know([...entries(), ...news], []), milking));
    expect(at(more, first)).toContain('"rule":"R-21"');
  });

  test('have their files opened again when they come back', () => {
    const official = { ...milker('1'), data: { group: 'Cows', lactation: 2, officialId: '999000000000412' } };
    const gone = about('1', 'cow-left', '2026-05-01T09:00:00Z', { reason: 'died' });
    const again = { ...official, id: 'again', time: '2026-07-01T09:00:00Z' };
    const { files } = know(entriesOf([farm(), official, gone, again]), []);
    expect(files.map(({ closedAt }) => closedAt)).toEqual([Number.POSITIVE_INFINITY]);
    const [left] = know(entriesOf([farm(), official, gone]), []).files;
    expect(left?.closedAt).toBe(mustBeInstant('2026-05-08T09:00:00Z'));
  });

  test('say the same however many other files were looked into meanwhile', () => {
    const known = know(entries(), []);
    const closed = known.files.filter(isClosed);
    const said = () => closed.map(({ cow, lactations, dosings }) => JSON.stringify([cow, lactations, dosings]));
    const before = said();
    for (let turn = 0; turn < 3; turn += 1) expect(said()).toEqual(before);
    for (const file of closed) putAway(file);
    expect(said()).toEqual(before);
  });

  test('still say what sat oddly in their histories, until somebody settles it', () => {
    const known = know(entries(), []);
    const [first = ''] = MILKINGS;
    const { doubts } = JSON.parse(at(known, first)) as { doubts: { key: string; because: { key: string } }[] };
    const own = doubts.filter(({ because }) => because.key === 'doubt.vet-time-not-longer');
    expect(own).toHaveLength(GONE.length / 2);
    const settling = entriesOf([
      farmWide('settled', '2027-03-10T04:00:00Z', { about: own[0]?.key ?? '', how: 'asked' }),
    ]);
    expect(at(knowMore(known, settling, []), first)).not.toContain(own[0]?.key);
  });

  test('a word about one of them, however late, opens her file again', () => {
    const known = know(entries(), []);
    const [first = ''] = MILKINGS;
    at(known, first);
    const struck = known.files.find(isClosed)?.cow.left[0]?.id ?? '';
    const news = entriesOf([farmWide('entry-struck', '2027-03-10T04:00:00Z', { entry: struck, reason: 'never left' })]);
    const more = knowMore(known, news, []);
    expect(more.files.filter(isClosed)).toHaveLength(GONE.length - 1);
    expect(at(more, first)).toBe(at(know([...entries(), ...news], []), first));
    expect(at(more, first)).toContain('"1000"');
  });
});
