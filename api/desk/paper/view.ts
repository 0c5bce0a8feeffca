/** What the drawing of a form needs: the set, how the book stands, what was typed so far and what is wrong with it. */
import type { Child } from 'hono/jsx';
import type { EntryType } from '../../../events/kinds.ts';
import type { Form } from '../ask.ts';
import type { AtHand } from '../at-hand.ts';
import type { Book } from './already.ts';
import type { OnPaper } from './on-paper.ts';

export interface Paper {
  readonly book: Book;
  readonly onPaper: OnPaper;
  readonly hand: AtHand;
}

export interface View extends Paper {
  readonly form: Form;
  /** Nobody has typed anything yet: what the paper has printed stands filled in. */
  readonly fresh: boolean;
  readonly troubles: ReadonlyMap<string, Child>;
  readonly may: (type: EntryType) => boolean;
}

/** What stands in a field: as typed, or at first what the paper says. */
export const standing = ({ form, fresh }: View, field: string, printed = ''): string =>
  form.one(field) ?? (fresh ? printed : '');

/** For a control: its trouble as a browser and a reader of the page want it. */
export const wrongAt = ({ troubles }: View, field: string) =>
  troubles.has(field) ? ({ 'aria-invalid': 'true', 'aria-describedby': `${field}-wrong` } as const) : {};
