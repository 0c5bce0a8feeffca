/** How long a cow may not go for meat. Worked out apart from milk. */
import type { Aside } from '../events/entry.ts';
import type { MedicineListed } from '../events/kinds/medicine-listed.ts';
import { type Instant, instantText, later, mustBeInstant, plusHours } from '../shared/instant.ts';
import { type Because, because, type OffLabelCause } from './because.ts';
import type { CowFile } from './cow-file.ts';
import type { Dosing } from './dosing.ts';
import { calvingsAfter } from './dry-cow-hold.ts';
import { notDriedOff, notStated } from './dry-stated.ts';
import { keptForCow } from './kept-for-cow.ts';
import { laterIfLonger, longest, type Word, wordsSince } from './label.ts';
import { dosedAnimal, missedDoses } from './milk-hold.ts';
import type { CowMoment } from './moment.ts';
import { offLabelCauses } from './off-label.ts';
import { withOthers } from './other-cow.ts';
import { givenAtLatest } from './products-given.ts';
import { rememberedInRoom } from './remembered.ts';
import { calvingSaid } from './stretch.ts';
import type { DosedAnimal } from './treatment-hold.ts';

export interface MeatPiece {
  readonly began: Instant;
  /** Null: without end. */
  readonly end: Instant | null;
  readonly because: Because;
}

type MeatDays = MedicineListed['meatDays'];
type Dose = Dosing['doses'][number];

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

const plusDays = (instant: Instant, days: number): Instant => plusHours(instant, days * 24);

/**
 * By number of doses where the label says so. A dose given while the meat hold of the one before still runs counts
 * together with it; `planned` further doses of a running course count too. Null: the label has no step for so many.
 */
export const daysFor = (
  meatDays: Exclude<MeatDays, 'unknown'>,
  doses: readonly Dose[],
  planned: number,
): { days: number | null; doses: number } => {
  const steps = typeof meatDays === 'number' ? [{ days: meatDays }] : meatDays;
  const stepFor = (count: number): number | null =>
    steps.find((step) => step.upToDoses === undefined || count <= step.upToDoses)?.days ?? null;
  let count = 0;
  let runsUntil: Instant | null = 0 as Instant;
  for (const dose of doses) {
    count = runsUntil === null || dose.at <= runsUntil ? count + 1 : 1;
    const days = stepFor(count);
    runsUntil = days === null ? null : plusDays(dose.at, days);
  }
  return { days: stepFor(count + planned), doses: count + planned };
};

interface MeatOutcome {
  readonly end: Instant | null;
  readonly because: Because | null;
}

/** The meat side of one dosing; `file` is left out where no cow is known. */
export const dosingMeat = (
  dosing: Dosing,
  file: CowFile | undefined,
  moment: CowMoment,
  animal: DosedAnimal,
): MeatPiece[] => {
  const { course, medicine } = dosing;
  const given = file === undefined ? dosing.last.at : givenAtLatest(dosing, file.lactations);
  const from = course?.plannedLast ?? given;
  const ids = dosing.doses.map((dose) => dose.id);
  const began = dosing.doses[0].at;
  const words = wordsSince(moment.farm, dosing.medicineKey, dosing.last.at);
  const { outcome, extendedAt } = longest(
    dosing.doses.map((dose) =>
      laterIfLonger(
        wordsSince(moment.farm, dosing.medicineKey, dose.at).map((word) => ({
          since: word.since,
          outcome: outcomeOf(word, dosing, animal, dose, dose === dosing.last ? from : dose.at),
        })),
      ),
    ),
  );
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

const outcomeOf = (word: Word, dosing: Dosing, animal: DosedAnimal, dose: Dose, from: Instant): MeatOutcome => {
  const { medicine, vet, course } = dosing;
  const label = word.listing?.data;
  const behind = [
    ...dosing.doses.map((dose) => dose.id),
    ...(word.listing === undefined ? [] : [word.listing.id]),
    ...vet.entries,
  ];
  const vetSpoke = vet.meat?.isVouched === true;
  const open = (reason: Because): MeatOutcome => ({ end: null, because: reason });
  const byVet = (least: Instant): MeatOutcome => {
    const days = vet.meat?.time ?? 0;
    const end = later(plusDays(from, days), least);
    return {
      end,
      because: because(
        'R-15',
        'meat.vet',
        { medicine, days, lastDose: instantText(from), ends: instantText(end), prescribedBy: vet.meat?.by ?? null },
        behind,
      ),
    };
  };
  if (label === undefined)
    return vetSpoke ? byVet(from) : open(because('R-14', 'meat.not-listed', { medicine }, behind));

  const all = animal.dosesOf(dosing.medicineKey);
  const causes = offLabelCauses(dosing, label, animal.patient, all);
  const planned = course?.running === true && dose === dosing.last ? course.of - course.given : 0;
  const upTo = all.filter((each) => each.at <= dose.at);
  const labelled =
    label.meatDays === 'unknown' ? { days: null, doses: upTo.length } : daysFor(label.meatDays, upTo, planned);
  const unknown = (): MeatOutcome =>
    vetSpoke ? byVet(from) : open(because('R-14', 'meat.unknown', { medicine }, behind));

  if (causes.length > 0 && word.law === 'eu-2019-6') {
    return byRegulation(label, labelled.days, dosing, from, behind, causes, byVet, open, unknown);
  }
  if (causes.length > 0 && !vetSpoke)
    return open(because('R-15', 'meat.off-label-no-vet', { medicine, causes: [...causes] }, behind));
  if (labelled.days === null) return unknown();
  const ends = plusDays(from, labelled.days);
  if (vet.meat !== undefined && plusDays(from, vet.meat.time) > ends) return byVet(from);
  if (labelled.days === 0) return { end: from, because: null };
  return {
    end: ends,
    because: because(
      'R-90',
      'meat.days',
      { medicine, days: labelled.days, doses: labelled.doses, lastDose: instantText(from), ends: instantText(ends) },
      behind,
    ),
  };
};

const NOT_AUTHORISED_DAYS = 28;

/** Regulation (EU) 2019/6, Article 115(1), for meat. The book cannot tell another family of animals, so zero counts as one day. */
const byRegulation = (
  label: MedicineListed,
  labelDays: number | null,
  dosing: Dosing,
  from: Instant,
  behind: readonly string[],
  causes: readonly OffLabelCause[],
  byVet: (least: Instant) => MeatOutcome,
  open: (reason: Because) => MeatOutcome,
  unknown: () => MeatOutcome,
): MeatOutcome => {
  const { medicine, vet } = dosing;
  if (vet.prescribedBy === undefined)
    return open(because('R-18', 'meat.off-label-no-vet', { medicine, causes: [...causes] }, behind));
  const notAuthorised = label.authorisedForFoodAnimals === false;
  if (!notAuthorised && labelDays === null) return unknown();
  const basis = notAuthorised ? 'not-authorised' : labelDays === 0 ? 'zero' : 'one-and-a-half';
  const multiplied = basis === 'zero' ? 1 : Math.ceil((labelDays ?? 0) * 1.5);
  const days = Math.max(notAuthorised ? NOT_AUTHORISED_DAYS : multiplied, labelDays ?? 0);
  const ends = plusDays(from, days);
  if (vet.meat !== undefined && plusDays(from, vet.meat.time) > ends) return byVet(from);
  return {
    end: ends,
    because: because(
      'R-18',
      'meat.off-label-eu',
      { medicine, basis, labelDays, days, lastDose: instantText(from), ends: instantText(ends) },
      behind,
    ),
  };
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
