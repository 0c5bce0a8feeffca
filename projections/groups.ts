/** The farm's groups in milking order, and which of them a milking takes in. */
import type { FarmSetUp, GroupKind } from '../events/kinds/farm-set-up.ts';
import { byText } from '../shared/text-order.ts';
import { remembered } from './remembered.ts';
import type { Milking, Schedule } from './schedule.ts';

export interface Group {
  readonly name: string;
  /** `unknown`: a cow was put in a group the set-up does not have. It counts as milked, the safe reading. */
  readonly kind: GroupKind | 'unknown';
  /** Names that it bore before. */
  readonly was: readonly string[];
  readonly takes: 'first-lactation' | 'later-lactations' | 'any';
  readonly capacity: number | undefined;
  readonly milkedAt: readonly string[] | undefined;
}

const MILKED_KINDS = new Set(['milking', 'fresh', 'hospital', 'unknown']);

/** Its cows are dry or about to calve: not milked unless the farm says so. */
export const isForDry = ({ kind }: Pick<Group, 'kind'>): boolean => kind === 'dry' || kind === 'close-up';

/** Milked at any milking at all, and not the hospital. */
export const isMilkedBeforeHospital = ({ kind, milkedAt }: FarmSetUp['groups'][number] | Group): boolean =>
  kind !== 'hospital' && (milkedAt === undefined ? MILKED_KINDS.has(kind) : milkedAt.length > 0);

/** Milked groups by the farm's order with hospital last, then the others; ties as the farm listed them. */
export const groupsInOrder = remembered((setUp: FarmSetUp): readonly Group[] => {
  const rank = (group: FarmSetUp['groups'][number]): number =>
    isMilkedBeforeHospital(group) ? 0 : group.kind === 'hospital' ? 1 : 2;
  return setUp.groups
    .map((group, listed) => ({ group, listed }))
    .sort(
      (a, b) =>
        rank(a.group) - rank(b.group) ||
        (a.group.order ?? Number.MAX_SAFE_INTEGER) - (b.group.order ?? Number.MAX_SAFE_INTEGER) ||
        a.listed - b.listed,
    )
    .map(({ group }) => ({
      name: group.name,
      kind: group.kind,
      was: group.was ?? [],
      takes: group.takes ?? 'any',
      capacity: group.capacity,
      milkedAt: group.milkedAt,
    }));
});

/** Who was put in a group by a name that it has no more stands in it all the same. */
export const isNamed = (group: Pick<Group, 'name' | 'was'>, name: string | undefined): boolean =>
  name !== undefined && (group.name === name || group.was.includes(name));

export const groupNamed = (groups: readonly Group[], name: string): Group =>
  groups.find((group) => isNamed(group, name)) ?? {
    name,
    kind: 'unknown',
    was: [],
    takes: 'any',
    capacity: undefined,
    milkedAt: undefined,
  };

/** Is a group milked at a milking? Dry and close-up groups are only where the farm says so. */
export const isMilkedAt = (group: Group, milkingName: string): boolean =>
  group.milkedAt === undefined ? MILKED_KINDS.has(group.kind) : group.milkedAt.includes(milkingName);

export interface GroupLookup {
  readonly groups: (milking: Milking) => readonly Group[];
  readonly isMilked: (group: string, milking: Milking) => boolean;
}

export const groupLookup = (schedule: Schedule): GroupLookup => {
  const groups = (milking: Milking): readonly Group[] => groupsInOrder(schedule.inForceOn(milking.day).data);
  return { groups, isMilked: (group, milking) => isMilkedAt(groupNamed(groups(milking), group), milking.name) };
};

/** Order on paper: groups in milking order (unknown ones last, by name). */
export const groupPlace = (groups: readonly Group[], a: string, b: string): number => {
  const place = (name: string): number => {
    const index = groups.findIndex((group) => group.name === name);
    return index < 0 ? groups.length : index;
  };
  return place(a) - place(b) || byText(a, b);
};
