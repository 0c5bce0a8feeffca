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
  if (text.includes('"__proto__"')) return refused('it has a field "__proto__", which no entry has; take it out');
  try {
    return accepted(parse(text, undefined, { parseNumber: faithfulNumber, onDuplicateKey }));
  } catch (error) {
    if (error instanceof Unfaithful) return refused(error.message);
    if (error instanceof RangeError) return refused('it is nested too deeply to be an entry');
    const detail = error instanceof Error ? error.message.replace(/\s+/g, ' ').slice(0, 160) : 'unknown';
    return refused(`it is not readable JSON (${detail}); check quotes, commas and braces`);
  }
};
