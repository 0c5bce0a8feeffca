/** Doubts (what the book noticed and a person must settle) and alerts, each under a key that a `settled` entry ends. */
import { DAY, instantText } from '../shared/instant.ts';
import { daysBetween } from '../shared/local-day.ts';
import { byText } from '../shared/text-order.ts';
import { amongDry } from './among-dry.ts';
import { type Because, because } from './because.ts';
import { headAt, lastCount } from './counts.ts';
import { numberAt } from './cow.ts';
import { herdDoubts } from './herd-doubts.ts';
import { endText, latestEnd } from './hold-piece.ts';
import { saidFrom } from './kept-for-herd.ts';
import type { Known } from './know.ts';
import { type MomentAt, tankAlerts } from './late-news.ts';
import { meatHoldPieces } from './meat-hold.ts';
import { missedDoses } from './milk-hold.ts';
import type { Moment } from './moment.ts';
import { doseKey, leftOnHoldKey } from './notice-keys.ts';
import { oddHistories } from './odd-histories.ts';
import { pregnancyAt } from './pregnancy.ts';
import { type OtherLists, severalPlaces } from './sort.ts';
import type { Standing } from './standing.ts';
import { saidOfStandings } from './standings-in-order.ts';
import { twoLabels } from './two-labels.ts';
import { twoSetUps } from './two-set-ups.ts';
import { hasLeft, milkHoldOnLeaving, unplacedRows } from './unplaced.ts';
import type { Notice } from './views.ts';

/** Languages that the paper speaks; any other prints in English, with a doubt. */
export const LANGUAGES = ['en', 'es', 'fr', 'pl', 'uk'];

const PAST_DUE_DAYS = 7;
const LEFT_LOOK_BACK_DAYS = 365;

const unsettled = (known: Known, notices: readonly Notice[]): Notice[] => {
  const byKey = new Map(notices.map((notice) => [notice.key, notice]));
  return [...byKey.values()]
    .filter((notice) => !known.farm.settled.has(notice.key))
    .sort((a, b) => byText(a.key, b.key));
};

/** a cow that left on a milk or meat hold.: the tank. */
export const alertsAt = (known: Known, moment: Moment, momentAt: MomentAt): Notice[] =>
  unsettled(known, [
    ...tankAlerts(known, moment.schedule, moment.asOf, momentAt, moment),
    ...leftOnHold(known.files, moment, moment.milking.start - (LEFT_LOOK_BACK_DAYS + 3) * DAY),
  ]);

/** a cow that left on a hold within a year. */
const leftOnHold = saidFrom(
  'left on hold',
  (file, moment): readonly Notice[] =>
    file.cow.left.flatMap((left): Notice[] => {
      if (
        left.at > moment.windowEnd ||
        daysBetween(moment.schedule.dayOf(left.at), moment.milking.day) > LEFT_LOOK_BACK_DAYS
      )
        return [];
      const milk = milkHoldOnLeaving(file, moment, left.at);
      const meat = meatHoldPieces(file, moment, []).filter(
        (piece) => piece.began <= left.at && (piece.end === null || piece.end >= left.at),
      );
      if (milk.length === 0 && meat.length === 0) return [];
      const values = {
        cow: numberAt(file.cow, left.at),
        left: moment.schedule.dayOf(left.at),
        milkUntil: endText(latestEnd(milk) ?? null),
        meatUntil: endText(latestEnd(meat) ?? null),
        milk: milk.length > 0,
        meat: meat.length > 0,
        reason: left.data.reason,
      };
      const behind = [...new Set([...milk, ...meat].flatMap((piece) => piece.because.entries))];
      const reason = because('R-90', 'alert.left-on-hold', values, [left.id, ...behind]);
      return [{ key: leftOnHoldKey(left.id, behind), because: reason }];
    }),
  hasLeft,
);

export const doubtsAt = (known: Known, moment: Moment, standings: readonly Standing[], lists: OtherLists): Notice[] =>
  unsettled(known, [
    ...herdDoubts(known, moment),
    ...strikeDoubts(known, moment),
    ...asideDoubts(known),
    ...farmDoubts(known, moment),
    ...oddHistories(known.files, moment),
    ...ownDoubts(standings, moment),
    ...severalPlaces(standings, moment, lists),
  ]);

