/** The farm's fresh hold after calving, and before a cow is due. */
import type { FarmSetUp } from '../events/kinds/farm-set-up.ts';
import { type Instant, instantText } from '../shared/instant.ts';
import { addDays } from '../shared/local-day.ts';
import { because } from './because.ts';
import { presentAt } from './cow.ts';
import type { CowFile } from './cow-file.ts';
import { type HoldPiece, latestEnd } from './hold-piece.ts';
import { laterIfLonger } from './label.ts';
import { type HoldLength, holdEnd, type NthMilking } from './milking-count.ts';
import type { CowMoment } from './moment.ts';
import { pregnancyAt } from './pregnancy.ts';
import { type Schedule, type SetUp, setUpsTogether } from './schedule.ts';
import type { Past } from './settled-past.ts';
import { calvingSaid, type Stretch } from './stretch.ts';

/** R-20, from each calving: a cow that left and came back is still on the hold of the calving before. */
export const freshPieces = (file: CowFile, moment: CowMoment, past: Past): readonly HoldPiece[] => {
  for (const { from } of file.lactations.stretches) past.lookedAt(from);
  const pieces = file.lactations.stretches
    .filter((stretch) => stretch.from <= moment.windowEnd)
    .flatMap((stretch) => past.settled(stretch, 'fresh', () => freshPieceOf(stretch, file, moment, past.nth)));
  // Where the farm has set none, her last calving says it for all of them.
  const notSet = pieces.findLast((piece) => piece.because.key === 'hold.fresh-not-set');
  return pieces.filter((piece) => piece === notSet || piece.because.key !== 'hold.fresh-not-set');
};

const freshPieceOf = (stretch: Stretch, file: CowFile, moment: CowMoment, nth: NthMilking): HoldPiece[] => {
  if (stretch.calved === null) return [];
  const { calved } = stretch;
  const common = { began: stretch.from, cause: 'fresh' as const };
  const { atOnce, after } = freshRules(moment.schedule, calved);
  if (atOnce.length === 0) {
    // A cow that came with a statement of her running holds is not held again for a calving before she came.
    const stated =
      !presentAt(file.cow, calved) &&
      file.cow.entered.some((entry) => entry.at >= calved && entry.data.milkHoldUntil !== undefined);
    const reason = because('R-20', 'hold.fresh-not-set', calvingSaid({ ...stretch, calved }), stretch.entries);
    return stated ? [] : [{ ...common, end: null, because: reason }];
  }
  const outcomeOf = (setUp: SetUp) => {
    const length = freshLength(setUp.data);
    const { end } = holdEnd(length, calved, nth, false);
    const values = {
      ...calvingSaid({ ...stretch, calved }),
      hours: length.hours ?? null,
      milkings: length.milkings ?? null,
      ends: end === null ? null : instantText(end),
    };
    return { end, because: because('R-20', 'hold.fresh', values, [...stretch.entries, setUp.id]) };
  };
  const { outcome } = laterIfLonger([
    ...atOnce.map((setUp) => ({ since: calved, outcome: outcomeOf(setUp) })),
    ...after.map((setUp) => ({ since: setUp.zone.startOfDay(setUp.from), outcome: outcomeOf(setUp) })),
  ]);
  return [{ ...common, end: outcome.end, because: outcome.because }];
};

/**
 * The set-ups whose fresh hold governs a calving: those in force then, else the first later ones that set one; and those
 * after them. Of several made at one time nobody knows which is right: all of them are in force.
 */
const freshRules = (
  schedule: Schedule,
  calved: Instant,
): { readonly atOnce: readonly SetUp[]; readonly after: readonly SetUp[] } => {
  const inForce = setUpsTogether(schedule, schedule.inForceAt(calved));
  const later = schedule.setUps.filter(
    (setUp) => isFreshHoldSet(setUp.data) && setUp.zone.startOfDay(setUp.from) > calved && !inForce.includes(setUp),
  );
  const [next] = later;
  const setThen = inForce.filter((setUp) => isFreshHoldSet(setUp.data));
  if (setThen.length === inForce.length) return { atOnce: inForce, after: later };
  // One that sets none is an open question until a later one answers it.
  if (next === undefined) return { atOnce: [], after: [] };
  const answers = setUpsTogether(schedule, next).filter((setUp) => later.includes(setUp));
  return { atOnce: [...setThen, ...answers], after: later.filter((setUp) => !answers.includes(setUp)) };
};

/** When a cow that nobody knows is free of her fresh hold by herself; null: without end. */
export const freshEndOfAnyCow = (calved: Instant, schedule: Schedule, nth: NthMilking): Instant | null =>
  latestEnd(
    setUpsTogether(schedule, schedule.inForceAt(calved)).map(({ data }) =>
      isFreshHoldSet(data) ? holdEnd(freshLength(data), calved, nth, false) : { end: null },
    ),
  ) ?? null;

const freshLength = ({ freshHold }: FarmSetUp): HoldLength => ({
  hours: freshHold?.hours,
  milkings: freshHold?.milkings,
});

const isFreshHoldSet = (data: FarmSetUp): boolean =>
  data.freshHold?.hours !== undefined || data.freshHold?.milkings !== undefined;

/** a cow still milked close to her due date. */
export const beforeDuePieces = (file: CowFile, moment: CowMoment): HoldPiece[] => {
  const { schedule, milking } = moment;
  const days = Math.max(
    ...setUpsTogether(schedule, schedule.inForceOn(milking.day)).map(
      ({ data }) => data.freshHold?.daysBeforeDue ?? NEVER,
    ),
  );
  if (days === NEVER) return [];
  const pregnancy = pregnancyAt(file.cow, schedule, moment.windowEnd);
  if (!pregnancy.confirmed || pregnancy.due === null || milking.day < addDays(pregnancy.due, -days)) return [];
  return [
    {
      began: 0 as Instant,
      end: null,
      cause: 'fresh',
      because: because('R-20', 'hold.before-due', { due: pregnancy.due, days }, pregnancy.entries),
    },
  ];
};

/** No days said. */
const NEVER = Number.NEGATIVE_INFINITY;
