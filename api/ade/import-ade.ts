/**
 * A document of the exchange standard into the book. What is known already adds nothing; a newer version of a resource strikes the
 * older one's entries and enters again; a deleted one strikes them. What cannot be taken is set aside and holds the cows it may
 * concern; what has no place in the book is named.
 */
import type { Book } from '../../events/book.ts';
import { type Passed, readValue, type TurnedAway } from '../../events/door.ts';
import type { Aside } from '../../events/entry.ts';
import { parseStrictJson } from '../../events/strict-json.ts';
import { groupAt, presentAt } from '../../projections/cow.ts';
import { type Known, know } from '../../projections/know.ts';
import { openFrom } from '../../projections/moment.ts';
import { momentOf } from '../../projections/views-at.ts';
import { nextMilking } from '../../projections/window.ts';
import { byCowNumber } from '../../shared/cow-number.ts';
import { type Instant, instantText } from '../../shared/instant.ts';
import { UserProblem } from '../../shared/refusal.ts';
import { dosingHolds } from './dosing-holds.ts';
import { readDocument, type TurnedBack } from './in-document.ts';
import { plainText } from './in-fields.ts';
import { type ReadResource, readResources } from './in-read.ts';
import { type Draft, entryIdOf, type Incoming } from './in-resource.ts';
import { asEntry, withStated } from './in-stated.ts';
import { struckEntry, type Version, versionsIn } from './in-versions.ts';
import { partOf, sourceOf } from './names.ts';

export interface AdeOptions {
  readonly author: string;
  /** The group of cows of whom the file says none. */
  readonly group?: string | undefined;
  readonly dryRun?: boolean;
}

export interface AdeImport {
  readonly resources: number;
  readonly recorded: number;
  readonly alreadyKnown: number;
  /** Entries struck because their resource is changed or deleted. */
  readonly struck: number;
  readonly refused: readonly {
    readonly problem: string;
    readonly cows: readonly string[];
    readonly key: string | null;
  }[];
  readonly notes: readonly string[];
  /** Resources that no entry is made of. */
  readonly notUsed: readonly { readonly resource: string; readonly why: string }[];
  /** Fields and values that nobody took, of resources that are recorded. */
  readonly leftOut: readonly { readonly resource: string; readonly field: string; readonly value: unknown }[];
  readonly dryRun: boolean;
}

/** Throws a `UserProblem` where the text is no JSON or the book has no farm. */
export const importAde = (book: Book, text: string, options: AdeOptions): AdeImport => {
  const notes: string[] = [];
  const document = readDocument(jsonIn(text, notes));
  notes.push(...document.notes);
  const { entries, asides, position } = book.read();
  const known = know(entries, asides);
  const { schedule } = known.farm;
  if (schedule === undefined)
    throw new UserProblem('This book has no farm yet; record its farm-set-up first, then import');
  const now = book.clock.now();
  const versions = versionsIn(known);
  const fresh = document.resources.filter((each) => !isOwn(book, asides, each));
  const results = readResources(fresh, {
    known,
    schedule,
    now,
    group: options.group,
    isKnown: (base) => versions.has(base),
  });

  const door = (draft: Draft): Passed | TurnedAway => passDoor(draft, options.author, now);
  const sorted = sortVersions(results, versions, notes, now, (draft) => door(draft).outcome === 'passed');
  const strikes = sorted.strikes.map((strike) => readValue(strike, { source: 'import', author: options.author, now }));
  const drafts = new Map(sorted.drafts.map((draft) => [entryIdOf(draft), draft]));
  const foreseen = foresee([...sorted.drafts.map(door), ...strikes], { entries, asides, position, now });
  const stated = withStated(drafts, foreseen.holds);
  notes.push(...stated.notes);

  const away: TurnedAway[] = [
    ...document.refused.map((each) => turnAway(each.problem, cowsOf(each, foreseen.known, now), each.text)),
    ...results.flatMap(({ resource, outcome }) => {
      if (outcome.is === 'refused') return [turnAway(outcome.problem, outcome.cows, resource.text)];
      return outcome.is === 'taken'
        ? outcome.refused.map((each) => turnAway(each.problem, each.cows, resource.text))
        : [];
    }),
    ...stated.refused.map(({ draft, problem, cows }) => turnAway(problem, cows, draft.from.text)),
  ];
  const arrivals = [
    ...stated.drafts.map(door),
    ...sorted.deletedDrafts.map(door),
    ...strikes.map((each) => (each.outcome === 'passed' ? { ...each, derivedId: true } : each)),
    ...away,
  ];
  const outcome = options.dryRun === true ? foretold(arrivals) : recorded(book, arrivals);
  return {
    resources: document.resources.length + document.refused.length,
    ...outcome,
    alreadyKnown: outcome.alreadyKnown + sorted.alreadyKnown + (document.resources.length - fresh.length),
    notes: [...notes, ...results.flatMap(({ outcome: each }) => (each.is === 'taken' ? each.notes : []))],
    notUsed: results.flatMap(({ resource, outcome: each }) =>
      each.is === 'not-used' ? [{ resource: resource.name, why: each.why }] : [],
    ),
    leftOut: results.flatMap(({ resource, outcome: each }) => (each.is === 'taken' ? leftIn(resource) : [])),
    dryRun: options.dryRun === true,
  };
};

