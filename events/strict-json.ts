/**
 * JSON as the book accepts it from people and devices: an object said twice under one key, or a number that
 * would come out of the parser as another one, is refused rather than quietly changed.
 */
import { isSafeNumber, parse } from 'lossless-json';
import { accepted, type Result, refused } from '../shared/refusal.ts';

class Unfaithful extends Error {}

const faithfulNumber = (digits: string): number => {
  const value = Number(digits);
  if (!Number.isFinite(value) || !isSafeNumber(digits)) {
    throw new Unfaithful(`the number ${digits.slice(0, 40)} cannot be kept exactly; write it with fewer digits`);
  }
  return value;
};

const onDuplicateKey = ({ key }: { key: string }): never => {
  throw new Unfaithful(`"${key.slice(0, 40)}" is said twice in one object; say it once`);
};

/** The value of a JSON text, or one sentence on what is wrong with it. `parsed`: what JSON.parse gave for it, if known. */
export const parseStrictJson = (text: string, parsed?: unknown): Result<unknown> => {
  const plain = plainJson(text, parsed);
  return plain === undefined ? parseWithCare(text) : accepted(plain);
};

/**
 * The value of a text that is surely in order, read by the engine's own parser, several times faster; undefined where
 * `parseWithCare` must look and find the words. In order is: as many members written as are there, and no number that is
 * long or has an exponent (fifteen digits always come through exactly).
 */
const plainJson = (text: string, parsed: unknown): unknown => {
  let value = parsed;
  try {
    if (value === undefined) value = JSON.parse(text);
  } catch {
    return undefined;
  }
  const written = plainMembers(text);
  return written !== undefined && membersIn(value, 0) === written ? value : undefined;
};

/** How many members a readable JSON text writes; undefined where it has a number that is not short and plain. */
const plainMembers = (text: string): number | undefined => {
  let members = 0;
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code === QUOTE) {
      for (at += 1; text.charCodeAt(at) !== QUOTE; at += 1) if (text.charCodeAt(at) === BACKSLASH) at += 1;
    } else if (code === COLON) members += 1;
    else if (code === MINUS || (code >= DIGIT_0 && code <= DIGIT_9)) {
      const start = at;
      while (isOfNumber(text.charCodeAt(at + 1))) at += 1;
      const next = text.charCodeAt(at + 1);
      if (at - start >= LONGEST_PLAIN || next === SMALL_E || next === LARGE_E) return undefined;
    }
  }
  return members;
};

const QUOTE = 34;
const BACKSLASH = 92;
const COLON = 58;
const MINUS = 45;
const POINT = 46;
const DIGIT_0 = 48;
const DIGIT_9 = 57;
const SMALL_E = 101;
const LARGE_E = 69;
const LONGEST_PLAIN = 15;

const isOfNumber = (code: number): boolean => (code >= DIGIT_0 && code <= DIGIT_9) || code === POINT;

/** How many members its objects have in all; NaN where it has a flaw. */
const membersIn = (value: unknown, depth: number): number => {
  if (typeof value !== 'object' || value === null) return 0;
  if (depth > DEEPEST) return Number.NaN;
  let members = 0;
  if (Array.isArray(value)) {
    for (const each of value) members += membersIn(each, depth + 1);
    return members;
  }
  for (const key in value) {
    if (key === '__proto__') return Number.NaN;
    members += 1;
    const each: unknown = value[key as keyof typeof value];
    if (typeof each === 'object') members += membersIn(each, depth + 1);
  }
  return members;
};

/** The same answer for every text, found the long way. */
export const parseWithCare = (text: string): Result<unknown> => {
  let value: unknown;
  try {
    value = parse(text, undefined, { parseNumber: faithfulNumber, onDuplicateKey });
  } catch (error) {
    if (error instanceof Unfaithful) return refused(error.message);
    if (error instanceof RangeError) return refused(TOO_DEEP);
    const detail = error instanceof Error ? error.message.replace(/\s+/g, ' ').slice(0, 160) : 'unknown';
    return refused(`it is not readable JSON (${detail}); check quotes, commas and braces`);
  }
  const { flaw, members } = lookThrough(value);
  if (flaw !== undefined) return refused(flaw);
  return membersWritten(text) > members
    ? refused('one field is said twice in one object; say it once')
    : accepted(value);
};

/** What no JSON value that is to be kept may have: a field that would vanish on copying, or endless nesting. */
export const flawOf = (value: unknown): string | undefined =>
  Number.isNaN(membersIn(value, 0)) ? lookThrough(value).flaw : undefined;

const DEEPEST = 100;
const TOO_DEEP = 'it is nested too deeply to be an entry';

/** Goes through a value without calling itself, so that no depth can break it; counts the members of its objects. */
const lookThrough = (value: unknown): { flaw?: string; members: number } => {
  let members = 0;
  const waiting: { each: unknown; depth: number }[] = [{ each: value, depth: 0 }];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { each, depth } = next;
    if (typeof each !== 'object' || each === null) continue;
    if (depth > DEEPEST) return { flaw: TOO_DEEP, members };
    if (!Array.isArray(each)) {
      if (Object.hasOwn(each, '__proto__')) {
        return { flaw: 'it has a field "__proto__", which no entry has; take it out', members };
      }
      members += Object.keys(each).length;
    }
    for (const inner of Object.values(each)) waiting.push({ each: inner, depth: depth + 1 });
  }
  return { members };
};

/**
 * How many members a readable JSON text writes: its strings that a colon follows. The parser passes over a key that
 * is said twice with one and the same value; the count does not.
 */
const membersWritten = (text: string): number => {
  let count = 0;
  for (const [, colon] of text.matchAll(/"(?:[^"\\]|\\.)*"\s*(:)?/g)) if (colon !== undefined) count += 1;
  return count;
};
