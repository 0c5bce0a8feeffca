/**
 * The fold for one cow: her entries sorted into what the rules ask about. Pure `(cow, entry) → cow` over fold order;
 * nothing here knows a milking or a sheet.
 */
import type { EntryOf } from '../events/entry.ts';
import type { EntryType } from '../events/kinds.ts';
import type { Instant } from '../shared/instant.ts';
import type { MayBe } from './because.ts';
import { byFoldOrder } from './fold-order.ts';
import { type Roomy, withRoom } from './remembered.ts';
import type { Animal, Assigned, NumberSpan } from './who.ts';

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
  readonly calvings: readonly Hers<'calving'>[];
  readonly abortions: readonly Hers<'abortion'>[];
  readonly dryOffs: readonly EntryOf<'dry-off'>[];
  /** Dry-offs that are not certain to be hers: they dry her not, but what was given may hold her. */
  readonly mayBeDryOffs: readonly Hers<'dry-off'>[];
  readonly services: readonly EntryOf<'service'>[];
  readonly checks: readonly EntryOf<'pregnancy-check'>[];
  readonly treatments: readonly Hers<'treatment'>[];
  readonly vetTimes: readonly EntryOf<'vet-hold-time'>[];
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
  const assigned = [...animal.assigned].sort((a, b) => byFoldOrder(a.entry, b.entry));
  const kinds = new Map<EntryType, Assigned[]>();
  for (const each of assigned) {
    const have = kinds.get(each.entry.type);
    if (have === undefined) kinds.set(each.entry.type, [each]);
    else have.push(each);
  }
  const only = <T extends CowKind>(type: T) => (kinds.get(type) ?? []) as unknown as Hers<T>[];
  const certain = <T extends CowKind>(type: T): EntryOf<T>[] =>
    only(type).flatMap((hers) => (hers.mayBe === undefined ? [hers.entry] : []));
  return withRoom({
    key: animal.key,
    officialId: animal.officialId,
    spans: animal.spans,
    entered: certain('cow-entered'),
    left: certain('cow-left'),
    placements: assigned.flatMap(({ entry, mayBe }): Placement[] => {
      if (mayBe !== undefined) return [];
      const group = groupGiven(entry);
      return group === undefined ? [] : [{ at: entry.at, group, entry: entry.id }];
    }),
    calvings: only('calving'),
    abortions: only('abortion'),
    dryOffs: certain('dry-off'),
    mayBeDryOffs: only('dry-off').filter((hers) => hers.mayBe !== undefined),
    services: certain('service'),
    checks: certain('pregnancy-check'),
    treatments: only('treatment'),
    vetTimes: only('vet-hold-time').map((hers) => hers.entry),
    courseEnds: certain('course-ended'),
    milkHolds: only('milk-hold'),
    lifted: certain('milk-hold-lifted'),
    residueTests: only('residue-test'),
    sortRequests: only('sort-request'),
    milkRecords: certain('milk-record'),
    lastAt: assigned.at(-1)?.entry.at ?? (0 as Instant),
  });
};

const groupGiven = (entry: Assigned['entry']): string | undefined => {
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
