/** Who a number means, said before anything is saved: lactation, group, days in milk, on hold or not. */
import { standingsAt } from '../../projections/standing.ts';
import { momentOf } from '../../projections/views-at.ts';
import { type WhyCow, whyCow } from '../../projections/why.ts';
import type { Tonight } from '../tonight.ts';
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
    `lactation ${cow.lactation}`,
    cow.inMilk ? (cow.daysInMilk === null ? 'in milk' : `${cow.daysInMilk} days in milk`) : 'not in milk',
    ...(cow.officialId === null ? [] : [`official number ${cow.officialId}`]),
  ].join(', ');

/** Where her milk and meat stand, in a line. */
export const holdText = (cow: WhyCow, { format }: Speaking): string => {
  const milk = !MILK_ON(cow)
    ? 'milk not on hold'
    : cow.tankFrom === null
      ? 'MILK ON HOLD, no end known'
      : `MILK ON HOLD, in the tank from ${format.milking(cow.tankFrom)}`;
  return BEEF_ON(cow) ? `${milk}; meat on hold` : milk;
};

export const WhoIs = ({ number, cows, speaking }: { number: string; cows: readonly WhyCow[]; speaking: Speaking }) => {
  if (cows.length === 0)
    return (
      <p class="problem">
        There is no cow {number} in the herd at the next milking. If you save it, it stands unplaced at the head of the
        milk-hold sheet until somebody settles who it was.
      </p>
    );
  return (
    <>
      {cows.length > 1 ? (
        <p class="problem">
          {number} may mean {cows.length} cows. Saved under this number, it may count for each of them; better use her
          official number.
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
