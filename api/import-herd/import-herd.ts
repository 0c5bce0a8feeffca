/**
 * `import herd`: the list of cows a farm has in a spreadsheet, as `cow-entered` entries. Says which heading it took
 * for what, names every row it cannot use by line and column, keeps the good ones, and guesses nothing: not a date,
 * not a hold, not which of two rows is right.
 *
 * An entry's id follows from the cow's row alone, so the same list on another day has the same ids: ask the book
 * which ids it has, and the rest is new.
 */
import { v5 as uuidFromName } from 'uuid';
import { canonicalJson } from '../../shared/fingerprint.ts';
import { type Instant, instantText } from '../../shared/instant.ts';
import { parseZone } from '../../shared/zone.ts';
import { dateReader } from './dates.ts';
import { decodeList } from './decode.ts';
import { withoutDoubles } from './doubles.ts';
import { type Columns, type Field, fieldOf, matchHeadings, meaningOf } from './headings.ts';
import { herdNotes } from './notes.ts';
import { type ReadRow, type RowSettings, readRow } from './row.ts';
import { DELIMITERS, type Delimiter, type Row, readTable } from './table.ts';

export interface HerdImportOptions {
  /** Field → heading, as in `--map number=Tag`; an empty heading leaves the field out. */
  readonly map?: Readonly<Record<string, string>> | undefined;
  /** How the file writes dates that are not ISO: `dd/mm/yyyy`, `mm/dd/yyyy`, `d-mmm-yyyy` … */
  readonly dates?: string | undefined;
  /** The statement that no cow has a running hold but those the columns give. */
  readonly holds?: 'none' | undefined;
  /** The `time` of the entries: when the list was true. */
  readonly asOf: Instant;
  /** The farm's IANA zone, for holds given by its clock. */
  readonly zone: string;
  readonly groups: readonly { readonly name: string; readonly kind: string }[];
  readonly source: string;
  readonly author: string;
}

export interface HerdRefusal {
  readonly line: number;
  /** The heading, or null where the whole row is at fault. */
  readonly column: string | null;
  readonly problem: string;
  /** The row as it stands in the file. One row may have several refusals. */
  readonly text: string;
}

/** A `cow-entered` as the door reads it. */
export interface HerdEntry {
  readonly specversion: '1.0';
  readonly id: string;
  readonly source: string;
  readonly type: 'cow-entered';
  readonly subject: string;
  readonly time: string;
  readonly author: string;
  readonly data: unknown;
}

export interface HerdImport {
  /** Every heading in the file's order, and the field it is used as. */
  readonly mapping: readonly { readonly heading: string; readonly field: Field | null }[];
  readonly entries: readonly { readonly line: number; readonly value: HerdEntry }[];
  readonly refusals: readonly HerdRefusal[];
  /** Why the whole file cannot be used; then there are no entries. */
  readonly problem?: string;
  /** What the reader should know though nothing is wrong. */
  readonly notes: readonly string[];
}

/** Never throws for what is in the file. */
export const readHerdFile = (bytes: Uint8Array, options: HerdImportOptions): HerdImport => {
  const zone = parseZone(options.zone);
  if (!zone.ok) return unusable(zone.problem);
  if (options.groups.length === 0) {
    return unusable("The book does not know the farm's groups yet; record its farm-set-up first, then import the herd");
  }
  const dates = dateReader(options.dates);
  if (!dates.ok) return unusable(dates.problem);
  if (bytes.length === 0)
    return unusable('The file is empty; save the list as CSV with its headings in the first line');
  const decoded = decodeList(bytes);
  if (!decoded.ok) return unusable(decoded.problem);

  const { text, delimiter } = chooseDelimiter(decoded.value.text);
  const table = readTable(text, delimiter);
  const [head, ...rows] = table.rows;
  const fault = table.faults[0];
  if (table.hopeless && fault !== undefined) {
    return unusable(`The quote marks of the file do not pair, from line ${fault.line} on: ${fault.problem}`);
  }
  if (head === undefined || (fault !== undefined && fault.line < head.line)) {
    return unusable(
      fault === undefined
        ? 'The file has no rows; save the list as CSV with its headings in the first line'
        : `The headings in line ${fault.line} cannot be read: ${fault.problem}`,
    );
  }
  const headings = head.cells.map((cell) => cell.trim());
  const bare = headings.map((heading) => ({ heading, field: null }));
  if (headings.length === 1) {
    return unusable(
      `The first line "${head.text.slice(0, 80)}" is one field; separate the fields with commas, semicolons or tabs`,
      bare,
    );
  }
  const columns = matchHeadings(headings, options.map);
  if (!columns.ok) return unusable(columns.problem, bare);
  const mapping = headings.map((heading, column) => ({ heading, field: columns.value.fields[column] ?? null }));
  if (!columns.value.at.has('milkHoldUntil') && options.holds === undefined) {
    return unusable(HOLDS_NOT_STATED, mapping);
  }
  if (rows.length === 0 && table.faults.length === 0) {
    return unusable('The file has headings but no cows under them', mapping);
  }

  const settings: RowSettings = {
    columns: columns.value,
    dates: dates.value,
    zone: zone.value,
    groups: options.groups,
    today: zone.value.dayOf(options.asOf),
    holdsElsewhere: options.holds,
  };
  const { read, refusals } = readRows(rows, settings, headings);
  const { kept, refusals: doubles, notes } = withoutDoubles(read, nameOf(columns.value, headings));
  const faults = table.faults.map(({ line, problem, text: faulty }) => ({ line, column: null, problem, text: faulty }));
  return {
    mapping,
    entries: kept.map((each) => ({ line: each.row.line, value: entryOf(each, options) })),
    refusals: [...faults, ...refusals, ...doubles].sort((a, b) => a.line - b.line),
    notes: [
      ...decoded.value.notes,
      ...notes,
      ...herdNotes(kept, columns.value, { ...options, startOfDay: zone.value.startOfDay }),
    ],
  };
};

