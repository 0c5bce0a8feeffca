/** Checks the log row by row against nothing but itself: text, leaf, content, order, times, and the roots said before. */
import { canonicalJson, sha256 } from '../../shared/fingerprint.ts';
import { parseInstant } from '../../shared/instant.ts';
import { type CompactRange, EMPTY_RANGE, extend, leafHash, rootOf } from './merkle.ts';
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

interface Row {
  readonly position: number;
  /** The text's bytes: a broken character must not pass for its replacement. */
  readonly bytes: Uint8Array;
  readonly content: string;
  readonly leaf: string;
}

type Json = Readonly<Record<string, unknown>>;

/** Checks every entry; gives the tree that the rows make. */
export const checkEntries = (db: Connection, saidElsewhere: readonly SaidRoot[], tell: Tell): CompactRange => {
  const said = [...saidElsewhere, ...rootsSaidInside(db)].sort((a, b) => a.position - b.position);
  const paper = db.prepare<[string]>('select 1 from papers where hash = ?');
  let range = EMPTY_RANGE;
  let last = 0;
  let recorded = Number.NEGATIVE_INFINITY;
  let next = 0;
  const checkSaid = (): void => {
    for (let each = said[next]; each !== undefined && each.position <= range.size; each = said[++next]) {
      if (each.root !== rootOf(range)) {
        tell(
          each.by,
          `${each.who} says another root for position ${each.position} than the log gives: an entry up to there was changed`,
        );
      }
    }
  };
  checkSaid();
  const rows = db
    .prepare<[], Row>('select position, cast(entry as blob) as bytes, content, leaf from entries order by position')
    .iterate();
  for (const row of rows) {
    const { position } = row;
    if (position !== last + 1) tell(last + 1, `the entry at position ${last + 1} is missing`);
    last = position;
    const leaf = leafHash(row.bytes);
    range = extend(range, [leaf]);
    if (leaf !== row.leaf) {
      tell(position, 'its text does not give the fingerprint (leaf) kept beside it: one of the two was changed');
    } else {
      const entry = textProblem(row);
      if (typeof entry === 'string') tell(position, entry);
      else {
        const time = parseInstant(String(entry.recordedtime));
        if (!time.ok) tell(position, 'its recorded time is not a time');
        else if (time.value < recorded) tell(position, 'it was recorded before the entry ahead of it');
        else recorded = time.value;
        checkSheets(entry, position, (hash) => paper.get(hash) !== undefined, tell);
      }
    }
    checkSaid();
  }
  for (const each of said.slice(next)) {
    tell(each.by, `${each.who} speaks of position ${each.position}, but the log ends at ${range.size}`);
  }
  return range;
};

/** The entry, or what is wrong with its stored text. */
const textProblem = ({ bytes, position, content }: Row): Json | string => {
  let text: string;
  let value: unknown;
  try {
    text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
    value = JSON.parse(text);
  } catch {
    return 'its text is not readable JSON';
  }
  if (!isJson(value)) return 'its text is not a JSON object';
  if (canonicalJson(value) !== text) return 'its text is not in canonical form';
  const { sequence, recordedtime: _, via: __, ...said } = value;
  if (sha256(canonicalJson(said)) !== content) {
    return 'what the writer said does not give the content hash kept beside it: one of the two was changed';
  }
  if (sequence !== String(position).padStart(10, '0')) return 'its sequence number is not its position';
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
