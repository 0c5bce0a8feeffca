/**
 * Reads a stored text by eye: one pass over its characters that tells whether it is surely canonical JSON (RFC 8785), and
 * where the fields of the outermost object stand. Several times faster than to parse it and write it again. It is sure of
 * plain texts alone (no escapes, no half characters, short numbers without exponents); of all others it says nothing, and
 * `canonical-text.ts` decides.
 */
import type { Columns } from './columns.ts';

/** What a plain text says that `verify` asks for. */
export interface PlainText extends Columns {
  readonly type: string;
  readonly time: string;
  readonly sequence: string;
  readonly recordedtime: string;
  /** The writer's half: the text without what the book added. */
  readonly said: string;
  /** Where in it the book's own order and time stood, with `type` as the last field; -1 where it is not of that form. */
  readonly ownAt: number;
}

/** Undefined where it takes the long way to tell. */
export const plainText = (entry: string): PlainText | undefined =>
  plainTextIn(entry, 0) === entry.length ? found : undefined;

/** Reads a text that begins at `from` in a longer one; gives where it ends, and `lastPlain` is what it says. */
export const plainTextIn = (whole: string, from: number): number | undefined => {
  text = whole;
  at = from;
  return text.charCodeAt(at) === OPEN_BRACE && outermost() ? at : undefined;
};

/** What `plainTextIn` just read. */
export const lastPlain = (): PlainText => {
  if (found === undefined) throw new Error('No plain text was read');
  return found;
};

const QUOTE = 34;
const COMMA = 44;
const MINUS = 45;
const POINT = 46;
const COLON = 58;
const BACKSLASH = 92;
const OPEN_LIST = 91;
const CLOSE_LIST = 93;
const OPEN_BRACE = 123;
const CLOSE_BRACE = 125;
const SPACE = 32;
const DIGIT_0 = 48;
const DIGIT_9 = 57;
/** Where half characters begin and end. */
const FIRST_HALF = 0xd800;
const LAST_HALF = 0xdfff;
const DEEPEST = 50;
/** So many digits come through a number unchanged, and with so few decimals none is written with an exponent. */
const [LONGEST_NUMBER, MOST_DECIMALS] = [15, 6];

// One text at a time, without a context object for each: this is called for every entry of the log.
let text = '';
let at = 0;
let found: PlainText | undefined;

/** The outermost object: `at` is on its brace, and behind it afterwards. */
const outermost = (): boolean => {
  let [id, type, time, sequence, recordedtime, lastSaid] = ['', '', '', '', '', ''];
  let [subject, strikes]: [string | null, string | null] = [null, null];
  let [data, said, cut, before, ownAt] = [0, '', at, 0, -1];
  const first = at + 1;
  at = first;
  for (;;) {
    const start = at;
    if (!string() || !isBehind(before, start) || text.charCodeAt(at) !== COLON) return false;
    before = start;
    const field = fieldAt(start);
    at += 1;
    const from = at;
    if (!value(1)) return false;
    if (field === 'data') data = from;
    else if (field !== '') {
      if (text.charCodeAt(from) !== QUOTE) return false;
      if (field === 'via' || field === 'sequence' || field === 'recordedtime') {
        // What comes first in the object has no comma before it to be taken out with it.
        if (start === first) return false;
        said += text.slice(cut, start - 1);
        cut = at;
        if (field === 'recordedtime') ownAt = said.length;
        else if (field === 'sequence' && said.length !== ownAt) ownAt = -1;
      }
      const words = text.slice(from + 1, at - 1);
      if (field === 'id') id = words;
      else if (field === 'type') type = words;
      else if (field === 'subject') subject = words.includes(' ') ? words.replaceAll(' ', '') : words;
      else if (field === 'recordedtime') recordedtime = words;
      else if (field === 'sequence') sequence = words;
      else if (field === 'time') time = words;
    }
    if (field !== 'via') lastSaid = field;
    const next = text.charCodeAt(at);
    at += 1;
    if (next === CLOSE_BRACE) break;
    if (next !== COMMA) return false;
  }
  // What a strike says within its data is read the long way; there are few.
  if (type === 'entry-struck' && data !== 0) {
    const struck = STRUCK.exec(text.slice(data));
    if (struck === null) return false;
    strikes = struck[1] ?? null;
  }
  if (id === '' || type === '') return false;
  if (lastSaid !== 'type' || sequence === '') ownAt = -1;
  found = { id, type, time, subject, strikes, sequence, recordedtime, said: said + text.slice(cut, at), ownAt };
  return true;
};

