/**
 * Text as rows of cells, by csv-parse. A row whose quotes don't pair is named with its line and stands alone:
 * reading goes on at the line after it, so that one stray quote mark does not swallow the rest of the herd.
 */
import { parse } from 'csv-parse/sync';

export const DELIMITERS = [',', ';', '\t'] as const;
export type Delimiter = (typeof DELIMITERS)[number];

export interface Row {
  /** The line of the file it begins on, from 1. */
  readonly line: number;
  readonly cells: readonly string[];
  /** As it stands in the file. */
  readonly text: string;
}

export interface Fault {
  readonly line: number;
  readonly problem: string;
  readonly text: string;
}

export interface Table {
  readonly rows: readonly Row[];
  readonly faults: readonly Fault[];
  /** Reading stopped: the quotes of the file as a whole make no sense. */
  readonly hopeless: boolean;
}

const MOST_FAULTS = 100;
/** Longer than any row of a herd list; ends the search for a quote mark that never comes. */
const LONGEST_ROW = 20_000;

/** `text` has `\n` line ends. At most `most` rows are read. Blank rows are left out. */
export const readTable = (text: string, delimiter: Delimiter, most = Number.POSITIVE_INFINITY): Table => {
  const lines = text.split('\n');
  const rows: Row[] = [];
  const faults: Fault[] = [];
  let done = 0;
  while (done < lines.length && rows.length < most) {
    const from = done;
    const rest = from === 0 ? text : lines.slice(from).join('\n');
    try {
      parse(rest, {
        delimiter,
        record_delimiter: '\n',
        relax_column_count: true,
        max_record_size: LONGEST_ROW,
        ...(Number.isFinite(most) ? { to: most } : {}),
        on_record: (cells: string[], { lines: read }) => {
          const end = Math.min(from + read, lines.length);
          if (cells.some((cell) => cell.trim() !== '')) {
            rows.push({ line: done + 1, cells, text: lines.slice(done, end).join('\n') });
          }
          done = end;
          return null;
        },
      });
      return { rows, faults, hopeless: false };
    } catch (error) {
      faults.push({ line: done + 1, problem: problemOf(error), text: lines[done] ?? '' });
      done += 1;
      if (faults.length >= MOST_FAULTS) return { rows, faults, hopeless: true };
    }
  }
  return { rows, faults, hopeless: false };
};

const problemOf = (error: unknown): string => {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (code === 'CSV_QUOTE_NOT_CLOSED' || code === 'CSV_MAX_RECORD_SIZE') {
    return 'a quote mark opens in this row and is never closed; close it, or take it out';
  }
  if (code === 'CSV_INVALID_CLOSING_QUOTE') {
    return 'a quote mark opens in this row and closes in the wrong place; put one at each end of the field, and write a quote mark inside it twice';
  }
  if (code === 'INVALID_OPENING_QUOTE') {
    return 'a quote mark stands in the middle of a field; put one at each end of the field, and write a quote mark inside it twice';
  }
  throw error;
};
