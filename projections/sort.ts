/** The sort gate's list and the cows on it that will not come through. */

import type { EntryOf } from '../events/entry.ts';
import { byCowNumber } from '../shared/cow-number.ts';
import { type Instant, mustBeInstant, parseInstant } from '../shared/instant.ts';
import { type LocalDay, parseLocalDay } from '../shared/local-day.ts';
import { type Because, because } from './because.ts';
import { numberAt } from './cow.ts';
import type { Known } from './know.ts';
import type { CowMoment, Moment } from './moment.ts';
import { unplacedKey } from './notice-keys.ts';
import { remembered } from './remembered.ts';
import type { Standing } from './standing.ts';
import { byGroup, saidOfStandings } from './standings-in-order.ts';
import { leavingOf } from './unplaced.ts';
import type { DryOffSheet, FreshMovesSheet, Notice, SortRow, SortSheet, TreatRow } from './views.ts';

type Request = EntryOf<'sort-request'>;
type Sorted = Moment['farm']['sorted'];

interface Wanted {
  readonly reasons: Because[];
  readonly to: Set<string>;
  /** Entries that name a place for her. */
  readonly placedBy: readonly string[];
}

export interface OtherLists {
  readonly dryOff: DryOffSheet;
  readonly fresh: FreshMovesSheet;
  readonly treat: readonly TreatRow[];
}

export const sortSheet = (
  known: Known,
  moment: Moment,
  standings: readonly Standing[],
  lists: OtherLists,
): SortSheet => {
  const cows: SortRow[] = [];
  const cannot: SortSheet['cannot'][number][] = [];
  for (const { standing, wanted } of wantedAmong(standings, moment, lists)) {
    if (wanted.reasons.length === 0) continue;
    const why = wontCome(standing, moment);
    if (why === undefined)
      cows.push({ cow: standing.number, group: standing.group.name, reasons: wanted.reasons, to: [...wanted.to] });
    else cannot.push({ cow: standing.number, because: why, reasons: wanted.reasons });
  }
  cannot.push(...goneBefore(known, moment), ...ofNobody(known, moment));
  return { cows, cannot: cannot.sort((a, b) => byCowNumber(a.cow, b.cow)) };
};

interface Sought {
  readonly standing: Standing;
  readonly wanted: Wanted;
}

/** The cows that any list or any request wants, in the order of the standings. The list and the doubts ask the same. */
const wantedAmong = (standings: readonly Standing[], moment: Moment, lists: OtherLists): readonly Sought[] => {
  const kept = wantedKept(lists);
  kept.found ??= wantedFound(standings, moment, lists);
  return kept.found;
};

/** Lists are made for one moment. */
const wantedKept = remembered((_: OtherLists): { found?: readonly Sought[] } => ({}));

/** Cows are looked up by their numbers: few are wanted of the many that stand there. */
const wantedFound = (standings: readonly Standing[], moment: Moment, lists: OtherLists): readonly Sought[] => {
  const rows = rowsByGroup(lists);
  const open = new Map(openRequests(standings, moment, moment.farm.sorted));
  const asked = [...open.keys()];
  return [...byGroup(standings)].flatMap(([group, { cows }]): readonly Sought[] => {
    const here = rows.get(group);
    const numbers = new Set(asked.flatMap((each) => (each.group.name === group ? [each.number] : [])));
    for (const number of here?.keys() ?? []) numbers.add(number);
    return [...numbers].sort(byCowNumber).flatMap((number) =>
      numbered(cows, number).flatMap((standing): readonly Sought[] => {
        const [row, requests] = [here?.get(number), open.get(standing) ?? []];
        return row === undefined && requests.length === 0
          ? []
          : [{ standing, wanted: wantedOf(row, requests, moment) }];
      }),
    );
  });
};

/** Those of a number among the cows of a group, who stand in the order of their numbers. */
const numbered = (cows: readonly Standing[], number: string): readonly Standing[] => {
  let [low, high] = [0, cows.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (byCowNumber(cows[middle]?.number ?? '', number) < 0) low = middle + 1;
    else high = middle;
  }
  const first = low;
  while (cows[low]?.number === number) low += 1;
  return cows.slice(first, low);
};

const wantedOf = (here: RowsOfCow | undefined, open: readonly Request[], moment: Moment): Wanted => {
  const reasons: Because[] = [];
  const to = new Set<string>();
  const placedBy = new Set<string>();
  const place = (name: string, entries: readonly string[]): void => {
    to.add(name);
    for (const entry of entries) placedBy.add(entry);
  };
  for (const request of open) {
    reasons.push(requestReason(request));
    if (request.data.to !== undefined) place(request.data.to, [request.id]);
  }
  for (const row of here?.due ?? []) {
    if (row.dryOffOn > moment.milking.day) continue;
    reasons.push(because('R-60', 'sort.dry-off', { product: row.product }, row.because.entries));
    const dry = moment.groups.find((group) => group.kind === 'dry');
    if (dry !== undefined) place(dry.name, row.because.entries);
  }
  for (const row of here?.out ?? []) {
    reasons.push(because('R-60', 'sort.fresh-move', { to: row.to }, row.because.entries));
    place(row.to, row.because.entries);
  }
  for (const row of here?.treat ?? []) {
    if (!wantsHerCaught(row)) continue;
    reasons.push(
      because('R-60', 'sort.dose', { medicine: row.medicine, dose: row.dose, of: row.of }, row.because.entries),
    );
  }
  return { reasons, to, placedBy: [...placedBy] };
};

interface RowsOfCow {
  readonly due: DryOffSheet['due'][number][];
  readonly out: FreshMovesSheet['out'][number][];
  readonly treat: TreatRow[];
}

