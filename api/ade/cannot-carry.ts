/** What the standard has no resource or field for: said with every export, so that nobody takes the file for the whole book. */
import type { Entry } from '../../events/entry.ts';
import { ENTRY_TYPES, type EntryType } from '../../events/kinds.ts';
import { liveEntries } from '../../projections/live.ts';
import { HOUR } from '../../shared/instant.ts';
import { unitCode } from './codes.ts';
import type { Outgoing } from './outgoing.ts';

export interface CannotCarry {
  /** A kind of entry, or a field of one as `treatment.offLabel`. */
  readonly what: string;
  readonly count: number;
  /** What becomes of it in the file. */
  readonly why: string;
}

/** Undefined: carried whole, or its fields are judged one by one below. */
const KINDS_NOT_CARRIED: Readonly<Record<EntryType, string | undefined>> = {
  'farm-set-up': 'milkings, parlour and the farm’s own rules have no resource; group names alone are carried',
  'medicine-listed': 'a medicine has a name there and no label: holds, doses and age limits are not carried',
  'medicine-received': 'stock has no resource; the expiry of a batch goes with the doses given from it',
  'medicine-disposed': 'stock has no resource',
  'vet-hold-time': 'the vet’s time is carried in the end of the withdrawal, who said it in the treatment program',
  'course-ended': 'a course that was ended is carried as the doses given; why it was ended is not',
  'milk-hold-lifted': 'the end of the hold is carried, why it was lifted is not',
  'residue-test': 'a positive test of a cow is carried as a withdrawal; clear tests and tests of the tank are not',
  'sort-request': 'the standard has no request to sort a cow out',
  'sort-done': 'the standard has no request to sort a cow out',
  'head-count': 'the standard has no count of a group',
  'milking-finished': 'the standard has no end of a milking of the herd',
  'tank-collection': 'the standard has no collection of milk from a farm tank',
  'sheet-issued': 'issued sheets are Byrebook’s own; backup and export --format jsonl keep them',
  'sheet-returned': 'issued sheets are Byrebook’s own',
  settled: 'what a person settled has no resource; the doubt comes up again where the file is read',
  'book-continued': 'a book’s own history has no resource',
  'entry-struck': 'the struck entry is carried as deleted; the reason, and what was true instead, are not',
  'cow-entered': undefined,
  'number-changed': undefined,
  'cow-left': undefined,
  calving: undefined,
  abortion: undefined,
  service: undefined,
  'pregnancy-check': undefined,
  'dry-off': undefined,
  treatment: undefined,
  'milk-hold': undefined,
  'group-move': undefined,
  'milk-record': undefined,
};

interface FieldRule {
  readonly what: string;
  readonly why: string;
  readonly isLost: (entry: Entry) => boolean;
}

const FIELDS_NOT_CARRIED: readonly FieldRule[] = [
  {
    what: 'treatment.offLabel',
    why: 'a use off the label has no field; the longer hold that follows from it is in the end of the withdrawal',
    isLost: (entry) => entry.type === 'treatment' && entry.data.offLabel === true,
  },
  {
    what: 'treatment.amount',
    why: 'the unit has no code there; the amount is said in words, in the comment',
    isLost: (entry) =>
      entry.type === 'treatment' && entry.data.amount !== undefined && unitCode(entry.data.amount.unit) === undefined,
  },
  {
    what: 'treatment.quarters',
    why: 'a rear quarter comes back as a hind one',
    isLost: (entry) =>
      entry.type === 'treatment' && (entry.data.quarters ?? []).some((quarter) => quarter.endsWith('rear')),
  },
  {
    what: 'treatment.course.everyHours',
    why: 'the interval is in whole hours there',
    isLost: (entry) =>
      entry.type === 'treatment' &&
      entry.data.course !== undefined &&
      (entry.data.course.everyHours * HOUR) % HOUR !== 0,
  },
  {
    what: 'abortion.daysCarried',
    why: 'it has no field; it is said in words, in the remark',
    isLost: (entry) => entry.type === 'abortion' && entry.data.daysCarried !== undefined,
  },
  {
    what: 'cow-entered.milkHoldUntil "unknown"',
    why: 'a hold that is not known cannot be stated; it is left out, which reads as not known',
    isLost: (entry) =>
      entry.type === 'cow-entered' &&
      (entry.data.milkHoldUntil === 'unknown' || entry.data.meatHoldUntil === 'unknown'),
  },
];

export const cannotCarry = (out: Outgoing, entries: readonly Entry[]): readonly CannotCarry[] => {
  const counts = new Map<EntryType, number>();
  for (const { type } of entries) counts.set(type, (counts.get(type) ?? 0) + 1);
  const kinds = ENTRY_TYPES.flatMap((type): CannotCarry[] => {
    const why = KINDS_NOT_CARRIED[type];
    const count = counts.get(type) ?? 0;
    return why === undefined || count === 0 ? [] : [{ what: type, count, why }];
  });
  const fields = FIELDS_NOT_CARRIED.flatMap(({ what, why, isLost }): CannotCarry[] => {
    const count = liveEntries(out.known.strikes.live).filter(isLost).length;
    return count === 0 ? [] : [{ what, count, why }];
  });
  const asides = out.known.asides.length;
  return [
    ...kinds,
    ...fields,
    ...(asides === 0
      ? []
      : [
          {
            what: 'set aside',
            count: asides,
            why: 'what was refused or cannot be read is carried as an open withdrawal of each cow it may concern; its text is not, and nothing is where no cow can be read in it',
          },
        ]),
  ];
};
