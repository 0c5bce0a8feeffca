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

/** The value of a JSON text, or one sentence on what is wrong with it. */
export const parseStrictJson = (text: string): Result<unknown> => {
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
export const flawOf = (value: unknown): string | undefined => lookThrough(value).flaw;

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
