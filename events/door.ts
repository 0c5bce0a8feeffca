/**
 * The door where people and devices write. What passes is an entry of a known kind in its exact shape, with a
 * time that is not in the future; what does not pass is described in one sentence and kept aside.
 */
import { v5 as uuidFromName } from 'uuid';
import { isBarnNumber, officialDigits } from '../shared/cow-number.ts';
import { sha256 } from '../shared/fingerprint.ts';
import { type Instant, instantText, MINUTE, parseInstant } from '../shared/instant.ts';
import { surelySaid } from './door-sure.ts';
import type { Said } from './entry.ts';
import { envelope, sentenceOf } from './envelope.ts';
import { ENTRY_TYPES, type EntryType, isEntryType, KINDS } from './kinds.ts';
import { canonicalText, type Halves, halvesOf, saidText } from './log/canonical-write.ts';
import { flawOf, parseStrictJson } from './strict-json.ts';

/** What the door fills in when the line leaves it out, and the clock it judges by. */
export interface DoorSettings {
  readonly source: string;
  readonly author: string;
  readonly now: Instant;
}

export interface Passed {
  readonly outcome: 'passed';
  readonly said: Said;
  /** SHA-256 of the canonical writer's half. */
  readonly content: string;
  readonly at: Instant;
  /** True when the id was derived from source and content, so the same line again is the same entry. */
  readonly derivedId: boolean;
  /** Canonical text of what is said, where it was written in passing: it need not be written again. */
  readonly halves?: Halves;
}

export interface TurnedAway {
  readonly outcome: 'refused';
  readonly problem: string;
  readonly pointer?: string;
  readonly id?: string;
  /** Cow numbers that can be read in it. */
  readonly cows: readonly string[];
  /** Entry ids it names, whose cows it may concern too. */
  readonly mentions: readonly string[];
  /** Exactly what was said. */
  readonly text: string;
}

const LONGEST = 64 * 1024;
const AHEAD = 5 * MINUTE;
/** Name space of ids derived from content; made once for Byrebook. */
const ID_SPACE = '8c1c9d0e-6f0b-4f5e-9a53-3d1f0b7c2e64';

/** Reads one line of JSON at the door. `parsed`: what JSON.parse gave for this very text, where somebody had to ask it. */
export const readLine = (text: string, settings: DoorSettings, parsed?: unknown): Passed | TurnedAway => {
  if (text.length > LONGEST) {
    return turnAway(text, `the line is ${text.length} characters long; an entry has ${LONGEST} at most`);
  }
  const json = parseStrictJson(text, parsed);
  return json.ok ? readFaithful(json.value, settings, text) : turnAway(text, json.problem);
};

/** Reads one JSON value at the door; `text` is what is kept aside if it is refused. */
export const readValue = (value: unknown, settings: DoorSettings, text?: string): Passed | TurnedAway => {
  const flaw = typeof value === 'object' && value !== null && !Array.isArray(value) ? flawOf(value) : undefined;
  return flaw === undefined
    ? readFaithful(value, settings, text)
    : turnAway(text ?? JSON.stringify(value), flaw, undefined, value);
};

/** Reads a value without a flaw. Nearly every one is surely good; of the others each rule is asked, and says what is wrong. */
const readFaithful = (value: unknown, settings: DoorSettings, given: string | undefined): Passed | TurnedAway => {
  const sure = surelySaid(value, settings, { ahead: AHEAD, idFor: derivedIdOf });
  const halves = sure === undefined ? undefined : halvesOf(sure.said);
  if (sure === undefined || halves === undefined) return readWithCare(value, settings, given ?? JSON.stringify(value));
  return { outcome: 'passed', ...sure, content: sha256(saidText(halves)), halves };
};

