/**
 * Has something come in that makes the paper on the wall wrong? Did a milking start with no paper at all?
 * Sheets are judged by what they said, not by when anything arrived: the same entries give the same alerts.
 */
import { z } from 'zod';
import type { Aside, EntryOf } from '../events/entry.ts';
import { DAY, earlier, type Instant, instantText } from '../shared/instant.ts';
import { type Because, because, type TankLoadSaid } from './because.ts';
import type { CowFile } from './cow-file.ts';
import { isMilkedAt } from './groups.ts';
import { byWeight, endText, type HoldPiece, latestEnd } from './hold-piece.ts';
import type { Known } from './know.ts';
import { lateRows, type Nobodys, nobodysOf } from './late-unplaced.ts';
import { sampledAt } from './milk-hold.ts';
import { isThere, type Moment, openFrom } from './moment.ts';
import { lateNewsKey, lateUnplacedKey, noSheetKey, tankPositiveKey } from './notice-keys.ts';
import { type Candidate, type Reach, reachOf } from './reach.ts';
import { remembered } from './remembered.ts';
import type { Milking, Schedule } from './schedule.ts';
import { asidesByCow, bearersOnSheet, type Standing, standingOf } from './standing.ts';
import { loadOfCollection, loadsFetched, loadsOf, ONLY_TANK, openLoads } from './tank.ts';
import type { Notice } from './views.ts';
import { windowEndOf } from './window.ts';

type Issue = EntryOf<'sheet-issued'>;

export type MomentAt = (milking: Milking) => Moment;

const unplacedSaid = z.looseObject({ unplaced: z.array(z.looseObject({ key: z.string() })) });
const heldCows = z.looseObject({ held: z.array(z.looseObject({ cow: z.string() })) });

/** Within these days every cow is looked at; further back only those with a hold that reaches the milking. */
export const LOOKED_AT_WHOLE = 3 * DAY;
/** Milkings without a sheet are looked for this far back. */
export const NO_SHEET_LOOK_BACK = 60 * DAY;

/** as of an instant. `momentAt` gives the moment of any milking. */
export const tankAlerts = (
  known: Known,
  schedule: Schedule,
  asOf: Instant,
  momentAt: MomentAt,
  now: Moment,
): Notice[] => {
  const issued = issuedMilkings(known, schedule);
  const without = startedWithoutSheet(schedule, issued, asOf);
  const milkings = [...issued.map(({ milking }) => milking), ...without];
  const reach = milkings.length === 0 ? () => [] : reachOf(known, now, milkings);
  const held = milkings.length === 0 ? [] : heldAsides(known);
  const nobodys = issued.length === 0 ? [] : nobodysOf(known, now);
  const looking: Looking = { known, schedule, asOf, momentAt, reach, held, nobodys };
  return [
    ...issued.flatMap(({ milking, issues }) => lateNews(looking, milking, issues)),
    ...without.flatMap((milking) => noSheet(looking, milking)),
    ...positiveTanks(known, schedule),
  ];
};

interface Looking {
  readonly known: Known;
  readonly schedule: Schedule;
  readonly asOf: Instant;
  readonly momentAt: MomentAt;
  readonly reach: Reach;
  readonly held: readonly HeldAside[];
  readonly nobodys: readonly Nobodys[];
}

/** A cow that something set aside may concern, and since when. */
interface HeldAside {
  readonly file: CowFile;
  readonly since: Instant;
}

/** What was set aside bears on the milkings since the time it speaks of, and on those that come after it. */
const sinceOf = (aside: Aside): Instant => aside.since ?? aside.recordedAt;

const heldAsides = (known: Known): readonly HeldAside[] => {
  if (known.asides.length === 0) return [];
  const asides = asidesByCow(known);
  return known.files.flatMap((file): HeldAside[] => {
    const hers = asides.get(file.cow.key) ?? [];
    return hers.length === 0 ? [] : [{ file, since: Math.min(...hers.map(sinceOf)) as Instant }];
  });
};

interface IssuedMilking {
  readonly milking: Milking;
  readonly issues: readonly Issue[];
}

const issuedMilkings = (known: Known, schedule: Schedule): IssuedMilking[] => {
  const byMilking = new Map<string, Issue[]>();
  for (const issue of known.farm.issued) {
    const have = byMilking.get(issue.data.milking);
    if (have === undefined) byMilking.set(issue.data.milking, [issue]);
    else have.push(issue);
  }
  return [...byMilking].flatMap(([id, issues]) => {
    const milking = schedule.findEver(id);
    return milking === undefined ? [] : [{ milking, issues }];
  });
};

