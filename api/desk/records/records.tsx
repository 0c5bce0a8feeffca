/** The record keeper's page: a moment of the past, the verification, the register, proofs, one cow's history. */
import { instantText } from '../../../shared/instant.ts';
import { UserProblem } from '../../../shared/refusal.ts';
import { isSigned } from '../../proof-tree.ts';
import type { Ask, Desk, DeskPage } from '../ask.ts';
import { type AtHand, atHand } from '../at-hand.ts';
import { goTo, page } from '../layout.tsx';
import { inEnglish, say, sayWith } from '../say.tsx';
import { askedIn, type Problems, type Typed, typedInQuery } from './records-asked.ts';
import { DOWNLOADS } from './records-downloads.ts';
import { CowForm, MomentForm, ProofForms, RegisterForm, VerifyForm } from './records-forms.tsx';
import { thenPage } from './records-then.tsx';
import { verifyPage } from './records-verify.tsx';

type Run = (desk: Desk, ask: Ask, hand: AtHand) => Response | Promise<Response>;

const withFarm =
  (run: Run): DeskPage['run'] =>
  (desk, ask) => {
    const hand = atHand(desk, ask.visitor, '/records');
    return hand === undefined ? goTo('/begin') : run(desk, ask, hand);
  };

export const recordsPages: readonly DeskPage[] = [
  { method: 'get', path: '/records', right: 'log', run: withFarm((desk, ask, hand) => recordsPage(desk, ask, hand)) },
  {
    method: 'get',
    path: '/records/then',
    right: 'log',
    run: withFarm(async (desk, ask, hand) => {
      const typed = typedInQuery(ask);
      const asked = askedIn(desk, hand, typed);
      if (!asked.ok) return recordsPage(desk, ask, hand, typed, asked.problems);
      try {
        return await thenPage(desk, hand, asked.question);
      } catch (error) {
        if (!(error instanceof UserProblem)) throw error;
        return recordsPage(desk, ask, hand, typed, { at: inEnglish(error.message) });
      }
    }),
  },
  {
    method: 'post',
    path: '/records/verify',
    right: 'log',
    run: withFarm((desk, ask, hand) =>
      verifyPage(desk, ask, hand, (typed, problems) => recordsPage(desk, ask, hand, typed, problems)),
    ),
  },
  {
    method: 'get',
    path: '/records/cow',
    right: 'log',
    run: withFarm((desk, ask, hand) => {
      const { number } = typedInQuery(ask);
      return number === undefined
        ? recordsPage(desk, ask, hand, {}, { number: say('Say which cow: her barn number, or her official number') })
        : goTo(`/cow/${encodeURIComponent(number)}`);
    }),
  },
  ...Object.entries(DOWNLOADS).map(
    ([name, take]): DeskPage => ({
      method: 'get',
      path: `/records/${name}`,
      right: 'log',
      run: withFarm(async (desk, ask, hand) => {
        const typed = typedInQuery(ask);
        const taken = await take(desk, hand, typed);
        return taken.ok ? taken.response : recordsPage(desk, ask, hand, typed, taken.problems);
      }),
    }),
  ),
];

const LAST_SETS = 12;

const recordsPage = (
  desk: Desk,
  { visitor }: Ask,
  hand: AtHand,
  typed: Typed = {},
  problems: Problems = {},
): Promise<Response> => {
  const { format, answer } = hand;
  const head = desk.book.head();
  const issued = answer.known.farm.issued.toSorted((a, b) => b.position - a.position).slice(0, LAST_SETS);
  const refused = Object.keys(problems).length > 0;
  return page(
    {
      ...hand.frame,
      title: say('Records'),
      children: (
        <>
          <p class="lead">
            {say(
              isSigned(desk.book.checkpoint())
                ? '{n, plural, one {# entry} other {# entries}} in this book, the checkpoint signed. Nothing on this page writes anything.'
                : '{n, plural, one {# entry} other {# entries}} in this book, the checkpoint NOT signed: to an outsider it proves nothing. Nothing on this page writes anything.',
              { n: head.position },
            )}
          </p>
          {refused ? (
            <p class="problem" role="alert">
              {say('That cannot be answered yet:')}{' '}
              {Object.values(problems).map((problem, index) => (
                <>
                  {index === 0 ? '' : '; '}
                  {problem}
                </>
              ))}
              .
            </p>
          ) : null}
          <MomentForm hand={hand} typed={typed} problems={problems} />
          {issued.length === 0 ? null : (
            <section class="card" aria-labelledby="sets">
              <h2 id="sets">{say('The last sets that were issued')}</h2>
              <ul class="sets">
                {issued.map(({ data, at }) => (
                  <li>
                    {sayWith('<a>{ref}</a> for {milking}, issued {time}, position {position}', {
                      a: (inner) => <a href={`/records/then?ref=${data.ref}`}>{inner}</a>,
                      ref: data.ref,
                      milking: format.milking(data.milking),
                      time: format.time(instantText(at)),
                      position: String(data.position),
                    })}
                  </li>
                ))}
              </ul>
            </section>
          )}
          <VerifyForm once={visitor.once()} typed={typed} problems={problems} entries={head.position} />
          <RegisterForm typed={typed} problems={problems} />
          <ProofForms typed={typed} problems={problems} verifierKey={desk.book.verifierKey} />
          <CowForm typed={typed} problems={problems} />
        </>
      ),
    },
    refused ? 400 : 200,
  );
};
