/** After saving: what stands in the book now, and how to take it back; and the page that takes an entry back. */
import type { Child } from 'hono/jsx';
import type { Entry } from '../../../events/entry.ts';
import { wordsFor } from '../../../print/words.ts';
import { liveEntries } from '../../../projections/live.ts';
import { instantText } from '../../../shared/instant.ts';
import type { Tonight } from '../../tonight.ts';
import { type Ask, type Desk, type DeskPage, savingOf } from '../ask.ts';
import { type AtHand, atHand } from '../at-hand.ts';
import { spokenNow } from '../hearer.ts';
import { goTo, page } from '../layout.tsx';
import { checkDrafts, save } from '../saving.ts';
import { inEnglish, SaidProblem, say } from '../say.tsx';
import { cowsFor, type StandsAs, WhoIs } from '../who.tsx';
import { Changes, tonightIf, unplacedBy } from './changes.tsx';
import { writtenFor } from './kinds.ts';

export const writtenPages: readonly DeskPage[] = [
  { method: 'get', path: '/written', right: 'push', run: (desk, ask) => written(desk, ask) },
  { method: 'get', path: '/write/entry-struck', right: 'push', run: (desk, ask) => strike(desk, ask) },
  {
    method: 'post',
    path: '/write/entry-struck',
    right: 'push',
    run: (desk, ask) => strikeIt(desk, ask),
  },
];

const handFor = (desk: Desk, { visitor }: Ask): AtHand => {
  const hand = atHand(desk, visitor, '/write');
  if (hand === undefined) throw new SaidProblem('cannot-answer', 'There is no farm in this book yet; set it up first');
  return hand;
};

/** Kinds that have no form here are called as on paper. */
export const titleOf = (entry: Entry): string => {
  const written = writtenFor(entry.type);
  if (written !== undefined) return say(written.title);
  return spokenNow() === 'en'
    ? entry.type.replaceAll('-', ' ')
    : (wordsFor(spokenNow()).kinds[entry.type] ?? entry.type);
};

const EntryLine = ({ entry, hand }: { entry: Entry; hand: AtHand }) => (
  <>
    {entry.subject === undefined ? null : (
      <a class="cow" href={`/cow/${encodeURIComponent(entry.subject)}`}>
        {entry.subject}
      </a>
    )}{' '}
    {say('{what}, {time}, by {author} ({device})', {
      what: titleOf(entry),
      time: hand.format.time(instantText(entry.at)),
      author: entry.author,
      device: entry.source,
    })}
  </>
);

const written = (desk: Desk, ask: Ask): Promise<Response> => {
  const hand = handFor(desk, ask);
  const ids = new Set(ask.url.searchParams.getAll('entry').slice(0, 300));
  const { known } = desk.knowing.now();
  const found = [...ids].flatMap((id) => known.ids.find(id)).sort((a, b) => a.position - b.position);
  const struck = new Set(known.strikes.struck.map(({ entry }) => entry));
  const cows = [...new Set(found.flatMap(({ subject }) => subject ?? []))];
  const unplaced = new Set(known.herd.unplaced.flatMap(({ entry, how }) => (how === 'not-in-herd' ? [entry.id] : [])));
  const standsAs = (cow: string): StandsAs =>
    found.some(({ id, subject }) => subject === cow && unplaced.has(id)) ? 'unplaced' : 'placed';
  const type = found[0]?.type;
  return page({
    ...hand.frame,
    title: say(found.length === 0 ? 'Nothing here' : 'It stands in the book'),
    children: (
      <>
        {found.length === 0 ? <p>{say('No such entries stand in this book.')}</p> : null}
        <ul>
          {found.map((entry) => (
            <li>
              <EntryLine entry={entry} hand={hand} />{' '}
              {!struck.has(entry) ? (
                <a href={`/write/entry-struck?entry=${encodeURIComponent(entry.id)}`}>{say('Take it back')}</a>
              ) : (
                <strong>{say('taken back')}</strong>
              )}
            </li>
          ))}
        </ul>
        {cows.slice(0, 40).map((cow) => (
          <WhoIs number={cow} cows={cowsFor(hand.answer, cow)} speaking={hand} stands={standsAs(cow)} />
        ))}
        <p class="actions">
          {type !== undefined && writtenFor(type) !== undefined ? (
            <a class="button" href={`/write/${type}`}>
              {say('Another one')}
            </a>
          ) : null}
          <a class="button" href="/write">
            {say('Something else')}
          </a>
          <a class="button" href="/">
            {say('The next milking')}
          </a>
        </p>
      </>
    ),
  });
};

const entryAsked = (desk: Desk, id: string): Entry => {
  const entry = desk.knowing.now().known.ids.find(id)[0];
  if (entry === undefined) throw new SaidProblem('not-found', 'There is no such entry in this book');
  return entry;
};

const strike = (desk: Desk, ask: Ask, problem?: Child, status = 200): Promise<Response> => {
  const hand = handFor(desk, ask);
  const entry = entryAsked(desk, (ask.form.one('entry') ?? ask.url.searchParams.get('entry') ?? '').trim());
  const isLive = !desk.knowing.now().known.strikes.struck.some(({ entry: struck }) => struck.id === entry.id);
  return page(
    {
      ...hand.frame,
      title: say('Take an entry back'),
      children: (
        <>
          <p>
            <EntryLine entry={entry} hand={hand} />
          </p>
          {isLive ? (
            <form class="card" method="post" action="/write/entry-struck">
              <input type="hidden" name="once" value={ask.form.one('once') ?? ask.visitor.once()} />
              <input type="hidden" name="entry" value={entry.id} />
              <p>{say('It stays in the book for ever, struck through, with your name and the reason.')}</p>
              <div class="field">
                <label for="reason">{say('Why it is wrong')}</label>
                <input
                  id="reason"
                  name="reason"
                  required
                  maxlength={300}
                  value={ask.form.one('reason') ?? ''}
                  {...(problem === undefined ? {} : { 'aria-invalid': 'true', 'aria-describedby': 'reason-trouble' })}
                />
                {problem === undefined ? null : (
                  <span class="problem" id="reason-trouble" role="alert">
                    {problem}
                  </span>
                )}
              </div>
              <Instead desk={desk} hand={hand} entry={entry} chosen={ask.form.one('instead')} />
              <button type="submit">{say('Check')}</button>
            </form>
          ) : (
            <p class="problem">{say('It is struck already, or may not be struck.')}</p>
          )}
        </>
      ),
    },
    status,
  );
};

