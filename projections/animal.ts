/** One cow of the herd as the numbers tell her: which she bore and when, and the entries laid to her door. */
import type { Entry, EntryOf } from '../events/entry.ts';
import type { Instant } from '../shared/instant.ts';
import type { MayBe } from './because.ts';

/** A vet's time as it bears on doses of hers; not sure where it may have been said of another cow's, or of another medicine. */
export interface HerVetTime {
  readonly entry: EntryOf<'vet-hold-time'>;
  /** Ids of the doses it is about. */
  readonly doses: readonly string[];
  readonly isSure: boolean;
}

/** One entry as it bears on one cow; `mayBe` where it is not certain that it is hers. */
export interface Assigned {
  readonly entry: Entry;
  readonly mayBe?: MayBe;
}

export const assignedTo = ({ assigned, unsure }: Animal): readonly Assigned[] =>
  assigned.map((entry) => {
    const mayBe = unsure?.get(entry);
    return mayBe === undefined ? { entry } : { entry, mayBe };
  });

export const isCertain = ({ unsure }: Animal, entry: Entry): boolean => unsure === undefined || !unsure.has(entry);

export const areSame = (one: Animal, other: Animal): void => {
  same.set(one, [...mayBeSame(one), other]);
  same.set(other, [...mayBeSame(other), one]);
};

export const assign = (animal: Animal, entry: Entry, mayBe?: MayBe): void => {
  animal.assigned.push(entry);
  if (mayBe === undefined) return;
  animal.unsure ??= new Map();
  animal.unsure.set(entry, mayBe);
};

/** A stretch of time in which a cow bore a number; `to` null while she does. */
export interface NumberSpan {
  readonly number: string;
  readonly from: Instant;
  to: Instant | null;
}

export interface Animal {
  /** Id of her first `cow-entered`. */
  readonly key: string;
  readonly enteredBy: EntryOf<'cow-entered'>;
  officialId: string | undefined;
  present: boolean;
  spans: NumberSpan[];
  assigned: Entry[];
  /** Those of them that are not certain to be hers; seldom any. */
  unsure: Map<Entry, MayBe> | undefined;
  /** Vet's times that bear otherwise on her doses than by naming one of them; seldom any. */
  vetTimes: Map<Entry, HerVetTime> | undefined;
}

const same = new WeakMap<Animal, readonly Animal[]>();

/** Other cows of the herd that may be this very cow: the one was entered under the official number of the other, who was there. */
export const mayBeSame = (animal: Animal): readonly Animal[] => same.get(animal) ?? NONE;

const NONE: readonly never[] = [];
