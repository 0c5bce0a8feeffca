/** Every reason to hold one cow's milk at a milking. Which of them are running is asked with `holdsAt`. */

import type { Aside } from '../events/entry.ts';
import type { FarmSetUp } from '../events/kinds/farm-set-up.ts';
import { earlier, type Instant, instantText, mustBeInstant } from '../shared/instant.ts';
import { addDays } from '../shared/local-day.ts';
import { type Because, because, type MayBe } from './because.ts';
import { nearestDue } from './course-due.ts';
import { type Hers, presentAt } from './cow.ts';
import type { CowFile } from './cow-file.ts';
import type { Dosing } from './dosing.ts';
import { calvingsAfter, dryCowPieces, notStatedPieces } from './dry-cow-hold.ts';
import { isNamed } from './groups.ts';
import type { HoldPiece } from './hold-piece.ts';
import { keptForCow } from './kept-for-cow.ts';
import { laterIfLonger } from './label.ts';
import { lactationAt, stretchAt } from './lactation.ts';
import { holdEnd, type NthMilking } from './milking-count.ts';
import { type CowMoment, inMilkDuring, standsIn } from './moment.ts';
import { withOthers } from './other-cow.ts';
import { pregnancyAt } from './pregnancy.ts';
import { rememberedInRoom } from './remembered.ts';
import { type Past, pastOf, settledOf } from './settled-past.ts';
import { calvingSaid, type Stretch, TWO_DAYS } from './stretch.ts';
import { type DosedAnimal, milkHoldOf } from './treatment-hold.ts';

/** When a test's milk was drawn: what it says is about that milk. Never after the result was there, whatever was written. */
export const sampledAt = ({ entry }: Pick<Hers<'residue-test'>, 'entry'>): Instant =>
  entry.data.sampledAt === undefined ? entry.at : earlier(mustBeInstant(entry.data.sampledAt), entry.at);

/** `asides`: things set aside that may concern her. */
export const milkHoldPieces = (file: CowFile, moment: CowMoment, asides: readonly Aside[]): readonly HoldPiece[] => {
  const own = withOthers(file, moment, 'hold.may-be-her', ownPieces);
  return asides.length === 0 ? own : [...asides.map((aside) => asidePiece(aside)), ...own];
};

/** Sheets, alerts and doubts all ask for them. Most cows have none but those of their past. */
const ownPieces = (file: CowFile, moment: CowMoment): readonly HoldPiece[] => {
  const settled = settledOf<Lasting>(file, moment, file, 'all');
  return settled !== undefined && isUsual(file, moment) ? settled.all : piecesAt(file, moment);
};

/** Nothing holds her for how she stands at this milking. */
const isUsual = (file: CowFile, moment: CowMoment): boolean =>
  dryInMilkedGroup(file, moment).length === 0 && beforeDuePieces(file, moment).length === 0;

const piecesAt = keptForCow((file, moment): readonly HoldPiece[] => {
  const past = pastOf(file, moment);
  const { before, after } = past.settled(file, 'all', () => lastingPieces(file, moment, past));
  return [...dryInMilkedGroup(file, moment), ...before, ...beforeDuePieces(file, moment), ...after];
});

/** The reasons that do not hang on how she stands at a milking; a cow still milked before she is due comes in between. */
interface Lasting {
  readonly before: readonly HoldPiece[];
  readonly after: readonly HoldPiece[];
  readonly all: readonly HoldPiece[];
}

const lastingPieces = (file: CowFile, moment: CowMoment, past: Past): Lasting => {
  const animal = dosedAnimal(file, moment, past.nth);
  const before = [
    ...file.dosings.flatMap((dosing) => [
      ...dosingPiecesOf(dosing, moment, animal, past),
      ...dryCowPiecesOf(dosing, file, moment, past),
    ]),
    ...notStatedPieces(file, moment, sampledAt),
    ...freshPieces(file, moment, past),
  ];
  const after = [...personPieces(file), ...residuePieces(file), ...enteredPieces(file)];
  return { before, after, all: [...before, ...after] };
};

/** Doses that are missed depend on the moment; without a course that runs there are none but gaps. */
const dosingPiecesOf = (dosing: Dosing, moment: CowMoment, animal: DosedAnimal, past: Past): readonly HoldPiece[] => {
  if (dosing.course?.running !== true) return past.settled(dosing, 'milk', () => dosingPieces(dosing, moment, animal));
  past.lookedAt(NEVER_PAST);
  return dosingPieces(dosing, moment, animal);
};

