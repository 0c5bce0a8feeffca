/**
 * First run, the herd: a list from a spreadsheet, as a file or pasted. It is looked at first: what each heading was taken
 * for, every row that cannot be used and why. Then the good rows are saved, or nothing, as the person chooses.
 */
import { parseLocalDay } from '../../../shared/local-day.ts';
import { plural } from '../../command-line/settings.ts';
import { FIELDS, spokenOf } from '../../import-herd/headings.ts';
import { tonightFrom } from '../../tonight.ts';
import { type Ask, type Desk, type DeskPage, savingOf } from '../ask.ts';
import { type AtHand, atHand } from '../at-hand.ts';
import { Card, Choice, type Given, Input, NO_PROBLEMS, type Option, Tick, typedOf } from '../controls.tsx';
import { goTo, page } from '../layout.tsx';
import { asIf, save } from '../saving.ts';
import { mustBeManager, Steps } from './begin.tsx';
import { type HerdList, NOT_USED, readHerdForm } from './begin-herd-read.ts';
import { stepsOf } from './begin-steps.ts';

/** A herd list has many times the length of other forms; so many bytes are some 50,000 cows. */
const LONGEST_LIST = 8 * 1024 * 1024;

export const beginHerdPages: readonly DeskPage[] = [
  {
    method: 'get',
    path: '/begin/herd',
    right: 'herd',
    run: (desk, ask) => {
      mustBeManager(ask);
      const hand = atHand(desk, ask.visitor, '/');
      if (hand === undefined) return goTo('/begin');
      const typed = typedOf(new Map([['asOf', [hand.schedule.dayOf(desk.now())]]]));
      return step(hand, ask.visitor.once(), { typed, problems: NO_PROBLEMS });
    },
  },
  {
    method: 'post',
    path: '/begin/herd',
    right: 'push',
    mostBytes: LONGEST_LIST,
    run: (desk, ask) => written(desk, ask),
  },
];

const written = (desk: Desk, ask: Ask): Response | Promise<Response> => {
  const { form, visitor } = ask;
  mustBeManager(ask);
  savingOf(form);
  const hand = atHand(desk, visitor, '/');
  if (hand === undefined) return goTo('/begin');
  const once = form.one('once') ?? '';
  const today = hand.schedule.dayOf(desk.now());
  const asOf = parseLocalDay(form.one('asOf') ?? today);
  const wrong = (name: string, sentence: string) =>
    step(hand, once, { typed: form, problems: new Map([[name, sentence]]) }, undefined, 400);
  if (!asOf.ok) return wrong('asOf', asOf.problem);
  if (asOf.value > today) return wrong('asOf', 'That day is still to come; say when the list was true');
  if (form.bytes('file') === undefined && form.one('list') === undefined)
    return wrong('list', 'Choose a file, or paste the list with its headings');
  const list = readHerdForm(desk, visitor, hand.schedule, form, asOf.value);
  const isSeen = form.one('seen') === list.seen && form.bytes('file') === undefined;
  if (form.one('step') === 'save' && isSeen && list.problem === undefined) {
    if (list.passed.length > 0) save(desk, list.passed);
    return goTo('/begin');
  }
  const given = { typed: withList(form, list.text), problems: NO_PROBLEMS };
  return step(
    hand,
    once,
    given,
    <Looked desk={desk} hand={hand} list={list} asked={form.one('step')} />,
    list.problem === undefined ? 200 : 400,
    list,
  );
};

/** What was typed, with the list in the field where it can be mended, wherever it came from. */
const withList = (typed: Given['typed'], text: string): Given['typed'] => ({
  ...typed,
  one: (name) => (name === 'list' ? text : typed.one(name)),
});

const DATES: readonly Option[] = [
  ['', 'like 2026-03-14'],
  ['dd/mm/yyyy', 'like 14/03/2026, the day first'],
  ['mm/dd/yyyy', 'like 03/14/2026, the month first'],
  ['dd.mm.yyyy', 'like 14.03.2026'],
  ['dd-mm-yyyy', 'like 14-03-2026'],
  ['d-mmm-yyyy', 'like 14-Mar-2026'],
  ['dd/mm/yy', 'like 14/03/26, the day first'],
  ['mm/dd/yy', 'like 03/14/26, the month first'],
];

