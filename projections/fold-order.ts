/** The one order in which entries are folded: when it happened, never when it arrived. */
import type { Entry } from '../events/entry.ts';
import { byText } from '../shared/text-order.ts';

const FIRST = ['farm-set-up', 'medicine-listed', 'cow-entered'];

const precedence = (entry: Entry): number => {
  const place = FIRST.indexOf(entry.type);
  return place < 0 ? FIRST.length : place;
};

/** By time as an instant; ties: set-up, medicines and entering cows first, then id, then content hash. */
export const byFoldOrder = (a: Entry, b: Entry): number =>
  a.at - b.at || precedence(a) - precedence(b) || byText(a.id, b.id) || byText(a.content, b.content);
