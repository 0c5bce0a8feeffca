/**
 * A page of another book's log as it came over the wire: `[`, the stored texts with commas between, and `]`. Nearly every
 * text is plain (`plain-text.ts`) and is taken as it stands, read once. Of whatever is written otherwise each value is
 * parsed, and written anew where its canonical text is asked for: slower, with the same answers.
 */
import { sha256 } from '../shared/fingerprint.ts';
import type { TurnedAway } from './door.ts';
import { canonicalText, type Halves } from './log/canonical-write.ts';
import { leafHash } from './log/merkle.ts';
import { lastPlain, type PlainText, plainTextIn } from './log/plain-text.ts';
import { isName, type Relayed, readRelayed } from './relay.ts';

/** One entry of a page; nothing is believed of it yet. */
export type PageEntry = { readonly text: string; readonly plain: PlainText } | { readonly value: unknown };

/** The entries of a page; undefined where it is JSON but no array. Throws where it is no JSON. */
export const readPage = (page: string): PageEntry[] | undefined => byEye(page) ?? parsed(page);

/** Its hash in the tree of the book that stored it; undefined where no book can have stored it. */
export const leafIn = (entry: PageEntry): string | undefined => {
  if ('text' in entry) return leafHash(entry.text);
  try {
    return leafHash(canonicalText(entry.value));
  } catch {
    return undefined;
  }
};

/** The entry through the door between two books (`relay.ts`). */
export const relayedIn = (entry: PageEntry): Relayed | TurnedAway => {
  if ('value' in entry) return readRelayed(entry.value);
  const { id, type, subject, strikes, said } = entry.plain;
  const halves = halvesIn(entry.plain);
  if (halves === undefined || strikes !== null || !isName(id) || !isName(type)) {
    return readRelayed(JSON.parse(entry.text));
  }
  // What a strike says in its data is all that is ever asked of an entry's data when it is recorded.
  return { outcome: 'relayed', said: { id, type, subject }, content: sha256(said), derivedId: false, halves };
};

/** When its writer says it happened; the empty text where none stands there. */
export const timeIn = (entry: PageEntry): string => {
  if ('text' in entry) return entry.plain.time;
  const { value } = entry;
  return typeof value === 'object' && value !== null && 'time' in value && typeof value.time === 'string'
    ? value.time
    : '';
};

const halvesIn = ({ said, ownAt }: PlainText): Halves | undefined =>
  ownAt === -1 ? undefined : { front: said.slice(0, ownAt), back: said.slice(ownAt + 1, -1) };

const parsed = (page: string): PageEntry[] | undefined => {
  const values: unknown = JSON.parse(page);
  return Array.isArray(values) ? values.map((value: unknown) => ({ value })) : undefined;
};

/** Undefined where it takes a parser to tell, or where a field might be lost on copying (`strict-json.ts`). */
const byEye = (page: string): PageEntry[] | undefined => {
  if (page.charCodeAt(0) !== OPEN_LIST || page.includes('"__proto__"')) return undefined;
  const entries: PageEntry[] = [];
  for (let from = 1; ; ) {
    const plainEnd = plainTextIn(page, from);
    const end = plainEnd ?? endOfObject(page, from);
    if (end === undefined) return undefined;
    const text = page.slice(from, end);
    entries.push(plainEnd === undefined ? { value: JSON.parse(text) } : { text, plain: lastPlain() });
    const next = page.charCodeAt(end);
    from = end + 1;
    if (next === CLOSE_LIST) return from === page.length ? entries : undefined;
    if (next !== COMMA) return undefined;
  }
};

const [QUOTE, COMMA, BACKSLASH] = [34, 44, 92];
const [OPEN_LIST, CLOSE_LIST, OPEN_BRACE, CLOSE_BRACE] = [91, 93, 123, 125];

/** Where the object ends that begins at `from`; undefined where there is none, or no end. */
const endOfObject = (page: string, from: number): number | undefined => {
  if (page.charCodeAt(from) !== OPEN_BRACE) return undefined;
  let depth = 0;
  let isQuoted = false;
  for (let at = from; at < page.length; at += 1) {
    const code = page.charCodeAt(at);
    if (code === QUOTE) isQuoted = !isQuoted;
    else if (isQuoted) {
      if (code === BACKSLASH) at += 1;
    } else if (code === OPEN_BRACE || code === OPEN_LIST) depth += 1;
    else if (code === CLOSE_BRACE || code === CLOSE_LIST) {
      depth -= 1;
      if (depth === 0) return at + 1;
    }
  }
  return undefined;
};
