/** Writing an entry: pick what happened, fill it in, read what it will do, save it once; undo is a strike with a reason. */
import type { EntryType } from '../../../events/kinds.ts';
import { isBarnNumber, officialDigits } from '../../../shared/cow-number.ts';
import { DAY, HOUR, type Instant, instantText } from '../../../shared/instant.ts';
import { plural } from '../../command-line/settings.ts';
import { kindsFor } from '../../devices/roles.ts';
import { RequestProblem } from '../../server/problem.ts';
import { type Ask, type Desk, type DeskPage, savingOf } from '../ask.ts';
import { type AtHand, atHand } from '../at-hand.ts';
import { goTo, page } from '../layout.tsx';
import { checkDrafts, type Draft, idOf, save, type Trouble } from '../saving.ts';
import { cowsFor, herdNumbers, WhoIs } from '../who.tsx';
import { Changes, tonightIf } from './changes.tsx';
import { CannotWrite, type Context, filesOf } from './context.ts';
import { Fields, type Typed, typedIn, typedInQuery, withUsual } from './fields.tsx';
import { WRITTEN, type Written, writtenFor } from './kinds.ts';
import { timeOf, WhenFields } from './timing.tsx';
import { doseQuery, usualDoses } from './treatment.ts';

const MOST_COWS = 200;

export const writePages: readonly DeskPage[] = [
  { method: 'get', path: '/write', right: 'push', run: (desk, ask) => pick(desk, ask) },
  {
    method: 'get',
    path: '/write/:kind',
    right: 'push',
    run: (desk, ask) => {
      const { hand, written } = open(desk, ask);
      const typed = withUsual(typedInQuery(ask.url), { givenBy: ask.visitor.person });
      return draw(desk, ask, { hand, written, typed, troubles: [] });
    },
  },
  {
    method: 'post',
    path: '/write/:kind',
    right: 'push',
    run: (desk, ask) => (ask.form.one('step') === 'save' ? saveIt(desk, ask) : check(desk, ask)),
  },
];

const open = (desk: Desk, { visitor, params }: Ask): { hand: AtHand; written: Written } => {
  const written = writtenFor(params.kind ?? '');
  if (written === undefined)
    throw new RequestProblem('not-found', 'That is not written down here; /write lists what is');
  const hand = atHand(desk, visitor, '/write');
  if (hand === undefined)
    throw new RequestProblem('cannot-answer', 'There is no farm in this book yet; set it up first');
  return { hand, written };
};

const pick = (desk: Desk, { visitor, url }: Ask): Response | Promise<Response> => {
  const hand = atHand(desk, visitor, '/write');
  if (hand === undefined) return goTo('/begin');
  const allowed = kindsFor(visitor.caller.role);
  const cow = url.searchParams.get('cow')?.trim() ?? '';
  const query = cow === '' ? '' : `?cow=${encodeURIComponent(cow)}`;
  return page({
    ...hand.frame,
    title: cow === '' ? 'What happened?' : `What happened with ${cow}?`,
    children: (
      <>
        {cow === '' ? null : <WhoIs number={cow} cows={cowsFor(hand.answer, cow)} speaking={hand} />}
        <ul class="tiles">
          {WRITTEN.filter(
            ({ type, about }) => (allowed === null || allowed.includes(type)) && (cow === '' || about !== 'farm'),
          ).map(({ type, title, hint }) => (
            <li>
              <a href={`/write/${type}${query}`}>
                {title}
                <span>{hint}</span>
              </a>
            </li>
          ))}
        </ul>
        <p>
          A sheet with ticks and notes on it goes <a href="/paper">from paper to the book</a> in one go.
        </p>
      </>
    ),
  });
};

interface Drawn {
  readonly hand: AtHand;
  readonly written: Written;
  readonly typed: Typed;
  readonly troubles: readonly { readonly field: string; readonly says: string }[];
  readonly once?: string | undefined;
}

