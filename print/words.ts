/**
 * The words of a language, and reasons as sentences in it. The arithmetic is spoken in the trade's words and in the
 * farm's own time; which rule it was stays in the reason for those who ask.
 */
import type { Because, BecauseOf, SayingKey } from '../projections/because.ts';
import type { CrewKey, Words } from './words/dictionary.ts';
import { en } from './words/en.ts';
import { es } from './words/es.ts';
import { type Format, type Frame, formatFor } from './words/format.ts';
import { fr } from './words/fr.ts';
import { pl } from './words/pl.ts';
import { uk } from './words/uk.ts';

export type { Words } from './words/dictionary.ts';
export type { Frame } from './words/format.ts';

const DICTIONARIES: Readonly<Record<string, Words>> = { en, es, fr, pl, uk };

/** Languages that have a dictionary, by their plain tag. */
export const LANGUAGES: readonly string[] = Object.keys(DICTIONARIES);

/** True where a BCP 47 tag's language (`es` of `es-MX`) has a dictionary. */
export const isSpoken = (tag: string): boolean => DICTIONARIES[languageOf(tag)] !== undefined;

/** The dictionary for a BCP 47 tag, with the tag's own region for dates and plurals; English for a language without one. */
export const wordsFor = (tag: string): Words => {
  const words = DICTIONARIES[languageOf(tag)];
  if (words === undefined) return en;
  return tag.includes('-') && isLocale(tag) ? { ...words, locale: tag } : words;
};

const languageOf = (tag: string): string => tag.toLowerCase().split('-')[0] ?? '';

const isLocale = (tag: string): boolean => {
  try {
    return Intl.DateTimeFormat.supportedLocalesOf(tag).length > 0;
  } catch {
    return false;
  }
};

/** A reason as a sentence with its arithmetic, in the farm's own time. */
export const sayIn = (words: Words, because: Because, frame: Frame): string =>
  say(words, because, formatFor(words, frame));

/** The same with a format at hand. */
export const say = <K extends SayingKey>(words: Words, because: BecauseOf<K>, format: Format): string =>
  words.says[because.key](because.values, format);

/** A reason in the crew's words: without the arithmetic, and of a hold only what its cause and medicine leave unsaid. */
export const sayToCrew = (words: Words, reason: Because, format: Format): string =>
  isForCrew(words, reason) ? sayShort(words, reason, format) : say(words, reason, format);

const sayShort = <K extends CrewKey>(words: Words, reason: BecauseOf<K>, format: Format): string =>
  words.crew[reason.key](reason.values, format);

const isForCrew = (words: Words, reason: Because): reason is Extract<Because, { key: CrewKey }> =>
  Object.hasOwn(words.crew, reason.key);
