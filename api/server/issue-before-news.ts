/**
 * Does a set that hangs on the wall still say what is known? Before the milking any row that changed makes it wrong. Inside
 * it the crew's own work changes rows all the time (a dose given, a cow sorted out, a head count): then only what they
 * cannot know from doing it makes it wrong, and first of all a change in whose milk is held.
 */
import { z } from 'zod';
import type { Views } from '../../projections/views.ts';
import { type IssuedSet, saysTheSame } from '../issue.ts';

/** `hold`: who is on hold is not who the paper says. `rows`: something else that they work by. */
export type Wrong = 'hold' | 'rows';

const milkHold = z.looseObject({
  held: z.array(z.looseObject({ cow: z.string() })),
  unplaced: z.array(z.looseObject({ key: z.string() })),
  treat: z.array(z.looseObject({ cow: z.string(), medicine: z.string(), dose: z.number() })),
});
const sort = z.looseObject({ cows: z.array(z.looseObject({ cow: z.string() })) });
const dryOff = z.looseObject({ due: z.array(z.looseObject({ cow: z.string() })) });

/** What holds a cow because she was dried off: the product, and that she still stands with the milked ones. */
const OF_DRYING_OFF: ReadonlySet<string> = new Set(['R-19', 'R-24']);

/** `isRunning`: the milking has started. A set in a shape that cannot be read is wrong. */
export const wrongOn = (views: Views, set: IssuedSet, isRunning: boolean): Wrong | null => {
  const content = (sheet: string): unknown => set.data.sheets.find((each) => each.sheet === sheet)?.content;
  const onPaper = {
    hold: milkHold.safeParse(content('milk-hold')),
    sort: sort.safeParse(content('sort')),
    dryOff: dryOff.safeParse(content('dry-off')),
  };
  if (!onPaper.hold.success) return 'hold';
  const paper = onPaper.hold.data;
  const { held, unplaced, gone, treat } = views.sheets['milk-hold'];
  const askedFor = new Set(isRunning ? onPaper.dryOff.data?.due.map(cowOf) : []);
  const newlyHeld = beyond(held, paper.held, cowOf).filter(
    (row) => !(askedFor.has(row.cow) && row.reasons.every(({ rule }) => OF_DRYING_OFF.has(rule))),
  );
  // A cow that was dried off or left while they milk is not news to them.
  const known = new Set(isRunning ? gone.filter(({ how }) => how !== 'struck').map(cowOf) : []);
  const noLonger = beyond(paper.held, held, cowOf).filter(({ cow }) => !known.has(cow));
  const strange = [...beyond(unplaced, paper.unplaced, keyOf), ...beyond(paper.unplaced, unplaced, keyOf)];
  if (newlyHeld.length + noLonger.length + strange.length > 0) return 'hold';
  if (!isRunning) return saysTheSame(views, set) ? null : 'rows';
  if (!onPaper.sort.success || !onPaper.dryOff.success) return 'rows';
  const more =
    beyond(treat, paper.treat, (row) => `${row.cow} ${row.medicine} ${row.dose}`).length +
    beyond(views.sheets.sort.cows, onPaper.sort.data.cows, cowOf).length +
    beyond(views.sheets['dry-off'].due, onPaper.dryOff.data.due, cowOf).length;
  return more > 0 ? 'rows' : null;
};

const cowOf = ({ cow }: { readonly cow: string }): string => cow;
const keyOf = ({ key }: { readonly key: string }): string => key;

/** The rows whose name the others do not have. */
const beyond = <A, B>(rows: readonly A[], others: readonly B[], nameOf: (row: A | B) => string): A[] => {
  const names = new Set(others.map(nameOf));
  return rows.filter((row) => !names.has(nameOf(row)));
};
