/**
 * How this book names itself, its animals and its entries in the exchange. The standard wants reverse domain names; these stand
 * under "internal", the top-level domain kept for private use, so they can be nobody's.
 */
import { officialDigits } from '../../shared/cow-number.ts';
import type { Identifier } from './resource.ts';

const OURS = 'internal.byrebook';

/** The farm is the source, not one of its books: two books of a farm speak of the same entries. */
export const sourceOf = (farm: string): string => `${OURS}.${farm}`;

/** True for what any Byrebook wrote, whose parts belong to the entry they name. */
export const isByrebook = (source: string): boolean => source.startsWith(`${OURS}.`);

export const OFFICIAL_SCHEME = 'org.iso.11784';
export const BARN_SCHEME = `${OURS}.barn-number`;
export const FARM_SCHEME = `${OURS}.farm`;

/** A barn number or an official number as the standard names an animal. */
export const identifierOf = (number: string): Identifier => {
  const official = officialDigits(number);
  return official === undefined ? { id: number, scheme: BARN_SCHEME } : { id: official, scheme: OFFICIAL_SCHEME };
};

/** What one entry says beyond its own resource has the entry's id and a part behind it. */
export type Part =
  | 'animal'
  | 'birth'
  | 'due'
  | 'fresh'
  | 'group'
  | 'lactation'
  | 'left'
  | 'meat-hold'
  | 'milk-hold'
  | 'milked'
  | 'product'
  | 'program'
  | 'served'
  | 'set';

const SEPARATOR = '#';

export const partId = (entry: string, part: Part, more = ''): string =>
  `${entry}${SEPARATOR}${part}${more === '' ? '' : `-${more}`}`;

/** The entry and the part that an id of ours names. */
export const partOf = (sourceId: string): { entry: string; part: string } | undefined => {
  const at = sourceId.lastIndexOf(SEPARATOR);
  return at < 1 ? undefined : { entry: sourceId.slice(0, at), part: sourceId.slice(at + 1) };
};
