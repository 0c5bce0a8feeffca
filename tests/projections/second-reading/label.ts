/** What a label comes to, for the second reading. Ends are instants; infinity is "without end". */
import type { Entry, EntryOf } from '../../../events/entry.ts';
import type { DataOf } from '../../../events/kinds.ts';
import { type Asked, type Cow, nthMilking } from './cow.ts';
import { HOUR } from './wall.ts';

export type Listed = EntryOf<'medicine-listed'>;

export const OPEN = Number.POSITIVE_INFINITY;
/** No hold at all. */
export const NEVER = Number.NEGATIVE_INFINITY;

export const listingsOf = (inOrder: readonly Entry[], name: string): readonly Listed[] =>
  inOrder.filter((entry): entry is Listed => entry.type === 'medicine-listed' && entry.data.name === name);

/** in force at the dose, else the first one after it. */
export const listingAt = (listings: readonly Listed[], at: number): Listed | undefined =>
  listings.findLast((each) => each.at <= at) ?? listings[0];

export const endOfTime = (
  time: { readonly hours?: number | undefined; readonly milkings?: number | undefined },
  base: number,
  cow: Cow,
  asked: Asked,
): number => {
  const { hours, milkings } = time;
  const byHours = hours === undefined ? NEVER : base + hours * HOUR;
  if (milkings === undefined) return byHours;
  const byMilkings = nthMilking(cow, asked, base, milkings);
  return Math.max(byMilkings, hours === undefined ? base + milkings * 12 * HOUR : byHours);
};

export const endByLabel = ({ milkHold }: DataOf<'medicine-listed'>, base: number, cow: Cow, asked: Asked): number => {
  if (milkHold === 'none') return NEVER;
  if (milkHold === 'unknown' || milkHold === 'not-for-milking-cows') return OPEN;
  return endOfTime(milkHold, base, cow, asked);
};

export interface LabelEnd {
  /** The latest end that any of the listings knows. */
  readonly known: number;
  /** True where one of them says that it is not known, or not for her. */
  readonly open: boolean;
}

/** a later listing that is longer lengthens what still runs, a shorter one changes nothing. What is open runs until the vet's word. */
export const endByListings = (
  listings: readonly Listed[],
  given: number,
  base: number,
  cow: Cow,
  asked: Asked,
  openUntil: number,
): LabelEnd | undefined => {
  const first = listingAt(listings, given);
  if (first === undefined) return undefined;
  let known = NEVER;
  let open = false;
  for (const each of listings) {
    const later = each.at > given && each.at >= first.at;
    if (each !== first && !(later && ((open && openUntil >= each.at) || known >= each.at))) continue;
    const end = endByLabel(each.data, base, cow, asked);
    if (end === OPEN && typeof each.data.milkHold === 'string') open = true;
    else known = Math.max(known, end);
  }
  return { known, open };
};
