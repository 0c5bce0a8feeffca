/**
 * The fold for one cow: her entries sorted into what the rules ask about. Pure `(cow, entry) → cow` over fold order;
 * nothing here knows a milking or a sheet.
 */
import type { Entry, EntryOf } from '../events/entry.ts';
import type { EntryType } from '../events/kinds.ts';
import type { Instant } from '../shared/instant.ts';
import type { HerVetTime } from './animal.ts';
import { type Animal, isCertain, type NumberSpan } from './animal.ts';
import type { MayBe } from './because.ts';
import { byFoldOrder } from './fold-order.ts';
import { type Roomy, withRoom } from './remembered.ts';

/** An entry as laid to this cow's door. */
export interface Hers<T extends EntryType> {
  readonly entry: EntryOf<T>;
  readonly mayBe?: MayBe;
}

/** Where she was put, by which entry. */
export interface Placement {
  readonly at: Instant;
  readonly group: string;
  readonly entry: string;
}

export interface Cow extends Roomy {
  readonly key: string;
  readonly officialId: string | undefined;
  readonly spans: readonly NumberSpan[];
  readonly entered: readonly EntryOf<'cow-entered'>[];
  readonly left: readonly EntryOf<'cow-left'>[];
  readonly placements: readonly Placement[];
  /** Moves that are not certain to be hers: she stands where she stood, but may be there. */
  readonly mayBeMoves: readonly Hers<'group-move'>[];
  readonly calvings: readonly Hers<'calving'>[];
  readonly abortions: readonly Hers<'abortion'>[];
  readonly dryOffs: readonly EntryOf<'dry-off'>[];
  /** Dry-offs that are not certain to be hers: they dry her not, but what was given may hold her. */
  readonly mayBeDryOffs: readonly Hers<'dry-off'>[];
  readonly services: readonly EntryOf<'service'>[];
  readonly checks: readonly EntryOf<'pregnancy-check'>[];
  readonly treatments: readonly Hers<'treatment'>[];
  readonly vetTimes: readonly HerVetTime[];
  readonly courseEnds: readonly EntryOf<'course-ended'>[];
  readonly milkHolds: readonly Hers<'milk-hold'>[];
  readonly lifted: readonly EntryOf<'milk-hold-lifted'>[];
  readonly residueTests: readonly Hers<'residue-test'>[];
  readonly sortRequests: readonly Hers<'sort-request'>[];
  readonly milkRecords: readonly EntryOf<'milk-record'>[];
  /** The latest time that any entry about her gives. */
  readonly lastAt: Instant;
}

type CowKind =
  | 'cow-entered'
  | 'cow-left'
  | 'calving'
  | 'abortion'
  | 'dry-off'
  | 'service'
  | 'pregnancy-check'
  | 'treatment'
  | 'vet-hold-time'
  | 'course-ended'
  | 'milk-hold'
  | 'milk-hold-lifted'
  | 'residue-test'
  | 'sort-request'
  | 'milk-record'
  | 'group-move';

export const foldCow = (animal: Animal): Cow => {
  // Only what may be hers is laid to her door out of order (`sortHerd`).
  const assigned = animal.unsure === undefined ? animal.assigned : [...animal.assigned].sort(byFoldOrder);
  const kinds = new Map<EntryType, Entry[]>();
  for (const entry of assigned) {
    const have = kinds.get(entry.type);
    if (have === undefined) kinds.set(entry.type, [entry]);
    else have.push(entry);
  }
  const { unsure } = animal;
  const only = <T extends CowKind>(type: T): readonly Hers<T>[] =>
    (kinds.get(type) as EntryOf<T>[] | undefined)?.map((entry): Hers<T> => {
      const mayBe = unsure?.get(entry as Entry);
      return mayBe === undefined ? { entry } : { entry, mayBe };
    }) ?? NONE;
  const either = <T extends CowKind>(type: T): readonly EntryOf<T>[] =>
    (kinds.get(type) as EntryOf<T>[] | undefined)?.slice() ?? NONE;
  const certain = <T extends CowKind>(type: T): readonly EntryOf<T>[] =>
    unsure === undefined ? either(type) : either(type).filter((entry) => isCertain(animal, entry as Entry));
  const dryOffs = certain('dry-off');
  return withRoom({
    key: animal.key,
    officialId: animal.officialId,
    spans: animal.spans,
    entered: certain('cow-entered'),
    left: certain('cow-left'),
    placements: placementsOf(assigned.filter((entry) => isCertain(animal, entry))),
    mayBeMoves: unsure === undefined ? NONE : only('group-move').filter((hers) => hers.mayBe !== undefined),
    calvings: only('calving'),
    abortions: only('abortion'),
    dryOffs,
    mayBeDryOffs: unsure === undefined ? NONE : only('dry-off').filter((hers) => hers.mayBe !== undefined),
    services: certain('service'),
    checks: certain('pregnancy-check'),
    treatments: only('treatment'),
    vetTimes: either('vet-hold-time').map(
      (entry) => animal.vetTimes?.get(entry) ?? { entry, doses: [entry.data.treatment], isSure: true },
    ),
    courseEnds: certain('course-ended'),
    milkHolds: only('milk-hold'),
    lifted: certain('milk-hold-lifted'),
    residueTests: only('residue-test'),
    sortRequests: only('sort-request'),
    milkRecords: certain('milk-record'),
    lastAt: assigned.at(-1)?.at ?? (0 as Instant),
  });
};

const NONE: readonly never[] = [];

const placementsOf = (entries: readonly Entry[]): readonly Placement[] =>
  entries
    .filter((entry) => groupGiven(entry) !== undefined)
    .map((entry) => ({ at: entry.at, group: groupGiven(entry) ?? '', entry: entry.id }));

/** Every group that she was ever put in, by a look at her entries alone. */
export const groupsEver = (animal: Animal): ReadonlySet<string> => groupsIn(animal.assigned, animal.unsure);

const groupsIn = (entries: readonly Entry[], unsure: Animal['unsure']): ReadonlySet<string> => {
  const names = new Set<string>();
  for (const entry of entries) {
    const group = groupGiven(entry);
    if (group !== undefined && unsure?.has(entry) !== true) names.add(group);
  }
  return names;
};

const groupGiven = (entry: Entry): string | undefined => {
  switch (entry.type) {
    case 'cow-entered':
    case 'calving':
    case 'abortion':
    case 'dry-off':
      return entry.data.group;
    case 'group-move':
      return entry.data.to;
    default:
      return undefined;
  }
};

/** In the herd at an instant: entered by then, not left before it. */
export const presentAt = (cow: Cow, at: Instant): boolean => {
  const entered = cow.entered.findLast((entry) => entry.at <= at);
  if (entered === undefined) return false;
  const left = cow.left.findLast((entry) => entry.at < at);
  return left === undefined || left.at < entered.at;
};

/** The barn number she bears at an instant, or last bore. */
export const numberAt = (cow: Cow, at: Instant): string => {
  const span = cow.spans.findLast((each) => each.from <= at) ?? cow.spans[0];
  return span?.number ?? '';
};

/** The group she stands in at an instant; `undefined` before she entered. */
export const groupAt = (cow: Cow, at: Instant): string | undefined =>
  cow.placements.findLast((placement) => placement.at <= at)?.group;
