/** Running the whole verification from the desk, and holding the book against a paper or a checkpoint that somebody kept. */
import type { VerifyReport } from '../../../events/book.ts';
import { UserProblem } from '../../../shared/refusal.ts';
import { verified } from '../../verified.ts';
import { type Ask, type Desk, savingOf } from '../ask.ts';
import type { AtHand } from '../at-hand.ts';
import { page } from '../layout.tsx';
import { inEnglish, say } from '../say.tsx';
import type { Problems, Typed } from './records-asked.ts';

type Again = (typed: Typed, problems: Problems) => Promise<Response>;

export const verifyPage = async (desk: Desk, { form }: Ask, hand: AtHand, again: Again): Promise<Response> => {
  savingOf(form);
  const paper = form.one('paper');
  const checkpoint = form.one('checkpoint');
  const deep = form.one('deep') !== undefined;
  const typed = {
    ...(paper === undefined ? {} : { paper }),
    ...(checkpoint === undefined ? {} : { checkpoint }),
    ...(deep ? { deep: 'yes' } : {}),
  };
  let report: VerifyReport;
  try {
    report = await verified(desk.book, {
      paper,
      checkpoint: checkpoint === undefined ? undefined : asNote(checkpoint),
      deep,
    });
  } catch (error) {
    if (!(error instanceof UserProblem) || error.exitCode !== 2) throw error;
    const field = error.message.startsWith('--paper') ? 'paper' : 'checkpoint';
    return again(typed, { [field]: inEnglish(forThePage(error.message)) });
  }
  return page({ ...hand.frame, title: say('What the verification found'), children: <Report report={report} /> });
};

/** A browser sends a text of lines with other line ends, and the last one is cut off with the spaces. */
const asNote = (typed: string): string => `${typed.replace(/\r\n?/g, '\n')}\n`;

/** The sentence without the name that the field has on the command line. */
const forThePage = (sentence: string): string => {
  const said = sentence.replace(/^--\w+: /, '').replace('the file is', 'this is');
  return `${said.charAt(0).toUpperCase()}${said.slice(1)}`;
};

const Report = ({ report }: { report: VerifyReport }) => {
  const { ok, problems, notes, position, root, papers, setAside, signed } = report;
  return (
    <>
      {ok ? (
        <p class="done" role="status">
          {say('Everything agrees.')}
        </p>
      ) : (
        <>
          <p class="problem" role="alert">
            {say(
              '{n, plural, one {# thing does} other {# things do}} NOT agree. Touch nothing, make a copy of the book and of its key, and ask whoever looks after it.',
              { n: problems.length },
            )}
          </p>
          <ol class="card found">
            {problems.map((found) => (
              <li>
                {found.position === null ? '' : `${say('Position {position}:', { position: String(found.position) })} `}
                {inEnglish(found.problem)}
              </li>
            ))}
          </ol>
        </>
      )}
      <div class="card">
        <p>
          {say('{n, plural, one {# entry} other {# entries}} read and worked out again;', { n: position })}{' '}
          {say('{n, plural, one {# paper} other {# papers}} kept;', { n: papers })}{' '}
          {say('{n, plural, one {# entry} other {# entries}} set aside;', { n: setAside })}{' '}
          {say(signed ? 'the checkpoint is signed.' : 'the checkpoint is NOT signed.')}
        </p>
        <p>
          {say('Root:')} <span class="code">{root}</span>
        </p>
        <ul>
          {notes.map((note) => (
            <li>{inEnglish(note)}</li>
          ))}
        </ul>
      </div>
      <p>
        <a href="/records">{say('Back to the records')}</a>
      </p>
    </>
  );
};
