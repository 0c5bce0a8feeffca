/** One medicine listed twice at one time, both standing, with different labels: the longer holds, and somebody must say which is right. */
import { canonicalJson } from '../shared/fingerprint.ts';
import { instantText } from '../shared/instant.ts';
import { because } from './because.ts';
import { type Listing, medicineKey } from './farm.ts';
import type { Known } from './know.ts';
import { remembered } from './remembered.ts';
import type { Notice } from './views.ts';

export const twoLabels = remembered((listings: Known['farm']['listings']): readonly Notice[] =>
  [...listings.values()].flatMap((each) =>
    each.flatMap((listing, place): Notice[] => {
      const before = each[place - 1];
      if (before?.at !== listing.at || labelText(before) === labelText(listing)) return [];
      const values = { medicine: listing.data.name, at: instantText(listing.at) };
      return [
        {
          key: `two-labels:${before.id}:${listing.id}`,
          because: because('R-29', 'doubt.two-labels', values, [before.id, listing.id]),
        },
      ];
    }),
  ),
);

/** All that a listing says but how the name is written. */
const labelText = ({ data }: Listing): string => canonicalJson({ ...data, name: medicineKey(data.name) });
