/** Checks the log row by row against nothing but itself: text, leaf, content, order, times, and the roots said before. */
import { canonicalJson, sha256 } from '../../shared/fingerprint.ts';
import { parseInstant } from '../../shared/instant.ts';
import { isCanonical, type Json, saidIn } from './canonical-text.ts';
import { type CompactRange, grow, leafHash, rootOf } from './merkle.ts';
import type { Connection } from './tables.ts';

/** Reports a problem at a position; null where it is not about one entry. */
export type Tell = (position: number | null, problem: string) => void;

/** A root that something said the log had at a position. */
export interface SaidRoot {
  /** Position of the entry that says so; null for the checkpoint. */
  readonly by: number | null;
  readonly position: number;
  readonly root: string;
  readonly who: string;
}

/** Checks every entry; gives the tree that the rows make. */
export const checkEntries = (db: Connection, saidElsewhere: readonly SaidRoot[], tell: Tell): CompactRange => {
  const said = [...saidElsewhere, ...rootsSaidInside(db)].sort((a, b) => a.position - b.position);
  const paper = db.prepare<[string]>('select 1 from papers where hash = ?');
  const peaks: string[] = [];
  let size = 0;
  let last = 0;
  let recorded = Number.NEGATIVE_INFINITY;
  let recordedText = '';
  let next = 0;
  const checkSaid = (): void => {
    for (let each = said[next]; each !== undefined && each.position <= size; each = said[++next]) {
      if (each.root !== rootOf({ size, peaks })) {
        tell(
          each.by,
          `${each.who} says another root for position ${each.position} than the log gives: an entry up to there was changed`,
        );
      }
    }
  };
  checkSaid();
  for (const [position, text, content, keptLeaf] of rowsOf(db)) {
    if (position !== last + 1) tell(last + 1, `the entry at position ${last + 1} is missing`);
    last = position;
    const leaf = leafHash(text);
    grow(peaks, size, leaf);
    size += 1;
    if (leaf !== keptLeaf) {
      tell(position, 'its text does not give the fingerprint (leaf) kept beside it: one of the two was changed');
    } else {
      const entry = textProblem(text, position, content);
      if (typeof entry === 'string') tell(position, entry);
      else {
        // A batch is recorded at one time: the same text is not read again.
        if (entry.recordedtime !== recordedText) {
          const time = parseInstant(String(entry.recordedtime));
          if (!time.ok) tell(position, 'its recorded time is not a time');
          else if (time.value < recorded) tell(position, 'it was recorded before the entry ahead of it');
          else {
            recorded = time.value;
            if (typeof entry.recordedtime === 'string') recordedText = entry.recordedtime;
          }
        }
        checkSheets(entry, position, (hash) => paper.get(hash) !== undefined, tell);
      }
    }
    checkSaid();
  }
  for (const each of said.slice(next)) {
    tell(each.by, `${each.who} speaks of position ${each.position}, but the log ends at ${size}`);
  }
  return { size, peaks };
};

/** Position, text, content hash and leaf of one row. The text stays bytes where it is not clean UTF-8. */
type Row = readonly [position: number, text: string | Uint8Array, content: string, leaf: string];

const PAGE = 1_000;
const COLUMNS = 'position, entry, content, leaf';

/**
 * Every row in order, in constant memory. Whole pages at once are several times faster than row by row; where a damaged
 * page can't be had, what lies before the damage still comes row by row.
 */
function* rowsOf(db: Connection): Generator<Row, void> {
  const where = 'from entries where position > ? order by position';
  const page = db.prepare<[number, number], Row>(`select ${COLUMNS} ${where} limit ?`).raw();
  const bytes = db.prepare<[number], Uint8Array>('select cast(entry as blob) from entries where position = ?').pluck();
  // A broken character must not pass for its replacement.
  const faithful = (row: Row): Row => {
    const [position, text, content, leaf] = row;
    const isClean = typeof text === 'string' && !text.includes('\ufffd');
    return isClean ? row : [position, bytes.get(position) ?? '', content, leaf];
  };
  for (let after = Number.MIN_SAFE_INTEGER; ; ) {
    let rows: Row[];
    try {
      rows = page.all(after, PAGE);
    } catch {
      for (const row of page.iterate(after, -1)) yield faithful(row);
      return;
    }
    for (const row of rows) yield faithful(row);
    const end = rows.at(-1)?.[0];
    if (end === undefined || rows.length < PAGE) return;
    after = end;
  }
}

/** The entry, or what is wrong with its stored text. */
const textProblem = (stored: string | Uint8Array, position: number, content: string): Json | string => {
  let text: string;
  let value: unknown;
  try {
    text =
      typeof stored === 'string' ? stored : new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(stored);
    value = JSON.parse(text);
  } catch {
    return 'its text is not readable JSON';
  }
  if (!isJson(value)) return 'its text is not a JSON object';
  if (!isCanonical(value, text)) return 'its text is not in canonical form';
  if (sha256(saidIn(value, text)) !== content) {
    return 'what the writer said does not give the content hash kept beside it: one of the two was changed';
  }
  if (value.sequence !== String(position).padStart(10, '0')) return 'its sequence number is not its position';
  return value;
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

/** The roots that issued sheets and continued books name; a peer's are of the peer's own log. */
const rootsSaidInside = (db: Connection): SaidRoot[] =>
  db
    .prepare<[], { position: number; entry: string }>(
      `select position, entry from entries
       where instr(entry, '"type":"sheet-issued"') > 0 or instr(entry, '"type":"book-continued"') > 0`,
    )
    .all()
    .flatMap(({ position: by, entry }) => {
      const value = readable(entry);
      if (!isJson(value) || value.via !== undefined || !isJson(value.data)) return [];
      const { position, root, ref } = value.data;
      if (typeof position !== 'number' || typeof root !== 'string') return [];
      if (value.type === 'sheet-issued') return [{ by, position, root, who: `the issued set ${String(ref)}` }];
      return value.type === 'book-continued' ? [{ by, position, root, who: 'the continued book' }] : [];
    });

const readable = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
};

const isJson = (value: unknown): value is Json => typeof value === 'object' && value !== null && !Array.isArray(value);
