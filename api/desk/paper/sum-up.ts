/** The box for all groups is no count of its own: it checks the others and the book, and is kept in the note of the return. */
import { headOfNamed } from '../../../projections/counts.ts';
import type { Form } from '../ask.ts';
import { say } from '../say.tsx';
import type { Book } from './already.ts';
import type { OnPaper } from './on-paper.ts';
import type { Gathering } from './taken.ts';

export const sumUp = (book: Book, lines: OnPaper['lines'], form: Form, into: Gathering): void => {
  const all = form.one('count.all');
  if (all === undefined) return;
  if (!/^\d{1,6}$/.test(all)) {
    into.troubles.set(
      'count.all',
      say('"{typed}" is not a number of cows; write it in figures', { typed: all.slice(0, 20) }),
    );
    return;
  }
  const counts = lines.flatMap((line) => (line.kind === 'count' ? [line] : []));
  const typed = counts.map(({ field }) => form.one(field));
  const sum = typed.reduce((total, each) => total + Number(each ?? 0), 0);
  const isWhole = typed.every((each) => each !== undefined);
  if (isWhole && sum !== Number(all))
    into.cautions.push(
      say('The groups add up to {sum}, the sheet says {all} for all of them: check the figures', { sum, all }),
    );
  const { known } = book.knowledge;
  const head = counts.reduce((total, { group }) => total + headOfNamed(known, group, book.span.milking.start), 0);
  const apart = Number(all) - head;
  const said = say('All groups: {all} counted; the book had {head} in them when the milking began', {
    all: String(Number(all)),
    head: String(head),
  });
  into.notes.push(isWhole ? `${said}; ${say('the groups add up to {sum}', { sum: String(sum) })}` : said);
  if (apart !== 0) into.cautions.push(said);
};
