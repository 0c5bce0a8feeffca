/** The page with the form of a label, with what was listed before, and a label shown with what changes in it. */
import type { MedicineListed } from '../../../events/kinds/medicine-listed.ts';
import { type Listing, medicineKey } from '../../../projections/farm.ts';
import { instantText } from '../../../shared/instant.ts';
import type { AtHand } from '../at-hand.ts';
import { Card, type Given, Input, Ticks, Wrong } from '../controls.tsx';
import { changedLines } from '../farm/farm-words.ts';
import { page } from '../layout.tsx';
import { say, sayWith } from '../say.tsx';
import { LabelCaution, LabelForm } from './medicine-form.tsx';
import { labelLines } from './medicine-words.ts';

export const labelPage = (hand: AtHand, once: string, latest: Listing | undefined, given: Given, status = 200) =>
  page(
    {
      ...hand.frame,
      title: latest === undefined ? say('List a medicine') : latest.data.name,
      children: (
        <>
          <LabelCaution />
          <Wrong problems={given.problems} />
          {latest === undefined ? null : <Before hand={hand} latest={latest} />}
          <form method="post" action="/medicines/edit">
            <input type="hidden" name="once" value={once} />
            <input type="hidden" name="base" value={latest?.id ?? ''} />
            <input type="hidden" name="atShown" value={given.typed.one('atShown') ?? ''} />
            <LabelForm given={given} isNew={latest === undefined} />
            <Card title={say('From when')}>
              {latest === undefined ? null : (
                <>
                  <Ticks
                    label={say('Why it is written anew')}
                    name="how"
                    given={given}
                    oneOnly
                    options={[
                      ['changed', say('the label changed: it counts from the time below')],
                      ['mistake', say('it was typed wrongly: this is what the label said all along')],
                    ]}
                    hint={say(
                      'A label that changed makes a running hold longer, never shorter. A mistake is struck, and stays readable',
                    )}
                  />
                  <Input label={say('What was wrong, for a mistake')} name="reason" given={given} />
                </>
              )}
              <Input
                label={say(latest === undefined ? 'On the list from' : 'Counts from, where the label changed')}
                name="at"
                given={given}
                type="datetime-local"
                hint={say('Doses given before it count by the label of their own day, or by the first there is')}
              />
            </Card>
            <p class="actions">
              <button type="submit" name="step" value="look">
                {say('See what it does to the cows')}
              </button>
              <a href="/medicines">{say('Leave it as it is')}</a>
            </p>
          </form>
        </>
      ),
    },
    status,
  );

const Before = ({ hand, latest }: { hand: AtHand; latest: Listing }) => {
  const all = hand.answer.known.farm.listings.get(medicineKey(latest.data.name)) ?? [];
  return (
    <details>
      <summary>
        {all.length > 1
          ? say('Listed {time}, and {n, plural, one {# time} other {# times}} before', {
              time: hand.format.time(instantText(latest.at)),
              n: all.length - 1,
            })
          : say('Listed {time}', { time: hand.format.time(instantText(latest.at)) })}
      </summary>
      {all.toReversed().map(({ at, data }) => (
        <>
          <h2>{hand.format.time(instantText(at))}</h2>
          <dl class="facts">
            {labelLines(data).map(({ what, says }) => (
              <div>
                <dt>{what}</dt>
                <dd>{says}</dd>
              </div>
            ))}
          </dl>
        </>
      ))}
    </details>
  );
};

export const LabelShown = ({ data, was }: { data: MedicineListed; was: MedicineListed | undefined }) => {
  const lines = labelLines(data);
  const changes = new Map(
    (was === undefined ? [] : changedLines(labelLines(was), lines)).map((each) => [each.what, each]),
  );
  return (
    <dl class="facts card">
      {lines.map(({ what, says }) => (
        <div>
          <dt>{what}</dt>
          <dd>
            {changes.has(what)
              ? sayWith('<b>{says}</b> <small>before: {before}</small>', {
                  b: (inner) => <strong>{inner}</strong>,
                  small: (inner) => <span class="hint">{inner}</span>,
                  says,
                  before: changes.get(what)?.before ?? '',
                })
              : says}
          </dd>
        </div>
      ))}
    </dl>
  );
};
