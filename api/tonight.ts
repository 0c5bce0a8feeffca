/** From a book to what goes on paper: which milking is asked about, and its views. */
import type { Book, Known as Read } from '../events/book.ts';
import type { Aside, Entry } from '../events/entry.ts';
import { withAhead } from '../projections/ahead.ts';
import { type Known, know } from '../projections/know.ts';
import { knowMore } from '../projections/know-more.ts';
import type { Milking } from '../projections/schedule.ts';
import type { Views } from '../projections/views.ts';
import { viewsAt } from '../projections/views-at.ts';
import { nextMilking } from '../projections/window.ts';
import type { Instant } from '../shared/instant.ts';
import { parseMilkingId } from '../shared/milking-id.ts';
import { UserProblem } from '../shared/refusal.ts';

export interface Question {
  /** `next`, or a milking's id. */
  readonly milking?: string | undefined;
  /** Look only at what this book had recorded by then. */
  readonly knownAt?: Instant | undefined;
  /** Look only at its first entries, up to this position. */
  readonly position?: number | undefined;
  /** When the asking is done: `knownAt`, else now. */
  readonly asOf?: Instant | undefined;
}

export interface Tonight {
  readonly known: Known;
  readonly milking: Milking;
  readonly asOf: Instant;
  readonly views: Views;
  readonly position: number;
  readonly root: string;
  /** Chain of what was set aside. */
  readonly chain: string;
  /** In the order of their positions. */
  readonly entries: () => readonly Entry[];
  readonly asides: readonly Aside[];
}

/** What a book says up to some point, folded once. */
export interface Knowledge {
  readonly known: Known;
  readonly position: number;
  readonly root: string;
  /** Chain of what was set aside. */
  readonly chain: string;
  /** In the order of their positions. */
  readonly entries: () => readonly Entry[];
  readonly asides: readonly Aside[];
}

/** What each open book said when it was last asked: what came since is read and folded, and no more. */
const last = new WeakMap<Book, GoingOn>();

/** Entries by their id; where several have it, the last one recorded. */
export interface EntryFinder {
  readonly get: (id: string) => Entry | undefined;
}

export const entryFinder = ({ ids }: Known): EntryFinder => ({
  get: (id) => {
    const found = ids.find(id);
    return found.find(({ position }) => found.every((other) => other.position <= position));
  },
});

/** True where the book was read already: going on from there is quick. */
export const isKnowing = (book: Book): boolean => last.has(book);

export const knowledgeOf = (book: Book, question: Pick<Question, 'knownAt' | 'position'> = {}): Knowledge => {
  if (question.knownAt === undefined && question.position === undefined) {
    const before = last.get(book);
    const now = before === undefined ? knowledgeFrom(book.read()) : further(book, before);
    last.set(book, now);
    return now;
  }
  return knowledgeFrom(
    book.read({
      ...(question.knownAt === undefined ? {} : { knownAt: question.knownAt }),
      ...(question.position === undefined ? {} : { position: question.position }),
    }),
  );
};

/** Knowledge that can go on: a few entries beside the many, which are not copied for each that comes. */
interface GoingOn extends Knowledge, Omit<Read, 'entries' | 'asides'> {
  readonly many: readonly Entry[];
  readonly since: readonly Entry[];
}

/** So many are kept beside the others before they are put behind them. */
const MOST_SINCE = 2_000;

const knowledgeFrom = ({ entries, ...read }: Read): GoingOn => ({
  ...read,
  known: know(entries, read.asides),
  many: entries,
  since: [],
  entries: () => entries,
});

const further = (book: Book, before: GoingOn, upTo: Pick<Question, 'position'> = {}): GoingOn => {
  const { news, isAnew, ...read } = book.readFurther(
    before,
    upTo.position === undefined ? {} : { position: upTo.position },
  );
  // A book that is not the one it was: nothing of it is known.
  if (isAnew) return knowledgeFrom({ ...read, entries: news });
  if (news.length === 0 && read.asides === before.asides) return before;
  const known = knowMore(before.known, news, read.asides);
  const beside = [...before.since, ...news];
  const [many, since] = beside.length > MOST_SINCE ? [before.many.concat(beside), []] : [before.many, beside];
  let all: readonly Entry[] | undefined;
  return {
    ...read,
    known,
    many,
    since,
    entries: () => {
      all ??= since.length === 0 ? many : many.concat(since);
      return all;
    },
  };
};

/**
 * What a book knew at one position after the other. Each answer goes on from the one before, so that asked for in their order
 * all of them together read the log once.
 */
export const knowledgeAlong = (book: Book): ((position: number) => Knowledge) => {
  let before: GoingOn | undefined;
  return (position) => {
    before = before === undefined ? knowledgeFrom(book.read({ position })) : further(book, before, { position });
    return before;
  };
};

/** Reads the book and answers. Throws a `UserProblem` where there is no farm or no such milking. */
export const tonight = (book: Book, question: Question = {}): Tonight =>
  tonightFrom(knowledgeOf(book, question), question, book.clock.now());

/** The same from what was read already; `now` is when the asking is done where the question does not say. */
export const tonightFrom = (knowledge: Knowledge, question: Question, now: Instant): Tonight => {
  const { position, root, chain, entries, asides } = knowledge;
  const asOf = question.asOf ?? question.knownAt ?? now;
  const known = withAhead(knowledge.known, asOf);
  if (known.farm.schedule === undefined && (question.knownAt !== undefined || question.position !== undefined))
    throw new UserProblem(
      'This book knew no farm at that moment: its farm-set-up was recorded later; ask about a later one',
    );
  const milking = milkingAsked(known, question.milking ?? 'next', asOf, asides.length);
  const views = viewsAt(known, { milking, asOf, position });
  return { known, milking, asOf, views, position, root, chain, entries, asides };
};

/** The milking a person names; `next` is the running one while no sheet is issued for it, else the one that starts next. */
export const milkingAsked = (known: Known, asked: string, asOf: Instant, setAside = 0): Milking => {
  const { schedule } = known.farm;
  if (schedule === undefined) {
    const aside =
      setAside > 0 ? ` (${setAside} ${setAside === 1 ? 'entry was' : 'entries were'} set aside: see verify)` : '';
    throw new UserProblem(`This book has no farm yet${aside}; record a farm-set-up first, then print`);
  }
  if (asked === 'next') {
    const next = nextMilking(known, schedule, asOf);
    if (next === undefined) throw new UserProblem('The farm has no milking ahead; check the milkings in its set-up');
    return next;
  }
  const id = parseMilkingId(asked);
  if (!id.ok) throw new UserProblem(`--milking: ${id.problem}, or "next"`, 2);
  const milking = schedule.findEver(id.value);
  if (milking === undefined) {
    const names = schedule.on(id.value.slice(0, 10) as Milking['day']).map((each) => each.name);
    throw new UserProblem(
      names.length === 0
        ? `There is no milking ${asked}: that date has none`
        : `There is no milking ${asked}: on that date there ${names.length === 1 ? 'is' : 'are'} ${names.join(', ')}`,
      2,
    );
  }
  return milking;
};
