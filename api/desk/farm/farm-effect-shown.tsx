/** The cows whose holds a change would change, in a table before it is saved: before, after, and what that means. */
import type { AtHand } from '../at-hand.ts';
import type { Sentence } from '../said/every.ts';
import { say } from '../say.tsx';
import type { Effect, HoldChange, HoldState } from './farm-effect.ts';

const KINDS: Readonly<Record<HoldChange['kind'], Sentence>> = {
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
    <section aria-label={say('What it does to the cows')}>
      <h2>{say('What it does to the cows')}</h2>
      <Changes of="milk" changes={effect.milk} hand={hand} at={at} />
      <Changes of="meat" changes={effect.meat} hand={hand} at={at} />
      {notices.length === 0 ? null : (
        <>
          <h3>{say('What it would bring up')}</h3>
          <ul>
            {notices.slice(0, NOTICES_SHOWN).map((notice) => (
              <li>{hand.says(notice.because)}</li>
            ))}
          </ul>
          {notices.length > NOTICES_SHOWN ? (
            <p>{say('And {n} more like these.', { n: notices.length - NOTICES_SHOWN })}</p>
          ) : null}
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
        {of === 'milk'
          ? say('No cow’s milk hold changes at the milking {at}.', { at })
          : say('No cow’s meat hold changes.')}
      </p>
    );
  const freed = changes.filter(({ kind }) => kind === 'newly-free' || kind === 'shorter').length;
  return (
    <>
      {freed > 0 ? (
        <p class="problem">
          {say(
            '{n, plural, one {# cow} other {# cows}} would be free sooner. Only the label in your hand and the vet can say that this is right.',
            { n: freed },
          )}
        </p>
      ) : null}
      <section class="scroll" tabindex={0} aria-label={say('Cows whose hold changes, the table')}>
        <table>
          <caption>
            {of === 'milk'
              ? say('{n, plural, one {# milk hold changes} other {# milk holds change}}, seen from the milking {at}', {
                  n: changes.length,
                  at,
                })
              : say('{n, plural, one {# meat hold changes} other {# meat holds change}}', { n: changes.length })}
          </caption>
          <thead>
            <tr>
              <th scope="col">{say('Cow')}</th>
              <th scope="col">{say('Group')}</th>
              <th scope="col">{say('Before')}</th>
              <th scope="col">{say('After')}</th>
              <th scope="col">{say('So she is')}</th>
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
                  <strong>{say(KINDS[change.kind])}</strong>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {changes.length > SHOWN ? <p>{say('And {n} more cows.', { n: changes.length - SHOWN })}</p> : null}
    </>
  );
};

const stateText = (state: HoldState, of: 'milk' | 'meat', { format }: AtHand): string => {
  if (!state.held) return say('not on hold');
  if (state.until === null) return say('on hold, no end known');
  const time = format.time(state.until);
  return of === 'milk' && state.tankFrom !== null
    ? say('until {time}, in the tank from {milking}', { time, milking: format.milking(state.tankFrom) })
    : say('until {time}', { time });
};
