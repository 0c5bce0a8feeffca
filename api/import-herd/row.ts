/** One row of a herd list as what a `cow-entered` entry says, or every problem found in it, each with its column. */
import { sentenceOf } from '../../events/envelope.ts';
import { type CowEntered, cowEntered } from '../../events/kinds/cow-entered.ts';
import type { LocalDay } from '../../shared/local-day.ts';
import type { Result } from '../../shared/refusal.ts';
import type { Zone } from '../../shared/zone.ts';
import { readGroup, readHold, readLactation, readNumber, readOfficial, readPastDay, trimmed } from './cells.ts';
import type { DateReader } from './dates.ts';
import type { Columns, Field } from './headings.ts';
import type { Row } from './table.ts';

export interface RowSettings {
  readonly columns: Columns;
  readonly dates: DateReader;
  readonly zone: Zone;
  readonly groups: readonly { readonly name: string }[];
  /** The farm's date at the time of the list: nothing in it happened later. */
  readonly today: LocalDay;
  /** What a blank or absent hold column means: stated as none, or unknown. */
  readonly holdsElsewhere: 'none' | undefined;
}

export interface ReadRow {
  readonly row: Row;
  readonly number: string;
  readonly data: CowEntered;
}

export interface RowProblem {
  readonly field: Field | null;
  readonly problem: string;
}

export type RowOutcome =
  | { readonly ok: true; readonly read: ReadRow }
  | { readonly ok: false; readonly problems: readonly RowProblem[] };

export const readRow = (row: Row, settings: RowSettings): RowOutcome => {
  const width = settings.columns.fields.length;
  const extra = row.cells.slice(width).some((cell) => cell.trim() !== '');
  if (row.cells.length < width || extra) {
    const problem = `the row has ${row.cells.length} fields, but there are ${width} headings; look for a missing or extra separator, or a field that needs quotes`;
    return { ok: false, problems: [{ field: null, problem }] };
  }
  const problems: RowProblem[] = [];
  const cell = (field: Field): string => {
    const column = settings.columns.at.get(field);
    return column === undefined ? '' : trimmed(row.cells[column] ?? '');
  };
  /** The value of a field, or `undefined` where it is blank or wrong; what is wrong is noted. */
  const take = <T>(field: Field, read: (text: string) => Result<T>, blankToo = false): T | undefined => {
    const text = cell(field);
    if (text === '' && !blankToo) return undefined;
    const result = read(text);
    if (result.ok) return result.value;
    problems.push({ field, problem: result.problem });
    return undefined;
  };
  const past = (text: string) => readPastDay(text, settings.dates, settings.today);
  const hold = (field: Field): string | undefined => {
    if (cell(field) === '' && settings.holdsElsewhere === 'none') return 'none';
    return take(field, (text) => readHold(text, settings.dates, settings.zone), settings.columns.at.has(field));
  };

  const number = take('number', readNumber, true);
  const product = cell('driedOffWith');
  const data = withoutBlanks({
    group: take('group', (text) => readGroup(text, settings.groups), true),
    officialId: take('officialId', readOfficial),
    born: take('born', past),
    lactation: take('lactation', readLactation, true),
    calvedOn: take('calvedOn', past),
    servedOn: take('servedOn', past),
    dueOn: take('dueOn', settings.dates.day),
    driedOffOn: take('driedOffOn', past),
    driedOffWith: product === '' ? undefined : /^(no|none)$/i.test(product) ? 'none' : product,
    milkHoldUntil: hold('milkHoldUntil'),
    meatHoldUntil: hold('meatHoldUntil'),
    from: cell('from') === '' ? undefined : cell('from'),
  });
  if (problems.length > 0 || number === undefined) return { ok: false, problems };
  const shape = cowEntered.schema.safeParse(data, { reportInput: true });
  if (!shape.success) {
    const field = shape.error.issues[0]?.path[0];
    const known = [...settings.columns.at.keys()].find((each) => each === field) ?? null;
    return { ok: false, problems: [{ field: known, problem: sentenceOf(shape.error.issues).problem }] };
  }
  const odd = oddities(shape.data);
  return odd.length > 0 ? { ok: false, problems: odd } : { ok: true, read: { row, number, data: shape.data } };
};

/** What cannot be true together: one of the two cells is wrong, and only the farm knows which. */
const oddities = (cow: CowEntered): RowProblem[] => {
  const found: RowProblem[] = [];
  if (cow.lactation === 0 && cow.calvedOn !== undefined) {
    found.push({
      field: 'lactation',
      problem: `lactation 0 is a heifer that has not calved, but this one calved on ${cow.calvedOn}; correct one of them`,
    });
  }
  for (const [field, day] of [
    ['calvedOn', cow.calvedOn],
    ['servedOn', cow.servedOn],
    ['driedOffOn', cow.driedOffOn],
  ] as const) {
    if (cow.born !== undefined && day !== undefined && day <= cow.born) {
      found.push({ field, problem: `${day} is not after her birth on ${cow.born}; correct one of them` });
    }
  }
  if (cow.dueOn !== undefined && cow.servedOn !== undefined && cow.dueOn <= cow.servedOn) {
    found.push({
      field: 'dueOn',
      problem: `due ${cow.dueOn} is not after the service on ${cow.servedOn}; correct one of them`,
    });
  }
  return found;
};

const withoutBlanks = (fields: Readonly<Record<string, unknown>>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));
