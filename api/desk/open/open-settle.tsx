/** Settling one matter in words: what it would free is said first, and a thing set aside says plainly that it frees her. */
import type { Child } from 'hono/jsx';
import { type Instant, instantText, parseInstant } from '../../../shared/instant.ts';
import { type Ask, type Desk, savingOf } from '../ask.ts';
import { type AtHand, atHand } from '../at-hand.ts';
import { goTo, page } from '../layout.tsx';
import { inEnglish, say } from '../say.tsx';
import { type OpenItem, openItems } from './open-items.ts';
import { answeredBefore, readThenSave } from './open-saving.tsx';

export const settlePage = (desk: Desk, ask: Ask): Response | Promise<Response> => {
  savingOf(ask.form);
  const hand = atHand(desk, ask.visitor, '/open');
  if (hand === undefined) return goTo('/begin');
  const before = answeredBefore(desk, ask);
  if (before !== undefined) return before;
  const key = ask.form.one('key') ?? '';
  const item = openItems(hand.answer).find((each) => each.key === key);
  if (item === undefined) return notOpen(hand, key);
  const how = ask.form.one('how');
  if (how === undefined)
    return again(ask, hand, item, say('Say how it was settled: what was found out, or what was done'));
  const at = momentOfForm(ask, desk.now());
  return readThenSave({
    desk,
    ask,
    hand,
    draft: { type: 'settled', at, data: { about: key, how } },
    title: say('Read this, then settle'),
    says: (
      <div class="card">
        <p>
          <strong>{hand.says(item.because)}</strong>
        </p>
        <p>{say('Settled, because: {how}', { how })}</p>
        {item.kind === 'aside' ? <FreesHer item={item} /> : null}
      </div>
    ),
    button: say('Settle it'),
    carried: { key, how, at: instantText(at) },
    done: 'settled',
    action: '/open',
    again: ([trouble]) =>
      again(ask, hand, item, trouble === undefined ? say('That cannot be saved') : inEnglish(trouble.problem)),
  });
};

const FreesHer = ({ item }: { item: OpenItem }) => {
  const cows = item.holds.map(({ number }) => number).join(', ');
  return (
    <p class="problem">
      {cows === ''
        ? say('Nobody looks for this cow any more once it is settled.')
        : say('Settling frees {cows} of this hold, whatever the entry said.', { cows })}{' '}
      {say(
        'If it was a treatment, a calving or a hold, enter it again first: until it stands in the book, nothing else holds her for it.',
      )}
    </p>
  );
};

/** When the person first asked: the same in every sending of the form. */
const momentOfForm = ({ form }: Ask, now: Instant): Instant => {
  const said = parseInstant(form.one('at') ?? '');
  return said.ok && said.value <= now ? said.value : now;
};

const again = (ask: Ask, hand: AtHand, item: OpenItem, problem: Child): Promise<Response> =>
  page(
    {
      ...hand.frame,
      title: say('Not settled yet'),
      children: (
        <form class="card" method="post" action="/open">
          <p id="item">
            <strong>{hand.says(item.because)}</strong>
          </p>
          <input type="hidden" name="once" value={ask.form.one('once') ?? ''} />
          <input type="hidden" name="key" value={item.key} />
          <p class="field">
            <label for="how">{say('Settled, because')}</label>
            <input
              id="how"
              name="how"
              value={ask.form.one('how') ?? ''}
              required
              maxlength={500}
              aria-invalid="true"
              aria-describedby="how-problem item"
            />
          </p>
          <p class="problem" id="how-problem" role="alert">
            {problem}
          </p>
          <button type="submit">{say('See what settling it does')}</button>
        </form>
      ),
    },
    400,
  );

/** Somebody was quicker, or what it was about has changed. */
const notOpen = (hand: AtHand, key: string): Promise<Response> => {
  const settled = hand.answer.entries().findLast((entry) => entry.type === 'settled' && entry.data.about === key);
  const how =
    settled?.type === 'settled'
      ? say('{author} settled it {time}: {how}.', {
          author: settled.author,
          time: hand.format.time(instantText(settled.at)),
          how: settled.data.how,
        })
      : say('What it was about may have been put right in the meantime.');
  return page(
    {
      ...hand.frame,
      title: say('Not open any more'),
      children: (
        <div class="card">
          <p class="problem" role="alert">
            {say('That does not stand open any more, so nothing was saved.')} {how}
          </p>
          <p>
            <a href="/open">{say('What stands open now')}</a>
          </p>
        </div>
      ),
    },
    409,
  );
};
