/**
 * What was known then, what was on the wall, and what is known now, for one milking, with every difference and its reason.
 * What was known then is recomputed from the log up to that point; what was on the wall is read back as it was issued.
 */
import { setImmediate as turn } from 'node:timers/promises';
import type { Book } from '../events/book.ts';
import type { Aside, Entry, EntryOf } from '../events/entry.ts';
import { PRINTED_NAMES } from '../print/sheets.ts';
import { SHEET_NAMES, type SheetName, type Views } from '../projections/views.ts';
import { canonicalJson, sha256 } from '../shared/fingerprint.ts';
import { type Instant, instantText, mustBeInstant } from '../shared/instant.ts';
import { UserProblem } from '../shared/refusal.ts';
import { contentOf } from './issue.ts';
import { entryFinder, knowledgeAlong, knowledgeOf, type Tonight, tonight, tonightFrom } from './tonight.ts';
import { PROGRAM, TIME_ZONE_DATA } from './version.ts';

type Issue = EntryOf<'sheet-issued'>;

export interface ReplayQuestion {
  readonly milking?: string | undefined;
  readonly knownAt?: Instant | undefined;
  readonly position?: number | undefined;
  /** Ref of an issued set, as printed on it. */
  readonly ref?: string | undefined;
}

/** One line that is there at one time and not, or not so, at the other. */
export interface Difference {
  readonly list: string;
  readonly cow: string;
  readonly was: string | null;
  readonly is: string | null;
  /** Entries that one of the two knew and the other did not. */
  readonly because: readonly DifferenceReason[];
}

export interface DifferenceReason {
  readonly entry: string;
  readonly type: string;
  readonly how: 'known-later' | 'struck-since' | 'set-aside-later';
  readonly time: string;
  readonly recordedtime: string;
  readonly author: string;
}

export interface IssuedThen {
  readonly ref: string;
  readonly book: string;
  readonly position: number;
  readonly issuedAt: string;
  /** Recomputed from this book's log at that position: agrees, or the first reason why not. */
  readonly agrees: boolean | null;
  readonly why: string | null;
  /** Sheets whose very bytes the book still holds. */
  readonly papers: readonly string[];
}

export interface Replay {
  /** As known then. */
  readonly past: Tonight;
  /** As known now. */
  readonly present: Tonight;
  readonly issued: readonly IssuedThen[];
  readonly differences: readonly Difference[];
}

export const replay = (book: Book, question: ReplayQuestion): Replay => {
  const sets = book.ownEntries('sheet-issued');
  const issue = question.ref === undefined ? undefined : issueOf(sets, question.ref);
  const milking = issue?.data.milking ?? question.milking;
  if (milking === undefined) throw new UserProblem('Say which milking: --milking ID, or --ref of an issued set', 2);
  const recomputed = pastOf(book);
  const past = issue === undefined ? knownThen(book, milking, question) : recomputed.of(issue);
  const present = tonight(book, { milking });
  return {
    past,
    present,
    issued: inOrderOfPositions(sets.filter(({ data }) => data.milking === past.milking.id)).map((each) =>
      checkIssue(book, each, recomputed),
    ),
    differences: differencesOf(past, present),
  };
};

/** Every set that this book knows of, worked out again from the log at its position; whoever waits for others has a turn between. */
export const issuedChecks = async (book: Book): Promise<readonly IssuedThen[]> => {
  const past = pastOf(book);
  const checks: IssuedThen[] = [];
  for (const set of inOrderOfPositions(book.ownEntries('sheet-issued'))) {
    checks.push(checkIssue(book, set, past));
    await turn();
  }
  return checks;
};

/** Asked for in this order, they are worked out in one passage through the log. */
const inOrderOfPositions = (sets: readonly Issue[]): readonly Issue[] =>
  [...sets].sort((a, b) => a.data.position - b.data.position || a.position - b.position);

const issueOf = (sets: readonly Issue[], ref: string): Issue => {
  const found = sets.find(({ data }) => data.ref === ref);
  if (found === undefined)
    throw new UserProblem(`No set of sheets ${ref} was issued that this book knows of; check the ref`);
  return found;
};

