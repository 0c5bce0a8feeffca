/** What there is to know of a set before it is written up: another book's, replaced since, returned already, half readable. */
import type { EntryOf } from '../../../events/entry.ts';
import type { EntryType } from '../../../events/kinds.ts';
import { liveEntries } from '../../../projections/live.ts';
import { instantText } from '../../../shared/instant.ts';
import { lastSet } from '../../issue.ts';
import type { Desk } from '../ask.ts';
import { type Sentence, say } from '../say.tsx';
import type { WrittenUp } from './on-paper.ts';
import type { Paper } from './view.ts';

const TICKED: readonly EntryType[] = ['treatment', 'dry-off', 'group-move', 'sort-done', 'head-count'];

/** As they stand in a sentence. */
const NAMES: Readonly<Record<WrittenUp, Sentence>> = {
  'milk-hold': 'milk-hold ¦ a sheet of a set',
  'dry-off': 'dry-off ¦ a sheet of a set',
  'fresh-moves': 'fresh-moves ¦ a sheet of a set',
  sort: 'sort ¦ a sheet of a set',
  counts: 'counts ¦ a sheet of a set',
};

export const setRemarks = (desk: Desk, { book, onPaper, hand }: Paper, may: (type: EntryType) => boolean): string[] => {
  const { set, knowledge } = book;
  const { farm, strikes } = knowledge.known;
  const { ref, milking } = set.data;
  const returns = liveEntries(strikes.live).filter(
    (entry): entry is EntryOf<'sheet-returned'> => entry.type === 'sheet-returned' && entry.data.ref === ref,
  );
  const latest = lastSet(farm.issued, milking);
  return [
    ...returns.map(({ at, author, data: { by, note } }) => {
      const written = say('written up {time} by {author}', { time: hand.format.time(instantText(at)), author });
      const from = by === undefined ? written : say('{told}, from {by}', { told: written, by });
      const told = note === undefined ? from : say('{told}. Its note: {note}', { told: from, note });
      return say('This set came back already: {told}. What you tick now is added to it.', { told });
    }),
    ...(latest === undefined || latest.data.ref === ref
      ? []
      : [
          say(
            'A later set for this milking is {ref}. Write up the one that was written on; what one has, the other does not ask for again.',
            { ref: latest.data.ref },
          ),
        ]),
    ...(set.data.book === desk.book.bookId
      ? []
      : [say('This set was issued by another book of this farm; its lines came with it.')]),
    ...onPaper.unreadable.map((sheet) =>
      say('The lines of its {sheet} sheet can’t be read by this version; write what was done on it as lines by hand.', {
        sheet: say(NAMES[sheet]),
      }),
    ),
    ...(TICKED.some(may)
      ? []
      : [
          say(
            'This device returns the sheet with its notes; doses, moves, sorts and counts are written up at the manager’s or the crew’s.',
          ),
        ]),
  ];
};
