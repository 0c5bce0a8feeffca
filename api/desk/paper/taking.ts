/** What the lines of one form share: the sheet's writer and time, a time of their own, and how they record something of a cow. */
import { type Instant, instantText } from '../../../shared/instant.ts';
import type { Form } from '../ask.ts';
import type { Draft } from '../saving.ts';
import { say } from '../say.tsx';
import type { Book } from './already.ts';
import type { Gathering } from './taken.ts';
import { typedTime } from './when.ts';

/** What the whole sheet says: who wrote it, and when a thing known only by its milking was. */
export interface Sheet {
  readonly form: Form;
  readonly who: string | undefined;
  readonly at: Instant;
}

export interface At {
  readonly at: Instant;
  readonly said: string;
}

/** The time of one line: its own, else that of the milking. Undefined where what was typed is no time: the trouble is noted. */
export const timeOf = (book: Book, sheet: Sheet, field: string, into: Gathering): At | undefined => {
  const typed = sheet.form.one(`${field}.time`);
  if (typed === undefined) return { at: sheet.at, said: say('at this milking') };
  const read = typedTime(typed, book.span);
  if (read.ok) return { at: read.value, said: book.speaking.format.time(instantText(read.value)) };
  into.troubles.set(field, read.problem);
  return undefined;
};

/** What a line needs to record something of its cow. */
export interface Taking {
  readonly time: At;
  readonly draft: (type: Draft['type'], data: unknown) => Draft;
  readonly take: (says: string, drafts: readonly Draft[], cow?: string) => void;
}