/** The id that a herd list gives its cow: from her number and all that is said of her, not from the day of the import. */
export const herdEntryId = (value: { readonly subject: string; readonly data: unknown }): string =>
  uuidFromName(canonicalJson({ type: 'cow-entered', subject: value.subject, data: value.data }), HERD_ID_SPACE);

/** Name space of ids derived from rows of a herd list; made once for Byrebook. */
const HERD_ID_SPACE = '5e0d6c57-0a1c-4b8b-9c39-71f4c2a4d9b6';

const HOLDS_NOT_STATED =
  'The list does not say which cows have a running milk hold (R-28), and what is not said would be held. Either add a column "Milk hold until" (and "Meat hold until") with a date, a time, "none" or "unknown" for each cow, or state with --holds none that no cow has one';

const unusable = (problem: string, mapping: HerdImport['mapping'] = []): HerdImport => ({
  mapping,
  entries: [],
  refusals: [],
  problem,
  notes: [],
});

const entryOf = ({ number, data }: ReadRow, options: HerdImportOptions): HerdEntry => ({
  specversion: '1.0',
  id: herdEntryId({ subject: number, data }),
  source: options.source,
  type: 'cow-entered',
  subject: number,
  time: instantText(options.asOf),
  author: options.author,
  data,
});

const nameOf =
  (columns: Columns, headings: readonly string[]) =>
  (field: Field | null): string | null => {
    const column = field === null ? undefined : columns.at.get(field);
    return column === undefined ? null : (headings[column] ?? null);
  };

const readRows = (
  rows: readonly Row[],
  settings: RowSettings,
  headings: readonly string[],
): { read: ReadRow[]; refusals: HerdRefusal[] } => {
  const read: ReadRow[] = [];
  const refusals: HerdRefusal[] = [];
  const columnOf = nameOf(settings.columns, headings);
  for (const row of rows) {
    const outcome = readRow(row, settings);
    if (outcome.ok) read.push(outcome.read);
    else {
      for (const { field, problem } of outcome.problems) {
        refusals.push({ line: row.line, column: columnOf(field), problem, text: row.text });
      }
    }
  }
  return { read, refusals };
};

/** The separator under which the first line has the most headings that mean something, then the most fields. */
const chooseDelimiter = (text: string): { text: string; delimiter: Delimiter } => {
  const told = /^"?sep=([,;\t])"?\n/i.exec(text);
  const named = DELIMITERS.find((each) => each === told?.[1]);
  // The line stays, blank, so that line numbers stay true.
  if (told !== null && named !== undefined) return { text: text.slice(told[0].length - 1), delimiter: named };
  const scored = DELIMITERS.map((delimiter) => {
    const cells = readTable(text.slice(0, 20_000), delimiter, 1).rows[0]?.cells ?? [];
    const known = cells.filter((cell) => fieldOf(cell) !== undefined && meaningOf(cell) !== '').length;
    return { delimiter, score: known * 1_000 + cells.length };
  });
  const best = scored.reduce((a, b) => (b.score > a.score ? b : a));
  return { text, delimiter: best.delimiter };
};
