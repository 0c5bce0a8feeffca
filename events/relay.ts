/**
 * The door between two books of one farm. Every readable envelope passes, whatever its kind, version, fields or time:
 * what this version can't use is kept as it came and becomes a doubt when it is read. Only the sending book's own
 * three fields are taken off, since each book gives its own.
 */
import { z } from 'zod';
import { sha256 } from '../shared/fingerprint.ts';
import { mentionsIn, subjectsIn, type TurnedAway } from './door.ts';
import type { SaidAnyhow } from './entry.ts';
import { canonicalText, type Halves } from './log/canonical-write.ts';
import { flawOf } from './strict-json.ts';

export interface Relayed {
  readonly outcome: 'relayed';
  /** All of it, or, where `halves` has the text, at least what the entry is filed by. */
  readonly said: SaidAnyhow;
  /** SHA-256 of the canonical writer's half. */
  readonly content: string;
  readonly derivedId: false;
  /** Canonical text of what was said, as the sending book stored it: it need not be written again. */
  readonly halves?: Halves;
}

/** CloudEvents strings hold no control characters; in an id they would also break its look-up. */
const LONGEST_NAME = 1_000;
const NAME = /^[^\p{Cc}\p{Cs}]+$/u;
const name = z.string().min(1).max(LONGEST_NAME).regex(NAME);
export const isName = (text: string): boolean => text.length <= LONGEST_NAME && NAME.test(text);

const relayable = z.looseObject({ id: name, type: name });

/** Reads one entry of another book; `value` is parsed JSON. */
export const readRelayed = (value: unknown): Relayed | TurnedAway => {
  const envelope = relayable.safeParse(value);
  const flaw = flawOf(value);
  if (flaw !== undefined) return unreadable(value, flaw);
  if (!envelope.success)
    return unreadable(value, 'it came from another book without a readable id and type; look at it there');
  const { sequence: _, recordedtime: __, via: ___, ...said } = envelope.data;
  try {
    const content = sha256(canonicalText(said));
    return { outcome: 'relayed', said, content, derivedId: false };
  } catch {
    return unreadable(value, 'it came from another book with a broken character in it; look at it there');
  }
};

const unreadable = (value: unknown, problem: string): TurnedAway => {
  const text = JSON.stringify(value) ?? 'nothing';
  const data = typeof value === 'object' && value !== null && 'data' in value ? value.data : undefined;
  return { outcome: 'refused', problem, cows: subjectsIn(text), mentions: mentionsIn(data), text };
};