/** Until she has calved, what holds her depends on the moment. */
const dryCowPiecesOf = (dosing: Dosing, file: CowFile, moment: CowMoment, past: Past): readonly HoldPiece[] => {
  const { farm } = moment;
  const listings = farm.listings.get(dosing.medicineKey) ?? [];
  if (!listings.some((listing) => listing.data.dryCow !== undefined)) return [];
  const work = () => dryCowPieces({ farm, file, moment, dosing, nth: past.nth, sampledAt });
  const hasCalved = calvingsAfter(file, dosing.last.at).some((stretch) => !stretch.mayBe);
  if (hasCalved) return past.settled(dosing, 'dry-cow', work);
  past.lookedAt(NEVER_PAST);
  return work();
};

/** What hangs on the moment is settled at none. */
const NEVER_PAST = Number.POSITIVE_INFINITY as Instant;

/** How long a dosing of hers holds, with what extended it. */
export const outcomeOf = (dosing: Dosing, moment: CowMoment, animal: DosedAnimal, past: Past) =>
  past.settled(dosing, 'outcome', () =>
    milkHoldOf(moment.farm, dosing, animal, dosing.course?.plannedLast ?? dosing.last.at),
  );

export const dosedAnimal = (file: CowFile, moment: CowMoment, nth: NthMilking): DosedAnimal => {
  const classAt: DosedAnimal['patient']['classAt'] = (at) =>
    stretchAt(file.lactations, at) !== undefined
      ? 'milking'
      : lactationAt(file.cow, file.lactations, at) > 0
        ? 'dry'
        : 'young';
  const dosesOf: DosedAnimal['dosesOf'] = (medicine) => dosesByMedicine(file).get(medicine) ?? [];
  const born = file.cow.entered.findLast((entry) => entry.data.born !== undefined)?.data.born as
    | (Stretch['calvedDay'] & string)
    | undefined;
  const isDryingOff = (at: Instant) =>
    file.lactations.dryStarts.some((dry) => at >= dry.earliest - TWO_DAYS && at <= dry.at);
  return { nth, patient: { classAt, isDryingOff, born, dayOf: moment.schedule.dayOf }, dosesOf };
};

type Dose = Dosing['doses'][number];

const dosesByMedicine = rememberedInRoom((file: CowFile): ReadonlyMap<string, Dose[]> => {
  const doses = new Map<string, Dose[]>();
  for (const dosing of file.dosings) {
    const have = doses.get(dosing.medicineKey);
    if (have === undefined) doses.set(dosing.medicineKey, [...dosing.doses]);
    else have.push(...dosing.doses);
  }
  for (const each of doses.values()) each.sort((a, b) => a.at - b.at);
  return doses;
});

const asidePiece = (aside: Aside): HoldPiece => ({
  began: 0 as Instant,
  end: null,
  cause: 'unknown',
  because: because(
    'R-27',
    'hold.entry-set-aside',
    { problem: aside.problem },
    aside.id === undefined ? [] : [aside.id],
  ),
});

/** heads the list, so that nobody milks her into the tank. */
const dryInMilkedGroup = (file: CowFile, moment: CowMoment): HoldPiece[] => {
  if (inMilkDuring(file, moment)) return [];
  const group = standsIn(file.cow, moment);
  if (!moment.lookup.isMilked(group.name, moment.milking)) return mayBeInMilkedGroup(file, moment);
  const placed = file.cow.placements.findLast((placement) => isNamed(group, placement.group));
  return [dryIn(group.name, placed?.entry)];
};

const dryIn = (group: string, entry: string | undefined): HoldPiece => {
  const reason = because('R-24', 'hold.dry-in-milked-group', { group }, entry === undefined ? [] : [entry]);
  return { began: 0 as Instant, end: null, cause: 'dry', because: reason };
};

/** she may be the one that was put there, since somebody last said for certain where she stands. */
const mayBeInMilkedGroup = ({ cow }: CowFile, moment: CowMoment): HoldPiece[] => {
  const placed = cow.placements.findLast(({ at }) => at <= moment.windowEnd)?.at ?? 0;
  const moved = cow.mayBeMoves.findLast(
    ({ entry: { at, data } }) =>
      at >= placed && at <= moment.windowEnd && moment.lookup.isMilked(data.to, moment.milking),
  );
  if (moved === undefined) return [];
  const { id, subject, type, data } = moved.entry;
  const dry = dryIn(data.to, id);
  return [dry, ...mayBe(moved.mayBe, subject ?? '', type, id).map((reason) => ({ ...dry, because: reason }))];
};

