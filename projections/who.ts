/**
 * Which cow an entry means: her barn number as used at that time, or her official number. A number borne by
 * two cows means both where it holds milk and neither where it would free it; a number nobody bears is unplaced.
 */
import type { Entry, EntryOf } from '../events/entry.ts';
import { officialDigits, withoutLeadingZeros } from '../shared/cow-number.ts';
import type { Instant } from '../shared/instant.ts';
import { type Animal, areSame, assign } from './animal.ts';
import { bearingOf, holdsMilk, isOfACow } from './bearing.ts';
import type { Corrections } from './instead.ts';
import { layVetTimes, type VetElsewhere } from './vet-times.ts';

export interface Unplaced {
  readonly entry: Entry;
  readonly how: 'not-in-herd' | 'leading-zeros' | 'old-number';
  readonly mayBe: readonly Animal[];
}

export interface Herd {
  readonly animals: readonly Animal[];
  readonly unplaced: readonly Unplaced[];
  /** Entries whose number meant two cows at the time. */
  readonly ambiguous: readonly { readonly entry: Entry; readonly animals: readonly Animal[] }[];
  /** Entries of a number whose last bearer had left. */
  readonly afterLeaving: readonly { readonly entry: Entry; readonly animal: Animal }[];
  /** Entries of a number whose last bearer is there under another. */
  readonly afterRenumbering: readonly { readonly entry: Entry; readonly animal: Animal }[];
  /** `cow-entered` or `number-changed` that took a number another cow bears. */
  readonly numberInUse: readonly { readonly entry: Entry; readonly number: string }[];
  /** `cow-entered` under the official number of cows that were there under another barn number. */
  readonly enteredAgain: readonly { readonly entry: Entry; readonly animals: readonly Animal[] }[];
  /** Vet's times whose number is not that of the treatment they name. */
  readonly vetElsewhere: readonly VetElsewhere[];
}

/** `entries`: live, in fold order. */
export const sortHerd = (entries: readonly Entry[], corrections: Corrections): Herd => {
  const animals: Animal[] = [];
  const byOfficial = new Map<string, Animal[]>();
  const bearers = new Map<string, Animal[]>();
  const lastBearer = new Map<string, Animal>();
  const unplaced: { entry: Entry; how: Unplaced['how']; mayBe: Animal[] }[] = [];
  const ambiguous: { entry: Entry; animals: readonly Animal[] }[] = [];
  const afterLeaving: { entry: Entry; animal: Animal }[] = [];
  const afterRenumbering: { entry: Entry; animal: Animal }[] = [];
  const enteredAgain: { entry: Entry; animals: readonly Animal[] }[] = [];
  /** Whom the number of a vet's time means, in whatever way. */
  const vetMeant = new Map<Entry, readonly Animal[]>();
  /** Numbers given up for another, and when: at that very instant they may still be meant. */
  const givenUp = new Map<string, { at: Instant; animal: Animal }>();
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
    const those = (official === undefined ? undefined : byOfficial.get(official)) ?? [];
    const there = those.filter((each) => each.present);
    const known =
      there.find((each) => bearersOf(subject).includes(each)) ??
      those.find((each) => !each.present && lastBearer.get(subject) === each) ??
      (there.length > 0 ? undefined : those.at(-1));
    const animal: Animal = known ?? {
      key: entry.id,
      enteredBy: entry,
      officialId: official,
      present: true,
      spans: [],
      assigned: [],
      unsure: undefined,
      vetTimes: undefined,
    };
    if (known === undefined) {
      animals.push(animal);
      if (official !== undefined) byOfficial.set(official, [...those, animal]);
    }
    if (known === undefined && there.length > 0) {
      // She may be the cow that is there, under a new number, or another whose official number was written wrong.
      enteredAgain.push({ entry, animals: there });
      for (const each of there) areSame(each, animal);
    }
    animal.present = true;
    const bears = animal.spans.some((span) => span.to === null && span.number === subject);
    if (!bears) {
      giveUp(animal, entry.at);
      take(animal, subject, entry);
    }
    assign(animal, entry);
  };

  const meant = (subject: string, entry: Entry): readonly Animal[] => {
    const official = officialDigits(subject);
    const had = givenUp.get(subject);
    const byNumber = bearersOf(subject);
    const justHad = had?.at === entry.at && entry.type !== 'number-changed' && !byNumber.includes(had.animal);
    if (justHad) return [...byNumber, had.animal];
    if (byNumber.length > 0 || official === undefined) return byNumber;
    return (byOfficial.get(official) ?? []).filter((animal) => animal.present);
  };

  const place = (entry: Entry, subject: string) => {
    const found = meant(subject, entry);
    if (entry.type === 'vet-hold-time') vetMeant.set(entry, found);
    if (found.length === 1 && found[0] !== undefined) {
      assign(found[0], entry);
      if (entry.type === 'number-changed') {
        giveUp(found[0], entry.at, bearersOf(subject).length > 0 ? subject : undefined);
        givenUp.set(subject, { at: entry.at, animal: found[0] });
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
      if (entry.type === 'vet-hold-time') vetMeant.set(entry, near);
      unplaced.push({ entry, how: 'leading-zeros', mayBe: near });
      if (bearing === 'holds') for (const animal of near) assign(animal, entry, 'leading-zeros');
      return;
    }
    if (left !== undefined) {
      (left.present ? afterRenumbering : afterLeaving).push({ entry, animal: left });
      if (entry.type === 'vet-hold-time') vetMeant.set(entry, [left]);
    }
    if (left?.present === true) {
      unplaced.push({ entry, how: 'old-number', mayBe: [left] });
      if (bearing === 'holds') assign(left, entry, 'old-number');
    } else unplaced.push({ entry, how: 'not-in-herd', mayBe: [] });
  };

  for (const entry of entries) {
    if (!isOfACow(entry)) continue;
    if (entry.type === 'cow-entered') enter(entry);
    else place(entry, entry.subject);
  }

  // A dose written down before its cow was entered may be hers once a cow bears that number.
  for (const each of unplaced) {
    // A vet's time goes by its treatment.
    if (each.how === 'leading-zeros' || !holdsMilk(each.entry) || each.entry.type === 'vet-hold-time') continue;
    const number = each.entry.subject ?? '';
    const official = officialDigits(number);
    for (const animal of animals) {
      const bearsLater = animal.spans.some((span) => span.number === number && span.from > each.entry.at);
      if (
        !animal.present ||
        each.mayBe.includes(animal) ||
        !(bearsLater || (official !== undefined && animal.officialId === official))
      )
        continue;
      each.mayBe.push(animal);
      assign(animal, each.entry, 'not-in-herd-then');
    }
  }
  const laid = layVetTimes(entries, animals, corrections, vetMeant);
  // A list that grew keeps room for more: among twenty thousand cows that adds up.
  for (const animal of animals) {
    animal.spans = animal.spans.slice();
    animal.assigned = animal.assigned.slice();
  }
  const besides = <T extends { readonly entry: Entry }>(list: T[]): T[] =>
    laid.byTreatment.size === 0 ? list : list.filter(({ entry }) => !laid.byTreatment.has(entry));
  return {
    animals,
    unplaced: besides(unplaced),
    ambiguous: besides(ambiguous),
    afterLeaving: besides(afterLeaving),
    afterRenumbering: besides(afterRenumbering),
    numberInUse,
    enteredAgain,
    vetElsewhere: laid.elsewhere,
  };
};
