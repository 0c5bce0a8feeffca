/** A medicine's label in plain words, a line a thing. It repeats the label, and adds nothing to it. */
import type { MedicineListed } from '../../../events/kinds/medicine-listed.ts';
import type { Farm, Listing } from '../../../projections/farm.ts';
import type { Instant } from '../../../shared/instant.ts';
import type { Line } from '../farm/farm-words.ts';
import { type Sentence, say } from '../say.tsx';

type Words = Readonly<Record<string, Sentence>>;

export const FOR_WORDS = {
  milking: 'milking cows',
  dry: 'dry cows',
  young: 'young stock',
} as const satisfies Words;

export const KIND_WORDS = {
  medicine: 'medicine ¦ a kind',
  vaccine: 'vaccine',
  sealant: 'teat sealant',
  'not-a-medicine': 'not a medicine',
} as const satisfies Words;

export const MILK_WORDS = {
  none: 'none: the label says that there is no milk hold',
  'not-for-milking-cows': 'not for milking cows',
  unknown: 'unknown: hold until the vet says',
} as const satisfies Words;

export const EARLY_WORDS = {
  'ask-vet': 'held until the vet says',
  'minimum-plus-hold': 'held until the days before calving are full, and the time after calving on top',
} as const satisfies Words;

/** What can be chosen, in the words of whoever asks. */
export const choicesOf = (words: Words): readonly (readonly [value: string, says: string])[] =>
  Object.entries(words).map(([value, sentence]) => [value, say(sentence)]);

type Hold = { readonly hours?: number | undefined; readonly milkings?: number | undefined };

const hoursSay = (hours: number): string => say('{hours, plural, one {# hour} other {# hours}}', { hours });
const daysSay = (days: number): string => say('{days, plural, one {# day} other {# days}}', { days });

const holdSays = ({ hours, milkings }: Hold): string => {
  if (hours === undefined)
    return milkings === undefined ? '' : say('{milkings, plural, one {# milking} other {# milkings}}', { milkings });
  return milkings === undefined
    ? hoursSay(hours)
    : say(
        '{hours, plural, one {# hour} other {# hours}} and {milkings, plural, one {# milking} other {# milkings}}, the later of the two',
        { hours, milkings },
      );
};

export const milkSays = (hold: MedicineListed['milkHold']): string =>
  typeof hold === 'string' ? say(MILK_WORDS[hold]) : holdSays(hold);

export const meatSays = (days: MedicineListed['meatDays']): string => {
  if (days === 'unknown') return say(MILK_WORDS.unknown);
  if (typeof days === 'number') return daysSay(days);
  return days
    .map((step) =>
      step.upToDoses === undefined
        ? say('{days} for more', { days: daysSay(step.days) })
        : say('{days} up to {doses, plural, one {# dose} other {# doses}}', {
            days: daysSay(step.days),
            doses: step.upToDoses,
          }),
    )
    .join(', ');
};

export const forSays = (classes: MedicineListed['for']): string =>
  classes === undefined ? say('not said: any') : classes.map((each) => say(FOR_WORDS[each])).join(', ');

export const labelLines = (label: MedicineListed): readonly Line[] => {
  const line = (what: Sentence, says: string): Line => ({ what: say(what), says, key: what });
  const { dryCow } = label;
  const notSaid = say('not said');
  return [
    line('Active ingredient', label.active ?? notSaid),
    line('Kind', say(KIND_WORDS[label.kind ?? 'medicine'])),
    line('Route', label.route ?? notSaid),
    line('For', forSays(label.for)),
    line('Milk hold', milkSays(label.milkHold)),
    line('Meat hold', meatSays(label.meatDays)),
    line('As a dry-cow product', dryCow === undefined ? say('no') : dryCowSays(dryCow)),
    line('Doses at the most', label.maxDoses === undefined ? notSaid : String(label.maxDoses)),
    line(
      'Hours between doses at the least',
      label.minIntervalHours === undefined ? notSaid : String(label.minIntervalHours),
    ),
    line(
      'Not from an age of',
      label.notFromAgeMonths === undefined
        ? notSaid
        : say('{months, plural, one {# month} other {# months}}', { months: label.notFromAgeMonths }),
    ),
    line(
      'Authorised for animals whose milk people drink',
      say(label.authorisedForMilkAnimals === false ? 'NO' : 'yes'),
    ),
    line('Authorised for animals that people eat', say(label.authorisedForFoodAnimals === false ? 'NO' : 'yes')),
    line('On the farm', say(label.retired === true ? 'no longer used' : 'yes')),
  ];
};

const dryCowSays = (dryCow: NonNullable<MedicineListed['dryCow']>): string =>
  [
    dryCow.minimumDryDays === undefined
      ? say('no least time before calving')
      : say('at least {days} before calving', { days: daysSay(dryCow.minimumDryDays) }),
    say('milk after calving: {hold}', {
      hold: dryCow.milkHoldAfterCalving === 'none' ? say('no hold') : holdSays(dryCow.milkHoldAfterCalving),
    }),
    ...(dryCow.meatHoursAfterCalving === undefined
      ? []
      : [say('no beef for {hours} after calving', { hours: hoursSay(dryCow.meatHoursAfterCalving) })]),
    say('calved too early: {what}', { what: say(EARLY_WORDS[dryCow.earlyCalving ?? 'ask-vet']) }),
  ].join('; ');

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