const readWithCare = (value: unknown, settings: DoorSettings, text: string): Passed | TurnedAway => {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    return turnAway(text, 'it is not an entry; an entry is a JSON object with type, time and data');
  }
  const written = value as Record<string, unknown>;
  const derivedId = written.id === undefined;
  const filled: Record<string, unknown> = {
    specversion: '1.0',
    source: settings.source,
    author: settings.author,
    ...written,
  };
  if (derivedId) {
    const id = derivedIdOf(written, String(filled.source));
    if (id === undefined) return turnAway(text, 'it has a broken character in it; type it again', undefined, value);
    filled.id = id;
  }
  const shape = envelope.safeParse(filled, { reportInput: true });
  if (!shape.success) {
    const [first] = shape.error.issues;
    if (first?.path[0] === 'subject' && isOfFarm(filled.type)) {
      return turnAway(text, noSubject(filled.type), '/subject', value);
    }
    const { problem, pointer } = sentenceOf(shape.error.issues);
    return turnAway(text, problem, pointer, value);
  }
  const { datacontenttype: _, ...envelopeFields } = shape.data;
  const { type, time, subject, data } = envelopeFields;
  if (!isEntryType(type)) {
    return turnAway(
      text,
      `"${type}" is not a kind of entry; it must be one of ${ENTRY_TYPES.join(', ')}`,
      '/type',
      value,
    );
  }
  const kind = KINDS[type];
  if ('bookOnly' in kind) {
    return turnAway(text, `"${type}" is written by the book alone; print --issue makes it`, '/type', value);
  }
  if (kind.subject === 'cow' && subject === undefined) {
    return turnAway(text, `"subject" is missing; a ${type} needs the cow's number there`, '/subject', value);
  }
  if (kind.subject === 'farm' && subject !== undefined) {
    return turnAway(text, noSubject(type), '/subject', value);
  }
  const payload = kind.schema.safeParse(data, { reportInput: true });
  if (!payload.success) {
    const { problem, pointer } = sentenceOf(payload.error.issues, ['data'], kind.schema);
    return turnAway(text, problem, pointer, value);
  }
  if (type === 'residue-test' && (data.of === 'cow') !== (subject !== undefined)) {
    return turnAway(
      text,
      'a residue test of a cow names her in "subject"; one of the tank has no subject',
      '/subject',
      value,
    );
  }
  const parsed = parseInstant(time);
  if (!parsed.ok) return turnAway(text, parsed.problem, '/time', value);
  if (parsed.value > settings.now + AHEAD) {
    return turnAway(
      text,
      `"time" ${time} is more than 5 minutes ahead of this book's clock (${instantText(settings.now)}); check the date and the device's clock`,
      '/time',
      value,
    );
  }
  const said = envelopeFields as Said;
  return { outcome: 'passed', said, content: contentOf(said), at: parsed.value, derivedId };
};

const isOfFarm = (type: unknown): type is EntryType =>
  typeof type === 'string' && isEntryType(type) && KINDS[type].subject === 'farm' && !('bookOnly' in KINDS[type]);

const noSubject = (type: EntryType): string =>
  `"subject" is given, but a ${type} is about the farm, not a cow; leave "subject" out`;

/** SHA-256 of the writer's half in canonical JSON: what "same content" means. */
export const contentOf = (said: Said): string => sha256(canonicalText(said));

/** `undefined` where the content has no canonical form (half a surrogate pair). */
const derivedIdOf = (written: Record<string, unknown>, source: string): string | undefined => {
  const { id: _, author: __, specversion: ___, ...rest } = written;
  try {
    return uuidFromName(canonicalText({ ...rest, source }), ID_SPACE);
  } catch {
    return undefined;
  }
};

const turnAway = (text: string, problem: string, pointer?: string, value?: unknown): TurnedAway => {
  const id = fieldOf(value, 'id');
  const given = fieldOf(value, 'subject');
  const data = typeof value === 'object' && value !== null ? (value as Record<string, unknown>).data : undefined;
  return {
    outcome: 'refused',
    problem,
    ...(pointer === undefined ? {} : { pointer }),
    ...(typeof id === 'string' ? { id } : {}),
    cows: cowsIn(given, value === undefined ? text : ''),
    mentions: mentionsIn(data),
    text,
  };
};

/** The ids of other entries that a payload names, whose cows it may concern too. */
export const mentionsIn = (data: unknown): string[] =>
  ['entry', 'treatment', 'hold', 'request', 'instead']
    .map((field) => fieldOf(data, field))
    .filter((each): each is string => typeof each === 'string');

/** Cow numbers that stand behind a `subject` anywhere in a text. */
export const subjectsIn = (text: string): string[] => cowsIn(undefined, text);

const fieldOf = (value: unknown, field: string): unknown =>
  typeof value === 'object' && value !== null && Object.hasOwn(value, field)
    ? (value as Record<string, unknown>)[field]
    : undefined;

/** The cows that can be read in a refused entry; in unreadable text, whatever stands behind a `subject`. */
const cowsIn = (given: unknown, unreadable: string): string[] => {
  const found = typeof given === 'number' ? [String(given)] : typeof given === 'string' ? [given.trim()] : [];
  for (const match of unreadable.slice(0, LONGEST).matchAll(/"subject"\s*:\s*"?([0-9A-Za-z -]{1,20})/g)) {
    if (match[1] !== undefined) found.push(match[1].trim());
  }
  return [...new Set(found)].filter((number) => isBarnNumber(number) || officialDigits(number) !== undefined);
};
