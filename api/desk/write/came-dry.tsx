/** Beside the form of a dry-off: that she came into the book dry with no word on the product, and which time states it. */
import { notStated } from '../../../projections/dry-stated.ts';
import { instantText } from '../../../shared/instant.ts';
import { say } from '../say.tsx';
import type { Context } from './context.ts';

export const CameDry = ({ context: { file, hand, knowledge } }: { context: Context }) => {
  if (file === undefined) return null;
  const dry = notStated(file, knowledge.known.farm).findLast(({ entry }) =>
    file.cow.entered.some(({ id }) => id === entry),
  );
  const entered = file.cow.entered.find(({ id }) => id === dry?.entry);
  if (dry === undefined || entered === undefined) return null;
  return (
    <p class="hint">
      {say(
        'She came into the book dry{day, select, none {} other {, dried off on {day}}}, and with which product was not said. State it here, or "none"; the time below must not be before {entered}, when she came into the book, nor after she was in milk again.',
        {
          day: dry.day === null ? 'none' : hand.format.day(dry.day),
          entered: hand.format.time(instantText(entered.at)),
        },
      )}
    </p>
  );
};
