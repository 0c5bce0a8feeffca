/**
 * When the milk and the meat of each dosing are free again, as this book works it out. What goes out as a withdrawal's end, and
 * what a withdrawal that comes in is held against.
 */
import type { CowFile } from '../../projections/cow-file.ts';
import { type Dosing, dosingsOf } from '../../projections/dosing.ts';
import { dryCowPieces } from '../../projections/dry-cow-hold.ts';
import { latestEnd } from '../../projections/hold-piece.ts';
import type { Known } from '../../projections/know.ts';
import { dosingMeat } from '../../projections/meat-hold.ts';
import { dosedAnimal, dosingPieces, sampledAt } from '../../projections/milk-hold.ts';
import { nthMilkingFor } from '../../projections/milking-count.ts';
import { countsFor, type Moment } from '../../projections/moment.ts';
import type { DosedAnimal } from '../../projections/treatment-hold.ts';
import { vetTimesOn } from '../../projections/vet-times.ts';
import type { Instant } from '../../shared/instant.ts';

export interface DosingHold {
  readonly dosing: Dosing;
  /** Left out where no cow of the herd is certain. */
  readonly file: CowFile | undefined;
  /** Null: without end. The last dose's own time: no hold. */
  readonly milk: Instant | null;
  readonly meat: Instant | null;
  /** Every entry that the two ends rest on. */
  readonly entries: readonly string[];
}

export const dosingHolds = (known: Known, moment: Moment): readonly DosingHold[] => [
  ...known.files.flatMap((file) => holdsOfCow(file, moment)),
  ...holdsOfNobody(known, moment),
];

const holdsOfCow = (file: CowFile, moment: Moment): DosingHold[] => {
  const nth = nthMilkingFor(moment.schedule, moment.milking.start, countsFor(file, moment));
  const animal = dosedAnimal(file, moment, nth);
  return file.dosings
    .filter((dosing) => dosing.mayBe === undefined)
    .map((dosing) => {
      const dryCow = dryCowPieces({ farm: moment.farm, file, moment, dosing, nth, sampledAt });
      return holdOf(dosing, file, moment, animal, dryCow);
    });
};

/** Doses under a number that no cow bore, or that two did. */
const holdsOfNobody = (known: Known, moment: Moment): DosingHold[] => {
  const entries = [...known.herd.unplaced, ...known.herd.ambiguous].map(({ entry }) => entry);
  const treatments = entries.flatMap((entry) => (entry.type === 'treatment' ? [{ entry }] : []));
  const vetTimes = treatments.flatMap(({ entry }) => vetTimesOn(known, entry));
  const nth = nthMilkingFor(moment.schedule, moment.milking.start, () => true);
  return dosingsOf({ treatments, vetTimes, courseEnds: [] }).map((dosing) => {
    const animal: DosedAnimal = {
      nth,
      patient: { classAt: () => null, isDryingOff: () => false, born: undefined, dayOf: moment.schedule.dayOf },
      dosesOf: () => [...dosing.doses],
    };
    return holdOf(dosing, undefined, moment, animal, []);
  });
};

const holdOf = (
  dosing: Dosing,
  file: CowFile | undefined,
  moment: Moment,
  animal: DosedAnimal,
  dryCow: ReturnType<typeof dryCowPieces>,
): DosingHold => {
  const milk = [...dosingPieces(dosing, moment, animal), ...dryCow];
  const meat = dosingMeat(dosing, file, moment, animal);
  const zero = dosing.last.at;
  const endOf = (pieces: readonly { readonly end: Instant | null }[]): Instant | null => {
    const end = latestEnd(pieces);
    return end === undefined ? zero : end;
  };
  return {
    dosing,
    file,
    milk: endOf(milk),
    meat: endOf(meat),
    entries: [
      ...new Set([
        ...dosing.doses.map((dose) => dose.id),
        ...[...milk, ...meat].flatMap((piece) => piece.because.entries),
      ]),
    ],
  };
};