const RECENT = 8;

/** What is true instead: nothing, or an entry that was written down meanwhile; else it stays a question. */
const Instead = ({
  desk,
  hand,
  entry,
  chosen,
}: {
  desk: Desk;
  hand: AtHand;
  entry: Entry;
  chosen: string | undefined;
}) => {
  const live = liveEntries(desk.knowing.now().known.strikes.live);
  const alike = live
    .filter((each) => each.type === entry.type && each.id !== entry.id && each.position > entry.position)
    .sort((a, b) => b.position - a.position)
    .slice(0, RECENT);
  return (
    <div class="field">
      <label for="instead">{say('What is true instead')}</label>
      <select id="instead" name="instead" required>
        <option value="">{say('choose')}</option>
        <option value="nothing" selected={chosen === 'nothing'}>
          {say('Nothing: it did not happen, to no cow')}
        </option>
        {alike.map((each) => (
          <option value={each.id} selected={chosen === each.id}>
            {say('{cow} {what}, {time}, written down already', {
              cow: each.subject ?? '',
              what: titleOf(each),
              time: hand.format.time(instantText(each.at)),
            })}
          </option>
        ))}
        <option value="open" selected={chosen === 'open'}>
          {say('Not known, or not written down yet: keep asking on the sheet')}
        </option>
      </select>
      <span class="hint">
        {say('Was it another cow, or another medicine? Write that down first, then come back and choose it here.')}
      </span>
    </div>
  );
};

const strikeIt = (desk: Desk, ask: Ask): Response | Promise<Response> => {
  const hand = handFor(desk, ask);
  const saving = savingOf(ask.form);
  const entry = entryAsked(desk, ask.form.one('entry') ?? '');
  const reason = ask.form.one('reason');
  if (reason === undefined) return strike(desk, ask, say('Say why it is wrong'), 400);
  const instead = ask.form.one('instead');
  if (instead === undefined) return strike(desk, ask, say('Say below what is true instead'), 400);
  const data = { entry: entry.id, reason, ...(instead === 'open' ? {} : { instead }) };
  const result = checkDrafts(desk, ask.visitor, saving, [
    { type: 'entry-struck', subject: entry.subject, at: desk.now(), data },
  ]);
  if (!result.ok) return strike(desk, ask, inEnglish(result.troubles.map(({ problem }) => problem).join('; ')), 400);
  if (ask.form.one('step') === 'save') {
    save(desk, result.passed);
    return goTo(`/written?entry=${encodeURIComponent(entry.id)}`);
  }
  const after = tonightIf(desk, result.passed, hand.answer.milking.id);
  const cows = entry.subject === undefined ? [] : [entry.subject];
  const freed = hand.answer.views.sheets['milk-hold'].held.length - after.views.sheets['milk-hold'].held.length;
  return page({
    ...hand.frame,
    title: say('Take it back: read this, then save'),
    children: (
      <>
        <p>
          <EntryLine entry={entry} hand={hand} /> {say('will be struck: {reason}', { reason })}
        </p>
        {freed > 0 ? (
          <p class="problem">
            {say(
              '{n, plural, one {# cow} other {# cows}} fewer on milk hold then. Was nothing given at all? If it was the wrong cow, write it down for the right one too.',
              { n: freed },
            )}
          </p>
        ) : null}
        {entry.type === 'cow-entered' ? <Leaves entry={entry} before={hand.answer} after={after} /> : null}
        <Changes hand={hand} after={after} cows={cows} />
        <form method="post" action="/write/entry-struck" class="actions">
          <input type="hidden" name="once" value={ask.form.one('once')} />
          <input type="hidden" name="entry" value={entry.id} />
          <input type="hidden" name="reason" value={reason} />
          <input type="hidden" name="instead" value={instead} />
          <button type="submit" name="step" value="save" class="big stop">
            {say('Strike it')}
          </button>
          <a class="button" href={`/cow/${encodeURIComponent(entry.subject ?? '')}`}>
            {say('Leave it')}
          </a>
        </form>
      </>
    ),
  });
};

/** That a cow whose entering is struck leaves the herd, and how much of what was written of her belongs to no cow then. */
const Leaves = ({ entry, before, after }: { entry: Entry; before: Tonight; after: Tonight }) => {
  const hers = before.known.files.find(({ cow }) => cow.entered.some(({ id }) => id === entry.id));
  const n = unplacedBy(before, after).length;
  const stays = hers?.cow.entered.some(({ id }) => id !== entry.id) ?? true;
  if (stays && n === 0) return null;
  return (
    <p class="problem">
      {stays
        ? null
        : say('{cow} leaves the herd by it: nothing else says that she came.', { cow: entry.subject ?? '' })}{' '}
      {n === 0
        ? null
        : say(
            '{n, plural, one {# entry about her belongs} other {# entries about her belong}} to no cow then, and holds in them hold nobody.',
            { n },
          )}
    </p>
  );
};
