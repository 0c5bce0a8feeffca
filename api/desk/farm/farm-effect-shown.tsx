/** The cows whose holds a change would change, in a table before it is saved: before, after, and what that means. */
import { plural } from '../../command-line/settings.ts';
import type { AtHand } from '../at-hand.ts';
import type { Effect, HoldChange, HoldState } from './farm-effect.ts';

const KINDS: Readonly<Record<HoldChange['kind'], string>> = {
  'newly-held': 'NOW HELD',
  'newly-free': 'NOW FREE',
  longer: 'longer',
  shorter: 'shorter',
};
const SHOWN = 200;
/** Alerts come first, so that none of them is cut off by doubts. */
const NOTICES_SHOWN = 20;

export const EffectShown = ({ effect, hand, at }: { effect: Effect; hand: AtHand; at: string }) => {
  const notices = [...effect.alerts, ...effect.doubts];
  return (
    <section aria-label="What it does to the cows">
      <h2>What it does to the cows</h2>
      <Changes of="milk" changes={effect.milk} hand={hand} at={at} />
      <Changes of="meat" changes={effect.meat} hand={hand} at={at} />
      {notices.length === 0 ? null : (
        <>
          <h3>What it would bring up</h3>
          <ul>
            {notices.slice(0, NOTICES_SHOWN).map((notice) => (
              <li>{hand.says(notice.because)}</li>
            ))}
          </ul>
          {notices.length > NOTICES_SHOWN ? <p>And {notices.length - NOTICES_SHOWN} more like these.</p> : null}
        </>
      )}
    </section>
  );
};

const Changes = ({
  of,
  changes,
  hand,
  at,
}: {
  of: 'milk' | 'meat';
  changes: readonly HoldChange[];
  hand: AtHand;
  at: string;
}) => {
  if (changes.length === 0)
    return (
      <p>
        No cow’s {of} hold changes{of === 'milk' ? ` at the milking ${at}` : ''}.
      </p>
    );
  const freed = changes.filter(({ kind }) => kind === 'newly-free' || kind === 'shorter').length;
  return (
    <>
      {freed > 0 ? (
        <p class="problem">
          {plural(freed, 'cow')} would be free sooner. Only the label in your hand and the vet can say that this is
          right.
        </p>
      ) : null}
      <section class="scroll" tabindex={0} aria-label="Cows whose hold changes, the table">
        <table>
          <caption>
            {plural(changes.length, `${of} hold changes`, `${of} holds change`)}
            {of === 'milk' ? `, seen from the milking ${at}` : ''}
          </caption>
          <thead>
            <tr>
              <th scope="col">Cow</th>
              <th scope="col">Group</th>
              <th scope="col">Before</th>
              <th scope="col">After</th>
              <th scope="col">So she is</th>
            </tr>
          </thead>
          <tbody>
            {changes.slice(0, SHOWN).map((change) => (
              <tr class={change.after.held ? 'held' : undefined}>
                <th scope="row">
                  <span class="cow">{change.cow}</span>
                </th>
                <td>{change.group}</td>
                <td>{stateText(change.before, of, hand)}</td>
                <td>{stateText(change.after, of, hand)}</td>
                <td>
                  <strong>{KINDS[change.kind]}</strong>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {changes.length > SHOWN ? <p>And {changes.length - SHOWN} more cows.</p> : null}
    </>
  );
};

const stateText = (state: HoldState, of: 'milk' | 'meat', { format }: AtHand): string => {
  if (!state.held) return 'not on hold';
  if (state.until === null) return 'on hold, no end known';
  const tank = of === 'milk' && state.tankFrom !== null ? `, in the tank from ${format.milking(state.tankFrom)}` : '';
  return `until ${format.time(state.until)}${tank}`;
};
