/** Who a number means, said before anything is saved: lactation, group, days in milk, on hold or not. */
import { standingsAt } from '../../projections/standings.ts';
import { momentOf } from '../../projections/views-at.ts';
import { type WhyCow, whyCow } from '../../projections/why.ts';
import type { Tonight } from '../tonight.ts';
import { type Sentence, say } from './say.tsx';
import type { Speaking } from './speaking.ts';

export const askedOf = ({ milking, asOf, position }: Tonight) => ({ milking, asOf, position });

/** The cows that a number may mean now. */
export const cowsFor = (answer: Tonight, number: string): readonly WhyCow[] =>
  whyCow(answer.known, askedOf(answer), answer.views, number);

/** Every barn number in the herd at that milking, in the order of the sheets. */
export const herdNumbers = (answer: Tonight): readonly string[] => {
  const moment = momentOf(answer.known, askedOf(answer));
  return moment === undefined ? [] : standingsAt(answer.known, moment).map(({ number }) => number);
};

const BEEF_ON = (cow: WhyCow): boolean => cow.lists.some(({ list, on }) => list === 'beef-hold' && on);
const MILK_ON = (cow: WhyCow): boolean => cow.lists.some(({ list, on }) => list === 'milk-hold' && on);

/** "High, lactation 3, 41 days in milk" */
export const whoText = (cow: WhyCow): string =>
  [
    cow.group,
    say('lactation {lactation}', { lactation: cow.lactation }),
    !cow.inMilk
      ? say('not in milk')
      : cow.daysInMilk === null
        ? say('in milk')
        : say('{days, plural, one {# day in milk} other {# days in milk}}', { days: cow.daysInMilk }),
    ...(cow.officialId === null ? [] : [say('official number {number}', { number: cow.officialId })]),
  ].join(', ');

/** Where her milk and meat stand, in a line. */
export const holdText = (cow: WhyCow, { format }: Speaking): string => {
  const milk = !MILK_ON(cow)
    ? say('milk not on hold')
    : cow.tankFrom === null
      ? say('MILK ON HOLD, no end known')
      : say('MILK ON HOLD, in the tank from {milking}', { milking: format.milking(cow.tankFrom) });
  return BEEF_ON(cow) ? say('{milk}; meat on hold', { milk }) : milk;
};

/** What becomes of the entry that a number stands in: it is not saved yet, or it is and belongs to no cow, or to hers. */
export type StandsAs = 'to-be-saved' | 'unplaced' | 'placed';

const NOBODY: Readonly<Record<StandsAs, Sentence>> = {
  'to-be-saved':
    'There is no cow {number} in the herd at the next milking. If you save it, it stands unplaced at the head of the milk-hold sheet until somebody settles who it was.',
  unplaced:
    'No cow of the herd was {number} then: what was written of her belongs to no cow until somebody settles it.',
  placed: 'At the next milking no cow of the herd is {number}.',
};

export const WhoIs = ({
  number,
  cows,
  speaking,
  stands = 'to-be-saved',
}: {
  number: string;
  cows: readonly WhyCow[];
  speaking: Speaking;
  stands?: StandsAs;
}) => {
  if (cows.length === 0)
    return <p class={stands === 'placed' ? 'hint' : 'problem'}>{say(NOBODY[stands], { number })}</p>;
  return (
    <>
      {cows.length > 1 ? (
        <p class="problem">
          {say(
            '{number} may mean {cows, plural, one {# cow} other {# cows}}. Saved under this number, it may count for each of them; better use her official number.',
            { number, cows: cows.length },
          )}
        </p>
      ) : null}
      {cows.map((cow) => (
        <p>
          <strong class="cow">{cow.cow}</strong> {whoText(cow)}: {holdText(cow, speaking)}
        </p>
      ))}
    </>
  );
};
