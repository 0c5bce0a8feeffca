/** The envelope's own rules, and the sentences for what breaks them. Payloads are checked by their kind's schema. */
import { z } from 'zod';
import { isBarnNumber, officialDigits } from '../shared/cow-number.ts';
import { entryId, instant, text } from './fields.ts';
import { fieldsAt, nearest, schemaAt } from './fields-near.ts';

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

/** Problems said in one sentence; of more it says how many there are. */
const MOST_SAID = 3;

interface Problem {
  readonly problem: string;
  readonly pointer: string;
}

/**
 * One sentence from a schema's issues: which fields, what is wrong, what to do. Misspelt fields lead, and a field that is
 * missing because it was misspelt is not said again. `schema`: what the value had to be; without one, an entry.
 */
export const sentenceOf = (
  issues: readonly z.core.$ZodIssue[],
  prefix: readonly PropertyKey[] = [],
  schema: z.core.$ZodType = envelope,
): Problem => {
  const misspelt = issues.flatMap((issue) =>
    issue.code === 'unrecognized_keys' ? issue.keys.map((key) => misspeltField(key, issue.path, prefix, schema)) : [],
  );
  const meant = new Set(misspelt.map((each) => each.meant));
  const others = issues
    .filter((issue) => issue.code !== 'unrecognized_keys')
    .map((issue) => problemOf(issue, prefix, schema))
    .filter(({ problem, pointer }) => !(meant.has(pointer) && problem.endsWith(MISSING)));
  // Of one field the first that is wrong is enough.
  const [first, ...more] = onePlaceOnce([...misspelt, ...others]);
  if (first === undefined) return { problem: 'it is not an entry', pointer: '' };
  const said = [first, ...more.slice(0, MOST_SAID - 1)].map(({ problem }) => problem).join('; ');
  const unsaid = more.length - (MOST_SAID - 1);
  return {
    problem: `${said.replaceAll('?; ', '? ')}${unsaid > 0 ? ` (and ${unsaid} more)` : ''}`,
    pointer: first.pointer,
  };
};

const MISSING = ' is missing';

const onePlaceOnce = (problems: readonly Problem[]): Problem[] => {
  const said = new Set<string>();
  return problems.filter(({ pointer }) => !said.has(pointer) && said.add(pointer));
};

/** `meant`: pointer to the field that it seems to be. */
const misspeltField = (
  key: string,
  within: readonly PropertyKey[],
  prefix: readonly PropertyKey[],
  schema: z.core.$ZodType,
): Problem & { readonly meant: string | undefined } => {
  const path = [...prefix, ...within];
  const place = path.length === 0 ? 'the entry' : `"${fieldName(path)}"`;
  const has = `${place} has a field "${key.slice(0, 40)}" that is not known there`;
  const pointer = pointerOf([...path, key]);
  if (path.length === 0 && ADDED_FIELDS.has(key)) {
    return { problem: `${has}; leave it out, the book gives it itself`, pointer, meant: undefined };
  }
  const known = fieldsAt(schema, within);
  const near = nearest(key, known);
  const advice =
    near !== undefined
      ? `; did you mean "${near}"?`
      : known.length === 0
        ? '; take it out'
        : `; take it out, or use one of ${known.map((field) => `"${field}"`).join(', ')}`;
  return { problem: `${has}${advice}`, pointer, meant: near === undefined ? undefined : pointerOf([...path, near]) };
};

const problemOf = (issue: z.core.$ZodIssue, prefix: readonly PropertyKey[], schema: z.core.$ZodType): Problem => {
  const path = [...prefix, ...issue.path];
  const field = fieldName(path);
  if (issue.code === 'invalid_union') {
    const deeper = issue.errors.map((each) => each[0]).find((each) => each !== undefined && isWithin(each));
    if (deeper !== undefined && issue.message === 'Invalid input') {
      return sentenceOf([deeper], path, schemaAt(schema, issue.path));
    }
    const plain = issue.errors.flat().find((each) => each.code === 'custom')?.message;
    return { problem: `"${field}" ${plain ?? issue.message}`, pointer: pointerOf(path) };
  }
  const missing = issue.code === 'invalid_type' && issue.input === undefined;
  return {
    problem: `"${field}"${missing ? MISSING : ` ${plainMessage(issue)}`}`,
    pointer: pointerOf(path),
  };
};

/** It says something of a part of one of the choices, not only that it is none of them. */
const isWithin = (issue: z.core.$ZodIssue): boolean => issue.path.length > 0;

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

const ADDED_FIELDS = new Set(['sequence', 'recordedtime', 'via']);
