/** The product of a dry-off is a dose like any other, and what was given before she came too. */
import type { EntryOf } from '../events/entry.ts';
import { entryLike } from '../events/stored-entry.ts';
import type { Instant } from '../shared/instant.ts';
import type { Cow, Hers } from './cow.ts';
import type { Dosing } from './dosing.ts';
import { medicineKey } from './farm.ts';
import type { Lactations } from './lactation.ts';
import { TWO_DAYS } from './stretch.ts';

/** Every dose she was given, in order of time. */
export const treatmentsOf = (cow: Cow, lactations: Lactations): Cow['treatments'] =>
  [...cow.treatments, ...productsGiven(cow, lactations)].sort((a, b) => a.entry.at - b.entry.at);

/** The product of a dry-off as a dose of that medicine, unless the same is also recorded as a treatment. */
const productsGiven = (cow: Cow, lactations: Lactations): Cow['treatments'] => [
  ...lactations.dryStarts.flatMap((dry) => {
    if (dry.product === undefined || dry.product === 'none') return [];
    const product = dry.product;
    const recorded = cow.treatments.some(
      ({ entry }) =>
        medicineKey(entry.data.medicine) === medicineKey(product) &&
        entry.at >= dry.earliest - TWO_DAYS &&
        entry.at <= dry.at + TWO_DAYS,
    );
    if (recorded) return [];
    const dried = cow.dryOffs.find((entry) => entry.id === dry.entry && entry.at === dry.at);
    // Who wrote down that she came dry did not give it.
    const entered = cow.entered.find((entry) => entry.id === dry.entry);
    if (dried !== undefined) return [{ entry: doseOf(dried, dry.at, product) }];
    return entered === undefined ? [] : [{ entry: doseOf(entered, dry.at, product, '') }];
  }),
  ...cow.mayBeDryOffs.flatMap(({ entry, mayBe }): Hers<'treatment'>[] => {
    const { product } = entry.data;
    if (product === undefined || product === 'none' || mayBe === undefined) return [];
    return [{ entry: doseOf(entry, entry.at, product), mayBe }];
  }),
];

/**
 * When a dry-cow product was given, at the latest: where a dose and, within two days after it, a dry-off name the same
 * product, it is one giving, and nobody knows which of the two times is right.
 */
export const givenAtLatest = ({ medicineKey: medicine, last }: Dosing, { dryStarts }: Lactations): Instant => {
  const named = dryStarts.filter(
    (dry) =>
      dry.product !== undefined &&
      medicineKey(dry.product) === medicine &&
      last.at >= dry.earliest - TWO_DAYS &&
      last.at <= dry.at,
  );
  return Math.max(last.at, ...named.map(({ at }) => at)) as Instant;
};

/** What was given at a dry-off, or before she came, as a dose. An empty author: nobody says who gave it. */
export const doseOf = (
  entry: EntryOf<'dry-off'> | EntryOf<'cow-entered'>,
  at: Instant,
  medicine: string,
  author = entry.author,
): EntryOf<'treatment'> => entryLike(entry, { author, type: 'treatment' as const, at, data: { medicine } });