/** The pieces of one dosing: its label, its course, its doses not recorded. */
export const dosingPieces = (dosing: Dosing, moment: CowMoment, animal: DosedAnimal): HoldPiece[] => {
  const { course, medicine } = dosing;
  const from = course?.plannedLast ?? dosing.last.at;
  const { outcome, extendedAt } = milkHoldOf(moment.farm, dosing, animal, from);
  const common = {
    began: dosing.doses[0].at,
    cause: 'treated' as const,
    medicine,
    quarters: [...new Set(dosing.doses.flatMap((dose) => dose.data.quarters ?? []))],
    lastDose: dosing.last.at,
  };
  const ids = dosing.doses.map((dose) => dose.id);
  const ends = outcome.end === null ? null : instantText(outcome.end);
  const pieces: HoldPiece[] = [];
  if (outcome.because !== null) pieces.push({ ...common, end: outcome.end, because: outcome.because });
  if (outcome.because !== null && extendedAt !== undefined) {
    pieces.push({
      ...common,
      end: outcome.end,
      because: because('R-29', 'hold.label-longer', { medicine, listed: instantText(extendedAt), ends }, ids),
    });
  }
  if (course?.running === true && outcome.because !== null) {
    const values = { medicine, given: course.given, of: course.of, plannedLast: instantText(course.plannedLast), ends };
    pieces.push({ ...common, end: outcome.end, because: because('R-17', 'hold.course-running', values, ids) });
  }
  const missed = missedPieces(dosing, moment).map((reason): HoldPiece => ({ ...common, end: null, because: reason }));
  const doubtful =
    outcome.because === null ? [] : mayBe(dosing.mayBe, dosing.last.subject ?? '', medicine, dosing.last.id);
  return [
    ...pieces,
    ...missed,
    ...doubtful.map((reason): HoldPiece => ({ ...common, end: outcome.end, because: reason })),
  ];
};

/** a due dose not recorded once its milking has ended holds her without end. */
export const missedDoses = (dosing: Dosing, moment: CowMoment): { dose: number; due: string | null }[] => {
  const { course } = dosing;
  if (course === undefined) return [];
  const missed: { dose: number; due: string | null }[] = course.gaps.map((dose) => ({ dose, due: null }));
  if (course.running && course.plannedNext !== undefined) {
    const due = nearestDue(moment.schedule, course.plannedNext);
    if (due !== undefined && due.start < moment.milking.start && moment.hasEnded(due))
      missed.push({ dose: course.given + 1, due: due.id });
  }
  return missed;
};

const missedPieces = (dosing: Dosing, moment: CowMoment): Because[] =>
  missedDoses(dosing, moment).map(({ dose, due }) =>
    because(
      'R-17',
      'hold.dose-not-recorded',
      { medicine: dosing.medicine, dose, of: dosing.course?.of ?? dose, due },
      dosing.doses.map((each) => each.id),
    ),
  );

/** Says beside a hold that it is not certain to be hers. */
const mayBe = (how: MayBe | undefined, number: string, about: string, entry: string): Because[] =>
  how === undefined ? [] : [because('R-25', 'hold.may-be-her', { number, how, about }, [entry])];

/** R-20, from each calving: a cow that left and came back is still on the hold of the calving before. */
const freshPieces = (file: CowFile, moment: CowMoment, past: Past): readonly HoldPiece[] => {
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
  const setUps = moment.schedule.setUps.filter((setUp) => isFreshHoldSet(setUp.data));
  const inForce = moment.schedule.inForceAt(calved);
  const first = isFreshHoldSet(inForce.data)
    ? inForce
    : setUps.find((setUp) => setUp.zone.startOfDay(setUp.from) > calved);
  if (first === undefined) {
    // A cow that came with a statement of her running holds is not held again for a calving before she came.
    const stated =
      !presentAt(file.cow, calved) &&
      file.cow.entered.some((entry) => entry.at >= calved && entry.data.milkHoldUntil !== undefined);
    const reason = because('R-20', 'hold.fresh-not-set', calvingSaid({ ...stretch, calved }), stretch.entries);
    return stated ? [] : [{ ...common, end: null, because: reason }];
  }
  const after = setUps.filter((setUp) => setUp !== first && setUp.zone.startOfDay(setUp.from) > calved);
  const { outcome } = laterIfLonger(
    [first, ...after].map((setUp) => {
      const length = { hours: setUp.data.freshHold?.hours, milkings: setUp.data.freshHold?.milkings };
      const { end } = holdEnd(length, calved, nth, false);
      const values = {
        ...calvingSaid({ ...stretch, calved }),
        hours: length.hours ?? null,
        milkings: length.milkings ?? null,
        ends: end === null ? null : instantText(end),
      };
      return {
        since: setUp.zone.startOfDay(setUp.from),
        outcome: { end, because: because('R-20', 'hold.fresh', values, [...stretch.entries, setUp.id]) },
      };
    }),
  );
  return [{ ...common, end: outcome.end, because: outcome.because }];
};

