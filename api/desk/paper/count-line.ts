/** One group of the count sheet: a number, or nothing. */
import { headOfNamed } from '../../../projections/counts.ts';
import { type Instant, later } from '../../../shared/instant.ts';
import { say } from '../say.tsx';
import { type Book, standsNow } from './already.ts';
import type { CountLine } from './on-paper.ts';
import type { Gathering } from './taken.ts';
import { type Sheet, timeOf } from './taking.ts';

/** What the moves ticked on this paper make of a group, and when the last of them was. */
const movesOf = (
  group: string,
  { taken }: Gathering,
): { readonly more: number; readonly last: Instant | undefined } => {
  let more = 0;
  let last: Instant | undefined;
  for (const { from, drafts } of taken)
    for (const { type, at, data } of drafts) {
      const to =
        type === 'group-move'
          ? (data as { to: string }).to
          : type === 'dry-off'
            ? (data as { group?: string }).group
            : undefined;
      if (from === undefined || to === undefined || from === to || (from !== group && to !== group)) continue;
      more += to === group ? 1 : -1;
      last = last === undefined ? at : later(last, at);
    }
  return { more, last };
};

/**
 * Counted as they came in: the head that the sheet expected is that of the milking's start. A crew may also count once the
 * moves are done: a number that fits the group only then is dated to the last of them.
 */
export const takeCount = (book: Book, sheet: Sheet, line: CountLine, into: Gathering): void => {
  const { shut } = standsNow(book, line);
  const typed = sheet.form.one(line.field);
  if (shut !== undefined) {
    if (typed !== undefined) into.shut.push(say('{what}: {said}', { what: line.group, said: shut }));
    return;
  }
  if (typed === undefined) {
    if (sheet.form.one(`${line.field}.time`) === undefined) into.uncounted.push(line.group);
    else into.troubles.set(line.field, say('There is a time but no number: write what was counted, or empty the time'));
    return;
  }
  if (!/^\d{1,5}$/.test(typed)) {
    into.troubles.set(
      line.field,
      say('"{typed}" is not a number of cows; write it in figures', { typed: typed.slice(0, 20) }),
    );
    return;
  }
  const { milking } = book.span;
  const time = timeOf(book, { ...sheet, at: milking.start }, line.field, into);
  if (time === undefined) return;
  const count = Number(typed);
  const head = (at: Instant): number => headOfNamed(book.knowledge.known, line.group, at);
  const { more, last } = movesOf(line.group, into);
  const isOwnTime = sheet.form.one(`${line.field}.time`) !== undefined;
  const isAfter =
    !isOwnTime && last !== undefined && more !== 0 && count !== head(time.at) && count === head(last) + more;
  const at = isAfter ? last : time.at;
  const apart = isAfter ? 0 : count - head(at);
  const against =
    apart === 0
      ? say('as in the book')
      : apart > 0
        ? say('{n} more than the book', { n: apart })
        : say('{n} fewer than the book', { n: -apart });
  const says = say('{group}: {count, plural, one {# head} other {# head}} counted, {against}', {
    group: line.group,
    count,
    against,
  });
  const taken = isAfter ? say('taken as counted after the moves') : say('taken as counted before the moves');
  into.taken.push({
    field: line.field,
    says: last === undefined || isOwnTime ? says : `${says}; ${taken}`,
    drafts: [{ type: 'head-count', at, data: { group: line.group, count, milking: milking.id } }],
  });
};
