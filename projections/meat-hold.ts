/** How long a cow may not go for meat. Worked out apart from milk. */
import type { Aside } from '../events/entry.ts';
import { type Instant, instantText, mustBeInstant, plusHours } from '../shared/instant.ts';
import { type Because, because } from './because.ts';
import type { CowFile } from './cow-file.ts';
import type { Dosing } from './dosing.ts';
import { calvingsAfter } from './dry-cow-hold.ts';
import { notDriedOff, notStated } from './dry-stated.ts';
import { keptForCow } from './kept-for-cow.ts';
import { longest, wordsSince } from './label.ts';
import { meatOfDose } from './meat-of-dose.ts';
import { dosedAnimal, missedDoses } from './milk-hold.ts';
import type { CowMoment } from './moment.ts';
import { withOthers } from './other-cow.ts';
import { rememberedInRoom } from './remembered.ts';
import { calvingSaid } from './stretch.ts';
import type { DosedAnimal } from './treatment-hold.ts';

export interface MeatPiece {
  readonly began: Instant;
  /** Null: without end. */
  readonly end: Instant | null;
  readonly because: Because;
}

export const meatHoldPieces = (file: CowFile, moment: CowMoment, asides: readonly Aside[]): readonly MeatPiece[] => {
  const own = withOthers(file, moment, 'meat.may-be-her', ownPieces);
  return asides.length === 0 ? own : [...asides.map((aside) => asidePiece(aside)), ...own];
};

const asidePiece = (aside: Aside): MeatPiece => ({
  began: 0 as Instant,
  end: null,
  because: because(
    'R-27',
    'meat.entry-set-aside',
    { problem: aside.problem },
    aside.id === undefined ? [] : [aside.id],
  ),
});

/** Only doses that a running course misses depend on the moment; without one her pieces are the same at every milking. */
const ownPieces = (file: CowFile, moment: CowMoment): readonly MeatPiece[] => {
  if (file.dosings.some((dosing) => dosing.course?.running === true)) return piecesAt(file, moment);
  const kept = piecesKept(file);
  kept.pieces ??= piecesFound(file, moment);
  return kept.pieces;
};

const piecesFound = (file: CowFile, moment: CowMoment): readonly MeatPiece[] => {
  const animal = dosedAnimal(file, moment, () => null);
  return [
    ...file.dosings.flatMap((dosing) => dosingMeat(dosing, file, moment, animal)),
    ...notStatedPieces(file, moment),
    ...enteredPieces(file),
  ];
};

const piecesAt = keptForCow(piecesFound);
const piecesKept = rememberedInRoom((_: CowFile): { pieces?: readonly MeatPiece[] } => ({}));

/** The meat side of one dosing; `file` is left out where no cow is known. */
export const dosingMeat = (
  dosing: Dosing,
  file: CowFile | undefined,
  moment: CowMoment,
  animal: DosedAnimal,
): MeatPiece[] => {
  const { course, medicine } = dosing;
  const ids = dosing.doses.map((dose) => dose.id);
  const began = dosing.doses[0].at;
  const words = wordsSince(moment.farm, dosing.medicineKey, dosing.last.at);
  const cow = { farm: moment.farm, file, animal };
  const { outcome, extendedAt } = longest(dosing.doses.map((dose) => meatOfDose(dosing, dose, cow)));
  const ends = outcome.end === null ? null : instantText(outcome.end);
  const pieces: MeatPiece[] = [];
  const add = (end: Instant | null, reason: Because) => pieces.push({ began, end, because: reason });
  if (outcome.because !== null) {
    add(outcome.end, outcome.because);
    if (extendedAt !== undefined)
      add(outcome.end, because('R-29', 'meat.label-longer', { medicine, listed: instantText(extendedAt), ends }, ids));
    if (course?.running === true) {
      add(
        outcome.end,
        because(
          'R-17',
          'meat.course-running',
          { medicine, given: course.given, of: course.of, plannedLast: instantText(course.plannedLast), ends },
          ids,
        ),
      );
    }
    if (dosing.mayBe !== undefined) {
      add(
        outcome.end,
        because(
          'R-25',
          'meat.may-be-her',
          { number: dosing.last.subject ?? '', how: dosing.mayBe, about: medicine },
          ids,
        ),
      );
    }
  }
  for (const { dose } of missedDoses(dosing, moment)) {
    add(null, because('R-17', 'meat.dose-not-recorded', { medicine, dose, of: course?.of ?? dose }, ids));
  }
  const hours = Math.max(0, ...words.map((word) => word.listing?.data.dryCow?.meatHoursAfterCalving ?? 0));
  for (const calving of hours > 0 && file !== undefined ? calvingsAfter(file, dosing.last.at) : []) {
    const end = plusHours(calving.calved, hours);
    add(
      end,
      because('R-90', 'meat.after-calving', { medicine, ...calvingSaid(calving), hours, ends: instantText(end) }, [
        ...ids,
        ...calving.entries,
      ]),
    );
  }
  return pieces;
};

/** Dry-offs that do not state their product, and where there is none: what is not known is held. */
const notStatedPieces = (file: CowFile, moment: CowMoment): MeatPiece[] => [
  ...notStated(file, moment.farm).map((dry) => ({
    began: dry.earliest,
    end: null,
    because: because('R-14', 'meat.product-not-stated', { driedOff: dry.day }, [dry.entry]),
  })),
  ...notDriedOff(file, moment.farm).map(({ group, earliest, at, to, entries, isMilkedAgain }) => {
    const values = { group, since: moment.schedule.dayOf(earliest) };
    // That her milk is clean again says nothing of her meat, nor does the next dry-off.
    if (isMilkedAgain !== true)
      return { began: at, end: to, because: because('R-14', 'meat.no-dry-off', values, entries) };
    const back = { ...values, back: moment.schedule.dayOf(at) };
    return { began: earliest, end: null, because: because('R-14', 'meat.back-from-dry', back, entries) };
  }),
  ...file.cow.mayBeDryOffs.flatMap(({ entry, mayBe }): MeatPiece[] => {
    if (entry.data.product !== undefined || mayBe === undefined) return [];
    const values = { number: entry.subject ?? '', how: mayBe, about: entry.type };
    return [
      because('R-14', 'meat.product-not-stated', { driedOff: moment.schedule.dayOf(entry.at) }, [entry.id]),
      because('R-25', 'meat.may-be-her', values, [entry.id]),
    ].map((reason) => ({ began: entry.at, end: null, because: reason }));
  }),
];

const enteredPieces = ({ cow }: CowFile): MeatPiece[] =>
  cow.entered.flatMap((entry): MeatPiece[] => {
    const until = entry.data.meatHoldUntil;
    if (until === 'none') return [];
    if (until === undefined || until === 'unknown') {
      return [{ began: entry.at, end: null, because: because('R-28', 'meat.entered-unknown', {}, [entry.id]) }];
    }
    const end = mustBeInstant(until);
    return [
      { began: entry.at, end, because: because('R-28', 'meat.entered-until', { until: instantText(end) }, [entry.id]) },
    ];
  });
