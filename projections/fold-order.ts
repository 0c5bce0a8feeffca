/** The one order in which entries are folded: when it happened, never when it arrived. */
import type { Entry } from '../events/entry.ts';
import { byText } from '../shared/text-order.ts';

const FIRST = ['farm-set-up', 'medicine-listed', 'cow-entered', 'number-changed'];

/** She is given what she is given before she leaves. */
const LAST = 'cow-left';

const precedence = (entry: Entry): number => {
  if (entry.type === LAST) return FIRST.length + 1;
  const place = FIRST.indexOf(entry.type);
  return place < 0 ? FIRST.length : place;
};

/** By time as an instant; ties: set-up, medicines, entering cows and new numbers first, leaving last; then id, then content hash. */
export const byFoldOrder = (a: Entry, b: Entry): number =>
  a.at - b.at || precedence(a) - precedence(b) || byText(a.id, b.id) || byText(a.content, b.content);

export const inFoldOrder = (entries: readonly Entry[]): Entry[] => [...entries].sort(byFoldOrder);

/** Two lists in fold order as one. */
export const merged = (before: readonly Entry[], more: readonly Entry[]): readonly Entry[] =>
  mergedBy(before, more, itself);

export const itself = (entry: Entry): Entry => entry;

/**
 * Two lists in the fold order of their entries as one. Most of what is new is the latest: whatever comes before it is taken
 * over as it is.
 */
export const mergedBy = <T>(before: readonly T[], more: readonly T[], entryOf: (each: T) => Entry): readonly T[] => {
  const [first] = more;
  if (first === undefined) return before;
  const place = placeOf(before, entryOf(first), entryOf);
  if (place === before.length) return before.concat(more);
  const tail: T[] = [];
  let next = place;
  for (const each of more) {
    const entry = entryOf(each);
    for (
      let there = before[next];
      there !== undefined && byFoldOrder(entryOf(there), entry) <= 0;
      there = before[next]
    ) {
      tail.push(there);
      next += 1;
    }
    tail.push(each);
  }
  for (; next < before.length; next += 1) tail.push(before[next] as T);
  return place === 0 ? tail : before.slice(0, place).concat(tail);
};

/** How many of a list in fold order come before an entry or are it. */
export const placeOf = <T>(ordered: readonly T[], entry: Entry, entryOf: (each: T) => Entry): number => {
  let low = 0;
  let high = ordered.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    const there = ordered[middle];
    if (there !== undefined && byFoldOrder(entryOf(there), entry) <= 0) low = middle + 1;
    else high = middle;
  }
  return low;
};
