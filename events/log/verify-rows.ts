/** Checks one row of the log after the other against nothing but itself: text, leaf, content, order, times, its sheets. */
import { canonicalJson, sha256 } from '../../shared/fingerprint.ts';
import { type Instant, parseInstant } from '../../shared/instant.ts';
import { isCanonical, type Json, saidIn } from './canonical-text.ts';
import { type Columns, columnsOf } from './columns.ts';
import { leafHash } from './merkle.ts';
import { plainText } from './plain-text.ts';
import type { Connection } from './tables.ts';
import type { Continued } from './verify-names.ts';
import type { SaidRoot, Tell } from './verify-roots.ts';

/** Whom the rows are told to as they are gone through. */
export interface Listener {
  readonly tell: Tell;
  readonly row: (leaf: string, subject: string | null, position: number) => void;
  /** A root that this entry says the log has, as soon as the row itself was told. */
  readonly said: (root: SaidRoot) => void;
  /** This entry says that the file goes on as another book. */
  readonly continued: (by: Continued) => void;
}

/**
 * For nearly every row one reading of its characters (`plain-text.ts`) tells that it is canonical and gives what the writer
 * said, so it need not be parsed and written again: the hash of that half is the content hash, the hash of the whole is the
 * leaf, and both are taken of the stored text itself.
 */
export const rowCheck = (db: Connection, { tell, row: listen, said, continued }: Listener, startAt = 0) => {
  const paper = db.prepare<[string]>('select 1 from papers where hash = ?');
  const hasPaper = (hash: string): boolean => paper.get(hash) !== undefined;
  const times = risingTimes(tell);
  let last = startAt;
  const special = (entry: Json, position: number): void => {
    if (entry.via !== undefined || !isJson(entry.data)) return;
    const { root, ref, position: of, book, newKey } = entry.data;
    const isSheet = entry.type === 'sheet-issued';
    if (typeof of === 'number' && typeof root === 'string') {
      said({
        by: position,
        position: of,
        root,
        who: isSheet ? `the issued set ${String(ref)}` : 'the continued book',
      });
    }
    if (!isSheet) continued({ position, source: entry.source, from: book, at: of, newKey });
  };
  return {
    row: (row: Row): void => {
      const [position, stored, , keptLeaf, , subject] = row;
      if (position !== last + 1) tell(last + 1, `the entry at position ${last + 1} is missing`);
      last = position;
      const leaf = leafHash(stored);
      listen(leaf, subject, position);
      const plain = typeof stored === 'string' ? plainText(stored) : undefined;
      const isPlain = plain !== undefined && !SPECIAL.has(plain.type);
      const parsed = isPlain ? undefined : parsedText(stored);
      if (leaf !== keptLeaf) {
        tell(position, 'its text does not give the fingerprint (leaf) kept beside it: one of the two was changed');
      } else if (isPlain) {
        const problem = besideProblem(plain, row);
        if (problem === undefined) times.check(plain.recordedtime, position);
        else tell(position, problem);
      } else {
        const entry = textProblem(parsed, row);
        if (typeof entry === 'string') tell(position, entry);
        else {
          times.check(String(entry.recordedtime), position);
          checkSheets(entry, position, hasPaper, tell);
        }
      }
      if (isJson(parsed?.value) && SPECIAL.has(String(parsed.value.type))) special(parsed.value, position);
    },
    /** When the first and the last of them were recorded. */
    times,
    /** The position of the last row. */
    last: (): number => last,
    /** Goes over rows that were checked elsewhere. */
    skip: (position: number, recorded: Instant): void => {
      last = position;
      times.reach(recorded);
    },
  };
};

/** Kinds that say something of the log itself. */
const SPECIAL = new Set(['sheet-issued', 'book-continued']);

/** Recorded times never go back. A batch is recorded at one time: the same text is not read again. */
const risingTimes = (tell: Tell) => {
  let first: Instant | undefined;
  let recorded: Instant | undefined;
  let before = '';
  return {
    check: (text: string, position: number): void => {
      if (text === before) return;
      const time = parseInstant(text);
      if (!time.ok) tell(position, 'its recorded time is not a time');
      else if (recorded !== undefined && time.value < recorded)
        tell(position, 'it was recorded before the entry ahead of it');
      else {
        first ??= time.value;
        recorded = time.value;
        before = text;
      }
    },
    reach: (time: Instant): void => {
      recorded = time;
      before = '';
    },
    first: (): Instant | undefined => first,
    last: (): Instant | undefined => recorded,
  };
};

