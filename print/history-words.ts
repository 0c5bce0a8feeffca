/** An entry in a reader's words: each field by its name, times on the farm's clocks, ids as places in the book. */
import type { Entry } from '../events/entry.ts';
import type { Voice } from './speech.ts';
import { CODED, COW_FIELDS, type Coded, type CowField } from './words/keeper.ts';

/** Where the entry with an id stands in this book; undefined where it does not. */
export type PlaceOf = (id: string) => number | undefined;

const NAMES: ReadonlySet<string> = new Set(COW_FIELDS);
const isNamed = (field: string): field is CowField => NAMES.has(field);
const CODES: ReadonlySet<string> = new Set(CODED);
const isCoded = (value: string): value is Coded => CODES.has(value);

const INSTANT = /^\d{4}-\d{2}-\d{2}T/;
const DAY = /^\d{4}-\d{2}-\d{2}$/;
const MILKING = /^\d{4}-\d{2}-\d{2}\/./;

/** `medicine: …; quantity: 20 ml`. */
export const detailOf = (entry: Entry, voice: Voice, placeOf: PlaceOf): string => {
  const { keeper } = voice.words;
  return Object.entries(entry.data)
    .filter(([, value]) => value !== undefined)
    .map(
      ([field, value]) => `${isNamed(field) ? keeper.fields[field] : field}: ${wordsOf(field, value, voice, placeOf)}`,
    )
    .join('; ');
};

const wordsOf = (field: string, value: unknown, voice: Voice, placeOf: PlaceOf): string => {
  const { words, labels, format } = voice;
  const { keeper } = words;
  if (typeof value === 'boolean') return value ? keeper.yes : keeper.no;
  if (typeof value === 'number') return format.number(value);
  if (typeof value === 'string') return textOf(field, value, voice, placeOf);
  if (Array.isArray(value)) return value.map((each: unknown) => wordsOf(field, each, voice, placeOf)).join(', ');
  if (!isFields(value)) return '';
  const { value: amount, unit, dose, of, everyHours, sex, alive, number } = value;
  if (typeof amount === 'number' && typeof unit === 'string') return labels.amount(format.number(amount), unit);
  if (typeof dose === 'number' && typeof of === 'number' && typeof everyHours === 'number')
    return `${labels.dose(dose, of)}, ${keeper.everyHours(format.hours(everyHours))}`;
  if (typeof sex === 'string' && typeof alive === 'boolean')
    return labels.calf(sex, alive, typeof number === 'string' ? number : undefined);
  return JSON.stringify(value);
};

const isFields = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null;

/** Fields that a writer fills with words of their own are never taken for a code. */
const OWN_WORDS: ReadonlySet<string> = new Set([
  'group',
  'medicine',
  'sire',
  'method',
  'batch',
  'givenBy',
  'prescribedBy',
]);

const textOf = (field: string, value: string, { words, labels, format }: Voice, placeOf: PlaceOf): string => {
  const { keeper } = words;
  if (field === 'quarters' && Object.hasOwn(labels.quarters, value))
    return Object.entries(labels.quarters).find(([quarter]) => quarter === value)?.[1] ?? value;
  if (field === 'reason' && Object.hasOwn(keeper.leftReasons, value)) return keeper.leftReasons[value] ?? value;
  const place = placeOf(value);
  if (place !== undefined) return keeper.atPosition(place);
  if (INSTANT.test(value)) return format.time(value);
  if (DAY.test(value)) return format.day(value);
  if (MILKING.test(value)) return format.milking(value);
  return !OWN_WORDS.has(field) && isCoded(value) ? keeper.coded[value] : value;
};
