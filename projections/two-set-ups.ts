/** Two set-ups of the farm made at one time for the same date on, both standing, and not the same: somebody must say which is right. */
import { canonicalJson } from '../shared/fingerprint.ts';
import { instantText } from '../shared/instant.ts';
import { because } from './because.ts';
import { remembered } from './remembered.ts';
import type { Schedule } from './schedule.ts';
import type { Notice } from './views.ts';

export const twoSetUps = remembered(({ setUps }: Schedule): readonly Notice[] =>
  setUps.flatMap((setUp, place): Notice[] => {
    const before = setUps.slice(0, place).findLast((each) => each.at === setUp.at && each.from === setUp.from);
    if (before === undefined || canonicalJson(before.data) === canonicalJson(setUp.data)) return [];
    const values = { at: instantText(setUp.at), from: setUp.from };
    return [
      {
        key: `two-set-ups:${before.id}:${setUp.id}`,
        because: because('R-29', 'doubt.two-set-ups', values, [before.id, setUp.id]),
      },
    ];
  }),
);
