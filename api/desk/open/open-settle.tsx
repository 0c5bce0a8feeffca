/** Settling one matter in words: what it would free is said first, and a thing set aside says plainly that it frees her. */
import { type Instant, instantText, parseInstant } from '../../../shared/instant.ts';
import { type Ask, type Desk, savingOf } from '../ask.ts';
import { type AtHand, atHand } from '../at-hand.ts';
import { goTo, page } from '../layout.tsx';
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
  if (how === undefined) return again(ask, hand, item, 'Say how it was settled: what was found out, or what was done');
  const at = momentOfForm(ask, desk.now());
  return readThenSave({
    desk,
    ask,
    hand,
    draft: { type: 'settled', at, data: { about: key, how } },
    title: 'Read this, then settle',
    says: (
      <div class="card">
        <p>
          <strong>{hand.says(item.because)}</strong>
        </p>
        <p>Settled, because: {how}</p>
        {item.kind === 'aside' ? <FreesHer item={item} /> : null}
      </div>
    ),
    button: 'Settle it',
    carried: { key, how, at: instantText(at) },
    done: 'settled',
    action: '/open',
    again: ([trouble]) => again(ask, hand, item, trouble?.problem ?? 'That cannot be saved'),
  });
};

const FreesHer = ({ item }: { item: OpenItem }) => {
  const cows = item.holds.map(({ number }) => number).join(', ');
  return (
    <p class="problem">
      {cows === ''
        ? 'Nobody looks for this cow any more once it is settled.'
        : `Settling frees ${cows} of this hold, whatever the entry said.`}{' '}
      If it was a treatment, a calving or a hold, enter it again first: until it stands in the book, nothing else holds
      her for it.
    </p>
  );
};

/** When the person first asked: the same in every sending of the form. */
const momentOfForm = ({ form }: Ask, now: Instant): Instant => {
  const said = parseInstant(form.one('at') ?? '');
  return said.ok && said.value <= now ? said.value : now;
};

const again = (ask: Ask, hand: AtHand, item: OpenItem, problem: string): Promise<Response> =>
  page(
    {
      ...hand.frame,
      title: 'Not settled yet',
      children: (
        <form class="card" method="post" action="/open">
          <p id="item">
            <strong>{hand.says(item.because)}</strong>
          </p>
          <input type="hidden" name="once" value={ask.form.one('once') ?? ''} />
          <input type="hidden" name="key" value={item.key} />
          <p class="field">
            <label for="how">Settled, because</label>
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
          <button type="submit">See what settling it does</button>
        </form>
      ),
    },
    400,
  );

/** Somebody was quicker, or what it was about has changed. */
const notOpen = (hand: AtHand, key: string): Promise<Response> => {
  const settled = hand.answer.entries.findLast((entry) => entry.type === 'settled' && entry.data.about === key);
  const how =
    settled?.type === 'settled'
      ? `${settled.author} settled it ${hand.format.time(instantText(settled.at))}: ${settled.data.how}.`
      : 'What it was about may have been put right in the meantime.';
  return page(
    {
      ...hand.frame,
      title: 'Not open any more',
      children: (
        <div class="card">
          <p class="problem" role="alert">
            That does not stand open any more, so nothing was saved. {how}
          </p>
          <p>
            <a href="/open">What stands open now</a>
          </p>
        </div>
      ),
    },
    409,
  );
};