const contextOf = (desk: Desk, { visitor }: Ask, hand: AtHand, cow: string | undefined): Context => {
  const bare: Context = { hand, knowledge: desk.knowing.now(), visitor, now: desk.now(), file: undefined };
  const files = cow === undefined ? [] : filesOf(bare, cow);
  return { ...bare, file: files.length === 1 ? files[0] : undefined };
};

const clockOf = ({ knowledge, hand, now }: Context) => ({ known: knowledge.known, schedule: hand.schedule, now });

const draw = (
  desk: Desk,
  ask: Ask,
  { hand, written, typed, troubles, once }: Drawn,
  status = 200,
): Promise<Response> => {
  const cow = typed.one('cow');
  const context = contextOf(desk, ask, hand, cow);
  const frame = { ...hand.frame, title: written.title };
  if (written.about === 'ask-first' && context.file === undefined) {
    return page(
      {
        ...frame,
        children: (
          <form class="card narrow" method="get" action={`/write/${written.type}`}>
            {cow === undefined ? null : <WhoIs number={cow} cows={cowsFor(hand.answer, cow)} speaking={hand} />}
            <Numbers label="Which cow" cow={cow} several={false} hand={hand} trouble={undefined} />
            <button type="submit">Go on</button>
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
              Nothing is saved yet: {elsewhere.length > 0 ? elsewhere.map(({ says }) => says).join('; ') : 'see below'}.
            </p>
          )}
          {cow !== undefined && written.about !== 'several' ? (
            <WhoIs number={cow} cows={cowsFor(hand.answer, cow)} speaking={hand} />
          ) : null}
          {written.type === 'treatment' ? <Usuals context={context} cow={cow} /> : null}
          <form class="card" method="post" action={`/write/${written.type}`}>
            <input type="hidden" name="once" value={once ?? ask.visitor.once()} />
            {written.about === 'farm' ? null : (
              <Numbers
                label={written.about === 'several' ? 'Cow, or several with spaces between' : numberLabel(written.type)}
                cow={typed.one('cow')}
                several={written.about === 'several'}
                hand={hand}
                trouble={byField.get('cow')}
              />
            )}
            <Fields fields={fields} typed={typed} troubles={byField} />
            <WhenFields typed={typed} clock={clockOf(context)} speaking={hand} trouble={byField.get('when')} />
            <p>
              <button type="submit">Check</button>{' '}
              <span class="hint">Nothing is saved before you have read what it does.</span>
            </p>
          </form>
        </>
      ),
    },
    status,
  );
};