/** Duplicate keys and numbers with too many digits are no reason to turn a whole file away; they are said. */
const jsonIn = (text: string, notes: string[]): unknown => {
  const strict = parseStrictJson(text.replace(/^\ufeff/, ''));
  if (strict.ok) return strict.value;
  try {
    const value: unknown = JSON.parse(text.replace(/^\ufeff/, ''));
    notes.push(`the file is read although ${strict.problem}`);
    return value;
  } catch {
    throw new UserProblem(
      `The file cannot be read: ${strict.problem}. Nothing was recorded; ask for it to be sent again`,
    );
  }
};

/** True for what this very book, or another of this farm, wrote and the book has. */
const isOwn = (book: Book, asides: readonly Aside[], { source, sourceId }: Incoming): boolean => {
  if (source !== sourceOf(book.farmId ?? book.bookId)) return false;
  const whole = partOf(sourceId)?.entry ?? sourceId;
  return book.find(whole).length > 0 || asides.some((aside) => aside.key === whole);
};

const passDoor = (draft: Draft, author: string, now: Instant): Passed | TurnedAway => {
  const { from } = draft;
  const value = {
    id: entryIdOf(draft),
    type: draft.type,
    subject: draft.subject,
    time: instantText(draft.at),
    source: plainText(from.source, 100),
    author: plainText(from.creator ?? author, 80) || author,
    data: draft.data,
  };
  const read = readValue(value, { source: 'import', author, now }, from.text);
  // The id comes from the resource and its version: the same again is the same entry, however it is read by then.
  return read.outcome === 'passed'
    ? { ...read, derivedId: true }
    : { ...read, problem: `${from.name}: ${read.problem}`, cows: [draft.subject] };
};

interface Sorted {
  readonly drafts: readonly Draft[];
  /** Never known and deleted: recorded and struck at once, so that the line "which cow had it?" stands. */
  readonly deletedDrafts: readonly Draft[];
  readonly strikes: readonly Record<string, unknown>[];
  readonly alreadyKnown: number;
}

const sortVersions = (
  results: readonly ReadResource[],
  versions: ReadonlyMap<string, readonly Version[]>,
  notes: string[],
  now: Instant,
  passes: (draft: Draft) => boolean,
): Sorted => {
  const drafts: Draft[] = [];
  const deletedDrafts: Draft[] = [];
  const strikes: Record<string, unknown>[] = [];
  let alreadyKnown = 0;
  const byBase = new Map<string, { resource: Incoming; drafts: Draft[] }>();
  for (const { resource, outcome } of results) {
    if (outcome.is === 'refused' || (outcome.is === 'not-used' && !versions.has(resource.base))) continue;
    const all = outcome.is === 'taken' ? outcome.drafts : [];
    const whole = byBase.get(resource.base) ?? { resource, drafts: [] };
    byBase.set(resource.base, whole);
    for (const draft of all) {
      const own = byBase.get(draft.from.base) ?? { resource: draft.from, drafts: [] };
      byBase.set(draft.from.base, own);
      own.drafts.push(draft);
    }
  }
  for (const [base, { resource, drafts: made }] of byBase) {
    const have = versions.get(base) ?? [];
    if (resource.deleted && have.length === 0) {
      deletedDrafts.push(...made);
      strikes.push(...made.map((draft) => struckEntry(entryIdOf(draft), resource, undefined, now)));
      continue;
    }
    const modified = Math.max(resource.modified, ...made.map((draft) => draft.modified));
    const newest = Math.max(...have.map((version) => version.modified), Number.NEGATIVE_INFINITY);
    if (modified < newest) {
      notes.push(`${resource.name}: a newer version of it is in the book already`);
      alreadyKnown += made.length;
      continue;
    }
    const ids = new Set(have.map((version) => version.id));
    const current = resource.deleted ? [] : made;
    const added = current.filter((draft) => !ids.has(entryIdOf(draft)));
    alreadyKnown += current.length - added.length;
    drafts.push(...added);
    // An older version stands until the newer one is in the book.
    if (!added.every(passes)) continue;
    for (const version of have) {
      if (version.struck || (version.modified >= modified && !resource.deleted)) continue;
      const same = current.find((draft) => [draft.from.part, draft.part].filter(Boolean).join('.') === version.part);
      const instead = same ?? current[0];
      strikes.push(struckEntry(version.id, resource, instead === undefined ? undefined : entryIdOf(instead), now));
    }
  }
  return { drafts, deletedDrafts, strikes, alreadyKnown };
};

