/** The way out of the log: stored canonical text → an entry the folds can use, or a named reason why not. Parses again, trusts nothing. */

import { isBarnNumber, officialDigits } from '../shared/cow-number.ts';
import { type Instant, parseInstant } from '../shared/instant.ts';
import type { Aside, Entry, Said, Unusable } from './entry.ts';
import { envelope, sentenceOf } from './envelope.ts';
import { ENTRY_TYPES, isEntryType, KINDS } from './kinds.ts';
import { bearsSince } from './stated-time.ts';
import { type EntryPage, entryLike, type Stated, StoredEntry } from './stored-entry.ts';
import { sureOf, UNSURE } from './sure.ts';
import { UPCAST_STEPS, upcast } from './upcast.ts';

export interface StoredRow {
  readonly position: number;
  /** The whole stored entry, canonical JSON. */
  readonly entry: string;
  /** SHA-256 of the writer's half. */
  readonly content: string;
}

/** Reads one stored row. Never throws: a row that cannot be used is named with its position. `page`: room for it among many. */
export const readStored = (
  row: StoredRow,
  page?: EntryPage,
): { ok: true; entry: Entry } | { ok: false; unusable: Unusable } => {
  let value: Record<string, unknown>;
  try {
    value = JSON.parse(row.entry) as Record<string, unknown>;
  } catch {
    return unusable(row, {}, 'the stored text is not readable; run verify');
  }
  const plain = plainEntry(row, value, page);
  if (plain !== undefined) return { ok: true, entry: plain };
  const { sequence: _, recordedtime, via, ...said } = value;
  const shape = envelope.safeParse(said, { reportInput: true });
  if (!shape.success) return unusable(row, value, sentenceOf(shape.error.issues).problem);
  const { type, id, subject, time, author, source } = shape.data;
  if (!isEntryType(type)) return unusable(row, value, `this version does not know the kind "${type}"`);
  const kind = KINDS[type];
  if ((kind.subject === 'cow' && subject === undefined) || (kind.subject === 'farm' && subject !== undefined)) {
    return unusable(
      row,
      value,
      `a ${type} ${kind.subject === 'cow' ? 'needs a cow in "subject"' : 'takes no "subject"'}`,
    );
  }
  const payload = kind.schema.safeParse(upcast(type, shape.data.data), { reportInput: true });
  if (!payload.success) return unusable(row, value, sentenceOf(payload.error.issues, ['data'], kind.schema).problem);
  const at = parseInstant(time);
  if (!at.ok) return unusable(row, value, at.problem);
  const entry = {
    id,
    type,
    ...(subject === undefined ? {} : { subject }),
    at: at.value,
    author,
    source,
    data: payload.data,
    content: row.content,
    position: row.position,
    recordedAt: instantOf(recordedtime),
    ...(typeof via === 'string' ? { via } : {}),
  };
  return { ok: true, entry: entry as Entry };
};

const SURE = new Map(ENTRY_TYPES.map((type) => [type, sureOf(KINDS[type].schema)]));
const SURE_OF = {
  specversion: sureOf(envelope.shape.specversion),
  id: sureOf(envelope.shape.id),
  subject: sureOf(envelope.shape.subject),
  author: sureOf(envelope.shape.author),
  source: sureOf(envelope.shape.source),
};

/**
 * The entry, where it is surely a good one by the same schemas; else undefined, and they are asked themselves. Nearly
 * every stored entry is plain, and this is several times faster.
 */
const plainEntry = (
  row: StoredRow,
  value: Readonly<Record<string, unknown>>,
  page: EntryPage | undefined,
): Entry | undefined => {
  const { specversion, id, type, subject, time, author, source, data, sequence, recordedtime, via } = value;
  if (typeof type !== 'string' || typeof time !== 'string' || typeof recordedtime !== 'string') return undefined;
  if (!isEntryType(type) || UPCAST_STEPS.length > 0) return undefined;
  // Every field there is one of these, and none is another.
  let fields = 7 + (subject === undefined ? 0 : 1) + (sequence === undefined ? 0 : 1) + (via === undefined ? 0 : 1) + 1;
  for (const _ in value) fields -= 1;
  const wanted = KINDS[type].subject;
  if (fields !== 0 || (subject === undefined ? wanted === 'cow' : wanted === 'farm')) return undefined;
  if (SURE_OF.specversion(specversion) === UNSURE || SURE_OF.id(id) === UNSURE) return undefined;
  if (subject !== undefined && SURE_OF.subject(subject) === UNSURE) return undefined;
  const writer = SURE_OF.author(author);
  const place = SURE_OF.source(source);
  const payload = SURE.get(type)?.(data) ?? UNSURE;
  const at = parseInstant(time);
  if (writer === UNSURE || place === UNSURE || payload === UNSURE || !at.ok) return undefined;
  const stated: Stated = {
    id: id as string,
    type,
    subject: subject as string | undefined,
    at: at.value,
    author: writer as string,
    source: place as string,
    data: payload,
    content: row.content,
    position: row.position,
    recordedAt: recordedOf(recordedtime),
    via: typeof via === 'string' ? viaOf(via) : undefined,
  };
  return (page === undefined ? entryLike(stated as Entry, {}) : new StoredEntry(stated, page)) as Entry;
};

let lastVia = '';

/** What came from one book came through one peer: the same name is kept once. */
const viaOf = (text: string): string => {
  if (lastVia !== text) lastVia = text;
  return lastVia;
};

let lastRecorded: { readonly text: string; readonly at: Instant } | undefined;

/** A batch is recorded at one time: the same text is not read again. */
const recordedOf = (text: string): Instant => {
  if (lastRecorded?.text !== text) lastRecorded = { text, at: instantOf(text) };
  return lastRecorded.at;
};

/** A stored but unusable entry as something set aside. */
export const asideOf = (unusableEntry: Unusable): Aside => ({
  key: `unusable:${unusableEntry.id}:${unusableEntry.content.slice(0, 8)}`,
  problem: unusableEntry.problem,
  cows: unusableEntry.cows,
  recordedAt: unusableEntry.recordedAt,
  ...(unusableEntry.since === undefined ? {} : { since: unusableEntry.since }),
  id: unusableEntry.id,
});

const instantOf = (value: unknown): Instant => {
  const parsed = parseInstant(String(value));
  return parsed.ok ? parsed.value : (0 as Instant);
};

const unusable = (
  row: StoredRow,
  value: Record<string, unknown>,
  problem: string,
): { ok: false; unusable: Unusable } => {
  const subject = value.subject;
  const recordedAt = instantOf(value.recordedtime);
  const since = bearsSince(value.time, recordedAt);
  return {
    ok: false,
    unusable: {
      id: typeof value.id === 'string' ? value.id : `position ${row.position}`,
      type: typeof value.type === 'string' ? value.type : 'unreadable',
      content: row.content,
      position: row.position,
      recordedAt,
      ...(since === undefined ? {} : { since }),
      problem,
      cows:
        typeof subject === 'string' && (isBarnNumber(subject) || officialDigits(subject) !== undefined)
          ? [subject]
          : [],
    },
  };
};

export type { Said };