const numberLabel = (type: EntryType): string =>
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
  trouble: string | undefined;
}) => (
  <div class="field">
    <label for="field-cow">{label}</label>
    <input
      id="field-cow"
      name="cow"
      value={cow ?? ''}
      class="numbers"
      list={several ? undefined : 'herd-numbers'}
      {...(trouble === undefined ? {} : { 'aria-invalid': 'true', 'aria-describedby': 'field-cow-trouble' })}
    />
    {several ? null : (
      <datalist id="herd-numbers">
        {herdNumbers(hand.answer).map((each) => (
          <option value={each} />
        ))}
      </datalist>
    )}
    {trouble === undefined ? null : (
      <span class="problem" id="field-cow-trouble" role="alert">
        {trouble}
      </span>
    )}
  </div>
);

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
            Next dose of her course: {medicine}, {(course?.given ?? 0) + 1} of {course?.of}
          </a>
        </p>
      ))}
      {usuals.length === 0 ? null : (
        <details>
          <summary>Fill in a usual dose</summary>
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

/** The numbers as typed, each once. */
const numbersIn = (text: string | undefined): string[] => [
  ...new Set(
    (text ?? '')
      .split(officialDigits(text ?? '') === undefined ? /[\s,;]+/ : /[,;]/)
      .map((each) => each.trim())
      .filter(Boolean),
  ),
];

interface Built {
  readonly drafts: readonly Draft[];
  readonly cows: readonly string[];
  readonly troubles: readonly { readonly field: string; readonly says: string }[];
}

const build = (written: Written, typed: Typed, context: Context, saving: string): Built => {
  const troubles: { field: string; says: string }[] = [];
  const cows = written.about === 'farm' ? [] : numbersIn(typed.one('cow'));
  const free = written.about === 'farm' || written.type === 'residue-test';
  if (!free && cows.length === 0) troubles.push({ field: 'cow', says: 'Say which cow' });
  if (written.about !== 'several' && cows.length > 1) troubles.push({ field: 'cow', says: 'One cow at a time here' });
  if (cows.length > MOST_COWS) troubles.push({ field: 'cow', says: `${MOST_COWS} cows at once at most` });
  for (const cow of cows) {
    if (!isBarnNumber(cow) && officialDigits(cow) === undefined)
      troubles.push({ field: 'cow', says: `"${cow}" is no cow number: letters, digits and hyphens, 10 at most` });
  }
  const at = timeOf(typed, clockOf(context));
  if (!at.ok) troubles.push({ field: 'when', says: at.problem });
  if (troubles.length > 0 || !at.ok) return { drafts: [], cows, troubles };
  const drafts: Draft[] = [];
  for (const cow of cows.length === 0 ? [undefined] : cows) {
    try {
      const data = written.dataOf(
        typed,
        context,
        cow,
        (part) => `course-${idOf(saving, -1).slice(0, 13)}-${part.replace(/\W+/g, '-')}`,
      );
      drafts.push({ type: written.type, subject: cow, at: at.value, data });
    } catch (thrown) {
      if (!(thrown instanceof CannotWrite)) throw thrown;
      troubles.push({ field: '', says: thrown.message });
    }
  }
  return { drafts, cows, troubles };
};

/** Which field a trouble of the door is about. */
const fieldOf = ({ pointer }: Trouble): string => {
  const [, where = '', name = '', inside = ''] = (pointer ?? '').split('/');
  if (where === 'subject') return 'cow';
  if (where === 'time') return 'when';
  if (where !== 'data') return '';
  if (name === 'course') return inside === 'of' || inside === 'everyHours' ? inside : 'inCourse';
  if (name === 'amount') return inside === 'unit' ? 'unit' : 'amount';
  return name;
};

const checked = (desk: Desk, ask: Ask) => {
  const { hand, written } = open(desk, ask);
  const saving = savingOf(ask.form);
  const typed = typedIn(ask.form);
  const once = ask.form.one('once');
  const context = contextOf(desk, ask, hand, typed.one('cow'));
  const built = build(written, typed, context, saving);
  const again = (troubles: Built['troubles']) => draw(desk, ask, { hand, written, typed, troubles, once }, 400);
  if (built.troubles.length > 0) return { again: again(built.troubles) };
  const result = checkDrafts(desk, ask.visitor, saving, built.drafts);
  if (!result.ok) {
    const troubles = result.troubles.map((trouble) => ({ field: fieldOf(trouble), says: sentence(trouble.problem) }));
    return { again: again([...new Map(troubles.map((each) => [`${each.field} ${each.says}`, each])).values()]) };
  }
  return { hand, written, typed, once, built, passed: result.passed, saving };
};

/** The door speaks of fields by their names in quotes; on a page they stand beside the field. */
const sentence = (problem: string): string =>
  problem.replace(/^"(?:data\.)?(\w+)" /, 'this ').replace(/^./, (first) => first.toUpperCase());

const check = (desk: Desk, ask: Ask): Promise<Response> => {
  const result = checked(desk, ask);
  if (result.again !== undefined) return result.again;
  const { hand, written, once, built, passed } = result;
  const after = tonightIf(desk, passed, hand.answer.milking.id);
  const at = built.drafts[0]?.at ?? desk.now();
  const alike = likeIt(desk, written.type, built.cows, at, result.saving);
  return page({
    ...hand.frame,
    title: `${written.title}: read this, then save`,
    children: (
      <>
        <p class="lead">
          {hand.format.time(instantText(at))}, written down by {ask.visitor.person}. {said(passed[0]?.said.data)}
        </p>
        {alike.length === 0 ? null : (
          <div class="problem">
            <p>This is much like what is in the book already. Is it really another one?</p>
            <ul>
              {alike.map((entry) => (
                <li>
                  {entry.subject} {written.title.toLowerCase()}, {hand.format.time(instantText(entry.at))}, by{' '}
                  {entry.author}
                </li>
              ))}
            </ul>
          </div>
        )}
        {after.views.alerts
          .filter((alert) => !hand.answer.views.alerts.some(({ key }) => key === alert.key))
          .map((alert) => (
            <p class="problem" role="alert">
              {hand.says(alert.because)}
            </p>
          ))}
        {built.cows.length === 0 ? (
          <p class="card">{said(passed[0]?.said.data)}</p>
        ) : (
          <Changes hand={hand} after={after} cows={built.cows} />
        )}
        <form method="post" action={`/write/${written.type}`} class="actions">
          <Carried ask={ask} />
          <input type="hidden" name="once" value={once} />
          <button type="submit" name="step" value="save" class="big">
            {built.cows.length > 1 ? `Save for ${plural(built.cows.length, 'cow')}` : 'Save'}
          </button>
          <a class="button" href={`/write/${written.type}?${carriedQuery(ask)}`}>
            Change something
          </a>
        </form>
      </>
    ),
  });
};

/** `Penicillin G procaine, udder · 1 tube · left front` */
const said = (data: unknown): string => {
  if (typeof data !== 'object' || data === null) return '';
  const words = (value: unknown): string => {
    if (Array.isArray(value)) return value.map(words).join(', ');
    if (typeof value === 'object' && value !== null) return Object.values(value).map(words).join(' ');
    return typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value);
  };
  return Object.entries(data)
    .filter(([name]) => !['course', 'request', 'treatment', 'hold', 'entry'].includes(name))
    .map(([name, value]) => `${name.replace(/([A-Z])/g, ' $1').toLowerCase()}: ${words(value)}`)
    .join(' · ');
};

const Carried = ({ ask }: { ask: Ask }) => (
  <>
    {ask.form
      .names()
      .filter((name) => name !== 'once' && name !== 'step')
      .flatMap((name) => ask.form.all(name).map((value) => <input type="hidden" name={name} value={value} />))}
  </>
);

const carriedQuery = (ask: Ask): string => {
  const query = new URLSearchParams();
  for (const name of ask.form.names()) {
    if (name === 'once' || name === 'step') continue;
    for (const value of ask.form.all(name)) query.append(name, value);
  }
  return query.toString();
};

/** What may be the same thing, written down by somebody else. */
const likeIt = (desk: Desk, type: EntryType, cows: readonly string[], at: Instant, saving: string) => {
  const own = new Set(cows.map((_, index) => idOf(saving, index)));
  return desk.knowing
    .now()
    .known.strikes.live.filter(
      (entry) =>
        entry.type === type &&
        entry.subject !== undefined &&
        cows.includes(entry.subject) &&
        Math.abs(entry.at - at) < 6 * HOUR &&
        !own.has(entry.id),
    )
    .slice(0, 10);
};

const saveIt = (desk: Desk, ask: Ask): Response | Promise<Response> => {
  const result = checked(desk, ask);
  if (result.again !== undefined) return result.again;
  const receipts = save(desk, result.passed);
  ask.log.info({ kind: result.written.type, entries: receipts.length }, 'written down');
  return goTo(`/written?${new URLSearchParams(receipts.map(({ id }) => ['entry', id ?? '']))}`);
};