/** At a position, as of when the book reached it: what it went by then. */
const knownThen = (book: Book, milking: string, { knownAt, position }: ReplayQuestion): Tonight => {
  const known = knowledgeOf(book, { knownAt, position });
  const asOf = knownAt ?? (position === undefined ? undefined : known.entries().at(-1)?.recordedAt);
  return tonightFrom(known, { milking, knownAt, position, asOf }, book.clock.now());
};

/** Works sets out again, one after the other. */
interface Past {
  /** What was known when a set was issued; the one asked for last is kept. */
  readonly of: (issue: Issue) => Tonight;
  /** Is this file that book, or did it go on from it at or after the position? Up to there the order of entries is the same. */
  readonly isOurs: (other: string, position: number) => boolean;
}

const pastOf = (book: Book): Past => {
  const knownAt = knowledgeAlong(book);
  let last: { readonly issue: Issue; readonly answer: Tonight } | undefined;
  let wentOn: readonly EntryOf<'book-continued'>[] | undefined;
  return {
    of: (issue) => {
      if (last?.issue !== issue) {
        const { milking, position, asOf } = issue.data;
        const question = { milking, position, asOf: asOf === undefined ? issue.at : mustBeInstant(asOf) };
        last = { issue, answer: tonightFrom(knownAt(position), question, book.clock.now()) };
      }
      return last.answer;
    },
    isOurs: (other, position) => {
      if (other === book.bookId) return true;
      wentOn ??= book.ownEntries('book-continued').filter(({ via }) => via === undefined);
      return wentOn.some(
        (entry) =>
          entry.data.book === other && entry.data.position >= position && entry.position === entry.data.position + 1,
      );
    },
  };
};

const checkIssue = (book: Book, issue: Issue, past: Past): IssuedThen => {
  const { data } = issue;
  const papers = data.sheets.filter(({ pdfHash }) => book.paper(pdfHash) !== undefined).map(({ sheet }) => sheet);
  const base = { ref: data.ref, book: data.book, position: data.position, issuedAt: instantText(issue.at), papers };
  if (!past.isOurs(data.book, data.position)) {
    return {
      ...base,
      agrees: null,
      why: `issued by book ${data.book}, whose own order of entries decides; replay it there`,
    };
  }
  const { views, root } = past.of(issue);
  if (root !== data.root) {
    return {
      ...base,
      agrees: false,
      why: 'the log up to that position is not the one the sheets were made from; run verify',
    };
  }
  const differing = data.sheets.filter(
    (each) => isPrinted(each.sheet) && sha256(canonicalJson(contentOf(views, each.sheet))) !== each.contentHash,
  );
  if (differing.length === 0) return { ...base, agrees: true, why: null };
  const names = differing.map((each) => each.sheet).join(', ');
  return {
    ...base,
    agrees: false,
    why: `${names} ${differing.length === 1 ? 'comes' : 'come'} out otherwise: ${versionsApart(data.program, data.timeZoneData)}`,
  };
};

type Printed = (typeof PRINTED_NAMES)[number];
const isPrinted = (name: string): name is Printed => (PRINTED_NAMES as readonly string[]).includes(name);

const versionsApart = (program: string, timeZoneData: string): string => {
  const apart = [
    ...(program === PROGRAM ? [] : [`made by ${program}, this is ${PROGRAM}`]),
    ...(timeZoneData === TIME_ZONE_DATA ? [] : [`time-zone data ${timeZoneData}, here ${TIME_ZONE_DATA}`]),
  ];
  return apart.length > 0
    ? apart.join('; ')
    : 'same program and time-zone data, so something else is wrong; run verify';
};

const NO_NUMBER = 'no number';

