/**
 * The door for what another book refused. It is that book's word and is kept as such: neither its size nor its shape is
 * trusted, and what can't be read as a refusal is itself set aside, holding whoever can be read in it.
 *
 * Nothing here asks whether this book could record the line: a newer program might. It was refused where it was said, and
 * somebody was told so; a person settles it, or says it again.
 */
import { z } from 'zod';
import type { Instant } from '../shared/instant.ts';
import { mentionsIn, readLine, subjectsIn } from './door.ts';
import { sentenceOf } from './envelope.ts';
import { asUtf8, cowNumbers, MOST_COWS, MOST_MENTIONS, type Refusal, readable } from './refusal.ts';
import { isName } from './relay.ts';

/** Many times the longest entry; the whole of a longer line stays in the book that refused it. */
export const LONGEST_CARRIED = 1024 * 1024;
/** As much of such a line goes along: the door reads no cows behind it either. */
const BEGINNING = 64 * 1024;

/** As it goes over the wire. A newer program may say more; that is passed over. */
export const refusalSaid = z.looseObject({
  text: z.string().describe('exactly what was said'),
  problem: z.string().describe('why it was refused'),
  pointer: z.string().nullish().describe('JSON Pointer to the field at fault'),
  id: z.string().nullish().describe('of the entry, where one can be read'),
  cows: z.array(z.string()).max(MOST_COWS).describe('cow numbers that can be read in it'),
  mentions: z.array(z.string()).max(MOST_MENTIONS).describe('entries it names, whose cows it may concern too'),
});

/** Reads one refusal of another book. Never throws, and never gives fewer cows than can be read in it. */
export const readRefusal = (value: unknown): Refusal => {
  const said = refusalSaid.safeParse(value, { reportInput: true });
  if (!said.success) return broken(value, sentenceOf(said.error.issues).problem);
  const { text, problem, pointer = null, id = null, cows, mentions } = said.data;
  // That book may be of another version or have a fault: what this door reads in the line counts besides.
  const own = namedIn(text);
  const both = { cows: [...cows, ...own.cows], mentions: [...mentions, ...own.mentions] };
  return carriable({ text: asUtf8(text), ...readable({ problem, pointer, id, ...both }) });
};

/** A refusal in the length it travels in. What is longer gives its beginning, the same in every book. */
export const carriable = (refusal: Refusal): Refusal =>
  refusal.text.length <= LONGEST_CARRIED
    ? refusal
    : { ...refusal, text: asUtf8(refusal.text.slice(0, BEGINNING)), problem: `${refusal.problem}${ONLY_BEGINNING}` };

const ONLY_BEGINNING = ' (only its beginning came along; the whole stands in the book that refused it)';

const namedIn = (text: string): Pick<Refusal, 'cows' | 'mentions'> => {
  const read = readLine(text, { source: 'another book', author: 'another book', now: 0 as Instant });
  if (read.outcome === 'refused') return read;
  return { cows: read.said.subject === undefined ? [] : [read.said.subject], mentions: mentionsIn(read.said.data) };
};

const broken = (value: unknown, why: string): Refusal => {
  const fields = typeof value === 'object' && value !== null ? value : {};
  const mentions = 'mentions' in fields && Array.isArray(fields.mentions) ? fields.mentions : [];
  return carriable({
    text: asUtf8(writtenOut(value)),
    ...readable({
      problem: `it came from another book as a line refused there, but can't be read as one (${why}); look at it there`,
      pointer: null,
      id: 'id' in fields && typeof fields.id === 'string' && isName(fields.id) ? fields.id : null,
      cows: cowsAnywhere(value),
      mentions: mentions.filter((each) => typeof each === 'string'),
    }),
  });
};

const writtenOut = (value: unknown): string => {
  try {
    return JSON.stringify(value) ?? 'nothing';
  } catch {
    return 'something that is nested too deep to be written down';
  }
};

/** Whoever stands behind a `subject` or among `cows`, at any depth, in values and in texts that hold JSON themselves. */
const cowsAnywhere = (value: unknown): string[] => {
  const found = new Set<string>();
  const waiting: { each: unknown; isNumber: boolean }[] = [{ each: value, isNumber: false }];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { each, isNumber } = next;
    if (typeof each === 'object' && each !== null) {
      const isList = Array.isArray(each);
      for (const [field, inner] of Object.entries(each))
        waiting.push({ each: inner, isNumber: field === 'subject' || field === 'cows' || (isList && isNumber) });
    } else if (typeof each === 'string' || typeof each === 'number') {
      if (isNumber) found.add(String(each));
      for (const cow of subjectsIn(String(each))) found.add(cow);
    }
  }
  return cowNumbers(found);
};
