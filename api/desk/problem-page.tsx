/** What went wrong, as a sentence and a way on. */
import { PROBLEMS, type RequestProblem } from '../server/problem.ts';
import { page } from './layout.tsx';
import { problemText, say, sayWith } from './say.tsx';

export const problemPage = (thrown: RequestProblem, requestId: string): Promise<Response> => {
  const { problem, more } = thrown;
  const [status, title] = PROBLEMS[problem];
  return page(
    {
      title: say(title),
      children: (
        <div class="card">
          <p class="problem" role="alert">
            {problemText(thrown)}
          </p>
          <p>
            {sayWith(
              'Go back with your browser: what you had filled in is still there. Or go to <a>the next milking</a>.',
              { a: (inner) => <a href="/">{inner}</a> },
            )}
          </p>
          <p class="hint">{say('Request {id}', { id: requestId })}</p>
        </div>
      ),
    },
    status,
    more.retryAfter === undefined ? {} : { 'retry-after': String(more.retryAfter) },
  );
};
