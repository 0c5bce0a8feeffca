/** A number that means no cow of the herd: what it may have been, and what stands written under it. */
import { mayAsk } from '../../devices/roles.ts';
import type { Ask } from '../ask.ts';
import type { AtHand } from '../at-hand.ts';
import { Cows } from '../cows.tsx';
import type { HerdNow } from '../herd/herd-rows.ts';
import { say, sayWith } from '../say.tsx';
import { numbersNear } from './cow-found.ts';

export const UnknownCow = ({ number, herd, hand, ask }: { number: string; herd: HerdNow; hand: AtHand; ask: Ask }) => {
  const near = numbersNear(
    herd.rows.map((row) => row.number),
    number,
  );
  return (
    <>
      <p class="problem" role="alert">
        {say(
          near.length > 0
            ? 'No cow of the herd bears or bore the number {number}. Check the number, perhaps it is one of these.'
            : 'No cow of the herd bears or bore the number {number}. Check the number.',
          { number },
        )}
      </p>
      {near.length === 0 ? null : <p>{sayWith('Numbers like it: {numbers}', { numbers: <Cows numbers={near} /> })}</p>}
      <form class="row" method="get" action="/herd">
        <p class="field">
          <label for="find">{say('Find another number')}</label>
          <input id="find" name="find" maxlength={40} autocomplete="off" />
        </p>
        <p class="field">
          <button type="submit">{say('Find')}</button>
        </p>
      </form>
      <p>
        <a href="/herd">{say('The whole herd')}</a>
        {mayAsk(ask.visitor.caller.role, 'push') && number.length <= 15 ? (
          <>
            {' · '}
            <a href="/write/cow-entered">{say('Write down a new cow')}</a>
          </>
        ) : null}
        {' · '}
        <a href={`/milking/${hand.answer.milking.id}`}>{say('The milking')}</a>
      </p>
    </>
  );
};