/** The cows held at a milking by all that is known now, `listed` ones left out. */
const heldAt = (
  { known, schedule, asOf, momentAt, reach, held }: Looking,
  milking: Milking,
  isListed: (file: CowFile) => boolean = () => false,
): Standing[] => {
  const whole = asOf - milking.start <= LOOKED_AT_WHOLE;
  const open = whole
    ? openFrom(known.files, milking.start).filter((file) => !isListed(file))
    : reachedAt(milking, reach(milking), held, isListed, () => windowEndOf(known, schedule, milking));
  // What began between this milking and the next is no news of it: most often that is all there is.
  if (open.length === 0) return [];
  const moment = momentAt(milking);
  const { windowEnd } = moment;
  const files = open.filter((file) => isThere(file.cow, moment));
  const asides = asidesByCow({ ...known, asides: known.asides.filter((aside) => sinceOf(aside) <= windowEnd) });
  return files
    .map((file) => standingOf(file, moment, asides.get(file.cow.key) ?? []))
    .filter((standing) => standing.held && mayBeMilked(standing, moment));
};

/** In a group that is milked at other milkings only, she put nothing into this one's load; unless its name is another by now. */
const mayBeMilked = ({ group }: Standing, { milking, schedule }: Moment): boolean =>
  group.milkedAt === undefined || isMilkedAt(group, milking.name) || schedule.find(milking.id) === undefined;

const reachedAt = (
  { start }: Milking,
  candidates: readonly Candidate[],
  held: readonly HeldAside[],
  isListed: (file: CowFile) => boolean,
  windowEnd: () => Instant,
): readonly CowFile[] => {
  const open = candidates.filter(({ file }) => !isListed(file));
  const asides = held.filter(({ file }) => !isListed(file));
  const isLater = open.some(({ began }) => began > start) || asides.some(({ since }) => since > start);
  const end = isLater ? windowEnd() : start;
  return [
    ...new Set([
      ...open.flatMap(({ file, began }) => (began <= end ? [file] : [])),
      ...asides.flatMap(({ file, since }) => (since <= end ? [file] : [])),
    ]),
  ];
};

const lateNews = (looking: Looking, milking: Milking, issues: readonly Issue[]): Notice[] => {
  const { known, schedule, asOf, momentAt } = looking;
  const before = issues.filter((issue) => issue.at <= milking.start).at(-1);
  // Nobody had a sheet at its start: the first one issued later is what they had; R-32 says the rest.
  const onWall = milking.start > asOf ? issues.at(-1) : (before ?? issues[0]);
  if (onWall === undefined) return [];
  const missing = heldAt(looking, milking, isOn(known, schedule, onWall, milking)).filter(
    (standing) => !standing.running.every((piece) => isOfHerDryOff(piece, standing, momentAt(milking))),
  );
  const nobodys = lateRows(
    known,
    looking.nobodys,
    milking,
    () => rowsOn(onWall),
    () => momentAt(milking),
  );
  if (missing.length === 0 && nobodys.length === 0) return [];
  const phase = milking.start > asOf ? 'before' : momentAt(milking).hasEnded(milking) ? 'over' : 'running';
  const loads = phase === 'before' ? [] : loadsSaid(known, schedule, milking);
  const ofNobody = nobodys.map(({ key, about, row }): Notice => {
    const values = {
      number: row.number ?? '',
      about,
      milking: milking.id,
      phase,
      loads,
      ref: onWall.data.ref,
    } as const;
    const reason = because('R-31', 'alert.late-unplaced', values, [...row.because.entries, onWall.id]);
    return { key: lateUnplacedKey(milking.id, key), because: reason };
  });
  const ofCows = missing.map((standing): Notice => {
    const entries = [...new Set(standing.running.flatMap((piece) => piece.because.entries))].sort();
    // What holds her longest: by that the alert says until when.
    const leading = standing.running.toSorted(byWeight)[0]?.because;
    const values = {
      cow: standing.number,
      milking: milking.id,
      phase,
      until: endText(latestEnd(standing.running) ?? null),
      about: aboutOf(leading),
      loads,
      ref: onWall.data.ref,
    } as const;
    return {
      key: lateNewsKey(milking.id, standing.file.cow.key, [...entries, ...standing.asides.map(({ key }) => key)]),
      because: because('R-31', 'alert.late-news', values, [...entries, onWall.id]),
    };
  });
  return [...ofCows, ...ofNobody];
};

/** Keys of the rows that headed the milk-hold sheet of an issue. */
const rowsOn = remembered((issue: Issue): ReadonlySet<string> => {
  const sheet = issue.data.sheets.find((each) => each.sheet === 'milk-hold');
  const rows = unplacedSaid.safeParse(sheet?.content);
  return new Set(rows.success ? rows.data.unplaced.map(({ key }) => key) : []);
});

/**
 * The product that a dry-off in this milking itself names: it is given when she has been milked for the last time, so it was
 * not in that milk. A dose that is written down by itself may have been given before she was milked.
 */
const isOfHerDryOff = (piece: HoldPiece, { file }: Standing, { milking, windowEnd }: Moment): boolean => {
  const doses = new Set(file.cow.treatments.map(({ entry }) => entry.id));
  return (
    file.cow.dryOffs.some(
      ({ id, at }) =>
        at >= milking.start && at <= windowEnd && piece.began === at && piece.because.entries.includes(id),
    ) && !piece.because.entries.some((id) => doses.has(id))
  );
};

