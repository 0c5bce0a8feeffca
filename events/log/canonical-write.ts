/**
 * Writes canonical JSON (RFC 8785) several times faster than the general way: each value is written as it is met, the keys
 * of an object in order. Whatever could come out otherwise that way (a number that JSON has no form for, a key that is a
 * number, half a character) is written the general way, which also says why where it can't be written at all.
 */
import { canonicalJson } from '../../shared/fingerprint.ts';
import type { SaidAnyhow } from '../entry.ts';

/** The same text as `canonicalJson`, and the same errors. */
export const canonicalText = (value: unknown): string => {
  const text = textOf(value, 0);
  return text === undefined || mayBeHalf(text) ? canonicalJson(value) : text;
};

/** JSON.stringify writes half a character as an escape; a text that talks of such an escape looks the same. */
const mayBeHalf = (text: string): boolean => text.includes('\\ud');

const DEEPEST = 100;

/** The value's text, the keys of all its objects ascending by UTF-16 code units; undefined where anything is odd. */
const textOf = (value: unknown, depth: number): string | undefined => {
  if (typeof value === 'string') return quoted(value);
  if (typeof value === 'number') return Number.isFinite(value) ? String(value) : undefined;
  if (typeof value === 'boolean') return String(value);
  if (typeof value !== 'object') return undefined;
  if (value === null) return 'null';
  if (depth > DEEPEST || 'toJSON' in value) return undefined;
  return Array.isArray(value) ? listText(value, depth) : objectText(value, depth);
};

const listText = (list: readonly unknown[], depth: number): string | undefined => {
  let text = '';
  for (let at = 0; at < list.length; at += 1) {
    const each = textOf(list[at], depth + 1);
    if (each === undefined) return undefined;
    text += at === 0 ? each : `,${each}`;
  }
  return `[${text}]`;
};

const objectText = (object: object, depth: number): string | undefined => {
  const prototype: unknown = Object.getPrototypeOf(object);
  if (prototype !== Object.prototype && prototype !== null) return undefined;
  const given = object as Readonly<Record<string, unknown>>;
  const keys = inOrder(Object.keys(given));
  let text = '';
  for (const key of keys) {
    // An engine lists keys that are numbers first, whatever their order; this one is no ordinary key at all.
    if (key.charCodeAt(0) <= 57 || key === '' || key === '__proto__') return undefined;
    const each = given[key];
    if (each === undefined) continue;
    const written = textOf(each, depth + 1);
    if (written === undefined) return undefined;
    text += text === '' ? `${quoted(key)}:${written}` : `,${quoted(key)}:${written}`;
  }
  return `{${text}}`;
};

/** Most lists of keys are in order already. */
const inOrder = (keys: string[]): string[] => {
  let before = '';
  for (const key of keys) {
    if (before > key) return keys.sort();
    before = key;
  }
  return keys;
};

const [SPACE, QUOTE, BACKSLASH, LAST] = [32, 34, 92, 126];

/** As JSON.stringify writes it, which is asked only where something is no plain printable character. */
const quoted = (text: string): string => {
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code < SPACE || code > LAST || code === QUOTE || code === BACKSLASH) return JSON.stringify(text);
  }
  return `"${text}"`;
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
  const written = textOf(data, 0);
  if (written === undefined) return undefined;
  const about = subject === undefined ? '' : `"subject":${quoted(subject)},`;
  const front = `{"author":${quoted(author)},"data":${written},"id":${quoted(id)}`;
  const back = `"source":${quoted(source)},"specversion":${quoted(specversion)},${about}"time":${quoted(time)},"type":${quoted(type)}`;
  return mayBeHalf(front) || mayBeHalf(back) ? undefined : { front, back };
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
