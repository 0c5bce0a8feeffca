/** One language or two at once: each text is said in each, one under the other, and once where both say the same. */
import type { Because } from '../projections/because.ts';
import type { Views } from '../projections/views.ts';
import { dayOfMilking, parseMilkingId } from '../shared/milking-id.ts';
import { mustBe } from '../shared/refusal.ts';
import { parseZone } from '../shared/zone.ts';
import type { Labels } from './words/dictionary.ts';
import { type Format, formatFor } from './words/format.ts';
import { isSpoken, say, sayToCrew, type Words, wordsFor } from './words.ts';

export interface Voice {
  readonly words: Words;
  readonly labels: Labels;
  readonly format: Format;
}

export interface Speech {
  readonly voices: readonly Voice[];
  /** The text in each language. */
  readonly each: (pick: (voice: Voice) => string) => readonly string[];
  /** The text in each language, on one line. */
  readonly joined: (pick: (voice: Voice) => string) => string;
  readonly says: (because: Because) => readonly string[];
  readonly crewSays: (because: Because) => readonly string[];
  readonly locale: string;
}

/** The farm's languages two at a time: a sheet is printed for each pair. Languages without a dictionary are English. */
export const speeches = (views: Views): Speech[] => {
  const tags = [...new Set(views.farm.languages.map((tag) => (isSpoken(tag) ? tag : 'en')))];
  if (tags.length === 0) tags.push('en');
  const pairs: Speech[] = [];
  for (let first = 0; first < tags.length; first += 2) pairs.push(speechFor(tags.slice(first, first + 2), views));
  return pairs;
};

export const speechFor = (tags: readonly string[], views: Views): Speech => {
  const frame = {
    zone: mustBe(parseZone(views.farm.timeZone)),
    near: dayOfMilking(mustBe(parseMilkingId(views.milking.id))),
    unbroken: true,
  };
  const voices = tags.map((tag): Voice => {
    const words = wordsFor(tag);
    return { words, labels: words.labels, format: formatFor(words, frame) };
  });
  const each = (pick: (voice: Voice) => string): readonly string[] => [...new Set(voices.map(pick))];
  return {
    voices,
    each,
    joined: (pick) => each(pick).join(' / '),
    says: (because) => each(({ words, format }) => say(words, because, format)),
    crewSays: (because) => each(({ words, format }) => sayToCrew(words, because, format)),
    locale: voices[0]?.words.locale ?? 'en',
  };
};
