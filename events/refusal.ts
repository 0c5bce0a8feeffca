/**
 * What a book says of a line that it refused: the line itself, and what bears on whom it holds. Several books may
 * refuse one line and say different things of it; together they come to the same in every book, in whatever order they came.
 */
import { isBarnNumber, officialDigits } from '../shared/cow-number.ts';
import { byText } from '../shared/text-order.ts';
import { printable } from './fields.ts';
import { isName } from './relay.ts';

export interface Refusal {
  /** Exactly what was said. */
  readonly text: string;
  readonly problem: string;
  /** JSON Pointer to the field at fault. */
  readonly pointer: string | null;
  readonly id: string | null;
  /** Cow numbers that can be read in it. */
  readonly cows: readonly string[];
  /** Entry ids it names, whose cows it may concern too. */
  readonly mentions: readonly string[];
}

/** All but the line. */
export type Saying = Omit<Refusal, 'text'>;

/** Half a letter has no UTF-8 form; it is kept as the replacement character, as any file would keep it. */
export const asUtf8 = (text: string): string => Buffer.from(text).toString();

/** More than any line names that a door can read; so much is kept of a faulty book's word, and no row grows without end. */
export const MOST_COWS = 20_000;
export const MOST_MENTIONS = 100;
const LONGEST_PROBLEM = 2_000;
const LONGEST_POINTER = 500;

/**
 * What is read of a saying, whoever said it: words in one line that can go on paper, and only numbers and ids that can be
 * some. Done twice it is the same, and it is done in every book, so no book reads more in a saying than another.
 */
export const readable = ({ problem, pointer, id, cows, mentions }: Saying): Saying => {
  const said = shortened(printable(problem), LONGEST_PROBLEM);
  const place = pointer === null ? '' : shortened(printable(pointer), LONGEST_POINTER);
  return {
    problem: said === '' ? 'it was refused, and the book that did so does not say why' : said,
    pointer: place === '' ? null : place,
    id: id !== null && isName(id) ? id : null,
    cows: cowNumbers(cows).slice(0, MOST_COWS),
    mentions: [...new Set(mentions.filter(isName))].slice(0, MOST_MENTIONS),
  };
};

const shortened = (text: string, longest: number): string =>
  text.length <= longest ? text : printable(text.slice(0, longest));

/** An official number may be written with spaces, but not with any number of them. */
export const cowNumbers = (texts: Iterable<string>): string[] =>
  [...new Set([...texts].map((each) => each.trim().replace(/ +/g, ' ')))].filter(
    (number) => isBarnNumber(number) || officialDigits(number) !== undefined,
  );

/** What several books said of one line: the words that stand first by their letters, and everybody that any of them names. */
export const together = (sayings: readonly [Saying, ...Saying[]]): Saying => {
  const [first] = sayings;
  if (sayings.length === 1) return first;
  return {
    ...sayings.reduce((a, b) => (byWords(b, a) < 0 ? b : a)),
    cows: [...new Set(sayings.flatMap(({ cows }) => cows))],
    mentions: [...new Set(sayings.flatMap(({ mentions }) => mentions))],
  };
};

/** Whether one more saying names somebody that those before it did not. */
export const namesMore = (before: Saying, more: Saying): boolean =>
  more.cows.some((cow) => !before.cows.includes(cow)) || more.mentions.some((id) => !before.mentions.includes(id));

/** Whether it changes anything that is read. */
export const saysMore = (before: Saying, more: Saying): boolean => namesMore(before, more) || byWords(more, before) < 0;

const byWords = (a: Saying, b: Saying): number =>
  byText(a.problem, b.problem) || byText(a.pointer ?? '', b.pointer ?? '') || byText(a.id ?? '', b.id ?? '');
