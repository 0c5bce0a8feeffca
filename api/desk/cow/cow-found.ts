/**
 * Which cows a number means: those in the herd at the milking, as the rules take it; else those that left or are
 * still to come. Two cows are never taken for one. For a number that means nobody: numbers like it.
 */

import type { Animal } from '../../../projections/animal.ts';
import { numberAt } from '../../../projections/cow.ts';
import type { CowFile } from '../../../projections/cow-file.ts';
import { cowsBy, type Standing } from '../../../projections/standing.ts';
import { type WhyCow, whyCow } from '../../../projections/why.ts';
import { officialDigits, withoutLeadingZeros } from '../../../shared/cow-number.ts';
import type { Tonight } from '../../tonight.ts';
import type { HerdNow } from '../herd/herd-rows.ts';
import { askedOf } from '../who.tsx';

export interface FoundCow {
  readonly animal: Animal;
  readonly file: CowFile;
  /** That she bears at the milking, or bore last. */
  readonly number: string;
  /** Undefined where she is not in the herd at the milking. */
  readonly there: { readonly standing: Standing; readonly why: WhyCow } | undefined;
}

export interface CowsFound {
  /** Every one of them may be meant. */
  readonly cows: readonly FoundCow[];
  /** Bore the number once and are gone, while somebody in the herd answers to it. */
  readonly gone: readonly FoundCow[];
}

export const cowsFound = (answer: Tonight, herd: HerdNow, number: string): CowsFound => {
  const { known, views } = answer;
  const keys = new Set(cowsBy(known, number));
  const standings = herd.standings.filter((standing) => standing.number === number || keys.has(standing.file.cow.key));
  const whys = standings.length === 0 ? [] : whyCow(known, askedOf(answer), views, number);
  const files = new Map(known.files.map((file) => [file.animal.key, file]));
  const found = (animal: Animal): FoundCow[] => {
    const file = files.get(animal.key);
    if (file === undefined) return [];
    const index = standings.findIndex((standing) => standing.file.cow.key === animal.key);
    const standing = standings[index];
    const why = whys[index];
    return [
      {
        animal,
        file,
        number: standing?.number ?? numberAt(file.cow, answer.asOf),
        there: standing === undefined || why === undefined ? undefined : { standing, why },
      },
    ];
  };
  const official = officialDigits(number);
  const meant = known.herd.animals
    .filter(
      (animal) =>
        keys.has(animal.key) ||
        standings.some((standing) => standing.file.cow.key === animal.key) ||
        (official !== undefined && animal.officialId === official) ||
        animal.spans.some((span) => span.number === number),
    )
    .flatMap(found);
  const there = meant.filter((cow) => cow.there !== undefined);
  if (there.length === 0) return { cows: meant, gone: [] };
  // Who bears it now comes before who bore it once.
  const first = there.filter((cow) => cow.number === number);
  return {
    cows: [...first, ...there.filter((cow) => cow.number !== number)],
    gone: meant.filter((cow) => cow.there === undefined),
  };
};

const MOST_NEAR = 12;

/** Numbers in the herd that somebody may have meant: one figure wrong, missing, too many or swapped, or the same beginning. */
export const numbersNear = (numbers: readonly string[], asked: string): readonly string[] => {
  const wanted = withoutLeadingZeros(asked).toLowerCase();
  const near = numbers.filter((number) => isOneSlipOff(withoutLeadingZeros(number).toLowerCase(), wanted));
  const beginning = numbers.filter(
    (number) => wanted.length > 1 && !near.includes(number) && number.toLowerCase().startsWith(wanted),
  );
  return [...new Set([...near, ...beginning])].slice(0, MOST_NEAR);
};

const isOneSlipOff = (a: string, b: string): boolean => {
  if (Math.abs(a.length - b.length) > 1 || b.length === 0) return false;
  let from = 0;
  while (from < Math.min(a.length, b.length) && a[from] === b[from]) from += 1;
  const restA = a.slice(from);
  const restB = b.slice(from);
  return (
    restA.slice(1) === restB.slice(1) ||
    restA.slice(1) === restB ||
    restA === restB.slice(1) ||
    (restA.length > 1 && restA[0] === restB[1] && restA[1] === restB[0] && restA.slice(2) === restB.slice(2))
  );
};
