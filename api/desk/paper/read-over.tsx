/** Read this, then save: what will be recorded, what was not ticked, what it makes of her milk; the form is carried along. */
import type { Passed } from '../../../events/door.ts';
import { canonicalJson, sha256 } from '../../../shared/fingerprint.ts';
import { tonightFrom } from '../../tonight.ts';
import type { Desk, Form } from '../ask.ts';
import { page } from '../layout.tsx';
import { asIf } from '../saving.ts';
import { say } from '../say.tsx';
import { cowsFor, holdText, whoText } from '../who.tsx';
import type { Reading } from './reading.ts';
import type { Paper } from './view.ts';

/** Of what was read over, without the times that go on with the clock: saved is what was read. */
export const markOf = ({ drafts, notTicked, shut }: Reading): string =>
  sha256(
    canonicalJson(JSON.parse(JSON.stringify({ drafts: drafts.map(({ at: _, ...rest }) => rest), notTicked, shut }))),
  );

export const readOverPage = (
  desk: Desk,
  paper: Paper,
  { form, reading, passed, changed }: { form: Form; reading: Reading; passed: readonly Passed[]; changed: boolean },
): Promise<Response> => {
  const { taken, notes, notTicked, shut, cautions } = reading;
  const { ref } = paper.book.set.data;
  const who = form.one('who');
  return page({
    ...paper.hand.frame,
    title: say('Read this, then save: {ref}', { ref }),
    children: (
      <>
        <p class="lead">{say('Nothing is saved yet.')}</p>
        {changed ? (
          <p class="problem" role="alert">
            {say('Something came into the book since you read this over. Read it again before you save.')}
          </p>
        ) : null}
        <List title={say('Will be recorded')} items={taken.map(({ says }) => says)} none={say('Nothing was done.')} />
        <List title={say('Not ticked')} items={notTicked} />
        <List title={say('In the book already, not recorded again')} items={shut} />
        <List title={say('Look at these')} items={cautions} />
        <List title={say('Goes into the note of the return')} items={notes} />
        <Consequences desk={desk} paper={paper} reading={reading} passed={passed} />
        <form method="post" action="/paper">
          {form
            .names()
            .filter((name) => name !== 'step' && name !== 'read')
            .flatMap((name) => form.all(name).map((value) => <input type="hidden" name={name} value={value} />))}
          <input type="hidden" name="read" value={markOf(reading)} />
          <p>
            {who === undefined
              ? say('The set {ref} then counts as returned.', { ref })
              : say('The set {ref} then counts as returned, written by {who}.', { ref, who })}
          </p>
          <div class="actions">
            <button type="submit" name="step" value="save" class="big">
              {say('Save {n, plural, one {# entry} other {# entries}}', { n: reading.drafts.length })}
            </button>
            <button type="submit" name="step" value="change" class="quiet">
              {say('Go back and change it')}
            </button>
          </div>
        </form>
      </>
    ),
  });
};

const List = ({ title, items, none }: { title: string; items: readonly string[]; none?: string }) =>
  items.length === 0 && none === undefined ? null : (
    <section>
      <h2>
        {title}
        {items.length === 0 ? '' : ` (${items.length})`}
      </h2>
      {items.length === 0 ? (
        <p>{none}</p>
      ) : (
        <ul class="read">
          {items.map((item) => (
            <li>{item}</li>
          ))}
        </ul>
      )}
    </section>
  );

/** At the next milking, as if it were saved: whose milk goes where, and what alerts and doubts it brings. */
const Consequences = ({
  desk,
  paper: { hand },
  reading,
  passed,
}: {
  desk: Desk;
  paper: Paper;
  reading: Reading;
  passed: readonly Passed[];
}) => {
  const answer = tonightFrom(asIf(desk, passed), { milking: hand.answer.milking.id }, desk.now());
  const numbers = [...new Set(reading.taken.flatMap(({ cow }) => cow ?? []))];
  const stood = new Set([...hand.answer.views.alerts, ...hand.answer.views.doubts].map(({ key }) => key));
  const fresh = [...answer.views.alerts, ...answer.views.doubts].filter(({ key }) => !stood.has(key));
  return (
    <>
      <List
        title={say('Then, at the milking {milking}', { milking: hand.format.milking(answer.milking.id) })}
        items={numbers.flatMap((number) =>
          cowsFor(answer, number).map((cow) => `${cow.cow}, ${whoText(cow)}: ${holdText(cow, hand)}`),
        )}
      />
      <List title={say('Alerts and doubts that this brings')} items={fresh.map(({ because }) => hand.says(because))} />
    </>
  );
};