const step = (
  hand: AtHand,
  once: string,
  given: Given,
  looked?: ReturnType<typeof Looked>,
  status = 200,
  list?: HerdList,
) =>
  page(
    {
      ...hand.frame,
      title: 'The herd, from a spreadsheet',
      children: (
        <>
          <Steps steps={stepsOf(hand.answer.known)} at="/begin/herd" />
          <form method="post" action="/begin/herd" enctype="multipart/form-data">
            <input type="hidden" name="once" value={once} />
            <input type="hidden" name="seen" value={list?.seen ?? ''} />
            {/* The first button of a form is the one that the Enter key presses. */}
            <button class="unseen" type="submit" name="step" value="look">
              Look at the list
            </button>
            {looked ?? null}
            <Card title="The list">
              <p>
                Save it as CSV, with its headings in the first line, in any order. Each cow needs her number, her group
                (
                {hand.schedule.setUps
                  .at(-1)
                  ?.data.groups.map(({ name }) => name)
                  .join(', ')}
                ) and her lactation. Say of each when she calved, was served, is due, was dried off and with what, and
                until when her milk and meat are held.
              </p>
              <p class="field">
                <label for="file">File</label>
                <input id="file" name="file" type="file" accept=".csv,.tsv,.txt,text/csv,text/plain" />
              </p>
              <p class="field">
                <label for="f-list">Or the list itself, pasted; what was read stands here and can be mended</label>
                <textarea
                  id="f-list"
                  name="list"
                  rows={12}
                  spellcheck={false}
                  class="code"
                  aria-describedby={given.problems.has('list') ? 'f-list-problem' : undefined}
                  aria-invalid={given.problems.has('list') ? 'true' : undefined}
                >
                  {`\n${given.typed.one('list') ?? ''}`}
                </textarea>
                {given.problems.has('list') ? (
                  <span class="problem" id="f-list-problem">
                    {given.problems.get('list')}
                  </span>
                ) : null}
              </p>
              <div class="row">
                <Choice label="Its dates are written" name="dates" given={given} options={DATES} />
                <Input label="It was true at the start of" name="asOf" given={given} type="date" required />
              </div>
              <Tick
                label="I state that no cow in it has a running milk or meat hold, but those the list gives one"
                name="holds"
                given={given}
                hint="Without this, what the list does not say of a hold is unknown, and that milk is held"
              />
              {list === undefined || list.mapping.length === 0 ? null : <Headings given={given} list={list} />}
            </Card>
            <p class="actions">
              <button type="submit" name="step" value="look">
                {list === undefined ? 'Look at the list' : 'Look at it again'}
              </button>
              <a href="/begin">Later</a>
            </p>
          </form>
        </>
      ),
    },
    status,
  );

const Headings = ({ given, list }: { given: Given; list: HerdList }) => {
  const options: readonly Option[] = [
    ['', 'by its words'],
    [NOT_USED, 'none: leave it out'],
    ...list.mapping.map(({ heading }) => [heading, heading] as const).filter(([heading]) => heading !== ''),
  ];
  return (
    <details open={list.problem !== undefined}>
      <summary>Say which heading is what</summary>
      <div class="rows">
        {FIELDS.map((field) => (
          <Choice label={`Her ${spokenOf(field)}`} name={`map-${field}`} given={given} options={options} />
        ))}
      </div>
    </details>
  );
};

const SHOWN = 200;

const Looked = ({
  desk,
  hand,
  list,
  asked,
}: {
  desk: Desk;
  hand: AtHand;
  list: HerdList;
  asked: string | undefined;
}) => (
  <Card title="What was understood">
    {asked === 'save' && list.problem === undefined ? (
      <p class="problem" role="alert">
        The list or what is said of it was changed since you looked, so nothing was saved. Read this, then save.
      </p>
    ) : null}
    {list.problem === undefined ? null : (
      <p class="problem" role="alert">
        Nothing of the list can be used: {list.problem}
      </p>
    )}
    {list.mapping.length === 0 ? null : (
      <ul class="inline">
        {list.mapping.map(({ heading, field }) => (
          <li>
            {heading === '' ? '(no heading)' : heading}:{' '}
            <strong>{field === null ? 'not used' : spokenOf(field)}</strong>
          </li>
        ))}
      </ul>
    )}
    {list.notes.length === 0 ? null : (
      <ul>
        {list.notes.map((note) => (
          <li>{note}</li>
        ))}
      </ul>
    )}
    {list.refusals.length === 0 ? null : <Refused list={list} />}
    {list.problem === undefined ? <Save desk={desk} hand={hand} list={list} /> : null}
  </Card>
);

const rowsRefused = (list: HerdList): number => new Set(list.refusals.map(({ line }) => line)).size;

const Refused = ({ list }: { list: HerdList }) => (
  <section class="scroll" tabindex={0} aria-label="Rows that cannot be used, the table">
    <table>
      <caption>{plural(rowsRefused(list), 'row')} cannot be used: to be mended below, or left out</caption>
      <thead>
        <tr>
          <th scope="col">Line</th>
          <th scope="col">Column</th>
          <th scope="col">What is wrong, and what to do</th>
          <th scope="col">The row</th>
        </tr>
      </thead>
      <tbody>
        {list.refusals.slice(0, SHOWN).map(({ line, column, problem, text }) => (
          <tr>
            <th scope="row">{line}</th>
            <td>{column ?? ''}</td>
            <td>{problem}</td>
            <td class="code">{text}</td>
          </tr>
        ))}
      </tbody>
    </table>
    {list.refusals.length > SHOWN ? <p>And {list.refusals.length - SHOWN} more.</p> : null}
  </section>
);

const Save = ({ desk, hand, list }: { desk: Desk; hand: AtHand; list: HerdList }) => {
  const cows = list.passed.length;
  if (cows === 0)
    return (
      <p>
        {list.known > 0 ? `All ${plural(list.known, 'cow')} of it are in the book already.` : 'No row can be saved.'}
      </p>
    );
  const { views } = tonightFrom(asIf(desk, list.passed), { milking: hand.answer.milking.id }, desk.now());
  return (
    <>
      <p>
        <strong>{plural(cows, 'cow')} can be saved</strong>
        {list.known > 0 ? `; ${list.known} are in the book already` : ''}. At the milking{' '}
        {hand.format.milking(hand.answer.milking.id)} there would be {views.sheets.counts.total.inMilk} in milk,{' '}
        {views.sheets['milk-hold'].held.length} of the herd on milk hold.
      </p>
      <p class="actions">
        <button type="submit" name="step" value="save">
          {rowsRefused(list) === 0
            ? `Save ${plural(cows, 'cow')}`
            : `Save ${plural(cows, 'cow')}, leave ${plural(rowsRefused(list), 'row')} out`}
        </button>
        <a href="/begin">Save nothing</a>
      </p>
    </>
  );
};
