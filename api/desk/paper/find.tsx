/** Which sheet came back? Its ref is typed, or picked from the sets that nobody has written up yet. */
import type { Child } from 'hono/jsx';
import type { Desk, Visitor } from '../ask.ts';
import { atHand } from '../at-hand.ts';
import { goTo, page } from '../layout.tsx';
import { say } from '../say.tsx';

export const findPage = (
  desk: Desk,
  visitor: Visitor,
  { said = '', problem, status = 200 }: { said?: string; problem?: Child; status?: number } = {},
): Response | Promise<Response> => {
  const hand = atHand(desk, visitor, '/paper');
  if (hand === undefined) return goTo('/begin');
  const open = [...hand.answer.views.notReturned].reverse();
  return page(
    {
      ...hand.frame,
      title: say('From paper back to the book'),
      children: (
        <>
          <form class="card narrow" method="get" action="/paper">
            <p class="field">
              <label for="ref">{say('Ref at the foot of the sheet')}</label>
              <input
                id="ref"
                name="ref"
                value={said}
                required
                maxlength={20}
                autocomplete="off"
                autocapitalize="characters"
                spellcheck={false}
                aria-describedby={problem === undefined ? 'ref-how' : 'ref-wrong ref-how'}
                aria-invalid={problem === undefined ? undefined : 'true'}
              />
              <span class="hint" id="ref-how">
                {say('Nine symbols, like ACEF-3479-K; small letters and no hyphens will do.')}
              </span>
            </p>
            {problem === undefined ? null : (
              <p class="problem" role="alert" id="ref-wrong">
                {problem}
              </p>
            )}
            <p>
              <button type="submit">{say('Open the sheet')}</button>
            </p>
          </form>
          <section>
            <h2>
              {say('Not written up yet')}
              {open.length === 0 ? '' : ` (${open.length})`}
            </h2>
            {open.length === 0 ? (
              <p>{say('Every set of an earlier milking is returned.')}</p>
            ) : (
              <ul class="tiles">
                {open.map(({ ref, milking }) => (
                  <li>
                    <a href={`/paper?ref=${ref}`}>
                      {hand.format.milking(milking)}
                      <span class="code">{ref}</span>
                    </a>
                  </li>
                ))}
              </ul>
            )}
          </section>
        </>
      ),
    },
    status,
  );
};
