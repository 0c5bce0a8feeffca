/** Everything that goes on paper for one milking, from what is known: pure, and the same for the same entries in any order. */
import { type Instant, instantText } from '../shared/instant.ts';
import { weekdayOf } from '../shared/local-day.ts';
import { beefHoldSheet } from './beef-hold.ts';
import { countsSheet } from './counts.ts';
import { groupAt, groupsEver } from './cow.ts';
import { dryOffSheet } from './dry-off.ts';
import type { Farm } from './farm.ts';
import { freshMovesSheet } from './fresh-moves.ts';
import { isMilkedAt } from './groups.ts';
import { lookThroughClosed } from './kept-for-herd.ts';
import type { Known } from './know.ts';
import type { MomentAt } from './late-news.ts';
import { milkHoldSheet } from './milk-hold-sheet.ts';
import { type Moment, nextAfter, openFrom } from './moment.ts';
import { namesEver } from './names-ever.ts';
import { alertsAt, doubtsAt } from './notices.ts';
import { planOf } from './plan.ts';
import { remembered } from './remembered.ts';
import type { Milking, Schedule } from './schedule.ts';
import { sortSheet } from './sort.ts';
import type { Standing } from './standing.ts';
import { standingsAt } from './standings.ts';
import type { FarmOnPaper, Views } from './views.ts';
import { endedBy, groupsAt, inMilkByGroup, windowEndOf } from './window.ts';

export interface Asked {
  readonly milking: Milking;
  /** When the asking is done: what was due before it and is not recorded is overdue. */
  readonly asOf: Instant;
  /** Entries of the log that `known` was made from. */
  readonly position: number;
}

/** The moment of a milking; undefined while no farm is set up. */
export const momentOf = (known: Known, asked: Asked): Moment | undefined => {
  const { schedule } = known.farm;
  if (schedule === undefined || known.lookup === undefined) return undefined;
  const { milking, asOf } = asked;
  const moments = momentsKept(known.farm);
  const key = `${milking.id} ${asOf}`;
  const have = moments.get(key);
  if (have !== undefined) return have;
  const moment = momentMade(known, schedule, known.lookup, milking, asOf);
  if (moments.size >= MOST_MOMENTS) moments.clear();
  moments.set(key, moment);
  return moment;
};

const MOST_MOMENTS = 16;

/** A page asks about the same moment many times over; a farm as folded goes with one herd. */
const momentsKept = remembered((_: Farm): Map<string, Moment> => new Map());

/** Every group that a cow was ever put in. */
export const groupsEverOf = namesEver('groups ever', groupsEver);

const momentMade = (
  known: Known,
  schedule: Schedule,
  lookup: Moment['lookup'],
  milking: Milking,
  asOf: Instant,
): Moment => {
  lookThroughClosed(known.files, known.farm);
  const windowEnd = windowEndOf(known, schedule, milking);
  const listed = new Set(lookup.groups(milking).flatMap(({ name, was }) => [name, ...was]));
  const someStrange = [...groupsEverOf(known.files)].some((name) => !listed.has(name));
  const standing = someStrange
    ? openFrom(known.files, milking.start).flatMap((file) => groupAt(file.cow, windowEnd) ?? [])
    : [];
  const ended = new Map<string, boolean>();
  return {
    farm: known.farm,
    schedule,
    lookup,
    milking,
    groups: sameGroups(
      schedule,
      standing.length === 0 ? lookup.groups(milking) : groupsAt(schedule, milking, standing),
    ),
    windowEnd,
    asOf,
    hasEnded: (each) => {
      const have = ended.get(each.id);
      if (have !== undefined) return have;
      const is = endedBy(known, schedule, each, asOf);
      ended.set(each.id, is);
      return is;
    },
  };
};

/** The same groups are the same list, so that what was worked out by them need not be again. */
const sameGroups = (schedule: Schedule, groups: Moment['groups']): Moment['groups'] => {
  const { byText, byList } = groupLists(schedule);
  const known = byList.get(groups);
  if (known !== undefined) return known;
  const key = JSON.stringify(groups);
  const have = byText.get(key) ?? groups;
  byText.set(key, have);
  byList.set(groups, have);
  return have;
};

