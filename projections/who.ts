/**
 * Which cow an entry means: her barn number as used at that time, or her official number. A number borne by
 * two cows means both where it holds milk and neither where it would free it; a number nobody bears is unplaced.
 */
import type { Entry, EntryOf } from '../events/entry.ts';
import { officialDigits, withoutLeadingZeros } from '../shared/cow-number.ts';
import type { Instant } from '../shared/instant.ts';
import { assertNever } from '../shared/refusal.ts';
import type { MayBe } from './because.ts';

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

const assign = (animal: Animal, entry: Entry, mayBe?: MayBe): void => {
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
}

export interface Unplaced {
  readonly entry: Entry;
  readonly how: 'not-in-herd' | 'leading-zeros';
  readonly mayBe: readonly Animal[];
}

export interface Herd {
  readonly animals: readonly Animal[];
  readonly unplaced: readonly Unplaced[];
  /** Entries whose number meant two cows at the time. */
  readonly ambiguous: readonly { readonly entry: Entry; readonly animals: readonly Animal[] }[];
  /** Entries of a number whose last bearer had left. */
  readonly afterLeaving: readonly { readonly entry: Entry; readonly animal: Animal }[];
  /** `cow-entered` or `number-changed` that took a number another cow bears. */
  readonly numberInUse: readonly { readonly entry: Entry; readonly number: string }[];
}

/** What an entry does to the tank if it is laid to the wrong cow's door. */
type Bearing = 'holds' | 'frees' | 'neither';

const bearingOf = (entry: Entry): Bearing => {
  switch (entry.type) {
    case 'treatment':
    case 'milk-hold':
    case 'calving':
    case 'sort-request':
    case 'group-move': // A dry cow put among the milked ones.
      return 'holds';
    case 'abortion':
      return entry.data.milked === true ? 'holds' : 'neither';
    case 'residue-test':
      return entry.data.result === 'positive' ? 'holds' : 'frees';
    case 'dry-off': // Its product is a dose like any other; one that is not stated is not known.
      return entry.data.product === 'none' ? 'frees' : 'holds';
    case 'milk-hold-lifted':
    case 'course-ended':
    case 'cow-left':
      return 'frees';
    case 'vet-hold-time': // Goes by the treatment it names, wherever that stands.
      return 'holds';
    case 'milk-record':
    case 'service':
    case 'pregnancy-check':
    case 'sort-done':
    case 'number-changed':
    case 'cow-entered':
    case 'farm-set-up':
    case 'medicine-listed':
    case 'medicine-received':
    case 'medicine-disposed':
    case 'head-count':
    case 'milking-finished':
    case 'tank-collection':
    case 'sheet-issued':
    case 'sheet-returned':
    case 'settled':
    case 'book-continued':
    case 'entry-struck':
      return 'neither';
    default:
      return assertNever(entry);
  }
};

/** True for what must be found before milking when nobody bears its number. */
export const holdsMilk = (entry: Entry): boolean => bearingOf(entry) === 'holds' && !MOVES_ONLY.has(entry.type);

const MOVES_ONLY = new Set(['sort-request', 'group-move']);

const NOT_OF_A_COW = new Set(['settled', 'entry-struck']);

/** True for what is laid to a cow's door. */
export const isOfACow = (entry: Entry): entry is Entry & { readonly subject: string } =>
  entry.subject !== undefined && !NOT_OF_A_COW.has(entry.type);