/** Rows of every list by cow, each as one line of its facts and the entries behind it. */
const rowsOf = (views: Views): Map<string, { list: string; cow: string; says: string; entries: readonly string[] }> => {
  const rows = new Map<string, { list: string; cow: string; says: string; entries: readonly string[] }>();
  const add = (list: string, cow: string | null, says: string, entries: readonly string[]): void => {
    rows.set(`${list} ${cow} ${rows.has(`${list} ${cow}`) ? says : ''}`.trim(), {
      list,
      cow: cow ?? NO_NUMBER,
      says,
      entries,
    });
  };
  const { sheets } = views;
  const hold = sheets['milk-hold'];
  const tell: Readonly<Record<SheetName, () => void>> = {
    'milk-hold': () => {
      for (const row of hold.held)
        add(
          'milk-hold',
          row.cow,
          `held until ${row.until ?? 'without end'}, tank from ${row.tankFrom ?? 'not known'}`,
          row.reasons.flatMap((reason) => reason.entries),
        );
      for (const row of hold.unplaced) add('unplaced', row.number, row.because.key, row.because.entries);
      for (const row of hold.treat)
        add(
          'treat-now',
          row.cow,
          `${row.medicine}, dose ${row.dose} of ${row.of}${row.overdue ? ', overdue' : ''}`,
          row.because.entries,
        );
    },
    'dry-off': () => {
      for (const row of sheets['dry-off'].due)
        add('dry-off', row.cow, `dry off on ${row.dryOffOn}`, row.because.entries);
    },
    'fresh-moves': () => {
      for (const row of sheets['fresh-moves'].out) add('fresh-moves', row.cow, `to ${row.to}`, row.because.entries);
    },
    sort: () => {
      for (const row of sheets.sort.cows)
        add(
          'sort',
          row.cow,
          `to ${row.to.join(' / ')}`,
          row.reasons.flatMap((reason) => reason.entries),
        );
    },
    // Their rows are of groups, not of cows.
    counts: () => undefined,
    'milking-plan': () => undefined,
    'beef-hold': () => {
      for (const row of sheets['beef-hold'].cows)
        add(
          'beef-hold',
          row.cow,
          `until ${row.until ?? 'without end'}`,
          row.reasons.flatMap((reason) => reason.entries),
        );
    },
  };
  for (const name of SHEET_NAMES) tell[name]();
  return rows;
};

const differencesOf = (then: Tonight, now: Tonight): Difference[] => {
  const before = rowsOf(then.views);
  const after = rowsOf(now.views);
  const knownThen = entryFinder(then.known);
  const byId = entryFinder(now.known);
  const struckThen = new Set(then.known.strikes.struck.map(({ entry }) => entry.id));
  const struckNow = new Map(now.known.strikes.struck.map(({ entry, by }) => [entry.id, by]));
  const asidesThen = new Set(then.asides.map((aside) => aside.key));
  const concerns = (aside: Aside, cow: string): boolean =>
    aside.cows.length === 0 ? cow === NO_NUMBER : aside.cows.includes(cow);
  const reason = (entry: Entry, how: DifferenceReason['how']): DifferenceReason => ({
    entry: entry.id,
    type: entry.type,
    how,
    time: instantText(entry.at),
    recordedtime: instantText(entry.recordedAt),
    author: entry.author,
  });
  const keys = [...new Set([...before.keys(), ...after.keys()])].sort();
  return keys.flatMap((key): Difference[] => {
    const a = before.get(key);
    const b = after.get(key);
    if (a?.says === b?.says) return [];
    const entries = [...new Set([...(a?.entries ?? []), ...(b?.entries ?? [])])];
    const because = entries.flatMap((id): DifferenceReason[] => {
      const entry = byId.get(id);
      const strike = struckNow.get(id);
      if (strike !== undefined && !struckThen.has(id)) return [reason(strike, 'struck-since')];
      return entry !== undefined && knownThen.get(id) === undefined ? [reason(entry, 'known-later')] : [];
    });
    const row = a ?? b;
    const asides = now.asides.filter((aside) => !asidesThen.has(aside.key) && concerns(aside, row?.cow ?? ''));
    because.push(
      ...asides.map(
        (aside): DifferenceReason => ({
          entry: aside.key,
          type: aside.problem,
          how: 'set-aside-later',
          time: instantText(aside.recordedAt),
          recordedtime: instantText(aside.recordedAt),
          author: '',
        }),
      ),
    );
    return [{ list: row?.list ?? '', cow: row?.cow ?? '', was: a?.says ?? null, is: b?.says ?? null, because }];
  });
};