interface Foreseen {
  readonly known: Known;
  readonly holds: ReturnType<typeof dosingHolds>;
}

/** What the book will know once these are recorded. */
const foresee = (
  arrivals: readonly (Passed | TurnedAway)[],
  {
    entries,
    asides,
    position,
    now,
  }: Pick<ReturnType<Book['read']>, 'entries' | 'asides' | 'position'> & { now: Instant },
): Foreseen => {
  const passed = arrivals.flatMap((each) => (each.outcome === 'passed' ? [each] : []));
  const known = know([...entries, ...passed.map((each, index) => asEntry(each, position + index + 1, now))], asides);
  const { schedule } = known.farm;
  const milking = schedule === undefined ? undefined : nextMilking(known, schedule, now);
  const moment = milking === undefined ? undefined : momentOf(known, { milking, asOf: now, position });
  return { known, holds: moment === undefined ? [] : dosingHolds(known, moment) };
};

/** Every cow that stood in a group that an event names without naming its animals, or stands in it now. */
const cowsOf = ({ cows, group }: TurnedBack, known: Known, now: Instant): readonly string[] => {
  if (group?.name === undefined) return cows;
  const name = group.name.trim().toLowerCase();
  const at = group.at ?? now;
  const inGroup = openFrom(known.files, Math.min(at, now)).filter(({ cow }) =>
    [at, now].some((when) => presentAt(cow, when) && groupAt(cow, when)?.toLowerCase() === name),
  );
  const numbers = inGroup.flatMap(({ cow }) => cow.spans.filter((span) => span.to === null).map((span) => span.number));
  return [...new Set([...cows, ...numbers])].sort(byCowNumber);
};

const turnAway = (problem: string, cows: readonly string[], text: string): TurnedAway => ({
  outcome: 'refused',
  problem,
  cows,
  mentions: [],
  text,
});

type Told = Pick<AdeImport, 'recorded' | 'alreadyKnown' | 'struck' | 'refused'>;

const recorded = (book: Book, arrivals: readonly (Passed | TurnedAway)[]): Told => {
  const receipts = book.record(arrivals);
  const done = receipts.flatMap((receipt, index) => {
    const arrival = arrivals[index];
    return receipt.outcome === 'recorded' && arrival?.outcome === 'passed' ? [arrival.said.type] : [];
  });
  return {
    recorded: done.filter((type) => type !== 'entry-struck').length,
    struck: done.filter((type) => type === 'entry-struck').length,
    alreadyKnown: receipts.filter((receipt) => receipt.outcome === 'already-known').length,
    refused: receipts.flatMap((receipt, index) => {
      const arrival = arrivals[index];
      return receipt.outcome === 'refused'
        ? [
            {
              problem: receipt.problem ?? '',
              cows: arrival?.outcome === 'refused' ? arrival.cows : [],
              key: receipt.key ?? null,
            },
          ]
        : [];
    }),
  };
};

const foretold = (arrivals: readonly (Passed | TurnedAway)[]): Told => {
  const types = arrivals.flatMap((each) => (each.outcome === 'passed' ? [each.said.type] : []));
  return {
    recorded: types.filter((type) => type !== 'entry-struck').length,
    struck: types.filter((type) => type === 'entry-struck').length,
    alreadyKnown: 0,
    refused: arrivals.flatMap((each) =>
      each.outcome === 'refused' ? [{ problem: each.problem, cows: each.cows, key: null }] : [],
    ),
  };
};

const leftIn = (resource: Incoming): AdeImport['leftOut'] =>
  [resource, ...resource.nested].flatMap(({ fields, name }) =>
    fields.left().map(({ field, value }) => ({ resource: name, field, value })),
  );