/** What holds her, in a word: the medicine, else the key of the reason. */
const aboutOf = (reason: Because | undefined): string => {
  if (reason === undefined) return '';
  return 'medicine' in reason.values
    ? reason.values.medicine
    : reason.key.startsWith('hold.fresh')
      ? 'calving'
      : 'milk-hold';
};

/** Did the milk-hold sheet of an issue list a cow, by the number she bore? */
const isOn = (known: Known, schedule: Schedule, issue: Issue, milking: Milking): ((file: CowFile) => boolean) => {
  const numbers = numbersOn(issue);
  const made = earlier(issue.at, milking.start);
  return ({ cow }) =>
    cow.spans.some(({ number, from, to }) => {
      if (!numbers.has(number)) return false;
      if (from <= made && (to === null || to >= made)) return true;
      // She may have got it inside the milking, or given it up before for all that is known now: unless another bore it then.
      return bearersOnSheet(known, schedule, number, milking, made).includes(cow.key);
    });
};

/** The numbers on the milk-hold sheet of an issue. */
const numbersOn = remembered((issue: Issue): ReadonlySet<string> => {
  const sheet = issue.data.sheets.find((each) => each.sheet === 'milk-hold');
  const rows = heldCows.safeParse(sheet?.content);
  return new Set(rows.success ? rows.data.held.map((row) => row.cow) : []);
});

const loadsSaid = (known: Known, schedule: Schedule, milking: Milking): TankLoadSaid[] =>
  loadsOf(known, schedule, milking).map(({ tank, collection }) => ({
    tank,
    collectedAt: collection === null ? null : instantText(collection.at),
    ticket: collection?.data.ticket ?? null,
  }));

/** R-32, from the book's first issue on: milkings that started with no sheet. */
const startedWithoutSheet = (
  schedule: Schedule,
  issued: readonly IssuedMilking[],
  asOf: Instant,
): readonly Milking[] => {
  const first = issued.reduce<Instant | undefined>(
    (earliest, { milking }) => (earliest === undefined || milking.start < earliest ? milking.start : earliest),
    undefined,
  );
  if (first === undefined) return [];
  const had = new Set(
    issued.flatMap(({ milking, issues }) => (issues.some((issue) => issue.at <= milking.start) ? [milking.id] : [])),
  );
  const without: Milking[] = [];
  const from = Math.max(first, asOf - NO_SHEET_LOOK_BACK) as Instant;
  for (const milking of schedule.after((from - 1) as Instant)) {
    if (milking.start > asOf) break;
    if (!had.has(milking.id)) without.push(milking);
  }
  return without;
};

const noSheet = (looking: Looking, milking: Milking): Notice[] => {
  const held = heldAt(looking, milking);
  if (held.length === 0) return [];
  const values = {
    milking: milking.id,
    cows: held.map((standing) => standing.number),
    loads: loadsSaid(looking.known, looking.schedule, milking),
  };
  const entries = [...new Set(held.flatMap((standing) => standing.running.flatMap((piece) => piece.because.entries)))];
  return [{ key: noSheetKey(milking.id, entries), because: because('R-32', 'alert.no-sheet', values, entries) }];
};

const positiveTests = remembered((tests: Known['farm']['tankTests']) =>
  tests.filter((test) => test.data.result === 'positive'),
);
const positiveCollections = remembered((collections: Known['farm']['collections']) =>
  collections.filter((collection) => collection.data.residueTest === 'positive'),
);

/** A sample that was drawn before is seldom older when its result comes (common practice, no source). */
const FETCHED_BEFORE = 3 * DAY;

/** a positive test of the tank, by itself or on a collection. */
const positiveTanks = (known: Known, schedule: Schedule): Notice[] => {
  const tests = positiveTests(known.farm.tankTests);
  const collections = positiveCollections(known.farm.collections);
  return [
    // A test does not name its tank: with several, what stood in any of them when the sample was drawn may be it.
    ...tests.flatMap((test) => {
      const sampled = sampledAt({ entry: test });
      const open = openLoads(known, schedule, sampled);
      // When it was drawn is not said: what was fetched before the result came may be the load that it speaks of.
      const fetched = test.data.sampledAt === undefined ? loadsFetched(known, schedule, sampled, FETCHED_BEFORE) : [];
      return [...open, ...fetched].map((load): Notice => {
        const values = {
          tank: load.tank,
          at: instantText(sampled),
          milkings: load.milkings.map((milking) => milking.id),
          collectedAt: load.collection === null ? null : instantText(load.collection.at),
        };
        const one = open.length > 1 ? load.tank : undefined;
        const key = tankPositiveKey(test.id, fetched.includes(load) ? load.collection?.id : one);
        return { key, because: because('R-32', 'alert.tank-positive', values, [test.id]) };
      });
    }),
    ...collections.map((collection): Notice => {
      const load = loadOfCollection(known, schedule, collection);
      const values = {
        tank: collection.data.tank ?? ONLY_TANK,
        at: instantText(collection.at),
        milkings: load.milkings.map((milking) => milking.id),
        collectedAt: instantText(collection.at),
      };
      return {
        key: tankPositiveKey(collection.id),
        because: because('R-32', 'alert.tank-positive', values, [collection.id]),
      };
    }),
  ];
};
