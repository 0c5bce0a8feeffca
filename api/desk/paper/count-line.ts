/** One group of the count sheet: a number, or nothing. */
import { headOfNamed } from '../../../projections/counts.ts';
import { say } from '../say.tsx';
import { type Book, standsNow } from './already.ts';
import type { CountLine } from './on-paper.ts';
import type { Gathering } from './taken.ts';
import { type Sheet, timeOf } from './taking.ts';

/** Counted as they came in: the head that the sheet expected is that of the milking's start. */
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
  const apart = count - headOfNamed(book.knowledge.known, line.group, time.at);
  const against =
    apart === 0
      ? say('as in the book')
      : apart > 0
        ? say('{n} more than the book', { n: apart })
        : say('{n} fewer than the book', { n: -apart });
  into.taken.push({
    field: line.field,
    says: say('{group}: {count, plural, one {# head} other {# head}} counted, {against}', {
      group: line.group,
      count,
      against,
    }),
    drafts: [{ type: 'head-count', at: time.at, data: { group: line.group, count, milking: milking.id } }],
  });
};
