/** Of which dry periods nobody has stated what the cow was dried off with. */
import type { CowFile } from './cow-file.ts';
import type { Labels } from './farm.ts';
import type { NotDriedOff } from './not-dried-off.ts';
import { type DryStart, TWO_DAYS } from './stretch.ts';

export const notStated = (file: CowFile, farm: Labels): readonly DryStart[] =>
  file.lactations.dryStarts.filter(
    (dry) => dry.product === undefined && !productsWithin(file, farm, dry) && !saidAfterwards(file, dry),
  );

/** Without even a dry-off. */
export const notDriedOff = (file: CowFile, farm: Labels): readonly NotDriedOff[] =>
  file.lactations.notDriedOff.filter((each) => !productsWithin(file, farm, each));

/** A dry-cow product given by treatment within two days states it. */
const productsWithin = (file: CowFile, farm: Labels, { earliest, at }: Pick<DryStart, 'earliest' | 'at'>): boolean =>
  file.dosings.some(
    (dosing) =>
      dosing.mayBe === undefined &&
      dosing.doses.some((dose) => dose.at >= earliest - TWO_DAYS && dose.at <= at + TWO_DAYS) &&
      (farm.listings.get(dosing.medicineKey) ?? []).some((listing) => listing.data.dryCow !== undefined),
  );

/** She came dry with no word on it, and a dry-off that names it was written down for her in that same dry period. */
const saidAfterwards = ({ cow, lactations }: CowFile, { entry, earliest }: DryStart): boolean => {
  if (!cow.entered.some(({ id }) => id === entry)) return false;
  const again = lactations.stretches.find((stretch) => stretch.from > earliest);
  return cow.dryOffs.some(
    ({ at, data }) => data.product !== undefined && at >= earliest && (again === undefined || at < again.from),
  );
};
