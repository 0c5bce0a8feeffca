/**
 * The log in parts that have nothing to do with each other: entries whose numbers can't mean the same animal. A number
 * and itself read without its leading zeros are kin, and so are all the names that one entry gives a cow; a vet's time is
 * kin to the treatment it names, and to what is said to be true instead. Who is meant is then asked anew only where
 * something changed.
 */
import type { Entry } from '../events/entry.ts';
import { officialDigits, withoutLeadingZeros } from '../shared/cow-number.ts';
import { isGiving, isOfACow } from './bearing.ts';
import { byFoldOrder, inFoldOrder } from './fold-order.ts';
import type { Ids } from './ids.ts';
import { NOTHING } from './instead.ts';

export interface Part {
  readonly names: readonly string[];
  /** In fold order. */
  readonly entries: readonly Entry[];
}

/** The part of each name: as it was at some time, and what is otherwise since. */
export interface Parts {
  readonly get: (name: string) => Part | undefined;
  readonly settled: ReadonlyMap<string, Part>;
  /** Null: no part has that name any more. */
  readonly since: ReadonlyMap<string, Part | null>;
  /** Ids of entries that others name, and are kin to. */
  readonly linked: ReadonlySet<string>;
}

/** So many names are carried beside the others before they are put among them. */
const MOST_SINCE = 500;

const partsFrom = (
  settled: ReadonlyMap<string, Part>,
  since: ReadonlyMap<string, Part | null>,
  linked: ReadonlySet<string>,
): Parts => {
  if (since.size <= MOST_SINCE) {
    const get = (name: string): Part | undefined => {
      const later = since.get(name);
      return later === undefined ? settled.get(name) : (later ?? undefined);
    };
    return { get, settled, since, linked };
  }
  const all = new Map(settled);
  for (const [name, part] of since) {
    if (part === null) all.delete(name);
    else all.set(name, part);
  }
  return partsFrom(all, new Map(), linked);
};

/** The ids by which an entry is kin to others, whatever cow they speak of. */
const linksIn = (entry: Entry): readonly string[] => {
  if (entry.type === 'vet-hold-time') return [entry.data.treatment];
  if (entry.type !== 'entry-struck' || entry.data.instead === undefined || entry.data.instead === NOTHING)
    return NO_LINKS;
  return [entry.data.entry, entry.data.instead];
};

const NO_LINKS: readonly string[] = [];

const linkName = (id: string): string => `entry ${id}`;

/** What an entry calls its cow, in every way that another one may mean her by. Empty where it is about no cow. */
const namesIn = (entry: Entry, linked: ReadonlySet<string>): readonly string[] => {
  if (!isOfACow(entry)) return linksIn(entry).map(linkName);
  const names = namesOf(entry.subject);
  if (entry.type === 'number-changed') names.push(...namesOf(entry.data.to));
  if (entry.type === 'cow-entered' && entry.data.officialId !== undefined)
    names.push(...namesOf(entry.data.officialId));
  if (entry.type === 'vet-hold-time') names.push(linkName(entry.data.treatment));
  if (isGiving(entry) && linked.has(entry.id)) names.push(linkName(entry.id));
  return names;
};

const namesOf = (number: string): string[] => {
  const official = officialDigits(number);
  const short = withoutLeadingZeros(number);
  return official === undefined ? [short] : [short, `official ${official}`];
};

interface Draft {
  names: string[];
  entries: Entry[];
  sorted: boolean;
}

/** `live`: in fold order. */
export const partsOf = (live: readonly Entry[]): Parts => {
  const drafts = new Map<string, Draft>();
  const linked = new Set<string>();
  for (const entry of live) {
    if (entry.type !== 'vet-hold-time' && entry.type !== 'entry-struck') continue;
    for (const id of linksIn(entry)) linked.add(id);
  }
  for (const entry of live) lay(drafts, entry, linked);
  return partsFrom(new Map([...drafts].map(([name, draft]) => [name, finished(draft)])), new Map(), linked);
};

export interface Change {
  readonly parts: Parts;
  /** Parts that are no more, and those that stand in their place. */
  readonly before: ReadonlySet<Part>;
  readonly after: ReadonlySet<Part>;
}

/** The parts with some entries more and some less; all others stay the very same. `ids` knows them all. */
export const partsWith = (parts: Parts, more: readonly Entry[], without: ReadonlySet<Entry>, ids: Ids): Change => {
  const before = new Set<Part>();
  const named = more.flatMap(linksIn).filter((id) => !parts.linked.has(id));
  const linked = named.length === 0 ? parts.linked : new Set([...parts.linked, ...named]);
  for (const entry of [...more, ...without, ...named.flatMap(ids.find)]) {
    for (const name of namesIn(entry, linked)) {
      const part = parts.get(name);
      if (part !== undefined) before.add(part);
    }
  }
  const drafts = new Map<string, Draft>();
  for (const part of before) for (const entry of part.entries) if (!without.has(entry)) lay(drafts, entry, linked);
  for (const entry of more) lay(drafts, entry, linked);
  const since = new Map(parts.since);
  for (const part of before) for (const name of part.names) since.set(name, null);
  const after = new Set<Part>();
  for (const draft of new Set(drafts.values())) {
    const part = finished(draft);
    after.add(part);
    for (const name of part.names) since.set(name, part);
  }
  return { parts: partsFrom(parts.settled, since, linked), before, after };
};

const lay = (drafts: Map<string, Draft>, entry: Entry, linked: ReadonlySet<string>): void => {
  const [first, ...others] = namesIn(entry, linked);
  if (first === undefined) return;
  let draft = drafts.get(first);
  if (draft === undefined) {
    draft = { names: [first], entries: [], sorted: true };
    drafts.set(first, draft);
  }
  for (const name of others) draft = joined(drafts, draft, name);
  const last = draft.entries.at(-1);
  draft.sorted &&= last === undefined || byFoldOrder(last, entry) <= 0;
  draft.entries.push(entry);
};

/** The draft with that name in it, and all that was known by the name. */
const joined = (drafts: Map<string, Draft>, draft: Draft, name: string): Draft => {
  const other = drafts.get(name);
  if (other === draft) return draft;
  if (other === undefined) {
    draft.names.push(name);
    drafts.set(name, draft);
    return draft;
  }
  const [large, small] = other.entries.length > draft.entries.length ? [other, draft] : [draft, other];
  large.sorted = false;
  for (const entry of small.entries) large.entries.push(entry);
  for (const each of small.names) {
    large.names.push(each);
    drafts.set(each, large);
  }
  return large;
};

const partOfDraft = new WeakMap<Draft, Part>();

/** One part a draft, under however many names. */
const finished = (draft: Draft): Part => {
  const have = partOfDraft.get(draft);
  if (have !== undefined) return have;
  const part = { names: draft.names, entries: draft.sorted ? draft.entries : inFoldOrder(draft.entries) };
  partOfDraft.set(draft, part);
  return part;
};
