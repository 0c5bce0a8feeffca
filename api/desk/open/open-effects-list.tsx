/** What saving would free or hold, cow by cow, in sentences. */
import type { AtHand } from '../at-hand.ts';
import { Cows } from '../cows.tsx';
import type { Change, Effects } from './open-effects.ts';

export const EffectsList = ({ effects, hand }: { effects: Effects; hand: AtHand }) => {
  const { changes, linesGone, noticesGone, noticesNew } = effects;
  const others = noticesGone.length - 1;
  return (
    <section class="card effects" aria-labelledby="effects">
      <h2 id="effects">What saving this does</h2>
      {changes.length === 0 ? (
        <p>
          <strong>It frees no cow and holds none.</strong> Whoever is on hold stays on hold for the reasons that stand.
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
          {linesGone === 1 ? 'A line goes' : `${linesGone} lines go`} from the head of the milk-hold sheet: nobody looks
          for that cow any more.
        </p>
      )}
      {others > 0 ? <p>{others === 1 ? 'One more matter is' : `${others} more matters are`} settled by it.</p> : null}
      {noticesNew.length === 0 ? null : (
        <>
          <p>It raises:</p>
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
  const until = (end: string | null) => (end === null ? 'without end' : `until ${format.time(end)}`);
  if (is.milk === undefined)
    return isMilked
      ? `FREED: her milk may go in the tank from the ${format.milking(answer.milking.id)} milking`
      : 'her milk is on hold no longer; she is not milked now';
  const tank =
    is.tankFrom === null ? '' : `, her milk may go in the tank from the ${format.milking(is.tankFrom)} milking`;
  if (was.milk === undefined) return `HELD: milk on hold ${until(is.milk)}${tank}`;
  return `milk on hold ${until(is.milk)}${tank} (as it stands: ${until(was.milk ?? null)})`;
};

const meatSays = ({ was, is }: Change, { format }: AtHand): string | null => {
  if (was.meat === is.meat) return null;
  if (is.meat === undefined) return 'meat on hold no longer';
  return is.meat === null ? 'meat on hold without end' : `meat on hold until ${format.time(is.meat)}`;
};
