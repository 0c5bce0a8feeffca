/** Signing in with a device's token, or with the address that `serve --desk` prints and that works once. */
import type { Child } from 'hono/jsx';
import type { RequestProblem } from '../server/problem.ts';
import { page } from './layout.tsx';
import { problemText, SaidProblem, say, sayWith } from './say.tsx';

export interface SignInForm {
  readonly problem?: Child;
  readonly person?: string;
  /** Where to go then. */
  readonly to: string;
  /** Of an address that works once. */
  readonly code?: string | undefined;
}

export const signInPage = ({ problem, person, to, code }: SignInForm, status = 200): Promise<Response> =>
  page(
    {
      title: say('Sign in'),
      children: (
        <form class="card narrow" method="post" action="/sign-in">
          {problem === undefined ? null : (
            <p class="problem" role="alert">
              {problem}
            </p>
          )}
          <input type="hidden" name="to" value={to} />
          {code === undefined ? null : <input type="hidden" name="code" value={code} />}
          <p class="field">
            <label for="person">{say('Your name, as it should stand behind what you write down')}</label>
            <input id="person" name="person" value={person ?? ''} required maxlength={80} autocomplete="name" />
          </p>
          {code === undefined ? (
            <p class="field">
              <label for="token">{say('Token of this device')}</label>
              <input id="token" name="token" type="password" required maxlength={200} autocomplete="current-password" />
              <span class="hint">
                {sayWith('Whoever keeps the book makes one with {command}; it is shown once.', {
                  command: <code lang="en">byrebook device add NAME --role manager</code>,
                })}
              </span>
            </p>
          ) : (
            <p>{say('This address signs in this one browser; it does not work a second time.')}</p>
          )}
          <p>
            <button type="submit">{say('Sign in')}</button>
          </p>
        </form>
      ),
    },
    status,
  );

/** Why somebody was not let in. What the doors for programs say is put into the desk's own words. */
export const signInProblem = (problem: RequestProblem): Child => {
  if (problem instanceof SaidProblem) return problem.said;
  const seconds = problem.more.retryAfter ?? 1;
  switch (problem.problem) {
    case 'not-signed-in':
      return problem.message.startsWith('Send ')
        ? say('Type the token of this device')
        : say(
            'This token is not good here: it is mistyped, of another book, or taken back. Ask whoever keeps the book.',
          );
    case 'locked-out':
      return say('Too many wrong tokens came from there; wait {seconds, plural, one {# second} other {# seconds}}.', {
        seconds,
      });
    case 'too-often':
      return say('That is too fast; wait {seconds, plural, one {# second} other {# seconds}}, then go on.', {
        seconds,
      });
    default:
      return problemText(problem);
  }
};
