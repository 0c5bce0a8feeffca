/**
 * Writes canonical JSON (RFC 8785) several times faster than the general way: the keys are put in order and the value is
 * written by the engine in one go. Whatever could come out otherwise that way (a number that JSON has no form for, a key
 * that is a number, half a character) is written the general way, which also says why where it can't be written at all.
 */
import { canonicalJson } from '../../shared/fingerprint.ts';
import type { SaidAnyhow } from '../entry.ts';

/** The same text as `canonicalJson`, and the same errors. */
export const canonicalText = (value: unknown): string => {
  const ordered = inOrder(value, 0);
  if (ordered === ODD) return canonicalJson(value);
  const text = JSON.stringify(ordered);
  // JSON.stringify writes half a character as an escape; a text that talks of such an escape looks the same.
  return text === undefined || text.includes('\\ud') ? canonicalJson(value) : text;
};

const ODD = Symbol('odd');
const DEEPEST = 100;

/** The value with the keys of all its objects ascending by UTF-16 code units; itself where they are already. */
const inOrder = (value: unknown, depth: number): unknown => {
  if (typeof value === 'string' || typeof value === 'boolean') return value;
  if (typeof value === 'number') return Number.isFinite(value) ? value : ODD;
  if (typeof value !== 'object') return ODD;
  if (value === null) return value;
  if (depth > DEEPEST || 'toJSON' in value) return ODD;
  return Array.isArray(value) ? listInOrder(value, depth) : objectInOrder(value, depth);
};

const listInOrder = (list: readonly unknown[], depth: number): unknown => {
  let copy: unknown[] | undefined;
  for (let at = 0; at < list.length; at += 1) {
    const each = list[at];
    const ordered = inOrder(each, depth + 1);
    if (ordered === ODD) return ODD;
    if (ordered === each) continue;
    copy ??= [...list];
    copy[at] = ordered;
  }
  return copy ?? list;
};

const objectInOrder = (object: object, depth: number): unknown => {
  const prototype: unknown = Object.getPrototypeOf(object);
  if (prototype !== Object.prototype && prototype !== null) return ODD;
  const given = object as Readonly<Record<string, unknown>>;
  let isSame = true;
  let before: string | undefined;
  const keys = Object.keys(given);
  for (const key of keys) {
    // An engine lists keys that are numbers first, whatever their order; this one is no ordinary key at all.
    if (key.charCodeAt(0) <= 57 || key === '' || key === '__proto__') return ODD;
    if (before !== undefined && before >= key) isSame = false;
    before = key;
  }
  if (!isSame) keys.sort();
  const copy: Record<string, unknown> = {};
  for (const key of keys) {
    const each = given[key];
    const ordered = each === undefined ? undefined : inOrder(each, depth + 1);
    if (ordered === ODD) return ODD;
    if (ordered !== each) isSame = false;
    copy[key] = ordered;
  }
  return isSame ? object : copy;
};

/** What a writer said, as canonical text in two halves: the book's own fields come between them and behind. */
export interface Halves {
  /** `{"author":…,"data":…,"id":…` */
  readonly front: string;
  /** `"source":…,"specversion":…,"subject":…,"time":…,"type":…` */
  readonly back: string;
}

/** The fields a door lets through, and no others. */
export interface PlainSaid extends SaidAnyhow {
  readonly specversion: string;
  readonly source: string;
  readonly subject?: string;
  readonly time: string;
  readonly author: string;
}

/** Undefined where it is to be written the general way. */
export const halvesOf = (said: PlainSaid): Halves | undefined => {
  const { author, data, id, source, specversion, subject, time, type } = said;
  const ordered = inOrder(data, 0);
  if (ordered === ODD) return undefined;
  const front = JSON.stringify({ author, data: ordered, id });
  const back = JSON.stringify(
    subject === undefined ? { source, specversion, time, type } : { source, specversion, subject, time, type },
  );
  if (front.includes('\\ud') || back.includes('\\ud')) return undefined;
  return { front: front.slice(0, -1), back: back.slice(1, -1) };
};

export const saidText = ({ front, back }: Halves): string => `${front},${back}}`;

/** The whole entry: the writer's halves and the book's own three fields, each in its place. */
export const entryText = (
  { front, back }: Halves,
  { sequence, recordedtime, via }: { sequence: string; recordedtime: string; via: string | undefined },
): string => {
  const own = `"recordedtime":"${recordedtime}","sequence":"${sequence}"`;
  return via === undefined ? `${front},${own},${back}}` : `${front},${own},${back},"via":${viaText(via)}}`;
};

let lastVia: { readonly via: string; readonly text: string } | undefined;

/** A batch comes through one peer: its name is not written again. */
const viaText = (via: string): string => {
  if (lastVia?.via !== via) lastVia = { via, text: canonicalText(via) };
  return lastVia.text;
};
