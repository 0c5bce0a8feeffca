/**
 * The log as a table, one row an entry. A cell that a spreadsheet would take for a formula (it begins with = + - @, a tab or
 * a carriage return) is written with an apostrophe before it, so a number such as -12 reads '-12.
 */
import { type Stringifier, stringify } from 'csv-stringify';
import type { StoredRow } from '../../events/stored.ts';

export const CSV_COLUMNS = [
  'position',
  'recorded',
  'time',
  'kind',
  'cow',
  'author',
  'source',
  'via',
  'id',
  'data',
] as const;

export type CsvRow = Readonly<Record<(typeof CSV_COLUMNS)[number], string>>;

const textOf = (value: unknown): string =>
  value === undefined ? '' : typeof value === 'string' ? value : JSON.stringify(value);

/** A row whose stored text cannot be read is still a row: its text stands under `data`. */
export const csvRow = (row: StoredRow): CsvRow => {
  const entry = read(row.entry);
  return {
    position: String(row.position),
    recorded: textOf(entry?.recordedtime),
    time: textOf(entry?.time),
    kind: entry === undefined ? 'not readable' : textOf(entry.type),
    cow: textOf(entry?.subject),
    author: textOf(entry?.author),
    source: textOf(entry?.source),
    via: textOf(entry?.via),
    id: textOf(entry?.id),
    data: entry === undefined ? row.entry : textOf(entry.data),
  };
};

export function* csvRows(rows: Iterable<StoredRow>): Iterable<CsvRow> {
  for (const row of rows) yield csvRow(row);
}

/** Rows in, CSV text out (RFC 4180, with a byte order mark so that a spreadsheet reads the letters right). */
export const csvText = (): Stringifier =>
  stringify({ header: true, columns: [...CSV_COLUMNS], escape_formulas: true, bom: true, record_delimiter: 'windows' });

const read = (text: string): Record<string, unknown> | undefined => {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'object' && value !== null && !Array.isArray(value) ? { ...value } : undefined;
  } catch {
    return undefined;
  }
};
