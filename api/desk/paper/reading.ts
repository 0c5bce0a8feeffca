/** A whole form read: the ticks in the paper's order, the lines by hand, the finish of the milking, the return of the set. */
import { instantText } from '../../../shared/instant.ts';
import type { Form } from '../ask.ts';
import type { Draft } from '../saving.ts';
import { say } from '../say.tsx';
import type { Book } from './already.ts';
import { linesIn, takeByHand } from './by-hand.ts';
import type { OnPaper } from './on-paper.ts';
import { sumUp } from './sum-up.ts';
import { type Gathering, gathering, noteTexts } from './taken.ts';
import type { Sheet } from './taking.ts';
import { takeLine } from './ticks.ts';
import { atThisMilking, typedFinish } from './when.ts';

export interface Reading extends Omit<Gathering, 'troubles'> {
  readonly troubles: ReadonlyMap<string, string>;
  readonly drafts: readonly Draft[];
  /** The field that each draft came from. */
  readonly fields: readonly string[];
}

/** When the milking was finished, by the book. */
export const finishedOf = ({ knowledge, span }: Book) => knowledge.known.farm.finished.get(span.milking.id);

export const readPaper = (book: Book, { lines }: OnPaper, form: Form, saving: string): Reading => {
  const into = gathering();
  const { known } = book.knowledge;
  const { milking } = book.span;
  const told = finishedOf(book);
  const finished = finishOf(book, form, into) ?? told;
  const sheet: Sheet = { form, who: form.one('who'), at: atThisMilking(known, book.span, finished) };
  for (const line of lines) takeLine(book, sheet, line, into);
  if (into.uncounted.length > 0)
    into.notTicked.push(say('Not counted: {groups}', { groups: into.uncounted.join(', ') }));
  sumUp(book, lines, form, into);
  if (finished !== undefined && told === undefined)
    into.taken.push({
      field: 'finished',
      says: say('Milking finished {time}', { time: book.speaking.format.clock(instantText(finished)) }),
      drafts: [{ type: 'milking-finished', at: finished, data: { milking: milking.id } }],
    });
  for (let line = 0; line < linesIn(form); line += 1) takeByHand(book, sheet, saving, line, into);
  const note = form.one('note');
  if (note !== undefined) into.notes.push(note);

  const taken = into.taken.flatMap(({ field, drafts }) => drafts.map((draft) => ({ field, draft })));
  const returns = returnsOf(book, into.notes, sheet, taken.length > 0);
  return {
    ...into,
    drafts: [...taken.map(({ draft }) => draft), ...returns],
    fields: [...taken.map(({ field }) => field), ...returns.map(() => 'who')],
  };
};

const finishOf = (book: Book, form: Form, into: Gathering) => {
  const typed = form.one('finished');
  const told = finishedOf(book);
  if (told !== undefined) {
    if (typed !== undefined)
      into.shut.push(
        say('Milking finished: in the book already, {time}', { time: book.speaking.format.time(instantText(told)) }),
      );
    return undefined;
  }
  if (typed === undefined) {
    into.notTicked.push(say('When the milking finished is not said: the book takes its planned end and an hour'));
    return undefined;
  }
  const read = typedFinish(typed, book.span);
  if (read.ok) return read.value;
  into.troubles.set('finished', read.problem);
  return undefined;
};

/** A set that came back before is not returned again, unless there is something new to say of it. */
const returnsOf = (book: Book, notes: readonly string[], { who }: Sheet, adds: boolean): Draft[] => {
  const { ref } = book.set.data;
  const before = book.knowledge.known.farm.returned.has(ref);
  const texts = noteTexts(notes);
  if (before && texts.length === 0 && !adds) return [];
  const by = who === undefined ? {} : { by: who };
  const some = texts.length === 0 ? [{}] : texts.map((note) => ({ note }));
  return some.map((note) => ({ type: 'sheet-returned', at: book.span.now, data: { ref, ...by, ...note } }));
};
