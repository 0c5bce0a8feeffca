/** What went wrong, as a sentence and a way on. */
import { PROBLEMS, type RequestProblem } from '../server/problem.ts';
import { page } from './layout.tsx';

export const problemPage = ({ problem, message, more }: RequestProblem, requestId: string): Promise<Response> => {
  const [status, title] = PROBLEMS[problem];
  return page(
    {
      title,
      children: (
        <div class="card">
          <p class="problem" role="alert">
            {message}
          </p>
          <p>
            Go back with your browser: what you had filled in is still there. Or go to <a href="/">the next milking</a>.
          </p>
          <p class="hint">Request {requestId}</p>
        </div>
      ),
    },
    status,
    more.retryAfter === undefined ? {} : { 'retry-after': String(more.retryAfter) },
  );
};
