/** What there is to know of a set before it is written up: another book's, replaced since, returned already, half readable. */
import type { EntryOf } from '../../../events/entry.ts';
import type { EntryType } from '../../../events/kinds.ts';
import { instantText } from '../../../shared/instant.ts';
import { lastSet } from '../../issue.ts';
import type { Desk } from '../ask.ts';
import type { Paper } from './view.ts';

const TICKED: readonly EntryType[] = ['treatment', 'dry-off', 'group-move', 'sort-done', 'head-count'];

export const setRemarks = (desk: Desk, { book, onPaper, hand }: Paper, may: (type: EntryType) => boolean): string[] => {
  const { set, knowledge } = book;
  const { farm, strikes } = knowledge.known;
  const { ref, milking } = set.data;
  const returns = strikes.live.filter(
    (entry): entry is EntryOf<'sheet-returned'> => entry.type === 'sheet-returned' && entry.data.ref === ref,
  );
  const latest = lastSet(farm.issued, milking);
  return [
    ...returns.map(
      ({ at, author, data }) =>
        `This set came back already: written up ${hand.format.time(instantText(at))} by ${author}${data.by === undefined ? '' : `, from ${data.by}`}${data.note === undefined ? '' : `. Its note: ${data.note}`}. What you tick now is added to it.`,
    ),
    ...(latest === undefined || latest.data.ref === ref
      ? []
      : [
          `A later set for this milking is ${latest.data.ref}. Write up the one that was written on; what one has, the other does not ask for again.`,
        ]),
    ...(set.data.book === desk.book.bookId
      ? []
      : ['This set was issued by another book of this farm; its lines came with it.']),
    ...onPaper.unreadable.map(
      (sheet) =>
        `The lines of its ${sheet} sheet can’t be read by this version; write what was done on it as lines by hand.`,
    ),
    ...(TICKED.some(may)
      ? []
      : [
          'This device returns the sheet with its notes; doses, moves, sorts and counts are written up at the manager’s or the crew’s.',
        ]),
  ];
};
