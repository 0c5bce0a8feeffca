/** Writing an entry: pick what happened, fill it in, read what it will do, save it once; undo is a strike with a reason. */
import type { EntryType } from '../../../events/kinds.ts';
import { liveEntries } from '../../../projections/live.ts';
import { HOUR, type Instant, instantText } from '../../../shared/instant.ts';
import { mayWrite } from '../../devices/roles.ts';
import { type Ask, type Desk, type DeskPage, savingOf } from '../ask.ts';
import { type AtHand, atHand } from '../at-hand.ts';
import { Carried } from '../controls.tsx';
import { goTo, page } from '../layout.tsx';
import { checkDrafts, idOf, save } from '../saving.ts';
import { inEnglish, SaidProblem, say, sayWith } from '../say.tsx';
import { cowsFor, WhoIs } from '../who.tsx';
import type { Written } from './building.ts';
import { Changes, tonightIf } from './changes.tsx';
import { contextOf } from './context.ts';
import { type Built, build, fieldOf, sentence } from './drafts.ts';
import { typedIn, typedInQuery, withUsual } from './fields.tsx';
import { draw } from './form.tsx';
import { WRITTEN, writtenFor } from './kinds.ts';

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
  if (written === undefined) throw new SaidProblem('not-found', 'That is not written down here; /write lists what is');
  const hand = atHand(desk, visitor, '/write');
  if (hand === undefined) throw new SaidProblem('cannot-answer', 'There is no farm in this book yet; set it up first');
  return { hand, written };
};

const pick = (desk: Desk, { visitor, url }: Ask): Response | Promise<Response> => {
  const hand = atHand(desk, visitor, '/write');
  if (hand === undefined) return goTo('/begin');
  const cow = url.searchParams.get('cow')?.trim() ?? '';
  const query = cow === '' ? '' : `?cow=${encodeURIComponent(cow)}`;
  return page({
    ...hand.frame,
    title: cow === '' ? say('What happened?') : say('What happened with {cow}?', { cow }),
    children: (
      <>
        {cow === '' ? null : <WhoIs number={cow} cows={cowsFor(hand.answer, cow)} speaking={hand} />}
        <ul class="tiles">
          {WRITTEN.filter(
            ({ type, about }) => mayWrite(visitor.caller.role, type) && (cow === '' || about !== 'farm'),
          ).map(({ type, title, hint }) => (
            <li>
              <a href={`/write/${type}${query}`}>
                {say(title)}
                <span>{say(hint)}</span>
              </a>
            </li>
          ))}
        </ul>
        <p>
          {sayWith('A sheet with ticks and notes on it goes <a>from paper to the book</a> in one go.', {
            a: (inner) => <a href="/paper">{inner}</a>,
          })}
        </p>
      </>
    ),
  });
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
    const once = [...new Map(troubles.map((each) => [`${each.field} ${each.says}`, each])).values()];
    return { again: again(once.map(({ field, says }) => ({ field, says: inEnglish(says) }))) };
  }
  return { hand, written, typed, once, built, passed: result.passed, saving };
};

const check = (desk: Desk, ask: Ask): Promise<Response> => {
  const result = checked(desk, ask);
  if (result.again !== undefined) return result.again;
  const { hand, written, once, built, passed } = result;
  const after = tonightIf(desk, passed, hand.answer.milking.id);
  const at = built.drafts[0]?.at ?? desk.now();
  const alike = likeIt(desk, written.type, built.cows, at, result.saving);
  return page({
    ...hand.frame,
    title: say('{title}: read this, then save', { title: say(written.title) }),
    children: (
      <>
        <p class="lead">
          {say('{time}, written down by {person}.', {
            time: hand.format.time(instantText(at)),
            person: ask.visitor.person,
          })}{' '}
          {inEnglish(said(passed[0]?.said.data))}
        </p>
        {alike.length === 0 ? null : (
          <div class="problem">
            <p>{say('This is much like what is in the book already. Is it really another one?')}</p>
            <ul>
              {alike.map((entry) => (
                <li>
                  {say('{cow} {what}, {time}, by {author}', {
                    cow: entry.subject ?? '',
                    what: say(written.title).toLowerCase(),
                    time: hand.format.time(instantText(entry.at)),
                    author: entry.author,
                  })}
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
          <p class="card">{inEnglish(said(passed[0]?.said.data))}</p>
        ) : (
          <Changes hand={hand} after={after} cows={built.cows} />
        )}
        <form method="post" action={`/write/${written.type}`} class="actions">
          <Carried typed={ask.form} />
          <input type="hidden" name="once" value={once} />
          <button type="submit" name="step" value="save" class="big">
            {built.cows.length > 1
              ? say('Save for {n, plural, one {# cow} other {# cows}}', { n: built.cows.length })
              : say('Save')}
          </button>
          <a class="button" href={`/write/${written.type}?${carriedQuery(ask)}`}>
            {say('Change something')}
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
  return liveEntries(desk.knowing.now().known.strikes.live)
    .filter(
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
