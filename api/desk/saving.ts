/**
 * From a form to entries. Everything is checked before anything is recorded, so a form is saved whole or not at all; what
 * is wrong goes back to the person and not aside. Ids come from the saving's name: the same form twice records once.
 */
import { v5 as uuidFromName } from 'uuid';
import type { Receipt } from '../../events/book.ts';
import { type Passed, readValue } from '../../events/door.ts';
import type { EntryType } from '../../events/kinds.ts';
import { readStored } from '../../events/stored.ts';
import { knowMore } from '../../projections/know-more.ts';
import { canonicalJson } from '../../shared/fingerprint.ts';
import { type Instant, instantText } from '../../shared/instant.ts';
import { unwritable } from '../devices/roles.ts';
import type { Knowledge } from '../tonight.ts';
import type { Desk, Visitor } from './ask.ts';
import { type Sentence, say } from './say.tsx';

/** What a form says happened. */
export interface Draft {
  readonly type: EntryType;
  readonly subject?: string | undefined;
  readonly at: Instant;
  readonly data: unknown;
}

export interface Trouble {
  /** Which draft, from 0. */
  readonly index: number;
  readonly problem: string;
  /** JSON Pointer into the entry. */
  readonly pointer?: string | undefined;
}

export type Checked =
  | { readonly ok: true; readonly passed: readonly Passed[] }
  | { readonly ok: false; readonly troubles: readonly Trouble[] };

/** Name space of ids that forms give; made once for Byrebook. */
const FORM_SPACE = '5f0b0f0e-3d2a-4c1b-8f64-2a9c7f6f4f51';

/** The id of the nth thing that a saving records, for entries that name one another. */
export const idOf = (saving: string, index: number): string => uuidFromName(`${saving} ${index}`, FORM_SPACE);

/** Checks what a form says, as the door would, with the rights of the device; records nothing. */
export const checkDrafts = (desk: Desk, visitor: Visitor, saving: string, drafts: readonly Draft[]): Checked => {
  const settings = { source: visitor.caller.name, author: visitor.person, now: desk.now() };
  const { ids } = desk.knowing.now().known;
  const troubles: Trouble[] = [];
  const passed: Passed[] = [];
  for (const [index, { type, subject, at, data }] of drafts.entries()) {
    const value = {
      id: idOf(saving, index),
      type,
      ...(subject === undefined ? {} : { subject }),
      time: instantText(at),
      data,
    };
    const before = recordedAs(desk, value);
    if (before === 'otherwise') {
      troubles.push({ index, problem: say(SAVED_OTHERWISE) });
      continue;
    }
    const arrival = readValue(before ?? JSON.parse(JSON.stringify(value)), settings);
    if (arrival.outcome === 'refused') {
      troubles.push({ index, problem: arrival.problem, pointer: arrival.pointer });
      continue;
    }
    const sources = (id: string): string[] => ids.find(id).map(({ source }) => source);
    const refusal = unwritable(visitor.caller, arrival.said, sources);
    if (refusal === undefined) passed.push(arrival);
    else troubles.push({ index, ...refusal });
  }
  return troubles.length === 0 ? { ok: true, passed } : { ok: false, troubles };
};

const SAVED_OTHERWISE =
  'this form was saved already and said something else then; open a new one, and take back what was wrong' satisfies Sentence;

interface Value {
  readonly id: string;
  readonly type: string;
  readonly subject?: string | undefined;
  readonly data: unknown;
}

/** The entry that this saving has recorded already, where it says the same but for the minute; said otherwise it is no repeat. */
const recordedAs = ({ book }: Desk, value: Value): Record<string, unknown> | 'otherwise' | undefined => {
  const row = book.find(value.id)[0];
  if (row === undefined) return undefined;
  const { sequence: _, recordedtime: __, via: ___, ...said } = JSON.parse(row.entry) as Record<string, unknown>;
  const same = ({ type, subject, data }: Record<string, unknown>): string =>
    canonicalJson(JSON.parse(JSON.stringify({ type, subject: subject ?? null, data })));
  return same(said) === same({ ...value }) ? said : 'otherwise';
};

/** Of the whole form. `no`: nothing of it stands in the book. `same`: all of it does. `other`: it was saved and said something else. */
export const savedBefore = (desk: Desk, saving: string, drafts: readonly Draft[]): 'no' | 'same' | 'other' => {
  const had = drafts.map(({ type, subject, data }, index) =>
    recordedAs(desk, { id: idOf(saving, index), type, subject, data }),
  );
  if (had[0] === undefined) return 'no';
  const longer = desk.book.find(idOf(saving, drafts.length)).length > 0;
  return !longer && had.every((each) => each !== undefined && each !== 'otherwise') ? 'same' : 'other';
};

/** To be said on a page that then offers a new form with what was typed. */
export const SAVED_ALREADY =
  'This form was saved already, and now says something else. What was saved then stands; look at it, and save here again if this is what you want' satisfies Sentence;

/** Records what was checked; gives the receipts, in order. */
export const save = (desk: Desk, passed: readonly Passed[]): readonly Receipt[] => {
  const receipts = desk.book.record(passed);
  desk.recorded();
  return receipts;
};

/** What would be known if these were recorded now. */
export const asIf = (desk: Desk, passed: readonly Passed[]): Knowledge => {
  const before = desk.knowing.now();
  const recordedtime = instantText(desk.now());
  const coming = passed
    .filter(({ said }) => before.known.ids.find(said.id).length === 0)
    .flatMap(({ said, content }, index) => {
      const position = before.position + 1 + index;
      const entry = canonicalJson({ ...said, sequence: String(position).padStart(10, '0'), recordedtime });
      const read = readStored({ position, entry, content });
      return read.ok ? [read.entry] : [];
    });
  return {
    ...before,
    entries: () => [...before.entries(), ...coming],
    known: knowMore(before.known, coming, before.asides),
    position: before.position + coming.length,
  };
};
