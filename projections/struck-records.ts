/**
 * Struck entries that the register of medicines rests on: what was written, by whom, when; who struck it,
 * when, why, and what is true instead. Nothing that was said is lost. Rows without words, plain JSON.
 */
import type { Entry, EntryOf } from '../events/entry.ts';
import { instantText } from '../shared/instant.ts';
import { medicineKey } from './farm.ts';
import type { Known } from './know.ts';
import { liveEntries } from './live.ts';
import type { RegisterPeriod } from './medicines.ts';
import { bearersAt } from './standing.ts';

type DoseData = EntryOf<'treatment'>['data'];

export interface Struck {
  readonly rule: 'R-23';
  readonly entry: string;
  readonly by: string;
  readonly at: string;
  readonly reason: string;
  /** Id of the right entry, `nothing`, or null where the strike does not say. */
  readonly instead: string | null;
  /** The right entry, where this book has it. */
  readonly insteadIs: {
    readonly type: string;
    readonly cow: string | null;
    readonly at: string;
    readonly position: number;
  } | null;
  readonly writtenDown: string;
  readonly writtenBy: string;
}

/** A treatment, or a dry-off with its product, in the fields of the register. */
export interface StruckDose extends Struck {
  readonly cow: string;
  /** Null where no one cow bore the number then, or she has none. */
  readonly officialId: string | null;
  readonly given: string;
  readonly dose: DoseData;
  readonly active: string | null;
}

/** Another entry that doses, holds or stock were worked out from. */
export interface StruckOther extends Struck {
  readonly type: string;
  readonly cow: string | null;
  readonly happened: string;
  readonly medicine: string | null;
}

export interface StruckRecords {
  readonly doses: readonly StruckDose[];
  readonly others: readonly StruckOther[];
}

export const struckRecords = (known: Known, period: RegisterPeriod = {}): StruckRecords => {
  const byId = new Map<string, Entry>();
  for (const entry of liveEntries(known.strikes.live)) byId.set(entry.id, entry);
  for (const { entry } of known.strikes.struck) byId.set(entry.id, entry);
  const within = (at: number): boolean =>
    (period.from === undefined || at >= period.from) && (period.to === undefined || at <= period.to);
  const doses: StruckDose[] = [];
  const others: StruckOther[] = [];
  for (const { entry, by } of known.strikes.struck) {
    const dose = doseIn(entry);
    if (dose !== undefined) {
      if (within(entry.at))
        doses.push({
          ...struckBy(entry, by, byId),
          cow: entry.subject ?? '',
          officialId: officialOf(known, entry),
          given: instantText(entry.at),
          dose,
          active: labelAt(known, dose.medicine, entry.at)?.active ?? null,
        });
    } else if (RESTS_ON.has(entry.type) && (within(entry.at) || within(by.recordedAt))) {
      others.push({
        ...struckBy(entry, by, byId),
        type: entry.type,
        cow: entry.subject ?? null,
        happened: instantText(entry.at),
        medicine: medicineOf(entry, byId),
      });
    }
  }
  return { doses, others };
};

const RESTS_ON: ReadonlySet<string> = new Set([
  'vet-hold-time',
  'course-ended',
  'medicine-listed',
  'medicine-received',
  'medicine-disposed',
]);

const doseIn = (entry: Entry): DoseData | undefined => {
  if (entry.type === 'treatment') return entry.data;
  if (entry.type === 'dry-off' && entry.data.product !== undefined && entry.data.product !== 'none')
    return { medicine: entry.data.product };
  return undefined;
};

const struckBy = (entry: Entry, by: EntryOf<'entry-struck'>, byId: ReadonlyMap<string, Entry>): Struck => {
  const { instead } = by.data;
  const right = instead === undefined ? undefined : byId.get(instead);
  return {
    rule: 'R-23',
    entry: entry.id,
    by: by.author,
    at: instantText(by.recordedAt),
    reason: by.data.reason,
    instead: instead ?? null,
    insteadIs:
      right === undefined
        ? null
        : { type: right.type, cow: right.subject ?? null, at: instantText(right.at), position: right.position },
    writtenDown: instantText(entry.recordedAt),
    writtenBy: entry.author,
  };
};

/** The label in force when it was given, else the first one after it. */
const labelAt = (known: Known, medicine: string, at: number) => {
  const listings = known.farm.listings.get(medicineKey(medicine)) ?? [];
  return (listings.findLast((listing) => listing.at <= at) ?? listings[0])?.data;
};

const officialOf = (known: Known, entry: Entry): string | null => {
  const keys = bearersAt(known, entry.subject ?? '', entry.at);
  const animals = known.herd.animals.filter((animal) => keys.includes(animal.key));
  return animals.length === 1 ? (animals[0]?.officialId ?? null) : null;
};

const medicineOf = (entry: Entry, byId: ReadonlyMap<string, Entry>): string | null => {
  if (entry.type === 'medicine-listed') return entry.data.name;
  if (entry.type === 'medicine-received' || entry.type === 'medicine-disposed') return entry.data.medicine;
  if (entry.type !== 'vet-hold-time') return null;
  const treatment = byId.get(entry.data.treatment);
  return treatment?.type === 'treatment' ? treatment.data.medicine : null;
};
