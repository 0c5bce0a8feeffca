/**
 * The desk's own sentences in the language of whoever asks. A sentence is written in English where it is said, and that is
 * its key: `say('{n, plural, one {# cow} other {# cows}} new on hold', { n })`. The tables are in `said/` and in the rooms.
 */
import type { Child } from 'hono/jsx';
import { IntlMessageFormat } from 'intl-messageformat';
import type { Language } from '../../print/words.ts';
import { type ProblemName, RequestProblem } from '../server/problem.ts';
import { spokenNow } from './hearer.ts';
import { inOthers, type Sentence } from './said/every.ts';
import { englishOf } from './said/sentences.ts';

export type { Sentence } from './said/every.ts';

/** Text goes in as it is. A number goes in as a number only where it is counted (`plural`); a cow's number is text. */
export type Values = Readonly<Record<string, string | number>>;
/** The same, and pieces of a page: what is drawn in the place of a value, or around what stands between two tags. */
export type Pieces = Readonly<Record<string, Child | ((inner: Child) => Child)>>;

const compiled = new Map<Language, Map<Sentence, IntlMessageFormat>>();

/** Each message is read once in each language, and kept. */
const messageIn = (language: Language, sentence: Sentence): IntlMessageFormat => {
  const ofLanguage = compiled.get(language) ?? new Map<Sentence, IntlMessageFormat>();
  compiled.set(language, ofLanguage);
  const found = ofLanguage.get(sentence);
  if (found !== undefined) return found;
  const text = (language === 'en' ? undefined : inOthers(sentence)?.[language]) ?? englishOf(sentence);
  const message = new IntlMessageFormat(language === 'fr' ? held(text) : text, language);
  ofLanguage.set(sentence, message);
  return message;
};

/** French puts spaces around its marks, at which a line must not end. */
const held = (text: string): string => text.replace(/ (?=[:;?!»])|(?<=«) /g, '\u00a0');

const sayIn = (language: Language, sentence: Sentence, values: Values): string =>
  String(messageIn(language, sentence).format(values));

/** A sentence as text. */
export const say = (sentence: Sentence, values: Values = {}): string => sayIn(spokenNow(), sentence, values);

/** A sentence with pieces of the page in it: `sayWith('Go to <a>the herd</a>', { a: (inner) => <a href="/herd">{inner}</a> })`. */
export const sayWith = (sentence: Sentence, pieces: Pieces): Child =>
  messageIn(spokenNow(), sentence).format<Child>({ ...pieces });

/** A sentence that comes from the door of the book or from the command line, which speak English alone: marked as such. */
export const inEnglish = (text: string): Child => (spokenNow() === 'en' ? text : <span lang="en">{text}</span>);

/** A problem in the desk's own words. The log keeps the English, the person who asked reads their own language. */
export class SaidProblem extends RequestProblem {
  readonly said: string;
  constructor(problem: ProblemName, sentence: Sentence, values: Values = {}) {
    super(problem, sayIn('en', sentence, values));
    this.said = say(sentence, values);
  }
}

/** The sentence of a problem to show: the desk's own, or another's in English. */
export const problemText = (problem: RequestProblem): Child =>
  problem instanceof SaidProblem ? problem.said : inEnglish(problem.message);
