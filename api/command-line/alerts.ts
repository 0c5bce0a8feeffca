/** The alerts that stand, said by every command that a person reads: what makes the paper on the wall wrong can't wait. */
import type { Book } from '../../events/book.ts';
import { sheetsTonight } from '../kept-sheets.ts';
import { noticeLines } from './readable.ts';
import { out } from './settings.ts';

/** A book without a farm has none; one that cannot be read says so by the command itself. */
export const sayAlerts = (book: Book, say: (line: string) => void = out): void => {
  for (const line of alertsOf(book)) say(line);
};

const alertsOf = (book: Book): readonly string[] => {
  try {
    return noticeLines({ ...sheetsTonight(book).views, doubts: [] });
  } catch {
    return [];
  }
};
