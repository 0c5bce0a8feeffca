/** What changed on the milk-hold sheet since the one that hangs: the last set of this milking, else of an earlier one. */
import { z } from 'zod';
import { lastSet } from '../issue.ts';
import type { Tonight } from '../tonight.ts';

const onPaper = z.looseObject({ held: z.array(z.looseObject({ cow: z.string() })) });

export interface SinceLast {
  readonly fresh: number;
  readonly off: number;
  readonly gone: number;
}

/** Undefined where no sheet was issued yet: there is nothing to compare with. */
export const sinceLast = ({ views, known, milking }: Tonight): SinceLast | undefined => {
  const { held, cleared, gone } = views.sheets['milk-hold'];
  const hanging = lastSet(known.farm.issued, milking.id);
  if (hanging !== undefined) {
    // The rows compare with the milking before: what hangs for this one says most of it already.
    const paper = onPaper.safeParse(hanging.data.sheets.find(({ sheet }) => sheet === 'milk-hold')?.content);
    const there = new Set(paper.success ? paper.data.held.map(({ cow }) => cow) : []);
    return {
      fresh: held.filter(({ cow }) => !there.has(cow)).length,
      off: cleared.filter(({ cow }) => there.has(cow)).length,
      gone: gone.filter(({ cow }) => there.has(cow)).length,
    };
  }
  const { schedule, issued } = known.farm;
  const isEarlier = issued.some((set) => {
    const start = schedule?.findEver(set.data.milking)?.start;
    return start !== undefined && start < milking.start;
  });
  return isEarlier
    ? { fresh: held.filter(({ isNew }) => isNew).length, off: cleared.length, gone: gone.length }
    : undefined;
};
