/** Read this, then save: what will be recorded, what was not ticked, what it makes of her milk; the form is carried along. */
import type { Passed } from '../../../events/door.ts';
import { canonicalJson, sha256 } from '../../../shared/fingerprint.ts';
import { plural } from '../../command-line/settings.ts';
import { tonightFrom } from '../../tonight.ts';
import type { Desk, Form } from '../ask.ts';
import { page } from '../layout.tsx';
import { asIf } from '../saving.ts';
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
  return page({
    ...paper.hand.frame,
    title: `Read this, then save: ${ref}`,
    children: (
      <>
        <p class="lead">Nothing is saved yet.</p>
        {changed ? (
          <p class="problem" role="alert">
            Something came into the book since you read this over. Read it again before you save.
          </p>
        ) : null}
        <List title="Will be recorded" items={taken.map(({ says }) => says)} none="Nothing was done." />
        <List title="Not ticked" items={notTicked} />
        <List title="In the book already, not recorded again" items={shut} />
        <List title="Look at these" items={cautions} />
        <List title="Goes into the note of the return" items={notes} />
        <Consequences desk={desk} paper={paper} reading={reading} passed={passed} />
        <form method="post" action="/paper">
          {form
            .names()
            .filter((name) => name !== 'step' && name !== 'read')
            .flatMap((name) => form.all(name).map((value) => <input type="hidden" name={name} value={value} />))}
          <input type="hidden" name="read" value={markOf(reading)} />
          <p>
            The set {ref} then counts as returned
            {form.one('who') === undefined ? '' : `, written by ${form.one('who')}`}.
          </p>
          <div class="actions">
            <button type="submit" name="step" value="save" class="big">
              Save {plural(reading.drafts.length, 'entry', 'entries')}
            </button>
            <button type="submit" name="step" value="change" class="quiet">
              Go back and change it
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
        title={`Then, at the milking ${hand.format.milking(answer.milking.id)}`}
        items={numbers.flatMap((number) =>
          cowsFor(answer, number).map((cow) => `${cow.cow}, ${whoText(cow)}: ${holdText(cow, hand)}`),
        )}
      />
      <List title="Alerts and doubts that this brings" items={fresh.map(({ because }) => hand.says(because))} />
    </>
  );
};
