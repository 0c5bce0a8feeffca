/** Laws of recording, on real books: twice is once, a beginning and the rest make the whole, and order of arrival changes no view. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { know } from '../../projections/know.ts';
import { viewsAt } from '../../projections/views-at.ts';
import { CUPBOARD, dose, farm, milker, type Saying } from '../projections/evening.ts';
import { newBook, said } from './a-book.ts';

const HERD: readonly Saying[] = [farm(), ...CUPBOARD, milker('1'), milker('2')];
const history = fc.array(
  fc.record({
    cow: fc.constantFrom('1', '2', '9'),
    day: fc.integer({ min: 1, max: 13 }),
    medicine: fc.constantFrom('Sixty hours', 'Both', 'Not listed'),
  }),
  { maxLength: 10 },
);
const sayingsOf = (drawn: readonly { cow: string; day: number; medicine: string }[]): readonly Saying[] => [
  ...HERD,
  ...drawn.map(({ cow, day, medicine }, index) => ({
    ...dose(cow, `2026-03-${String(day).padStart(2, '0')}T06:00:00Z`, { medicine }),
    id: `dose-${index}`,
  })),
];
const arrivals = (sayings: readonly Saying[]) => sayings.map((saying) => said({ ...saying }));

const viewsOf = (book: ReturnType<typeof newBook>) => {
  const { entries, asides } = book.read();
  const known = know(entries, asides);
  const milking = known.farm.schedule?.find('2026-03-14/morning');
  if (milking === undefined) throw new Error('no such milking');
  return viewsAt(known, { milking, asOf: milking.start, position: 0 });
};

test('recorded twice is recorded once: the same entries, position and views', () => {
  fc.assert(
    fc.property(history, (drawn) => {
      const once = newBook();
      const twice = newBook();
      const all = arrivals(sayingsOf(drawn));
      once.record(all);
      twice.record(all);
      twice.record(all);
      expect(twice.head().position).toBe(once.head().position);
      expect(viewsOf(twice)).toEqual(viewsOf(once));
    }),
    { seed: 5, numRuns: 25 },
  );
});

test('a beginning and then the rest, or the whole, or the whole backwards, give the same views', () => {
  fc.assert(
    fc.property(history, fc.nat(), (drawn, cut) => {
      const all = arrivals(sayingsOf(drawn));
      const at = cut % (all.length + 1);
      const [whole, parts, backwards] = [newBook(), newBook(), newBook()];
      whole.record(all);
      parts.record(all.slice(0, at));
      parts.record(all.slice(at));
      backwards.record(all.toReversed());
      expect(viewsOf(parts)).toEqual(viewsOf(whole));
      expect(viewsOf(backwards)).toEqual(viewsOf(whole));
    }),
    { seed: 6, numRuns: 25 },
  );
});
