/** How long each dose of a medicine holds the meat: label, vet, law, and how many doses count together. */
import type { MedicineListed } from '../events/kinds/medicine-listed.ts';
import { type Instant, instantText, later, plusHours } from '../shared/instant.ts';
import { type Because, because, type OffLabelCause } from './because.ts';
import type { CowFile } from './cow-file.ts';
import { type Dosing, isPlannedDose } from './dosing.ts';
import type { Labels } from './farm.ts';
import { latestEnd } from './hold-piece.ts';
import { laterIfLonger, type Word, wordsSince } from './label.ts';
import { offLabelCauses } from './off-label.ts';
import { givenAtLatest } from './products-given.ts';
import { remembered } from './remembered.ts';
import type { DosedAnimal } from './treatment-hold.ts';

type MeatDays = MedicineListed['meatDays'];
type Dose = Dosing['doses'][number];

interface MeatOutcome {
  /** Null: without end. */
  readonly end: Instant | null;
  /** Null where there is no hold to speak of. */
  readonly because: Because | null;
}

export interface MeatOfDose {
  readonly outcome: MeatOutcome;
  /** When the longer label was listed that governs. */
  readonly extendedAt: Instant | undefined;
}

/** `file` is left out where no cow is known: then the dosing stands alone. */
export interface DosedCow {
  readonly farm: Labels;
  readonly file: CowFile | undefined;
  readonly animal: DosedAnimal;
}

interface Given {
  readonly dose: Dose;
  readonly dosing: Dosing;
}

/** The hold of one dose. */
export const meatOfDose = (dosing: Dosing, dose: Dose, cow: DosedCow): MeatOfDose => {
  const { holds } = keptOf(cow.animal);
  const have = holds.get(dose);
  if (have !== undefined) return have;
  const found = laterIfLonger(
    wordsSince(cow.farm, dosing.medicineKey, dose.at).map((word) => ({
      since: word.since,
      outcome: outcomeOf(word, { dose, dosing }, cow),
    })),
  );
  holds.set(dose, found);
  return found;
};

/** An animal is of one file at one milking. What one dose holds is asked again by every dose after it. */
const keptOf = remembered((_: DosedAnimal) => ({
  holds: new Map<Dose, MeatOfDose>(),
  given: new Map<string, readonly Given[]>(),
}));

/** All her doses of a dosing's medicine, in order of time. */
const ofSameMedicine = (dosing: Dosing, { file, animal }: DosedCow): readonly Given[] => {
  const { given } = keptOf(animal);
  const have = given.get(dosing.medicineKey);
  if (have !== undefined) return have;
  const dosings = file?.dosings.filter((each) => each.medicineKey === dosing.medicineKey) ?? [dosing];
  const found = dosings
    .flatMap((each) => each.doses.map((dose) => ({ dose, dosing: each })))
    .sort((a, b) => a.dose.at - b.dose.at);
  given.set(dosing.medicineKey, found);
  return found;
};

const plusDays = (instant: Instant, days: number): Instant => plusHours(instant, days * 24);

/** From when the days of a dose run: for the last of a dosing, from the planned last one while its course runs. */
const runsFrom = (dosing: Dosing, dose: Dose, file: CowFile | undefined): Instant => {
  if (dose !== dosing.last) return dose.at;
  return dosing.course?.plannedLast ?? (file === undefined ? dose.at : givenAtLatest(dosing, file.lactations));
};

/** The meat hold that a dose began; while her course goes on she is held from each dose to the next. */
const heldUntil = ({ dose, dosing }: Given, cow: DosedCow): Instant | null => {
  const { end } = meatOfDose(dosing, dose, cow).outcome;
  const next = dosing.doses[dosing.doses.indexOf(dose) + 1];
  const goesOn = (next?.data.course?.dose ?? 0) > (dose.data.course?.dose ?? 0);
  return end === null || next === undefined || !goesOn ? end : later(end, next.at);
};

/**
 * By number of doses where the label says so. A dose given while the meat hold of those before it still runs counts
 * together with them, whether it runs by this label's own days or longer: by the vet, the law or another label. `planned`
 * further doses of a running course count too. Null: the label has no step for so many.
 */
const daysFor = (
  meatDays: Exclude<MeatDays, 'unknown'>,
  { dose, dosing }: Given,
  planned: number,
  cow: DosedCow,
): { days: number | null; doses: number } => {
  const steps = typeof meatDays === 'number' ? [{ days: meatDays }] : meatDays;
  const stepFor = (count: number): number | null =>
    steps.find((step) => step.upToDoses === undefined || count <= step.upToDoses)?.days ?? null;
  let count = 0;
  let runsUntil: Instant | null = 0 as Instant;
  for (const each of ofSameMedicine(dosing, cow)) {
    const { at } = each.dose;
    if (at > dose.at) break;
    count = runsUntil === null || at <= runsUntil ? count + 1 : 1;
    const days = stepFor(count);
    const byLabel = days === null ? null : plusDays(at, days);
    const held = at < dose.at ? heldUntil(each, cow) : at;
    runsUntil = latestEnd([{ end: runsUntil }, { end: byLabel }, { end: held }]) ?? null;
  }
  return { days: stepFor(count + planned), doses: count + planned };
};

const outcomeOf = (word: Word, given: Given, cow: DosedCow): MeatOutcome => {
  const { dose, dosing } = given;
  const { medicine, vet, course } = dosing;
  const { animal, file } = cow;
  const from = runsFrom(dosing, dose, file);
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
        {
          medicine,
          days,
          lastDose: instantText(from),
          planned: isPlannedDose(dosing, from),
          ends: instantText(end),
          prescribedBy: vet.meat?.by ?? null,
        },
        behind,
      ),
    };
  };
  if (label === undefined)
    return vetSpoke ? byVet(from) : open(because('R-14', 'meat.not-listed', { medicine }, behind));

  const causes = offLabelCauses(dosing, label, animal.patient, animal.dosesOf(dosing.medicineKey));
  const planned = course?.running === true && dose === dosing.last ? course.of - course.given : 0;
  const labelled =
    label.meatDays === 'unknown' ? { days: null, doses: 0 } : daysFor(label.meatDays, given, planned, cow);
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
      {
        medicine,
        days: labelled.days,
        doses: labelled.doses,
        lastDose: instantText(from),
        planned: isPlannedDose(dosing, from),
        ends: instantText(ends),
      },
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
      {
        medicine,
        basis,
        labelDays,
        days,
        lastDose: instantText(from),
        planned: isPlannedDose(dosing, from),
        ends: instantText(ends),
      },
      behind,
    ),
  };
};
