/** A number that means no cow of the herd: what it may have been, and what stands written under it. */
import { mayAsk } from '../../devices/roles.ts';
import type { Ask } from '../ask.ts';
import type { AtHand } from '../at-hand.ts';
import { Cows } from '../cows.tsx';
import type { HerdNow } from '../herd/herd-rows.ts';
import { numbersNear } from './cow-found.ts';

export const UnknownCow = ({ number, herd, hand, ask }: { number: string; herd: HerdNow; hand: AtHand; ask: Ask }) => {
  const near = numbersNear(
    herd.rows.map((row) => row.number),
    number,
  );
  return (
    <>
      <p class="problem" role="alert">
        No cow of the herd bears or bore the number {number}. Check the number
        {near.length > 0 ? ', perhaps it is one of these' : ''}.
      </p>
      {near.length === 0 ? null : (
        <p>
          Numbers like it: <Cows numbers={near} />
        </p>
      )}
      <form class="row" method="get" action="/herd">
        <p class="field">
          <label for="find">Find another number</label>
          <input id="find" name="find" maxlength={40} autocomplete="off" />
        </p>
        <p class="field">
          <button type="submit">Find</button>
        </p>
      </form>
      <p>
        <a href="/herd">The whole herd</a>
        {mayAsk(ask.visitor.caller.role, 'push') && number.length <= 15 ? (
          <>
            {' · '}
            <a href="/write/cow-entered">Write down a new cow</a>
          </>
        ) : null}
        {' · '}
        <a href={`/milking/${hand.answer.milking.id}`}>The milking</a>
      </p>
    </>
  );
};