/** What the other lists say of each cow, by where she stands and her number. */
const rowsByGroup = (lists: OtherLists): ReadonlyMap<string, ReadonlyMap<string, RowsOfCow>> => {
  const groups = new Map<string, Map<string, RowsOfCow>>();
  const of = (number: string, group: string): RowsOfCow => {
    const theirs = groups.get(group) ?? new Map<string, RowsOfCow>();
    groups.set(group, theirs);
    const have = theirs.get(number) ?? { due: [], out: [], treat: [] };
    theirs.set(number, have);
    return have;
  };
  for (const row of lists.dryOff.due) of(row.cow, row.group).due.push(row);
  for (const row of lists.fresh.out) of(row.cow, row.from).out.push(row);
  for (const row of lists.treat) of(row.cow, row.group).treat.push(row);
  return groups;
};

/** Wanted in several places at one milking: all are named on her row, and a person settles which. */
export const severalPlaces = (standings: readonly Standing[], moment: Moment, lists: OtherLists): Notice[] =>
  wantedAmong(standings, moment, lists).flatMap(({ standing, wanted: { to, placedBy } }): Notice[] => {
    if (to.size < 2) return [];
    const values = { cow: standing.number, places: [...to] };
    return [
      {
        key: `sort-several-places:${placedBy.join(':')}`,
        because: because('R-60', 'doubt.sort-several-places', values, placedBy),
      },
    ];
  });

/** An udder tube is given in the stall; every other dose wants her caught, and so does one whose route nobody wrote down. */
const wantsHerCaught = (row: TreatRow): boolean => {
  const route = row.route?.trim().toLowerCase();
  return route === undefined || !(route === 'udder' || route.startsWith('intramammary'));
};

const requestReason = (request: Request): Because => {
  const { reason, forWhom, to } = request.data;
  return because('R-60', 'sort.request', { reason, forWhom: forWhom ?? null, to: to ?? null }, [request.id]);
};

const openRequests = saidOfStandings(
  'open requests',
  (standing, moment, sorted: Sorted): readonly (readonly [Standing, readonly Request[]])[] => {
    const open = standing.file.cow.sortRequests.flatMap(({ entry }) =>
      isOpen(entry, moment, sorted) && !endedByLeaving(standing, entry, moment) ? [entry] : [],
    );
    return open.length === 0 ? [] : [[standing, open]];
  },
);

const endedByLeaving = (standing: Standing, request: Request, moment: CowMoment): boolean =>
  standing.file.cow.left.some((left) => left.at >= request.at && left.at <= moment.milking.start);

/** Begun, not past its end, and not said to be done. Done inside a milking, it stands on that one's list. */
const isOpen = (request: Request, moment: CowMoment, sorted: Sorted): boolean => {
  const { from, until } = request.data;
  const done = sorted.get(request.id);
  if (done !== undefined && done <= moment.milking.start) return false;
  const begins = from === undefined ? request.at : (moment.schedule.find(from)?.start ?? request.at);
  if (begins > moment.windowEnd || (from !== undefined && begins > moment.milking.start)) return false;
  return until === undefined || moment.milking.start <= lastInstant(until, moment);
};

/** The end of `until`: a milking's own start, a date's end, or an instant. */
const lastInstant = (until: string, moment: CowMoment): Instant => {
  if (parseInstant(until).ok) return mustBeInstant(until);
  if (parseLocalDay(until).ok) return (moment.schedule.on(until as LocalDay).at(-1)?.start ?? 0) as Instant;
  return moment.schedule.find(until)?.start ?? (Number.MAX_SAFE_INTEGER as Instant);
};

/** why a cow will not come through the gate at this milking. */
const wontCome = (standing: Standing, moment: Moment): Because | undefined => {
  const group = standing.group.name;
  if (moment.lookup.isMilked(group, moment.milking)) {
    return standing.inMilkDuring ? undefined : because('R-61', 'sort.cannot-dry', { group }, []);
  }
  return standing.inMilkDuring
    ? because('R-61', 'sort.cannot-not-milked', { group }, [])
    : because('R-61', 'sort.cannot-dry', { group }, []);
};

/** Somebody has found out which cow was meant. */
const isSettled = (known: Known, request: Request): boolean => known.farm.settled.has(unplacedKey(request.id));

/** Asked for after she had left. */
const goneBefore = (known: Known, moment: Moment): SortSheet['cannot'][number][] =>
  known.herd.afterLeaving.flatMap(({ entry, animal }) => {
    if (entry.type !== 'sort-request' || !isOpen(entry, moment, moment.farm.sorted) || isSettled(known, entry))
      return [];
    const file = known.files.find((each) => each.animal.key === animal.key);
    const left = file === undefined ? undefined : leavingOf(file.cow, moment);
    if (file === undefined || left === undefined) return [];
    return [
      {
        cow: numberAt(file.cow, left.at),
        because: because('R-61', 'sort.cannot-left', { left: moment.schedule.dayOf(left.at) }, [left.id]),
        reasons: [requestReason(entry)],
      },
    ];
  });

const ofNobody = (known: Known, moment: Moment): SortSheet['cannot'][number][] => {
  const gone = new Set(known.herd.afterLeaving.map(({ entry }) => entry.id));
  return known.herd.unplaced.flatMap(({ entry, how }) => {
    if (entry.type !== 'sort-request' || how !== 'not-in-herd' || gone.has(entry.id)) return [];
    if (!isOpen(entry, moment, moment.farm.sorted) || isSettled(known, entry)) return [];
    return [
      {
        cow: entry.subject ?? '',
        because: because('R-61', 'sort.cannot-unknown', {}, [entry.id]),
        reasons: [requestReason(entry)],
      },
    ];
  });
};
