/**
 * First run, the herd: a list from a spreadsheet, as a file or pasted. It is looked at first: what each heading was taken
 * for, every row that cannot be used and why. Then the good rows are saved, or nothing, as the person chooses.
 */
import type { Child } from 'hono/jsx';
import { parseLocalDay } from '../../../shared/local-day.ts';
import { FIELDS, spokenOf } from '../../import-herd/headings.ts';
import { tonightFrom } from '../../tonight.ts';
import { type Ask, type Desk, type DeskPage, savingOf } from '../ask.ts';
import { type AtHand, atHand } from '../at-hand.ts';
import { Card, Choice, type Given, Input, NO_PROBLEMS, type Option, Tick, typedOf } from '../controls.tsx';
import { goTo, page } from '../layout.tsx';
import { asIf, save } from '../saving.ts';
import { inEnglish, say, sayWith } from '../say.tsx';
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
  const wrong = (name: string, sentence: Child) =>
    step(hand, once, { typed: form, problems: new Map([[name, sentence]]) }, undefined, 400);
  if (!asOf.ok) return wrong('asOf', inEnglish(asOf.problem));
  if (asOf.value > today) return wrong('asOf', say('That day is still to come; say when the list was true'));
  if (form.bytes('file') === undefined && form.one('list') === undefined)
    return wrong('list', say('Choose a file, or paste the list with its headings'));
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

const datesWritten = (): readonly Option[] => [
  ['', say('like {example}', { example: '2026-03-14' })],
  ['dd/mm/yyyy', say('like {example}, the day first', { example: '14/03/2026' })],
  ['mm/dd/yyyy', say('like {example}, the month first', { example: '03/14/2026' })],
  ['dd.mm.yyyy', say('like {example}', { example: '14.03.2026' })],
  ['dd-mm-yyyy', say('like {example}', { example: '14-03-2026' })],
  ['d-mmm-yyyy', say('like {example}', { example: '14-Mar-2026' })],
  ['dd/mm/yy', say('like {example}, the day first', { example: '14/03/26' })],
  ['mm/dd/yy', say('like {example}, the month first', { example: '03/14/26' })],
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
      title: say('The herd, from a spreadsheet'),
      children: (
        <>
          <Steps steps={stepsOf(hand.answer.known)} at="/begin/herd" />
          <form method="post" action="/begin/herd" enctype="multipart/form-data">
            <input type="hidden" name="once" value={once} />
            <input type="hidden" name="seen" value={list?.seen ?? ''} />
            {/* The first button of a form is the one that the Enter key presses. */}
            <button class="unseen" type="submit" name="step" value="look">
              {say('Look at the list')}
            </button>
            {looked ?? null}
            <Card title={say('The list')}>
              <p>
                {say(
                  'Save it as CSV, with its headings in the first line, in any order. Each cow needs her number, her group ({groups}) and her lactation. Say of each when she calved, was served, is due, was dried off and with what, and until when her milk and meat are held.',
                  { groups: (hand.schedule.setUps.at(-1)?.data.groups ?? []).map(({ name }) => name).join(', ') },
                )}
              </p>
              <p class="field">
                <label for="file">{say('File')}</label>
                <input id="file" name="file" type="file" accept=".csv,.tsv,.txt,text/csv,text/plain" />
              </p>
              <p class="field">
                <label for="f-list">
                  {say('Or the list itself, pasted; what was read stands here and can be mended')}
                </label>
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
                <Choice label={say('Its dates are written')} name="dates" given={given} options={datesWritten()} />
                <Input label={say('It was true at the start of')} name="asOf" given={given} type="date" required />
              </div>
              <Tick
                label={say('I state that no cow in it has a running milk or meat hold, but those the list gives one')}
                name="holds"
                given={given}
                hint={say('Without this, what the list does not say of a hold is unknown, and that milk is held')}
              />
              {list === undefined || list.mapping.length === 0 ? null : <Headings given={given} list={list} />}
            </Card>
            <p class="actions">
              <button type="submit" name="step" value="look">
                {say(list === undefined ? 'Look at the list' : 'Look at it again')}
              </button>
              <a href="/begin">{say('Later')}</a>
            </p>
          </form>
        </>
      ),
    },
    status,
  );