const isFreshHoldSet = (data: FarmSetUp): boolean =>
  data.freshHold?.hours !== undefined || data.freshHold?.milkings !== undefined;

/** a cow still milked close to her due date. */
const beforeDuePieces = (file: CowFile, moment: CowMoment): HoldPiece[] => {
  const days = moment.schedule.inForceOn(moment.milking.day).data.freshHold?.daysBeforeDue;
  if (days === undefined) return [];
  const pregnancy = pregnancyAt(file.cow, moment.schedule, moment.windowEnd);
  if (!pregnancy.confirmed || pregnancy.due === null || moment.milking.day < addDays(pregnancy.due, -days)) return [];
  return [
    {
      began: 0 as Instant,
      end: null,
      cause: 'fresh',
      because: because('R-20', 'hold.before-due', { due: pregnancy.due, days }, pregnancy.entries),
    },
  ];
};

/** what a person set stays until it is lifted by name, or all of hers are. */
const personPieces = rememberedInRoom(({ cow }: CowFile): readonly HoldPiece[] =>
  cow.milkHolds.flatMap((hers): HoldPiece[] => {
    const { entry } = hers;
    // One that names no hold ends what began before it; at the same instant nobody knows which came first.
    const lifted = cow.lifted.find((lift) =>
      lift.data.hold === undefined ? lift.at > entry.at : lift.at >= entry.at && lift.data.hold === entry.id,
    );
    const reason = because(
      'R-21',
      'hold.set-by-person',
      { reason: entry.data.reason, since: instantText(entry.at), author: entry.author },
      [entry.id, ...(lifted === undefined ? [] : [lifted.id])],
    );
    const piece: HoldPiece = { began: entry.at, end: lifted?.at ?? null, cause: 'abnormal', because: reason };
    return [
      piece,
      ...mayBe(hers.mayBe, entry.subject ?? '', entry.type, entry.id).map((each) => ({ ...piece, because: each })),
    ];
  }),
);

/** a positive test of hers holds until a later clear one. */
const residuePieces = rememberedInRoom(({ cow }: CowFile): readonly HoldPiece[] =>
  cow.residueTests
    .filter((hers) => hers.entry.data.result === 'positive')
    .flatMap((hers): HoldPiece[] => {
      const { entry } = hers;
      const clear = cow.residueTests.find(
        (each) => each.mayBe === undefined && each.entry.data.result === 'clear' && sampledAt(each) > sampledAt(hers),
      );
      const reason = because(
        'R-22',
        'hold.residue-positive',
        { sampled: instantText(sampledAt(hers)), method: entry.data.method ?? null },
        [entry.id, ...(clear === undefined ? [] : [clear.entry.id])],
      );
      const piece: HoldPiece = {
        began: sampledAt(hers),
        end: clear?.entry.at ?? null,
        cause: 'abnormal',
        because: reason,
      };
      return [
        piece,
        ...mayBe(hers.mayBe, entry.subject ?? '', entry.type, entry.id).map((each) => ({ ...piece, because: each })),
      ];
    }),
);

/** holds that were running when she came; not said is unknown. */
const enteredPieces = rememberedInRoom(({ cow }: CowFile): readonly HoldPiece[] =>
  cow.entered.flatMap((entry): HoldPiece[] => {
    const until = entry.data.milkHoldUntil;
    if (until === 'none') return [];
    if (until === undefined || until === 'unknown') {
      return [
        {
          began: entry.at,
          end: null,
          cause: 'unknown',
          because: because('R-28', 'hold.entered-unknown', {}, [entry.id]),
        },
      ];
    }
    const end = mustBeInstant(until);
    return [
      {
        began: entry.at,
        end,
        cause: 'treated',
        because: because('R-28', 'hold.entered-until', { until: instantText(end) }, [entry.id]),
      },
    ];
  }),
);
