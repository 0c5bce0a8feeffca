/**
 * Reading before saving, for both forms of the page: what the entry would do is worked out and shown, and the same form
 * sent again records it. Its time is carried along, so that the entry stays the same one however often it is sent.
 */
import type { Child } from 'hono/jsx';
import { RequestProblem } from '../../server/problem.ts';
import { tonightFrom } from '../../tonight.ts';
import { type Ask, type Desk, savingOf } from '../ask.ts';
import type { AtHand } from '../at-hand.ts';
import { goTo, page } from '../layout.tsx';
import { asIf, checkDrafts, type Draft, idOf, save, type Trouble } from '../saving.ts';
import { say } from '../say.tsx';
import { effectsOf } from './open-effects.ts';
import { EffectsList } from './open-effects-list.tsx';

/** Where this form was saved before: the answer to a second click, a reload, or going back and saving again. */
export const answeredBefore = (desk: Desk, { form }: Ask): Response | undefined =>
  desk.book.find(idOf(savingOf(form), 0)).length > 0 ? goTo('/open?done=already') : undefined;

export interface Reading {
  readonly desk: Desk;
  readonly ask: Ask;
  readonly hand: AtHand;
  readonly draft: Draft;
  readonly title: string;
  /** What is about to be said. */
  readonly says: Child;
  readonly button: string;
  /** Fields of the form, to be carried along. */
  readonly carried: Readonly<Record<string, string>>;
  /** `done=` of the page that follows. */
  readonly done: string;
  readonly action: string;
  readonly again: (troubles: readonly Trouble[]) => Response | Promise<Response>;
}

export const readThenSave = (reading: Reading): Response | Promise<Response> => {
  const { desk, ask, hand, draft, title, says, button, carried, done, action, again } = reading;
  const once = savingOf(ask.form);
  const checked = checkDrafts(desk, ask.visitor, once, [draft]);
  if (!checked.ok) {
    const forbidden = checked.troubles.find(({ pointer }) => pointer === '/type');
    if (forbidden !== undefined) throw new RequestProblem('not-allowed', forbidden.problem);
    return again(checked.troubles);
  }
  if (ask.form.one('step') === 'save') {
    save(desk, checked.passed);
    ask.log.info({ type: draft.type }, 'saved at the desk');
    return goTo(`/open?done=${done}`);
  }
  const question = { milking: hand.answer.milking.id };
  const effects = effectsOf(hand.answer, tonightFrom(asIf(desk, checked.passed), question, hand.answer.asOf));
  return page({
    ...hand.frame,
    title,
    children: (
      <>
        {says}
        <EffectsList effects={effects} hand={hand} />
        <div class="actions">
          <form method="post" action={action}>
            <input type="hidden" name="once" value={ask.form.one('once') ?? ''} />
            {Object.entries({ ...carried, step: 'save' }).map(([name, value]) => (
              <input type="hidden" name={name} value={value} />
            ))}
            <button type="submit">{button}</button>
          </form>
          <a class="button" href="/open">
            {say('Leave it open')}
          </a>
        </div>
      </>
    ),
  });
};