const Headings = ({ given, list }: { given: Given; list: HerdList }) => {
  const options: readonly Option[] = [
    ['', say('by its words')],
    [NOT_USED, say('none: leave it out')],
    ...list.mapping.map(({ heading }) => [heading, heading] as const).filter(([heading]) => heading !== ''),
  ];
  return (
    <details open={list.problem !== undefined}>
      <summary>{say('Say which heading is what')}</summary>
      <div class="rows">
        {FIELDS.map((field) => (
          <Choice
            label={say('Her {what}', { what: spokenOf(field) })}
            name={`map-${field}`}
            given={given}
            options={options}
          />
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
  <Card title={say('What was understood')}>
    {asked === 'save' && list.problem === undefined ? (
      <p class="problem" role="alert">
        {say(
          'The list or what is said of it was changed since you looked, so nothing was saved. Read this, then save.',
        )}
      </p>
    ) : null}
    {list.problem === undefined ? null : (
      <p class="problem" role="alert">
        {say('Nothing of the list can be used:')} {inEnglish(list.problem)}
      </p>
    )}
    {list.mapping.length === 0 ? null : (
      <ul class="inline">
        {list.mapping.map(({ heading, field }) => (
          <li>
            {heading === '' ? say('(no heading)') : heading}:{' '}
            <strong>{field === null ? say('not used') : inEnglish(spokenOf(field))}</strong>
          </li>
        ))}
      </ul>
    )}
    {list.notes.length === 0 ? null : (
      <ul>
        {list.notes.map((note) => (
          <li>{inEnglish(note)}</li>
        ))}
      </ul>
    )}
    {list.refusals.length === 0 ? null : <Refused list={list} />}
    {list.problem === undefined ? <Save desk={desk} hand={hand} list={list} /> : null}
  </Card>
);

const rowsRefused = (list: HerdList): number => new Set(list.refusals.map(({ line }) => line)).size;

const Refused = ({ list }: { list: HerdList }) => (
  <section class="scroll" tabindex={0} aria-label={say('Rows that cannot be used, the table')}>
    <table>
      <caption>
        {say('{n, plural, one {# row} other {# rows}} cannot be used: to be mended below, or left out', {
          n: rowsRefused(list),
        })}
      </caption>
      <thead>
        <tr>
          <th scope="col">{say('Line')}</th>
          <th scope="col">{say('Column')}</th>
          <th scope="col">{say('What is wrong, and what to do')}</th>
          <th scope="col">{say('The row')}</th>
        </tr>
      </thead>
      <tbody>
        {list.refusals.slice(0, SHOWN).map(({ line, column, problem, text }) => (
          <tr>
            <th scope="row">{line}</th>
            <td>{column ?? ''}</td>
            <td>{inEnglish(problem)}</td>
            <td class="code">{text}</td>
          </tr>
        ))}
      </tbody>
    </table>
    {list.refusals.length > SHOWN ? <p>{say('And {n} more.', { n: String(list.refusals.length - SHOWN) })}</p> : null}
  </section>
);

const Save = ({ desk, hand, list }: { desk: Desk; hand: AtHand; list: HerdList }) => {
  const cows = list.passed.length;
  if (cows === 0)
    return (
      <p>
        {list.known > 0
          ? say('All {n, plural, one {# cow} other {# cows}} of it are in the book already.', { n: list.known })
          : say('No row can be saved.')}
      </p>
    );
  const { views } = tonightFrom(asIf(desk, list.passed), { milking: hand.answer.milking.id }, desk.now());
  return (
    <>
      <p>
        {sayWith('<b>{n, plural, one {# cow} other {# cows}} can be saved</b>', {
          b: (inner) => <strong>{inner}</strong>,
          n: cows,
        })}
        {list.known > 0 ? say('; {n} are in the book already', { n: String(list.known) }) : ''}.{' '}
        {say('At the milking {milking} there would be {inMilk} in milk, {held} of the herd on milk hold.', {
          milking: hand.format.milking(hand.answer.milking.id),
          inMilk: String(views.sheets.counts.total.inMilk),
          held: String(views.sheets['milk-hold'].held.length),
        })}
      </p>
      <p class="actions">
        <button type="submit" name="step" value="save">
          {rowsRefused(list) === 0
            ? say('Save {n, plural, one {# cow} other {# cows}}', { n: cows })
            : say(
                'Save {n, plural, one {# cow} other {# cows}}, leave {rows, plural, one {# row} other {# rows}} out',
                {
                  n: cows,
                  rows: rowsRefused(list),
                },
              )}
        </button>
        <a href="/begin">{say('Save nothing')}</a>
      </p>
    </>
  );
};