/** Which of the fields that matter has its name's first quote there; the empty text where it is another. */
const fieldAt = (start: number): string => {
  const candidates = FIELDS[text.charCodeAt(start + 1)];
  if (candidates === undefined) return '';
  const length = at - start - 2;
  for (const name of candidates) if (name.length === length && text.startsWith(name, start + 1)) return name;
  return '';
};

const NAMES = ['data', 'id', 'recordedtime', 'sequence', 'subject', 'time', 'type', 'via'];
/** Names by the code of their first letter. */
const FIELDS = Array.from({ length: 128 }, (_, code) => NAMES.filter((name) => name.charCodeAt(0) === code));

/** Whether the key with its first quote at `start`, just read, comes behind the one at `before` (0 where it is the first). */
const isBehind = (before: number, start: number): boolean => {
  if (before === 0) return true;
  for (let offset = 1; ; offset += 1) {
    const one = text.charCodeAt(before + offset);
    const other = text.charCodeAt(start + offset);
    if (one === other && one !== QUOTE) continue;
    // The shorter comes first; a quote within a key is written with a backslash, and such a text is not read here.
    return other !== QUOTE && (one === QUOTE || one < other);
  }
};

/** The data of an ordinary strike, whose first field is `entry`; there can be no other of that name in it. */
const STRUCK = /^\{"entry":"([^"]*)"/;

const value = (depth: number): boolean => {
  const code = text.charCodeAt(at);
  if (code === QUOTE) return string();
  if (code === MINUS || (code >= DIGIT_0 && code <= DIGIT_9)) return number();
  if (code === OPEN_BRACE) return depth < DEEPEST && object(depth);
  if (code === OPEN_LIST) return depth < DEEPEST && list(depth);
  return word('true') || word('false') || word('null');
};

const word = (expected: string): boolean => {
  if (!text.startsWith(expected, at)) return false;
  at += expected.length;
  return true;
};

/** A text that is written as it is read. `at` is on its first quote, and behind its last one afterwards. */
const string = (): boolean => {
  // Local names: most of the time of all this goes by in this loop.
  const all = text;
  let place = at;
  if (all.charCodeAt(place) !== QUOTE) return false;
  for (;;) {
    place += 1;
    const code = all.charCodeAt(place);
    if (code === QUOTE) break;
    // Behind the end there is NaN, which is not at least a space.
    if (!(code >= SPACE) || code === BACKSLASH || (code >= FIRST_HALF && code <= LAST_HALF)) return false;
  }
  at = place + 1;
  return true;
};

const number = (): boolean => {
  const start = at;
  if (text.charCodeAt(at) === MINUS) at += 1;
  const whole = at;
  const first = text.charCodeAt(at);
  digits();
  const length = at - whole;
  if (length === 0 || (first === DIGIT_0 && length > 1)) return false;
  if (text.charCodeAt(at) === POINT) {
    at += 1;
    const decimals = at;
    digits();
    if (at === decimals || at - decimals > MOST_DECIMALS || text.charCodeAt(at - 1) === DIGIT_0) return false;
  } else if (first === DIGIT_0 && whole > start) return false;
  const next = text.charCodeAt(at);
  return at - start <= LONGEST_NUMBER && (next === COMMA || next === CLOSE_BRACE || next === CLOSE_LIST);
};

const digits = (): void => {
  for (;;) {
    const code = text.charCodeAt(at);
    if (!(code >= DIGIT_0 && code <= DIGIT_9)) return;
    at += 1;
  }
};

const list = (depth: number): boolean => {
  at += 1;
  if (text.charCodeAt(at) === CLOSE_LIST) {
    at += 1;
    return true;
  }
  for (;;) {
    if (!value(depth + 1)) return false;
    const next = text.charCodeAt(at);
    at += 1;
    if (next === CLOSE_LIST) return true;
    if (next !== COMMA) return false;
  }
};

const object = (depth: number): boolean => {
  at += 1;
  if (text.charCodeAt(at) === CLOSE_BRACE) {
    at += 1;
    return true;
  }
  for (let before = 0; ; ) {
    const start = at;
    if (!string() || !isBehind(before, start) || text.charCodeAt(at) !== COLON) return false;
    before = start;
    at += 1;
    if (!value(depth + 1)) return false;
    const next = text.charCodeAt(at);
    at += 1;
    if (next === CLOSE_BRACE) return true;
    if (next !== COMMA) return false;
  }
};