const strikeDoubts = (known: Known, moment: Moment): Notice[] => [
  ...known.strikes.ofNothing.map(
    (strike): Notice => ({
      key: `strike-of-nothing:${strike.id}`,
      because: because('R-23', 'doubt.strike-of-nothing', { entry: strike.data.entry }, [strike.id]),
    }),
  ),
  ...known.strikes.ofStrikes.map(
    (strike): Notice => ({
      key: `strike-of-strike:${strike.id}`,
      because: because('R-23', 'doubt.strike-of-strike', { entry: strike.data.entry }, [strike.id]),
    }),
  ),
  ...unplacedRows(known, moment).flatMap(({ key, because: said }): Notice[] => {
    if (said.key !== 'unplaced.dose-struck') return [];
    const { number, about, at } = said.values;
    return [{ key, because: because('R-23', 'doubt.struck-unplaced', { number, about, at }, said.entries) }];
  }),
  ...[...known.ids.twice].map(
    (id): Notice => ({
      key: `two-contents:${id}`,
      because: because('R-27', 'doubt.one-id-two-contents', { id }, [id]),
    }),
  ),
];

const asideDoubts = (known: Known): Notice[] =>
  known.asides.map((aside) => ({
    key: aside.key,
    because: because(
      'R-27',
      'doubt.set-aside',
      { problem: aside.problem, cows: [...aside.cows] },
      aside.id === undefined ? [] : [aside.id],
    ),
  }));

const farmDoubts = (known: Known, moment: Moment): Notice[] => {
  const setUp = moment.schedule.inForceOn(moment.milking.day);
  const strange = (setUp.data.languages ?? []).filter(
    (language) => !LANGUAGES.includes(language.split('-')[0]?.toLowerCase() ?? ''),
  );
  return [
    ...strange.map(
      (language): Notice => ({
        key: `unknown-language:${language}`,
        because: because('R-02', 'doubt.unknown-language', { language }, [setUp.id]),
      }),
    ),
    ...twoLabels(known.farm.listings),
    ...twoSetUps(moment.schedule),
    ...moment.groups.flatMap((group): Notice[] => {
      const count = lastCount(known, moment, group);
      if (count === undefined) return [];
      const book = headAt(known, group, count.at);
      if (book === count.data.count) return [];
      const values = { group: group.name, count: count.data.count, book, at: instantText(count.at) };
      return [{ key: `head-count:${count.id}`, because: because('R-70', 'doubt.head-count', values, [count.id]) }];
    }),
  ];
};

/** What sits oddly in how a cow stands at this milking. */
const ownDoubts = saidOfStandings('odd standings', (standing, moment): readonly Notice[] => {
  const { number: cow, group, file } = standing;
  const notices: Notice[] = [];
  const add = (key: string, reason: Because) => notices.push({ key, because: reason });
  if (standing.stretch?.begun === 'assumed') {
    const entries = standing.stretch.entries;
    add(
      `milk-not-stated:${entries[0] ?? file.cow.key}`,
      because('R-06', 'doubt.milk-not-stated', { cow, group: group.name }, entries),
    );
  }
  // Where the farm milks such a group, cows in milk may well stand in it.
  const dry = group.milkedAt === undefined || group.milkedAt.length === 0 ? amongDry(standing, moment) : undefined;
  if (dry !== undefined) {
    const values = { cow, group: group.name, since: dry.since };
    add(`among-dry:${dry.entries.join(':')}`, because('R-06', 'doubt.among-dry', values, dry.entries));
  }
  if (group.kind === 'unknown') {
    const placed = file.cow.placements.findLast((placement) => placement.group === group.name);
    add(
      `unknown-group:${file.cow.key}:${group.name}`,
      because('R-70', 'doubt.unknown-group', { cow, group: group.name }, placed === undefined ? [] : [placed.entry]),
    );
  }
  for (const dosing of file.dosings) {
    const { course } = dosing;
    if (course === undefined) continue;
    for (const { dose } of missedDoses(dosing, moment)) {
      const values = { cow, medicine: dosing.medicine, dose, of: course.of };
      add(
        doseKey(file.cow.key, course, dose),
        because(
          'R-17',
          'doubt.dose-not-recorded',
          values,
          dosing.doses.map((each) => each.id),
        ),
      );
    }
  }
  const pregnancy = pregnancyAt(file.cow, moment.schedule, moment.windowEnd);
  if (pregnancy.confirmed && pregnancy.due !== null) {
    const days = daysBetween(pregnancy.due, moment.milking.day);
    if (days >= PAST_DUE_DAYS) {
      add(
        `past-due:${file.cow.key}:${pregnancy.due}`,
        because('R-46', 'doubt.past-due', { cow, due: pregnancy.due, days }, pregnancy.entries),
      );
    }
  }
  return notices;
});