/** `entries`: live, in fold order. */
export const sortHerd = (entries: readonly Entry[]): Herd => {
  const animals: Animal[] = [];
  const byOfficial = new Map<string, Animal>();
  const bearers = new Map<string, Animal[]>();
  const lastBearer = new Map<string, Animal>();
  const unplaced: { entry: Entry; how: Unplaced['how']; mayBe: Animal[] }[] = [];
  const ambiguous: { entry: Entry; animals: readonly Animal[] }[] = [];
  const afterLeaving: { entry: Entry; animal: Animal }[] = [];
  const numberInUse: { entry: Entry; number: string }[] = [];

  const bearersOf = (number: string): readonly Animal[] => bearers.get(number) ?? [];
  const take = (animal: Animal, number: string, entry: Entry) => {
    const others = bearersOf(number).filter((each) => each !== animal);
    if (others.length > 0) numberInUse.push({ entry, number });
    bearers.set(number, [...others, animal]);
    lastBearer.set(number, animal);
    animal.spans.push({ number, from: entry.at, to: null });
  };
  const giveUp = (animal: Animal, at: Instant, number?: string) => {
    for (const span of animal.spans) {
      if (span.to !== null || (number !== undefined && span.number !== number)) continue;
      span.to = at;
      bearers.set(
        span.number,
        bearersOf(span.number).filter((each) => each !== animal),
      );
    }
  };

  const enter = (entry: EntryOf<'cow-entered'>) => {
    const subject = entry.subject ?? '';
    const official =
      entry.data.officialId === undefined ? officialDigits(subject) : officialDigits(entry.data.officialId);
    const known = official === undefined ? undefined : byOfficial.get(official);
    const animal: Animal = known ?? {
      key: entry.id,
      enteredBy: entry,
      officialId: official,
      present: true,
      spans: [],
      assigned: [],
      unsure: undefined,
    };
    if (known === undefined) animals.push(animal);
    if (official !== undefined) byOfficial.set(official, animal);
    animal.present = true;
    const bears = animal.spans.some((span) => span.to === null && span.number === subject);
    if (!bears) {
      giveUp(animal, entry.at);
      take(animal, subject, entry);
    }
    assign(animal, entry);
  };

  const meant = (subject: string): readonly Animal[] => {
    const official = officialDigits(subject);
    const byNumber = bearersOf(subject);
    if (byNumber.length > 0 || official === undefined) return byNumber;
    const animal = byOfficial.get(official);
    return animal === undefined || !animal.present ? [] : [animal];
  };

  const place = (entry: Entry, subject: string) => {
    const found = meant(subject);
    if (found.length === 1 && found[0] !== undefined) {
      assign(found[0], entry);
      if (entry.type === 'number-changed') {
        giveUp(found[0], entry.at, bearersOf(subject).length > 0 ? subject : undefined);
        take(found[0], entry.data.to, entry);
      }
      if (entry.type === 'cow-left') {
        giveUp(found[0], entry.at);
        found[0].present = false;
      }
      return;
    }
    const bearing = bearingOf(entry);
    if (found.length > 1) {
      ambiguous.push({ entry, animals: found });
      if (bearing === 'holds') for (const animal of found) assign(animal, entry, 'two-cows');
      // Nobody can tell which of the two got the new number: from here on it may mean either.
      if (entry.type === 'number-changed') for (const animal of found) take(animal, entry.data.to, entry);
      return;
    }
    const short = withoutLeadingZeros(subject);
    const near = [...bearers]
      .filter(([number, list]) => list.length > 0 && withoutLeadingZeros(number) === short)
      .flatMap(([, list]) => list);
    const left = lastBearer.get(subject);
    if (near.length > 0) {
      unplaced.push({ entry, how: 'leading-zeros', mayBe: near });
      if (bearing === 'holds') for (const animal of near) assign(animal, entry, 'leading-zeros');
      return;
    }
    if (left !== undefined) afterLeaving.push({ entry, animal: left });
    unplaced.push({ entry, how: 'not-in-herd', mayBe: [] });
  };

  for (const entry of entries) {
    if (!isOfACow(entry)) continue;
    if (entry.type === 'cow-entered') enter(entry);
    else place(entry, entry.subject);
  }

  // A dose written down before its cow was entered may be hers once a cow bears that number.
  for (const each of unplaced) {
    if (each.how !== 'not-in-herd' || !holdsMilk(each.entry)) continue;
    const number = each.entry.subject ?? '';
    const official = officialDigits(number);
    for (const animal of animals) {
      const bearsLater = animal.spans.some((span) => span.number === number && span.from > each.entry.at);
      if (!animal.present || !(bearsLater || (official !== undefined && animal.officialId === official))) continue;
      each.mayBe.push(animal);
      assign(animal, each.entry, 'not-in-herd-then');
    }
  }
  // A list that grew keeps room for more: among twenty thousand cows that adds up.
  for (const animal of animals) {
    animal.spans = animal.spans.slice();
    animal.assigned = animal.assigned.slice();
  }
  return { animals, unplaced, ambiguous, afterLeaving, numberInUse };
};
