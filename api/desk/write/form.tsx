/** The form for one kind of entry, as it is drawn: which cow, the fields, when. */
import type { Child } from 'hono/jsx';
import type { EntryType } from '../../../events/kinds.ts';
import { DAY } from '../../../shared/instant.ts';
import type { Ask, Desk } from '../ask.ts';
import type { AtHand } from '../at-hand.ts';
import { describedBy, Labelled } from '../labelled.tsx';
import { page } from '../layout.tsx';
import { type Sentence, say } from '../say.tsx';
import { cowsFor, herdNumbers, WhoIs } from '../who.tsx';
import type { Written } from './building.ts';
import { CameDry } from './came-dry.tsx';
import { type Context, clockOf, contextOf } from './context.ts';
import { Fields, type Typed } from './fields.tsx';
import { WhenFields } from './timing.tsx';
import { doseQuery, usualDoses } from './treatment.ts';

export interface Drawn {
  readonly hand: AtHand;
  readonly written: Written;
  readonly typed: Typed;
  readonly troubles: readonly { readonly field: string; readonly says: Child }[];
  readonly once?: string | undefined;
}

/** The form, empty or with what was typed and what is wrong with it. */
export const draw = (
  desk: Desk,
  ask: Ask,
  { hand, written, typed, troubles, once }: Drawn,
  status = 200,
): Promise<Response> => {
  const cow = typed.one('cow');
  const context = contextOf(desk, ask, hand, cow);
  const frame = { ...hand.frame, title: say(written.title) };
  if (written.about === 'ask-first' && context.file === undefined) {
    return page(
      {
        ...frame,
        children: (
          <form class="card narrow" method="get" action={`/write/${written.type}`}>
            {cow === undefined ? null : <WhoIs number={cow} cows={cowsFor(hand.answer, cow)} speaking={hand} />}
            <Numbers label={say('Which cow')} cow={cow} several={false} hand={hand} trouble={undefined} />
            <button type="submit">{say('Go on')}</button>
          </form>
        ),
      },
      status,
    );
  }
  const byField = new Map(troubles.map(({ field, says }) => [field, says]));
  const fields = written.fields(context);
  const placed = new Set([...fields.map(({ name }) => name), 'cow', 'when']);
  const elsewhere = troubles.filter(({ field }) => !placed.has(field));
  return page(
    {
      ...frame,
      children: (
        <>
          {troubles.length === 0 ? null : (
            <p class="problem" role="alert">
              {elsewhere.length === 0 ? say('Nothing is saved yet: see below.') : say('Nothing is saved yet:')}{' '}
              {elsewhere.map(({ says }, index) => (
                <>
                  {index === 0 ? '' : '; '}
                  {says}
                </>
              ))}
              {elsewhere.length === 0 ? '' : '.'}
            </p>
          )}
          {cow !== undefined && written.about !== 'several' ? (
            <WhoIs number={cow} cows={cowsFor(hand.answer, cow)} speaking={hand} />
          ) : null}
          {written.type === 'dry-off' ? <CameDry context={context} /> : null}
          {written.type === 'treatment' ? <Usuals context={context} cow={cow} /> : null}
          <form class="card" method="post" action={`/write/${written.type}`}>
            <input type="hidden" name="once" value={once ?? ask.visitor.once()} />
            {written.about === 'farm' ? null : (
              <Numbers
                label={say(
                  written.about === 'several' ? 'Cow, or several with spaces between' : numberLabel(written.type),
                )}
                cow={typed.one('cow')}
                several={written.about === 'several'}
                hand={hand}
                trouble={byField.get('cow')}
              />
            )}
            <Fields fields={fields} typed={typed} troubles={byField} />
            <WhenFields typed={typed} clock={clockOf(context)} speaking={hand} trouble={byField.get('when')} />
            <p>
              <button type="submit">{say('Check')}</button>{' '}
              <span class="hint">{say('Nothing is saved before you have read what it does.')}</span>
            </p>
          </form>
        </>
      ),
    },
    status,
  );
};

const numberLabel = (type: EntryType): Sentence =>
  type === 'cow-entered' ? 'Her barn number' : type === 'residue-test' ? 'Cow (leave empty for the tank)' : 'Cow';

const Numbers = ({
  label,
  cow,
  several,
  hand,
  trouble,
}: {
  label: string;
  cow: string | undefined;
  several: boolean;
  hand: AtHand;
  trouble: Child | undefined;
}) => (
  <Labelled id={COW_FIELD} label={label} problem={trouble}>
    <input
      id={COW_FIELD}
      name="cow"
      value={cow ?? ''}
      class="numbers"
      list={several ? undefined : 'herd-numbers'}
      {...describedBy({ id: COW_FIELD, problem: trouble })}
    />
    {several ? null : (
      <datalist id="herd-numbers">
        {herdNumbers(hand.answer).map((each) => (
          <option value={each} />
        ))}
      </datalist>
    )}
  </Labelled>
);

const COW_FIELD = 'field-cow';

const Usuals = ({ context, cow }: { context: Context; cow: string | undefined }) => {
  const { knowledge, now, file } = context;
  const whose: Record<string, string> = cow === undefined ? {} : { cow };
  const running = (file?.dosings ?? []).filter(({ course }) => course?.running === true);
  const usuals = usualDoses(knowledge, now - 90 * DAY);
  return (
    <>
      {running.map(({ medicine, course, last }) => (
        <p>
          <a class="button" href={`/write/treatment?${doseQuery(last, { ...whose, inCourse: 'next' })}`}>
            {say('Next dose of her course: {medicine}, {dose} of {of}', {
              medicine,
              dose: String((course?.given ?? 0) + 1),
              of: String(course?.of ?? ''),
            })}
          </a>
        </p>
      ))}
      {usuals.length === 0 ? null : (
        <details>
          <summary>{say('Fill in a usual dose')}</summary>
          <ul class="inline">
            {usuals.map(({ medicine, last }) => (
              <li>
                <a href={`/write/treatment?${doseQuery(last, whose)}`}>{medicine}</a>
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
};