const groupLists = remembered((_: Schedule) => ({
  byText: new Map<string, Moment['groups']>(),
  byList: new WeakMap<Moment['groups'], Moment['groups']>(),
}));

/** The sheets, alerts and doubts for one milking. Throws where no farm is set up: ask `momentOf` first. */
export const viewsAt = (known: Known, asked: Asked): Views => {
  const moment = momentOf(known, asked);
  if (moment === undefined) throw new Error('No farm is set up in this book');
  const standings = standingsAt(known, moment);
  const sheets = sheetsFor(known, moment, standings);
  const { milking, schedule } = moment;
  const next = nextAfter(moment);
  return {
    milking: named(milking),
    nextMilking: next === undefined ? null : named(next),
    asOf: instantText(asked.asOf),
    position: asked.position,
    farm: farmOnPaper(schedule, milking),
    alerts: alertsAt(known, moment, momentsOf(known, moment)),
    doubts: doubtsAt(known, moment, standings, listsOf(sheets)),
    sheets,
    notReturned: notReturned(known, moment),
  };
};

/** The sheets for these cows. */
export const sheetsFor = (known: Known, moment: Moment, standings: readonly Standing[]): Views['sheets'] => {
  const milkHold = milkHoldSheet(known, moment, standings);
  const dryOff = dryOffSheet(moment, standings);
  const fresh = freshMovesSheet(moment, standings);
  const lists = { dryOff, fresh, treat: milkHold.treat };
  return {
    'milk-hold': milkHold,
    'dry-off': dryOff,
    'fresh-moves': fresh,
    sort: sortSheet(known, moment, standings, lists),
    counts: countsSheet(known, moment, standings),
    'milking-plan': planSheet(known, moment),
    'beef-hold': beefHoldSheet(moment, standings),
  };
};

const listsOf = (sheets: Views['sheets']) => ({
  dryOff: sheets['dry-off'],
  fresh: sheets['fresh-moves'],
  treat: sheets['milk-hold'].treat,
});

/** The moments of other milkings, asked as of the same time; each worked out once. */
const momentsOf = (known: Known, moment: Moment): MomentAt => {
  const have = new Map<string, Moment>([[moment.milking.id, moment]]);
  return (milking) => {
    const found = have.get(milking.id) ?? momentOf(known, { milking, asOf: moment.asOf, position: 0 });
    if (found === undefined) return moment;
    have.set(milking.id, found);
    return found;
  };
};

/** The last set of each earlier milking, where nobody has said that it came back. */
const notReturned = (known: Known, moment: Moment): Views['notReturned'] => {
  const last = new Map<string, string>();
  for (const { data } of known.farm.issued) {
    const milking = moment.schedule.findEver(data.milking);
    if (milking !== undefined && milking.start < moment.milking.start) last.set(data.milking, data.ref);
  }
  return [...last].filter(([, ref]) => !known.farm.returned.has(ref)).map(([milking, ref]) => ({ ref, milking }));
};

const named = (milking: Milking) => ({ id: milking.id, start: instantText(milking.start) });

const planSheet = (known: Known, moment: Moment) => {
  const { milking, schedule, groups } = moment;
  const milked = groups.filter((group) => isMilkedAt(group, milking.name));
  return planOf(milking, schedule.inForceOn(milking.day), milked, inMilkByGroup(known, schedule, milking));
};

const farmOnPaper = (schedule: Schedule, milking: Milking): FarmOnPaper => {
  const { data } = schedule.inForceOn(milking.day);
  const to =
    typeof data.milkTo === 'string'
      ? { treated: data.milkTo, fresh: data.milkTo, abnormal: data.milkTo }
      : (data.milkTo ?? {});
  return {
    name: data.name,
    timeZone: data.timeZone,
    paper: data.paper ?? 'A4',
    languages: data.languages ?? ['en'],
    mark: data.mark ?? null,
    milkTo: { treated: to.treated ?? null, fresh: to.fresh ?? null, abnormal: to.abnormal ?? null },
    chores: { before: data.chores?.before ?? [], after: data.chores?.after ?? [] },
    footBath: (data.footBath ?? []).includes(weekdayOf(milking.day)),
    phones: data.phones ?? [],
  };
};
