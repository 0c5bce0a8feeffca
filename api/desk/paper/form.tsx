/** The form for one set that came back: what the book knows of the set, its lines, and the way on to reading it over. */
import type { Child } from 'hono/jsx';
import { instantText } from '../../../shared/instant.ts';
import { mayWrite } from '../../devices/roles.ts';
import { type Desk, type Form, NO_FORM, type Visitor } from '../ask.ts';
import { page } from '../layout.tsx';
import { say } from '../say.tsx';
import { HandLines } from './hand-lines.tsx';
import { Sheet, WhoWrote } from './lines.tsx';
import { Small, Trouble } from './parts.tsx';
import { finishedOf } from './reading.ts';
import { setRemarks } from './set-remarks.ts';
import type { Paper, View } from './view.ts';

export interface FormState {
  readonly form?: Form;
  readonly troubles?: ReadonlyMap<string, Child>;
  readonly status?: number;
  /** Said above everything: what has just been done. */
  readonly done?: string | undefined;
}

export const formPage = (
  desk: Desk,
  visitor: Visitor,
  paper: Paper,
  { form = NO_FORM, troubles = new Map(), status = 200, done }: FormState = {},
): Promise<Response> => {
  const view: View = {
    ...paper,
    form,
    fresh: form === NO_FORM,
    troubles,
    may: (type) => mayWrite(visitor.caller.role, type),
  };
  const { set, span } = paper.book;
  const { format, frame } = paper.hand;
  return page(
    {
      ...frame,
      title: say('Write up {ref}', { ref: set.data.ref }),
      children: (
        <>
          <p class="lead">
            {say('For {milking}, {time}; issued {issued}.', {
              milking: format.milking(set.data.milking),
              time: format.clock(instantText(span.milking.start)),
              issued: format.time(instantText(set.at)),
            })}{' '}
            <a href={`/issued/${set.data.ref}`}>{say('The paper itself')}</a>
          </p>
          {done === undefined ? null : (
            <p class="done" role="status">
              {done}
            </p>
          )}
          <Wrong view={view} />
          {setRemarks(desk, paper, view.may).map((remark) => (
            <p class="remark">! {remark}</p>
          ))}
          <form method="post" action="/paper" class="paper">
            <input type="hidden" name="once" value={form.one('once') ?? visitor.once()} />
            <input type="hidden" name="ref" value={set.data.ref} />
            {/* The first button is the one that Enter presses. */}
            <button type="submit" name="step" value="read" class="unseen" tabindex={-1}>
              {say('Read it over')}
            </button>
            <WhoWrote view={view} />
            <p class="hint">
              {say(
                'Tick what was done. What is not ticked records nothing. Each thing counts as done at this milking unless it has a time of its own.',
              )}
            </p>
            <Sheet view={view} title={say('Milk hold')} kinds={['dose', 'band']}>
              <HandLines view={view} />
            </Sheet>
            <Sheet view={view} title={say('Dry-off')} kinds={['dry', 'undecided']} />
            <Sheet view={view} title={say('Fresh pen ¦ its sheet')} kinds={['out', 'in', 'pen']} />
            <Sheet view={view} title={say('Sort')} kinds={['sort']} />
            <Sheet view={view} title={say('Head count')} kinds={['count']} />
            <Finish view={view} />
            <p class="field">
              <label for="note">{say('Anything else on the sheet')}</label>
              <input id="note" name="note" value={form.one('note') ?? ''} maxlength={400} autocomplete="off" />
            </p>
            <p>
              <button type="submit" name="step" value="read" class="big">
                {say('Read it over, then save')}
              </button>
            </p>
          </form>
        </>
      ),
    },
    status,
  );
};

const Wrong = ({ view: { troubles } }: { view: View }) =>
  troubles.size === 0 ? null : (
    <div class="problem" role="alert">
      <p>{say('Nothing is saved yet. {n, plural, one {# thing} other {# things}} to mend:', { n: troubles.size })}</p>
      <ul>
        {[...troubles].map(([field, problem]) => (
          <li>{/^(hand|dose|dry|in|out|sort)\./.test(field) ? <a href={`#line-${field}`}>{problem}</a> : problem}</li>
        ))}
      </ul>
    </div>
  );

const Finish = ({ view }: { view: View }) => {
  const finished = finishedOf(view.book);
  return (
    <section class="card">
      <h2>{say('The milking')}</h2>
      {finished !== undefined ? (
        <p>{say('Finished {time}, by the book.', { time: view.hand.format.time(instantText(finished)) })}</p>
      ) : view.may('milking-finished') ? (
        <>
          <Small
            view={view}
            field="finished"
            label={say('finished at (such as 18:40)')}
            of={say('The milking')}
            type="time"
          />
          <Trouble view={view} field="finished" />
        </>
      ) : null}
    </section>
  );
};
