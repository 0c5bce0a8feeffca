/** How long a dosing holds the milk: the label, the vet, the law on off-label use. Dry-cow products are in `dry-cow-hold.ts`. */
import { type Instant, instantText, later, plusHours } from '../shared/instant.ts';
import { type Because, because, type OffLabelCause } from './because.ts';
import { type Dosing, isPlannedDose } from './dosing.ts';
import type { Labels } from './farm.ts';
import { laterIfLonger, longest, type Word, wordsSince } from './label.ts';
import { type HoldEnd, type HoldLength, holdEnd, type NthMilking } from './milking-count.ts';
import { offLabelCauses, type Patient } from './off-label.ts';

export interface MilkOutcome {
  /** Null: without end. The dose's own instant: no hold. */
  readonly end: Instant | null;
  /** `null` where there is no hold to speak of. */
  readonly because: Because | null;
  /** When the vet gave the time without which it has no end. */
  readonly openUntil?: Instant;
  /** The vet's time did not lengthen the label's. */
  readonly vetNotLonger?: { readonly vetHours: number; readonly labelHours: number | null };
}

export interface DosedAnimal {
  readonly patient: Patient;
  readonly nth: NthMilking;
  /** Every dose of each medicine, by medicine, in fold order. */
  readonly dosesOf: (medicineKey: string) => Dosing['doses'][number][];
}

/**
 * The hold of one dosing from `from`: the last dose, or the last planned one while its course runs. A dose before it
 * keeps the label of its own day, where that holds longer.
 */
export const milkHoldOf = (
  farm: Labels,
  dosing: Dosing,
  animal: DosedAnimal,
  from: Instant,
): { outcome: MilkOutcome; extendedAt: Instant | undefined } =>
  longest(
    dosing.doses.map((dose) =>
      laterIfLonger(
        wordsSince(farm, dosing.medicineKey, dose.at).map((word) => ({
          since: word.since,
          outcome: withVet(word, dosing, animal, dose === dosing.last ? from : dose.at),
        })),
      ),
    ),
  );

/** What a word comes to, and until when it was open where only a vet's time given afterwards ends it. */
const withVet = (word: Word, dosing: Dosing, animal: DosedAnimal, from: Instant): MilkOutcome => {
  const outcome = outcomeOf(word, dosing, animal, from);
  const { said } = dosing.vet;
  if (said === undefined || outcome.end === null) return outcome;
  const unsaid = outcomeOf(word, { ...dosing, vet: { ...dosing.vet, milk: undefined } }, animal, from);
  return unsaid.end === null ? { ...outcome, openUntil: said } : outcome;
};

const outcomeOf = (word: Word, dosing: Dosing, animal: DosedAnimal, from: Instant): MilkOutcome => {
  const { medicine, vet } = dosing;
  const label = word.listing?.data;
  const behind = [
    ...dosing.doses.map((dose) => dose.id),
    ...(word.listing === undefined ? [] : [word.listing.id]),
    ...vet.entries,
  ];
  const vetSpoke = vet.milk?.isVouched === true;
  const byVet = (least: Instant = from): MilkOutcome => {
    const hours = vet.milk?.time ?? 0;
    const end = later(plusHours(from, hours), least);
    const values = {
      medicine,
      hours,
      lastDose: instantText(from),
      planned: isPlannedDose(dosing, from),
      ends: instantText(end),
      prescribedBy: vet.milk?.by ?? null,
    };
    return { end, because: because('R-15', 'hold.vet', values, behind) };
  };
  const open = (reason: Because): MilkOutcome => ({ end: null, because: reason });

  if (label === undefined) return vetSpoke ? byVet() : open(because('R-14', 'hold.not-listed', { medicine }, behind));

  const causes = offLabelCauses(dosing, label, animal.patient, animal.dosesOf(dosing.medicineKey));
  // A dry-cow product holds by its own label; only what is off it is judged here.
  if (label.dryCow !== undefined && causes.length === 0) {
    return typeof label.milkHold === 'object'
      ? byLabel(label.milkHold, dosing, animal, from, behind)
      : { end: from, because: null };
  }
  if (causes.length > 0 && word.law === 'eu-2019-6') {
    return byRegulation(label, dosing, animal, from, behind, causes, byVet, open);
  }
  if (causes.length > 0 && !vetSpoke) {
    return open(
      because(
        label.milkHold === 'not-for-milking-cows' ? 'R-14' : 'R-15',
        'hold.off-label-no-vet',
        { medicine, causes: [...causes] },
        behind,
      ),
    );
  }
  switch (label.milkHold) {
    case 'unknown':
      return vetSpoke ? byVet() : open(because('R-14', 'hold.label-unknown', { medicine }, behind));
    case 'not-for-milking-cows': {
      if (!vetSpoke) return open(because('R-14', 'hold.not-for-milking-cows', { medicine }, behind));
      return byVet(word.law === 'eu-2019-6' ? plusHours(from, NOT_AUTHORISED_HOURS) : from);
    }
    case 'none':
      return (vet.milk?.time ?? 0) > 0 ? byVet() : { end: from, because: null };
    default:
      return labelOrVet(label.milkHold, dosing, animal, from, behind, byVet);
  }
};

