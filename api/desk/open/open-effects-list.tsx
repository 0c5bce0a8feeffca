/** What saving would free or hold, cow by cow, in sentences. */
import type { AtHand } from '../at-hand.ts';
import { Cows } from '../cows.tsx';
import { say, sayWith } from '../say.tsx';
import type { Change, Effects } from './open-effects.ts';

export const EffectsList = ({ effects, hand }: { effects: Effects; hand: AtHand }) => {
  const { changes, linesGone, noticesGone, noticesNew } = effects;
  const others = noticesGone.length - 1;
  return (
    <section class="card effects" aria-labelledby="effects">
      <h2 id="effects">{say('What saving this does')}</h2>
      {changes.length === 0 ? (
        <p>
          {sayWith(
            '<b>It frees no cow and holds none.</b> Whoever is on hold stays on hold for the reasons that stand.',
            { b: (inner) => <strong>{inner}</strong> },
          )}
        </p>
      ) : (
        <ul>
          {changes.map((change) => (
            <li>
              <Cows numbers={[change.cow]} /> {change.group}: <ChangeText change={change} hand={hand} />
            </li>
          ))}
        </ul>
      )}
      {linesGone === 0 ? null : (
        <p>
          {say(
            '{n, plural, one {A line goes} other {# lines go}} from the head of the milk-hold sheet: nobody looks for that cow any more.',
            { n: linesGone },
          )}
        </p>
      )}
      {others > 0 ? (
        <p>{say('{n, plural, one {One more matter is} other {# more matters are}} settled by it.', { n: others })}</p>
      ) : null}
      {noticesNew.length === 0 ? null : (
        <>
          <p>{say('It raises:')}</p>
          <ul>
            {noticesNew.map(({ because }) => (
              <li>{hand.says(because)}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
};

const ChangeText = ({ change, hand }: { change: Change; hand: AtHand }) => {
  const milk = milkSays(change, hand);
  const meat = meatSays(change, hand);
  return (
    <>
      {milk === null ? null : <strong>{milk}</strong>}
      {milk !== null && meat !== null ? '; ' : null}
      {meat}
    </>
  );
};

const milkSays = ({ was, is, isMilked }: Change, { answer, format }: AtHand): string | null => {
  if (was.milk === is.milk && was.tankFrom === is.tankFrom) return null;
  const untilOf = (end: string | null) =>
    end === null ? say('without end') : say('until {time}', { time: format.time(end) });
  if (is.milk === undefined)
    return isMilked
      ? say('FREED: her milk may go in the tank from the {milking} milking', {
          milking: format.milking(answer.milking.id),
        })
      : say('her milk is on hold no longer; she is not milked now');
  const until = untilOf(is.milk);
  const milking = is.tankFrom === null ? null : format.milking(is.tankFrom);
  if (was.milk === undefined)
    return milking === null
      ? say('HELD: milk on hold {until}', { until })
      : say('HELD: milk on hold {until}, her milk may go in the tank from the {milking} milking', { until, milking });
  const before = untilOf(was.milk ?? null);
  return milking === null
    ? say('milk on hold {until} (as it stands: {was})', { until, was: before })
    : say('milk on hold {until}, her milk may go in the tank from the {milking} milking (as it stands: {was})', {
        until,
        milking,
        was: before,
      });
};

const meatSays = ({ was, is }: Change, { format }: AtHand): string | null => {
  if (was.meat === is.meat) return null;
  if (is.meat === undefined) return say('meat on hold no longer');
  return say('meat on hold {until}', {
    until: is.meat === null ? say('without end') : say('until {time}', { time: format.time(is.meat) }),
  });
};
