/** What saving would change, worked out before it is saved: each cow's hold before and after, and the arithmetic of it. */
import type { Passed } from '../../../events/door.ts';
import type { Entry } from '../../../events/entry.ts';
import type { Because } from '../../../projections/because.ts';
import type { WhyCow } from '../../../projections/why.ts';
import { type Tonight, tonightFrom } from '../../tonight.ts';
import type { Desk } from '../ask.ts';
import type { AtHand } from '../at-hand.ts';
import { asIf } from '../saving.ts';
import { say } from '../say.tsx';
import { cowsFor, holdText, WhoIs } from '../who.tsx';

/** The sheets of the same milking as if it were recorded. */
export const tonightIf = (desk: Desk, passed: readonly Passed[], milking: string): Tonight =>
  tonightFrom(asIf(desk, passed), { milking }, desk.now());

/** Entries that belong to no cow once it is recorded, and do not, or are not there, as the book stands. */
export const unplacedBy = (before: Tonight, after: Tonight): readonly Entry[] => {
  const had = new Set(before.known.herd.unplaced.map(({ entry }) => entry.id));
  return after.known.herd.unplaced
    .filter(({ entry, how }) => how === 'not-in-herd' && !had.has(entry.id))
    .map(({ entry }) => entry);
};

const reasonsOf = (cow: WhyCow, list: 'milk-hold' | 'beef-hold' | 'treat-now'): readonly Because[] =>
  cow.lists.find((each) => each.list === list && each.on)?.reasons ?? [];

export const Changes = ({ hand, after, cows }: { hand: AtHand; after: Tonight; cows: readonly string[] }) => (
  <>
    {cows.map((number) => {
      const before = cowsFor(hand.answer, number);
      const now = cowsFor(after, number);
      const isPlaced = !unplacedBy(hand.answer, after).some(({ subject }) => subject === number);
      return (
        <section class="card">
          <h2>
            <span class="cow">{number}</span>
          </h2>
          <WhoIs number={number} cows={before} speaking={hand} stands={isPlaced ? 'placed' : 'to-be-saved'} />
          {isPlaced || before.length === 0 ? null : (
            <p class="problem">
              {say(
                'But at the time that is given no cow of the herd was {number}: saved so, it belongs to no cow and does nothing for her. Check the date.',
                { number },
              )}
            </p>
          )}
          {(isPlaced ? now : []).map((cow) => {
            const was = before.find((each) => each.cow === cow.cow);
            const same = was !== undefined && holdText(was, hand) === holdText(cow, hand);
            return (
              <div class="after">
                <p>
                  <strong>
                    {say(same ? 'Then: no change ({hold})' : 'Then: {hold}', { hold: holdText(cow, hand) })}
                  </strong>
                </p>
                <ul class="why">
                  {[...reasonsOf(cow, 'milk-hold'), ...reasonsOf(cow, 'beef-hold'), ...reasonsOf(cow, 'treat-now')].map(
                    (reason) => (
                      <li>
                        {hand.says(reason)} <span class="rule">{reason.rule}</span>
                      </li>
                    ),
                  )}
                </ul>
              </div>
            );
          })}
        </section>
      );
    })}
  </>
);
