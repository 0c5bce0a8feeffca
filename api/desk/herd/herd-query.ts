/**
 * What is asked of the herd: find, group, hold, due for dry-off or fresh, and in which order. It stands in the address, so
 * that a list can be kept, sent on and downloaded as it was seen. What can't be understood is said and shows nobody fewer.
 */
import { byCowNumber, officialDigits, withoutLeadingZeros } from '../../../shared/cow-number.ts';
import { byText } from '../../../shared/text-order.ts';
import { say } from '../say.tsx';
import type { HerdRow } from './herd-rows.ts';

export const COLUMNS = [
  'number',
  'official',
  'group',
  'lactation',
  'days',
  'in-milk',
  'milk-hold',
  'tank-from',
  'meat-hold',
  'due',
] as const;
export type Column = (typeof COLUMNS)[number];

export const HOLDS = ['milk', 'meat'] as const;
export const SHOWS = ['dry-off', 'fresh'] as const;

export interface HerdQuery {
  readonly find: string | undefined;
  readonly group: string | undefined;
  readonly hold: (typeof HOLDS)[number] | undefined;
  readonly show: (typeof SHOWS)[number] | undefined;
  /** Undefined: as on the sheets. */
  readonly sort: Column | undefined;
  readonly down: boolean;
  /** Sentences about what was not understood. */
  readonly problems: readonly string[];
}

export const herdQuery = (asked: URLSearchParams, groups: readonly string[]): HerdQuery => {
  const problems: string[] = [];
  const given = (name: string): string | undefined => asked.get(name)?.trim() || undefined;
  const oneOf = <T extends string>(
    name: string,
    all: readonly T[],
    what: 'group' | 'hold' | 'list' | 'column',
  ): T | undefined => {
    const said = given(name);
    const found = all.find((each) => each === said);
    if (said !== undefined && found === undefined)
      problems.push(
        say(
          'There is no {what, select, group {group} hold {hold} list {list} other {column}} “{said}”, so it was left out; choose from the list.',
          { what, said: said.slice(0, 40) },
        ),
      );
    return found;
  };
  return {
    find: given('find')?.slice(0, 40),
    group: oneOf('group', groups, 'group'),
    hold: oneOf('hold', HOLDS, 'hold'),
    show: oneOf('show', SHOWS, 'list'),
    sort: oneOf('sort', COLUMNS, 'column'),
    down: asked.get('down') === '1',
    problems,
  };
};

/** The query as an address; `change` puts something in another way. */
export const addressOf = (path: string, query: HerdQuery, change: Partial<HerdQuery> = {}): string => {
  const { find, group, hold, show, sort, down } = { ...query, ...change };
  const asked = new URLSearchParams();
  for (const [name, value] of Object.entries({ find, group, hold, show, sort }))
    if (value !== undefined) asked.set(name, value);
  if (sort !== undefined && down) asked.set('down', '1');
  return asked.size === 0 ? path : `${path}?${asked}`;
};

export const chosen = (rows: readonly HerdRow[], query: HerdQuery): readonly HerdRow[] => {
  const { find, group, hold, show } = query;
  const those = rows.filter(
    (row) =>
      (find === undefined || isMeant(row, find)) &&
      (group === undefined || row.group === group) &&
      (hold === undefined || (hold === 'milk' ? row.milk.hold === 'held' : row.meat.held)) &&
      (show === undefined || (show === 'dry-off' ? row.dryOffDue : row.fresh)),
  );
  if (query.sort === undefined) return those;
  const order = ORDERS[query.sort];
  return those.toSorted((a, b) => order(a, b, query.down ? -1 : 1));
};

/** By the beginning of a number she bears, by one she bore, or by any four digits of her official number. */
const isMeant = (row: HerdRow, find: string): boolean => {
  const wanted = find.toLowerCase();
  const digits = find.replaceAll(' ', '');
  return (
    row.number.toLowerCase().startsWith(wanted) ||
    withoutLeadingZeros(row.number) === withoutLeadingZeros(find) ||
    row.once.some((each) => each.toLowerCase() === wanted) ||
    (row.officialId !== null && /^\d{4,15}$/.test(digits) && row.officialId.includes(digits)) ||
    (row.officialId !== null && officialDigits(find) === row.officialId)
  );
};

type Order = (a: HerdRow, b: HerdRow, way: 1 | -1) => number;

/** What is not there comes last, whichever way the rest runs. */
const by =
  <T>(pick: (row: HerdRow) => T | null, compare: (a: T, b: T) => number): Order =>
  (a, b, way) => {
    const first = pick(a);
    const second = pick(b);
    if (first === null || second === null) return Number(first === null) - Number(second === null);
    return way * compare(first, second);
  };
const asNumbers = (a: number, b: number): number => a - b;
const NO_END = Number.MAX_SAFE_INTEGER;

const ORDERS: Readonly<Record<Column, Order>> = {
  number: by((row) => row.number, byCowNumber),
  official: by((row) => row.officialId, byText),
  group: by((row) => row.group, byText),
  lactation: by((row) => row.lactation, asNumbers),
  days: by((row) => row.daysInMilk, asNumbers),
  'in-milk': by((row) => Number(row.inMilk), asNumbers),
  'milk-hold': by((row) => (row.milk.hold === 'none' ? null : (row.milk.until ?? NO_END)), asNumbers),
  // By the end of the hold: milkings are named, and names have no order.
  'tank-from': by((row) => (row.milk.tankFrom === null ? null : (row.milk.until ?? NO_END)), asNumbers),
  'meat-hold': by((row) => (row.meat.held ? (row.meat.until ?? NO_END) : null), asNumbers),
  due: by((row) => row.due, byText),
};
