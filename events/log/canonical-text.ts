/**
 * Is a stored text canonical JSON, and what in it did the writer say? The same answers as by writing the value anew
 * (RFC 8785), several times faster for what the book itself wrote; whatever is out of the ordinary is written anew.
 */
import { canonicalJson } from '../../shared/fingerprint.ts';

export type Json = Readonly<Record<string, unknown>>;

/** `value` is what the text parses to. */
export const isCanonical = (value: Json, text: string): boolean =>
  // A value that is written again as it stood, keys in order, is canonical, but for half a character in an escape.
  (!text.includes('\\ud') && JSON.stringify(value) === text && isInOrder(value)) || canonicalJson(value) === text;

/** Keys ascending by their UTF-16 code units, at every depth. */
const isInOrder = (value: unknown): boolean => {
  if (typeof value !== 'object' || value === null) return true;
  if (Array.isArray(value)) return value.every(isInOrder);
  let before: string | undefined;
  for (const key in value) {
    if (before !== undefined && before >= key) return false;
    before = key;
    const inner: unknown = value[key as keyof typeof value];
    if (typeof inner === 'object' && !isInOrder(inner)) return false;
  }
  return true;
};

const OWN_FIELDS = ['recordedtime', 'sequence', 'via'] as const;

/** The writer's half as canonical text. `text` is canonical and parses to `value`. */
export const saidIn = (value: Json, text: string): string => {
  let left = text;
  for (const field of OWN_FIELDS) {
    if (!Object.hasOwn(value, field)) continue;
    const without = cutOut(left, field, value[field]);
    if (without === undefined) return writtenAnew(value);
    left = without;
  }
  return left;
};

/** The text without a field of the outermost object; undefined where it is not sure which one that is. */
const cutOut = (text: string, field: string, value: unknown): string | undefined => {
  const key = `"${field}":`;
  const start = text.indexOf(key);
  // An unescaped quote before and behind the name: a field, or the end of a longer one. Only once, it is the outermost.
  if (typeof value !== 'string' || text.indexOf(key, start + 1) !== -1) return undefined;
  const end = start + key.length + JSON.stringify(value).length;
  if (text[start - 1] === ',') return text.slice(0, start - 1) + text.slice(end);
  return text[end] === ',' ? text.slice(0, start) + text.slice(end + 1) : undefined;
};

const writtenAnew = ({ sequence: _, recordedtime: __, via: ___, ...said }: Json): string => canonicalJson(said);