/** One row. The text stays bytes where it is not clean UTF-8. */
export type Row = readonly [
  position: number,
  text: string | Uint8Array,
  content: string,
  leaf: string,
  id: string,
  subject: string | null,
  strikes: string | null,
];

const PAGE = 1_000;
const COLUMNS = 'position, entry, content, leaf, id, subject, strikes';

/**
 * Every row behind a position up to another, in order, in constant memory. Whole pages at once are several times faster than row by row; where a damaged
 * page can't be had, what lies before the damage still comes row by row.
 */
export function* rowsBetween(db: Connection, behind: number, upTo: number): Generator<Row, void> {
  const where = 'from entries where position > ? and position <= ? order by position';
  const page = db.prepare<[number, number, number], Row>(`select ${COLUMNS} ${where} limit ?`).raw();
  const bytes = db.prepare<[number], Uint8Array>('select cast(entry as blob) from entries where position = ?').pluck();
  // A broken character must not pass for its replacement.
  const faithful = (row: Row): Row => {
    const [position, text, content, leaf, id, subject, strikes] = row;
    const isClean = typeof text === 'string' && !text.includes('\ufffd');
    return isClean ? row : [position, bytes.get(position) ?? '', content, leaf, id, subject, strikes];
  };
  for (let after = behind; ; ) {
    let rows: Row[];
    try {
      rows = page.all(after, upTo, PAGE);
    } catch {
      for (const row of page.iterate(after, upTo, -1)) yield faithful(row);
      return;
    }
    for (const row of rows) yield faithful(row);
    const end = rows.at(-1)?.[0];
    if (end === undefined || rows.length < PAGE) return;
    after = end;
  }
}

/** The text of a row and what it parses to; undefined where it is not readable JSON. */
const parsedText = (stored: string | Uint8Array): { text: string; value: unknown } | undefined => {
  try {
    const text =
      typeof stored === 'string' ? stored : new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(stored);
    return { text, value: JSON.parse(text) };
  } catch {
    return undefined;
  }
};

/** The entry, or what is wrong with its stored text. */
const textProblem = (parsed: { text: string; value: unknown } | undefined, row: Row): Json | string => {
  if (parsed === undefined) return 'its text is not readable JSON';
  const { text, value } = parsed;
  if (!isJson(value)) return 'its text is not a JSON object';
  if (!isCanonical(value, text)) return 'its text is not in canonical form';
  const said = saidIn(value, text);
  return besideProblem({ ...columnsOf(value), said, sequence: value.sequence }, row) ?? value;
};

/** Whether what is kept beside the text is what the text gives. */
const besideProblem = (
  text: Columns & { readonly said: string; readonly sequence: unknown },
  [position, , content, , id, subject, strikes]: Row,
): string | undefined => {
  if (sha256(text.said) !== content) {
    return 'what the writer said does not give the content hash kept beside it: one of the two was changed';
  }
  if (text.sequence !== String(position).padStart(10, '0')) return 'its sequence number is not its position';
  if (id !== text.id || subject !== text.subject || strikes !== text.strikes) {
    return 'the id, cow or struck entry kept beside it is not the one in its text: it would be looked for in vain';
  }
  return undefined;
};

/** An issued sheet names the hash of its rows and of its paper; both must be here. A peer's papers are with the peer. */
const checkSheets = (entry: Json, position: number, hasPaper: (hash: string) => boolean, tell: Tell): void => {
  if (entry.type !== 'sheet-issued' || entry.via !== undefined || !isJson(entry.data)) return;
  for (const sheet of Array.isArray(entry.data.sheets) ? entry.data.sheets : []) {
    if (!isJson(sheet)) continue;
    const name = String(sheet.sheet);
    if (sha256(canonicalJson(sheet.content ?? null)) !== sheet.contentHash) {
      tell(position, `the rows of its sheet "${name}" do not give the hash it names for them`);
    }
    if (!hasPaper(String(sheet.pdfHash))) {
      tell(position, `the paper of its sheet "${name}" is not kept in this book`);
    }
  }
};

const isJson = (value: unknown): value is Json => typeof value === 'object' && value !== null && !Array.isArray(value);
