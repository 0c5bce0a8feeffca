/** The envelope's own rules, and the sentences for what breaks them. Payloads are checked by their kind's schema. */
import { distance } from 'fastest-levenshtein';
import { z } from 'zod';
import { isBarnNumber, officialDigits } from '../shared/cow-number.ts';
import { entryId, instant, text } from './fields.ts';
import { isEntryType, KINDS } from './kinds.ts';

/** The 15-digit official number or the barn number as used at the entry's `time`. */
export const subject = z
  .string({ error: 'must be text in quotes, such as "412"' })
  .refine(
    (value) => isBarnNumber(value) || officialDigits(value) !== undefined,
    'must be a barn number (1 to 10 letters, digits or hyphens) or a 15-digit official number',
  );

export const envelope = z.strictObject({
  specversion: z.literal('1.0'),
  id: entryId,
  source: text(100),
  type: text(60),
  subject: subject.optional(),
  time: instant,
  author: text(80),
  datacontenttype: z.literal('application/json').optional(),
  data: z.record(z.string(), z.unknown()),
});

/** One sentence from a schema's issues: which field, what is wrong, what to do. A misspelt field leads, else the first issue. */
export const sentenceOf = (
  issues: readonly z.core.$ZodIssue[],
  prefix: readonly PropertyKey[] = [],
): { problem: string; pointer: string } => {
  // A misspelt field is also a missing one: the misspelling says more.
  const issue = issues.find((each) => each.code === 'unrecognized_keys') ?? issues[0];
  if (issue === undefined) return { problem: 'it is not an entry', pointer: '' };
  const path = [...prefix, ...issue.path];
  const more = issues.length > 1 ? ` (and ${issues.length - 1} more)` : '';
  const field = fieldName(path);
  if (issue.code === 'unrecognized_keys') {
    const key = issue.keys[0] ?? '';
    return {
      problem: `${field === '' ? 'the entry' : `"${field}"`} has a field "${key.slice(0, 40)}" that is not known there${nearest(key, prefix, issue.path)}${more}`,
      pointer: pointerOf([...path, key]),
    };
  }
  if (issue.code === 'invalid_union') {
    const deeper = issue.errors.map((each) => each[0]).find((each) => each !== undefined && each.path.length > 0);
    if (deeper !== undefined && issue.message === 'Invalid input') return sentenceOf([deeper], path);
    const plain = issue.errors.flat().find((each) => each.code === 'custom')?.message;
    return { problem: `"${field}" ${plain ?? issue.message}${more}`, pointer: pointerOf(path) };
  }
  const missing = issue.code === 'invalid_type' && issue.input === undefined;
  return {
    problem: missing ? `"${field}" is missing${more}` : `"${field}" ${plainMessage(issue)}${more}`,
    pointer: pointerOf(path),
  };
};

const fieldName = (path: readonly PropertyKey[]): string =>
  path
    .map((part, index) => (typeof part === 'number' ? `[${part}]` : `${index > 0 ? '.' : ''}${String(part)}`))
    .join('');

const pointerOf = (path: readonly PropertyKey[]): string =>
  path.map((part) => `/${String(part).replace(/~/g, '~0').replace(/\//g, '~1')}`).join('');

const KINDS_OF_VALUE: Readonly<Record<string, string>> = {
  string: 'text in quotes',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list in square brackets',
  object: 'an object in braces',
  record: 'an object in braces',
};

const plainMessage = (issue: z.core.$ZodIssue): string => {
  if (issue.code === 'invalid_type' && issue.message.startsWith('Invalid input')) {
    return `must be ${KINDS_OF_VALUE[issue.expected] ?? `a ${issue.expected}`}`;
  }
  if (issue.code === 'invalid_value' && issue.message.startsWith('Invalid')) {
    return `must be ${issue.values.length > 1 ? 'one of ' : ''}${issue.values.map((value) => JSON.stringify(value)).join(', ')}`;
  }
  return issue.message;
};

const ENVELOPE_FIELDS = ['specversion', 'id', 'source', 'type', 'subject', 'time', 'author', 'data'];
const ADDED_FIELDS = new Set(['sequence', 'recordedtime', 'via']);

const nearest = (key: string, prefix: readonly PropertyKey[], path: readonly PropertyKey[]): string => {
  if (prefix.length === 0 && path.length === 0 && ADDED_FIELDS.has(key)) {
    return '; leave it out, the book gives it itself';
  }
  const known = prefix.length === 0 ? ENVELOPE_FIELDS : fieldsOf(prefix[0]);
  const best = known
    .map((field) => ({ field, away: distance(field.toLowerCase(), key.toLowerCase()) }))
    .sort((a, b) => a.away - b.away)[0];
  return best !== undefined && best.away <= Math.max(2, key.length / 3)
    ? `; did you mean "${best.field}"?`
    : '; take it out';
};

const fieldsOf = (type: PropertyKey | undefined): string[] => {
  if (typeof type !== 'string' || !isEntryType(type)) return dataFields;
  const schema = KINDS[type].schema;
  return 'shape' in schema ? Object.keys(schema.shape) : [];
};

const dataFields = [
  ...new Set(Object.values(KINDS).flatMap(({ schema }) => ('shape' in schema ? Object.keys(schema.shape) : []))),
];
