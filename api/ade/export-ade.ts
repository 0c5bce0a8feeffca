/**
 * The book as a document of the open ICAR Animal Data Exchange JSON standard (1.3.2): an array of collections, one a resource
 * type. Each resource names its entry: `meta.source` is the farm, `meta.sourceId` the entry (and a part of it behind a #),
 * `meta.modified` when this book last learnt something about it.
 */
import type { Entry } from '../../events/entry.ts';
import type { Known } from '../../projections/know.ts';
import { liveEntries } from '../../projections/live.ts';
import type { Moment } from '../../projections/moment.ts';
import { instantText, later } from '../../shared/instant.ts';
import { assertNever } from '../../shared/refusal.ts';
import { byText } from '../../shared/text-order.ts';
import { type CannotCarry, cannotCarry } from './cannot-carry.ts';
import { dosingHolds } from './dosing-holds.ts';
import { abortionOf, checkOf, dryOffOf, inseminationOf, parturitionOf, productOf } from './out-breeding.ts';
import { animals, arrivalOf, departureOf, groups, movesOf, numberOf } from './out-herd.ts';
import { asideHolds, freshHoldOf, holdsByEntry, milkHoldOf, residueHoldOf, visitOf } from './out-holds.ts';
import { medicineOf, struckDose, treatmentsOf } from './out-treatments.ts';
import { type Outgoing, outgoing } from './outgoing.ts';
import { type Collection, collected, type Resource } from './resource.ts';

export interface AdeExport {
  readonly collections: readonly Collection[];
  readonly resources: number;
  readonly cannotCarry: readonly CannotCarry[];
}

export interface Exported {
  readonly known: Known;
  /** Withdrawals that depend on what is due are worked out as of its `asOf`. */
  readonly moment: Moment;
  /** All of them, struck ones too. */
  readonly entries: readonly Entry[];
  /** The farm's id, else the book's. */
  readonly farm: string;
}

export const exportAde = ({ known, moment, entries, farm }: Exported): AdeExport => {
  const out = outgoing(known, moment, entries, farm);
  const holds = holdsByEntry(out);
  const resources = [
    ...groups(out),
    ...animals(out),
    ...liveEntries(known.strikes.live).flatMap((entry) => resourcesOf(out, entry, holds)),
    ...dosingHolds(known, moment).flatMap((hold) => treatmentsOf(out, hold)),
    ...asideHolds(out),
    ...known.strikes.struck.flatMap(({ entry, by }) => deleted(out, entry, by)),
  ];
  return {
    collections: collected([...resources].sort((a, b) => byText(a.resourceType, b.resourceType))),
    resources: resources.length,
    cannotCarry: cannotCarry(out, entries),
  };
};

/** What an entry that counts says; doses go out by dosing. */
const resourcesOf = (out: Outgoing, entry: Entry, holds: ReturnType<typeof holdsByEntry>): Resource[] => {
  const piece = holds.get(entry.id);
  switch (entry.type) {
    case 'cow-entered':
      return [...arrivalOf(out, entry), ...freshHoldOf(out, entry, piece)];
    case 'number-changed':
      return numberOf(out, entry);
    case 'cow-left':
      return departureOf(out, entry);
    case 'calving':
      return [...parturitionOf(out, entry), ...freshHoldOf(out, entry, piece)];
    case 'abortion':
      return [...abortionOf(out, entry), ...freshHoldOf(out, entry, piece)];
    case 'service':
      return inseminationOf(out, entry);
    case 'pregnancy-check':
      return checkOf(out, entry);
    case 'dry-off':
      return [...dryOffOf(out, entry), ...(out.cows.has(entry) ? [] : productOf(out, entry))];
    case 'milk-hold':
      return [milkHoldOf(out, entry, piece)];
    case 'residue-test':
      return residueHoldOf(out, entry, piece);
    case 'group-move':
      return movesOf(out, entry, entry.data.to);
    case 'milk-record':
      return visitOf(out, entry);
    case 'medicine-listed':
      return [medicineOf(out, entry)];
    case 'treatment':
    case 'vet-hold-time':
    case 'course-ended':
    case 'milk-hold-lifted':
    case 'farm-set-up':
    case 'medicine-received':
    case 'medicine-disposed':
    case 'sort-request':
    case 'sort-done':
    case 'head-count':
    case 'milking-finished':
    case 'tank-collection':
    case 'sheet-issued':
    case 'sheet-returned':
    case 'settled':
    case 'entry-struck':
    case 'book-continued':
      return [];
    default:
      return assertNever(entry);
  }
};

/**
 * A struck entry as deleted. Where the strike does not say what was true instead, a dose may have gone into another cow: it
 * goes out with its time, and whoever reads it must ask. Where it says so, nothing is left to ask, and it goes out without a time
 * (a withdrawal, which must have one, ends as it begins).
 */
const deleted = (out: Outgoing, entry: Entry, by: Known['strikes']['struck'][number]['by']): Resource[] =>
  struckResources(out, entry).map((resource) => {
    const meta = {
      ...resource.meta,
      isDeleted: true as const,
      modified: instantText(later(entry.recordedAt, by.recordedAt)),
    };
    if (by.data.instead === undefined) return { ...resource, meta };
    if (resource.resourceType === 'icarWithdrawalEventResource') {
      return { ...resource, meta, endDateTime: resource.eventDateTime };
    }
    const { eventDateTime, ...rest } = resource;
    const timed = resource.resourceType.startsWith('icarAnimalSet');
    return { ...rest, ...(timed ? { eventDateTime } : {}), meta };
  });

const struckResources = (out: Outgoing, entry: Entry): Resource[] => {
  if (entry.type === 'treatment') return [struckDose(out, entry)];
  if (entry.type === 'dry-off') return [...dryOffOf(out, entry), ...productOf(out, entry)];
  return resourcesOf(out, entry, new Map());
};
