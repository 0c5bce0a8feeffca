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

const DICTIONARIES = { en, es, fr, pl, uk } as const satisfies Readonly<Record<string, Words>>;

/** A language that has a dictionary, by its plain tag. */
export type Language = keyof typeof DICTIONARIES;

const isLanguage = (plain: string): plain is Language => Object.hasOwn(DICTIONARIES, plain);

export const LANGUAGES: readonly Language[] = Object.keys(DICTIONARIES).filter(isLanguage);

/** The language of a BCP 47 tag (`es` of `es-MX`); undefined where it has no dictionary. */
export const spokenOf = (tag: string): Language | undefined => {
  const plain = languageOf(tag);
  return isLanguage(plain) ? plain : undefined;
};

/** True where a BCP 47 tag's language has a dictionary. */
export const isSpoken = (tag: string): boolean => spokenOf(tag) !== undefined;

/** The dictionary for a BCP 47 tag, with the tag's own region for dates and plurals; English for a language without one. */
export const wordsFor = (tag: string): Words => {
  const language = spokenOf(tag);
  if (language === undefined) return en;
  const words: Words = DICTIONARIES[language];
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