/** The label's time, or the vet's where that is longer; a vet's time never shortens a label's. */
const labelOrVet = (
  hold: HoldLength,
  dosing: Dosing,
  animal: DosedAnimal,
  from: Instant,
  behind: readonly string[],
  byVet: (least?: Instant) => MilkOutcome,
): MilkOutcome => {
  const labelled = byLabel(hold, dosing, animal, from, behind);
  const { milk } = dosing.vet;
  if (milk === undefined || labelled.end === null) return labelled;
  if (plusHours(from, milk.time) > labelled.end) return byVet();
  return { ...labelled, vetNotLonger: { vetHours: milk.time, labelHours: hold.hours ?? null } };
};

const byLabel = (
  hold: HoldLength,
  dosing: Dosing,
  animal: DosedAnimal,
  from: Instant,
  behind: readonly string[],
): MilkOutcome => {
  const result = holdEnd(hold, from, animal.nth, true);
  return { end: result.end, because: sayLabel(hold, result, dosing, from, behind) };
};

export const sayLabel = (
  hold: HoldLength,
  result: HoldEnd,
  dosing: Dosing,
  from: Instant,
  behind: readonly string[],
): Because => {
  const { medicine } = dosing;
  const lastDose = instantText(from);
  const planned = isPlannedDose(dosing, from);
  const ends = result.end === null ? null : instantText(result.end);
  if (hold.milkings === undefined) {
    return because(
      'R-11',
      'hold.hours',
      { medicine, hours: hold.hours ?? 0, lastDose, planned, ends: ends ?? lastDose },
      behind,
    );
  }
  if (hold.hours === undefined) {
    return because(
      'R-12',
      'hold.milkings',
      { medicine, milkings: hold.milkings, lastDose, planned, ends, floorHours: result.floorHours },
      behind,
    );
  }
  return because(
    'R-12',
    'hold.hours-and-milkings',
    { medicine, hours: hold.hours, milkings: hold.milkings, lastDose, planned, ends, governs: result.governs },
    behind,
  );
};

const NOT_AUTHORISED_HOURS = 7 * 24;
const ZERO_HOURS = 24;

/** One and a half times the label, up to whole days of 24 hours. */
const andAHalf = (hours: number): number => Math.ceil((hours * 1.5) / 24) * 24;

/** Regulation (EU) 2019/6, Article 115(1) and (2), for milk. */
const byRegulation = (
  label: {
    milkHold: HoldLength | 'none' | 'unknown' | 'not-for-milking-cows';
    authorisedForMilkAnimals?: boolean | undefined;
  },
  dosing: Dosing,
  animal: DosedAnimal,
  from: Instant,
  behind: readonly string[],
  causes: readonly OffLabelCause[],
  byVet: (least?: Instant) => MilkOutcome,
  open: (reason: Because) => MilkOutcome,
): MilkOutcome => {
  const { medicine, vet } = dosing;
  if (vet.prescribedBy === undefined)
    return open(because('R-18', 'hold.off-label-no-vet', { medicine, causes: [...causes] }, behind));
  const vetSpoke = vet.milk?.isVouched === true;
  const hold = label.milkHold;
  const notAuthorised = label.authorisedForMilkAnimals === false || hold === 'not-for-milking-cows';
  if (hold === 'not-for-milking-cows' && !causes.includes('said')) {
    if (vetSpoke) return byVet(plusHours(from, NOT_AUTHORISED_HOURS));
    return open(because('R-14', 'hold.not-for-milking-cows', { medicine }, behind));
  }
  const labelled = typeof hold === 'object' ? holdEnd(hold, from, animal.nth, true).end : from;
  const labelHours = typeof hold === 'object' ? (hold.hours ?? null) : hold === 'none' ? 0 : null;
  const basis = notAuthorised ? 'not-authorised' : hold === 'none' ? 'zero' : 'one-and-a-half';
  if (!notAuthorised && hold === 'unknown') {
    return vetSpoke ? byVet() : open(because('R-14', 'hold.label-unknown', { medicine }, behind));
  }
  if (!notAuthorised && typeof hold === 'object' && hold.hours === undefined) {
    const reason = because('R-18', 'hold.off-label-milkings-only', { medicine, milkings: hold.milkings ?? 0 }, behind);
    return vetSpoke && labelled !== null ? byVet(labelled) : open(reason);
  }
  const hours =
    basis === 'not-authorised' ? NOT_AUTHORISED_HOURS : basis === 'zero' ? ZERO_HOURS : andAHalf(labelHours ?? 0);
  if (labelled === null)
    return open(because('R-18', 'hold.off-label-milkings-only', { medicine, milkings: 0 }, behind));
  const ends = later(plusHours(from, hours), labelled);
  if (vet.milk !== undefined && plusHours(from, vet.milk.time) > ends) return byVet();
  return {
    end: ends,
    because: because(
      'R-18',
      'hold.off-label-eu',
      {
        medicine,
        basis,
        labelHours,
        hours,
        lastDose: instantText(from),
        planned: isPlannedDose(dosing, from),
        ends: instantText(ends),
      },
      behind,
    ),
  };
};
