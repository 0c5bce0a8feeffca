/** The page where things are settled: alerts, things set aside, doubts, and holds without an end, each with what ends it. */

import { momentOf } from '../../../projections/views-at.ts';
import { mayWrite } from '../../devices/roles.ts';
import type { Ask, Desk, DeskPage } from '../ask.ts';
import { atHand } from '../at-hand.ts';
import { goTo, page } from '../layout.tsx';
import { type Sentence, say } from '../say.tsx';
import { askedOf } from '../who.tsx';
import { Entries, entriesById, Links } from './open-entries.tsx';
import { OPEN_KINDS, type OpenItem, openItems } from './open-items.ts';
import type { OnPage } from './open-on-page.ts';
import { SetAside } from './open-set-aside.tsx';
import { settlePage } from './open-settle.tsx';
import { Stands } from './open-stands.tsx';
import { vetPage } from './open-vet.tsx';
import { waitingHolds } from './open-waiting.ts';
import { Waiting } from './open-waiting-list.tsx';
import { waysFor } from './open-ways.ts';

export const openPages: readonly DeskPage[] = [
  { method: 'get', path: '/open', right: 'herd', run: (desk, ask) => openPage(desk, ask) },
  { method: 'post', path: '/open', right: 'push', run: (desk, ask) => settlePage(desk, ask) },
  { method: 'post', path: '/open/vet', right: 'push', run: (desk, ask) => vetPage(desk, ask) },
];

const TITLES: Readonly<Record<OpenItem['kind'], Sentence>> = {
  alert: 'Alerts',
  aside: 'Set aside',
  doubt: 'Doubts',
  line: 'Also at the head of the milk-hold sheet',
};

const LEADS: Readonly<Record<OpenItem['kind'], Sentence>> = {
  alert: 'Something may be in the tank, or left the farm, that should not be.',
  aside:
    'What was said and could not be used. It is kept as it was said, and every cow that it may concern is held. Enter the fact again first; then settle it.',
  doubt: 'The book noticed something odd. Put right what is wrong, then settle what is left.',
  line: 'The parlour looks for these at every milking until they are settled.',
};

const openPage = (desk: Desk, { visitor, url }: Ask): Response | Promise<Response> => {
  const hand = atHand(desk, visitor, '/open');
  const moment = hand === undefined ? undefined : momentOf(hand.answer.known, askedOf(hand.answer));
  if (hand === undefined || moment === undefined) return goTo('/begin');
  const items = openItems(hand.answer);
  const waiting = waitingHolds(hand.answer);
  const on: OnPage = { desk, visitor, hand, moment, byId: entriesById(hand.answer.known) };
  const done = DONE[url.searchParams.get('done') ?? ''];
  return page({
    ...hand.frame,
    title: say('To settle'),
    children: (
      <>
        <p class="lead">
          {say('As things stand for the {milking} milking. What is settled here stands in the book with your name.', {
            milking: hand.format.milking(hand.answer.milking.id),
          })}
        </p>
        {done === undefined ? null : (
          <p class="done" role="status">
            {say(done)}
          </p>
        )}
        {items.length === 0 && waiting.length === 0 ? <p class="card">{say('Nothing stands open.')}</p> : null}
        {mayWrite(visitor.caller.role, 'settled') || items.length === 0 ? null : (
          <p class="hint">
            {say('A device of the role {role} settles nothing; the manager does.', { role: visitor.caller.role })}
          </p>
        )}
        {OPEN_KINDS.map((kind) => (
          <Section kind={kind} items={items.filter((item) => item.kind === kind)} from={items} on={on} />
        ))}
        <Waiting holds={waiting} on={on} />
      </>
    ),
  });
};

const DONE: Readonly<Record<string, Sentence>> = {
  settled: 'Settled. It stands in the book, with how and by whom.',
  vet: 'The vet’s times are written down.',
  already: 'That was saved already, and once; nothing was added.',
};

const Section = ({
  kind,
  items,
  from,
  on,
}: {
  kind: OpenItem['kind'];
  items: readonly OpenItem[];
  from: readonly OpenItem[];
  on: OnPage;
}) =>
  items.length === 0 ? null : (
    <section class={`open ${kind}`} aria-labelledby={`open-${kind}`}>
      <h2 id={`open-${kind}`}>
        {say(TITLES[kind])} ({items.length})
      </h2>
      <p class="hint">{say(LEADS[kind])}</p>
      {items.map((item) => (
        <Item item={item} number={from.indexOf(item)} on={on} />
      ))}
    </section>
  );

const Item = ({ item, number, on }: { item: OpenItem; number: number; on: OnPage }) => {
  const { hand, visitor, moment } = on;
  const ways = waysFor(item.because).filter(({ type }) => type === undefined || mayWrite(visitor.caller.role, type));
  return (
    <article class="card item" id={item.key}>
      <h3 id={`item-${number}`}>{hand.says(item.because)}</h3>
      {item.holds.length === 0 ? null : (
        <>
          <p>{say('Held on its account meanwhile:')}</p>
          <Stands standings={item.holds} moment={moment} hand={hand} />
        </>
      )}
      {item.about.length === 0 ? null : (
        <>
          <p>{say(item.about.length === 1 ? 'How she stands now:' : 'How they stand now:')}</p>
          <Stands standings={item.about} moment={moment} hand={hand} />
        </>
      )}
      {item.kind === 'aside' && item.holds.length === 0 ? (
        <p>{say('No cow of the herd can be read in it, so it stands at the head of the milk-hold sheet.')}</p>
      ) : null}
      {item.aside === undefined ? null : <SetAside desk={on.desk} aside={item.aside} hand={hand} visitor={visitor} />}
      <Entries ids={item.because.entries} byId={on.byId} hand={hand} visitor={visitor} />
      <Links ways={ways.map(({ path, words }) => [path, say(words)] as const)} />
      {mayWrite(visitor.caller.role, 'settled') ? (
        <form class="settle" method="post" action="/open" aria-labelledby={`item-${number}`}>
          <input type="hidden" name="once" value={visitor.once()} />
          <input type="hidden" name="key" value={item.key} />
          <p class="field">
            <label for={`how-${number}`}>{say('Settled, because')}</label>
            <input id={`how-${number}`} name="how" required maxlength={500} aria-describedby={`item-${number}`} />
          </p>
          <button class="quiet" type="submit">
            {say('See what settling it does')}
          </button>
        </form>
      ) : null}
    </article>
  );
};
