/** Signing in with a device's token, or with the address that `serve --desk` prints and that works once. */
import { page } from './layout.tsx';

export interface SignInForm {
  readonly problem?: string;
  readonly person?: string;
  /** Where to go then. */
  readonly to: string;
  /** Of an address that works once. */
  readonly code?: string | undefined;
}

export const signInPage = ({ problem, person, to, code }: SignInForm, status = 200): Promise<Response> =>
  page(
    {
      title: 'Sign in',
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
            <label for="person">Your name, as it should stand behind what you write down</label>
            <input id="person" name="person" value={person ?? ''} required maxlength={80} autocomplete="name" />
          </p>
          {code === undefined ? (
            <p class="field">
              <label for="token">Token of this device</label>
              <input id="token" name="token" type="password" required maxlength={200} autocomplete="current-password" />
              <span class="hint">
                Whoever keeps the book makes one with <code>byrebook device add NAME --role manager</code>; it is shown
                once.
              </span>
            </p>
          ) : (
            <p>This address signs in this one browser; it does not work a second time.</p>
          )}
          <p>
            <button type="submit">Sign in</button>
          </p>
        </form>
      ),
    },
    status,
  );
