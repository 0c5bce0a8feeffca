/** Where cows stand because of what is open: group, how long the milk is held, where it goes meanwhile. */
import { milkPlace } from '../../../print/grounds.ts';
import { latestEnd, reasonOf } from '../../../projections/hold-piece.ts';
import type { Moment } from '../../../projections/moment.ts';
import type { Standing } from '../../../projections/standing.ts';
import { instantText } from '../../../shared/instant.ts';
import type { AtHand } from '../at-hand.ts';
import { Cows } from '../cows.tsx';
import { say } from '../say.tsx';
import { tankFromOf } from './open-effects.ts';

interface Given {
  readonly standings: readonly Standing[];
  readonly moment: Moment;
  readonly hand: AtHand;
}

export const Stands = ({ standings, moment, hand }: Given) => (
  <ul class="stands">
    {standings.map((standing) => (
      <li>
        <Cows numbers={[standing.number]} /> {standing.group.name}: {milkText(standing, moment, hand)}
      </li>
    ))}
  </ul>
);

/** "milk on hold until Tue 17 Mar 04:40, in the tank from Tue 17 Mar afternoon; it goes to: calves" */
export const milkText = (standing: Standing, moment: Moment, { answer, format }: AtHand): string => {
  const end = latestEnd(standing.running);
  if (end === undefined) return say(standing.inMilkDuring ? 'milk not on hold' : 'not in milk, no hold');
  const until = end === null ? say('without end') : say('until {time}', { time: format.time(instantText(end)) });
  const from = tankFromOf(standing, moment);
  const milking = from === null ? null : format.milking(from);
  if (!standing.held)
    return milking === null
      ? say('not milked now; her milk is on hold {until}', { until })
      : say('not milked now; her milk is on hold {until}, in the tank from {milking}', { until, milking });
  const hold =
    milking === null
      ? say('milk on hold {until}', { until })
      : say('milk on hold {until}, in the tank from {milking}', { until, milking });
  const place = milkPlace(answer.views.farm.milkTo, standing.running.map(reasonOf));
  return `${hold}; ${place === null ? say('keep it apart, out of the tank') : say('it goes to: {place}', { place })}`;
};
