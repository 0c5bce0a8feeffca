/**
 * Refused lines that can be about no cow: of a kind that is the farm's alone, with nothing in them that could be a cow's
 * number. Such a line holds nobody's milk by itself. Whatever is not certain counts as being about a cow.
 */
import { isEntryType, KINDS } from './kinds.ts';
import { parseStrictJson } from './strict-json.ts';

/** Longer lines are not read at the door either. */
const LONGEST = 64 * 1024;

/** A word without a figure, such as "farm", where a farm's entry has no subject at all. */
export const isWord = (number: string): boolean => !/\d/.test(number);

export const isOfFarmAlone = (text: string): boolean => {
  if (text.length > LONGEST) return false;
  const read = parseStrictJson(text);
  if (!read.ok || !isObject(read.value)) return false;
  const { type, data } = read.value;
  if (typeof type !== 'string' || !isEntryType(type) || KINDS[type].subject !== 'farm') return false;
  const schema = KINDS[type].schema;
  const known = 'shape' in schema ? Object.keys(schema.shape) : [];
  return !(
    namesACow(read.value, ENVELOPE) ||
    (isObject(data) && namesACow(data, known)) ||
    hasSubjectWithin(read.value)
  );
};

const ENVELOPE = ['specversion', 'id', 'source', 'type', 'time', 'author', 'datacontenttype', 'data'];

/** A field that the kind does not have, with a name under which people write a cow. */
const namesACow = (fields: Readonly<Record<string, unknown>>, known: readonly string[]): boolean =>
  Object.entries(fields).some(
    ([field, value]) =>
      !known.includes(field) && /cow|animal|subject|number|official|tag/i.test(field) && mayBeNumber(value),
  );

const mayBeNumber = (value: unknown): boolean =>
  value !== null && value !== undefined && !(typeof value === 'string' && isWord(value));

/** A subject at any depth: two entries may have come to be written as one. */
const hasSubjectWithin = (value: unknown): boolean =>
  typeof value === 'object' &&
  value !== null &&
  Object.entries(value).some(
    ([field, inner]) => (field === 'subject' && mayBeNumber(inner)) || hasSubjectWithin(inner),
  );

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
