/**
 * The register of medicines: every treatment with what the law asks to be written down, holds even when zero, and
 * every correction. Rows without words, plain JSON.
 */
import type { Entry, EntryOf } from '../events/entry.ts';
import { type Instant, instantText } from '../shared/instant.ts';
import { byText } from '../shared/text-order.ts';
import type { Because, OffLabelCause } from './because.ts';
import { numberAt } from './cow.ts';
import type { CowFile } from './cow-file.ts';
import { type Dosing, dosingsOf } from './dosing.ts';
import { dryCowPieces } from './dry-cow-hold.ts';
import { endText, latestEnd } from './hold-piece.ts';
import type { Known } from './know.ts';
import { dosingMeat } from './meat-hold.ts';
import { type HoldOnRegister, labelOf, type RegisterRow, rowOf } from './medicine-row.ts';
import { dosedAnimal, dosingPieces, sampledAt } from './milk-hold.ts';
import { nthMilkingFor } from './milking-count.ts';
import { countsFor, type Moment } from './moment.ts';
import { offLabelCauses } from './off-label.ts';
import { doseOf } from './products-given.ts';
import { vetTimesOn } from './vet-times.ts';

/** A treatment struck, or a dry-off with its product: it stands in the register, struck through. */
export interface CorrectionRow {
  readonly rule: 'R-23';
  readonly entry: string;
  readonly medicine: string;
  readonly cow: string;
  readonly given: string;
  readonly writtenDown: string;
  readonly struckBy: string;
  readonly struckAt: string;
  readonly reason: string;
  readonly instead: string | null;
}

export interface Register {
  readonly rows: readonly RegisterRow[];
  readonly corrections: readonly CorrectionRow[];
}

export interface RegisterPeriod {
  /** Treatments with a dose at or after this. */
  readonly from?: Instant | undefined;
  /** Treatments with a dose at or before this. */
  readonly to?: Instant | undefined;
}

/** The register as of a moment (its `asOf` says which holds are over). */
export const medicineRegister = (known: Known, moment: Moment, period: RegisterPeriod = {}): Register => {
  const within = (at: Instant): boolean =>
    (period.from === undefined || at >= period.from) && (period.to === undefined || at <= period.to);
  const files = known.files.filter(({ closedAt }) => period.from === undefined || closedAt >= period.from);
  const rows = [...files.flatMap((file) => rowsOfCow(known, moment, file)), ...rowsOfNobody(known, moment)]
    .filter(({ dosing }) => dosing.doses.some((dose) => within(dose.at)))
    .sort(
      (a, b) =>
        a.dosing.doses[0].at - b.dosing.doses[0].at ||
        byText(a.row.cow, b.row.cow) ||
        byText(a.row.entries[0] ?? '', b.row.entries[0] ?? ''),
    )
    .map(({ row }) => row);
  const corrections = known.strikes.struck.flatMap(({ entry, by }): CorrectionRow[] => {
    const medicine = medicineIn(entry);
    if (medicine === undefined || !within(entry.at)) return [];
    return [
      {
        rule: 'R-23',
        entry: entry.id,
        medicine,
        cow: entry.subject ?? '',
        given: instantText(entry.at),
        writtenDown: instantText(entry.recordedAt),
        struckBy: by.author,
        struckAt: instantText(by.recordedAt),
        reason: by.data.reason,
        instead: by.data.instead ?? null,
      },
    ];
  });
  return { rows, corrections };
};

/** The medicine that an entry says was given. */
export const medicineIn = (entry: Entry): string | undefined => {
  if (entry.type === 'treatment') return entry.data.medicine;
  if (entry.type === 'dry-off' && entry.data.product !== 'none') return entry.data.product;
  return undefined;
};

/** A treatment, or a dry-off as the dose of its product. */
const givenBy = (entry: Entry): EntryOf<'treatment'> | undefined => {
  if (entry.type === 'treatment') return entry;
  const medicine = medicineIn(entry);
  return entry.type === 'dry-off' && medicine !== undefined ? doseOf(entry, entry.at, medicine) : undefined;
};

interface Made {
  readonly dosing: Dosing;
  readonly row: RegisterRow;
}

const rowsOfCow = (known: Known, moment: Moment, file: CowFile): Made[] => {
  const nth = nthMilkingFor(moment.schedule, moment.milking.start, countsFor(file, moment));
  const animal = dosedAnimal(file, moment, nth);
  return file.dosings
    .filter((dosing) => dosing.mayBe === undefined)
    .map((dosing) => {
      const label = labelOf(known, dosing);
      const causes =
        label === undefined
          ? saidOnly(dosing)
          : offLabelCauses(dosing, label, animal.patient, animal.dosesOf(dosing.medicineKey));
      return {
        dosing,
        row: rowOf(known, dosing, {
          cow: numberAt(file.cow, dosing.last.at),
          cowNow: numberAt(file.cow, moment.asOf),
          officialId: file.cow.officialId ?? null,
          placed: true,
          causes,
          milk: holdOf(dosing, moment, [
            ...dosingPieces(dosing, moment, animal),
            ...dryCowPieces({ farm: known.farm, file, moment, dosing, nth, sampledAt }),
          ]),
          meat: holdOf(dosing, moment, dosingMeat(dosing, file, moment, animal)),
        }),
      };
    });
};

/** Doses for no known cow, or for one that is not certain: they were given all the same. */
const rowsOfNobody = (known: Known, moment: Moment): Made[] => {
  const entries = [...known.herd.unplaced.map(({ entry }) => entry), ...known.herd.ambiguous.map(({ entry }) => entry)];
  const treatments = entries.flatMap((each) => {
    const entry = givenBy(each);
    return entry === undefined ? [] : [{ entry }];
  });
  const vetTimes = treatments.flatMap(({ entry }) => vetTimesOn(known, entry));
  const nth = nthMilkingFor(moment.schedule, moment.milking.start, () => true);
  const patient = { classAt: () => null, isDryingOff: () => false, born: undefined, dayOf: moment.schedule.dayOf };
  const dosings = dosingsOf({ treatments, vetTimes, courseEnds: [] });
  return dosings.map((dosing) => {
    const animal = { nth, patient, dosesOf: () => [...dosing.doses] };
    const label = labelOf(known, dosing);
    return {
      dosing,
      row: rowOf(known, dosing, {
        cow: dosing.last.subject ?? '',
        cowNow: null,
        officialId: null,
        placed: false,
        causes: label === undefined ? saidOnly(dosing) : offLabelCauses(dosing, label, patient, dosing.doses),
        milk: holdOf(dosing, moment, dosingPieces(dosing, moment, animal)),
        meat: holdOf(dosing, moment, dosingMeat(dosing, undefined, moment, animal)),
      }),
    };
  });
};

const saidOnly = (dosing: Dosing): OffLabelCause[] =>
  dosing.doses.some((dose) => dose.data.offLabel === true) ? ['said'] : [];

const holdOf = (
  dosing: Dosing,
  moment: Moment,
  pieces: readonly { readonly end: Instant | null; readonly because: Because }[],
): HoldOnRegister => {
  const end = latestEnd(pieces);
  if (end === undefined) return { until: instantText(dosing.last.at), zero: true, ended: true, because: [] };
  return {
    until: endText(end),
    zero: false,
    ended: end !== null && end < moment.asOf,
    because: pieces.map((piece) => piece.because),
  };
};
