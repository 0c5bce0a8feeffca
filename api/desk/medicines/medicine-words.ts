/** A medicine's label in plain words, a line a thing. It repeats the label, and adds nothing to it. */
import type { MedicineListed } from '../../../events/kinds/medicine-listed.ts';
import type { Farm, Listing } from '../../../projections/farm.ts';
import type { Instant } from '../../../shared/instant.ts';
import { plural } from '../../command-line/settings.ts';
import type { Line } from '../farm/farm-words.ts';

export const FOR_WORDS = {
  milking: 'milking cows',
  dry: 'dry cows',
  young: 'young stock',
} as const;

export const KIND_WORDS = {
  medicine: 'medicine',
  vaccine: 'vaccine',
  sealant: 'teat sealant',
  'not-a-medicine': 'not a medicine',
} as const;

export const MILK_WORDS = {
  none: 'none: the label says that there is no milk hold',
  'not-for-milking-cows': 'not for milking cows',
  unknown: 'unknown: hold until the vet says',
} as const;

export const EARLY_WORDS = {
  'ask-vet': 'held until the vet says',
  'minimum-plus-hold': 'held until the days before calving are full, and the time after calving on top',
} as const;

type Hold = { readonly hours?: number | undefined; readonly milkings?: number | undefined };

const holdSays = ({ hours, milkings }: Hold): string =>
  [
    ...(hours === undefined ? [] : [plural(hours, 'hour')]),
    ...(milkings === undefined ? [] : [plural(milkings, 'milking')]),
  ].join(' and ') + (hours !== undefined && milkings !== undefined ? ', the later of the two' : '');

export const milkSays = (hold: MedicineListed['milkHold']): string =>
  typeof hold === 'string' ? MILK_WORDS[hold] : holdSays(hold);

export const meatSays = (days: MedicineListed['meatDays']): string => {
  if (days === 'unknown') return MILK_WORDS.unknown;
  if (typeof days === 'number') return plural(days, 'day');
  return days
    .map((step) =>
      step.upToDoses === undefined
        ? `${plural(step.days, 'day')} for more`
        : `${plural(step.days, 'day')} up to ${plural(step.upToDoses, 'dose')}`,
    )
    .join(', ');
};

export const forSays = (classes: MedicineListed['for']): string =>
  classes === undefined ? 'not said: any' : classes.map((each) => FOR_WORDS[each]).join(', ');

export const labelLines = (label: MedicineListed): readonly Line[] => {
  const line = (what: string, says: string): Line => ({ what, says, key: what });
  const { dryCow } = label;
  return [
    line('Active ingredient', label.active ?? 'not said'),
    line('Kind', KIND_WORDS[label.kind ?? 'medicine']),
    line('Route', label.route ?? 'not said'),
    line('For', forSays(label.for)),
    line('Milk hold', milkSays(label.milkHold)),
    line('Meat hold', meatSays(label.meatDays)),
    line(
      'As a dry-cow product',
      dryCow === undefined
        ? 'no'
        : [
            dryCow.minimumDryDays === undefined
              ? 'no least time before calving'
              : `at least ${plural(dryCow.minimumDryDays, 'day')} before calving`,
            `milk after calving: ${dryCow.milkHoldAfterCalving === 'none' ? 'no hold' : holdSays(dryCow.milkHoldAfterCalving)}`,
            ...(dryCow.meatHoursAfterCalving === undefined
              ? []
              : [`no beef for ${plural(dryCow.meatHoursAfterCalving, 'hour')} after calving`]),
            `calved too early: ${EARLY_WORDS[dryCow.earlyCalving ?? 'ask-vet']}`,
          ].join('; '),
    ),
    line('Doses at the most', label.maxDoses === undefined ? 'not said' : String(label.maxDoses)),
    line(
      'Hours between doses at the least',
      label.minIntervalHours === undefined ? 'not said' : String(label.minIntervalHours),
    ),
    line(
      'Not from an age of',
      label.notFromAgeMonths === undefined ? 'not said' : plural(label.notFromAgeMonths, 'month'),
    ),
    line('Authorised for animals whose milk people drink', label.authorisedForMilkAnimals === false ? 'NO' : 'yes'),
    line('Authorised for animals that people eat', label.authorisedForFoodAnimals === false ? 'NO' : 'yes'),
    line('On the farm', label.retired === true ? 'no longer used' : 'yes'),
  ];
};

/** The listing in force now, else the first one after it. */
export const inForce = (listings: readonly Listing[], now: Instant): Listing | undefined =>
  listings.findLast(({ at }) => at <= now) ?? listings[0];

/** Every medicine on the list by name, those no longer used last. */
export const listedMedicines = (farm: Farm, now: Instant): readonly Listing[] =>
  [...farm.listings.values()]
    .flatMap((listings) => inForce(listings, now) ?? [])
    .sort(
      (a, b) =>
        Number(a.data.retired === true) - Number(b.data.retired === true) ||
        a.data.name.localeCompare(b.data.name, 'en'),
    );
