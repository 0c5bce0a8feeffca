/**
 * From paper back to the book: a sheet's ref, its lines in their own order, ticks and lines by hand, read over, saved once.
 * Everything or nothing; a form that was saved is not saved a second time, and one that went stale is read over again.
 */
import type { Child } from 'hono/jsx';
import { RequestProblem } from '../../server/problem.ts';
import { type Ask, type Desk, type DeskPage, type Form, savingOf } from '../ask.ts';
import { atHand } from '../at-hand.ts';
import { setOf } from '../issued.tsx';
import { goTo, page } from '../layout.tsx';
import { checkDrafts, idOf, save } from '../saving.ts';
import { inEnglish, problemText, say } from '../say.tsx';
import { linesIn } from './by-hand.ts';
import { findPage } from './find.tsx';
import { formPage } from './form.tsx';
import { onPaper } from './on-paper.ts';
import { markOf, readOverPage } from './read-over.tsx';
import { readPaper } from './reading.ts';
import type { Paper } from './view.ts';
import { hasBegun, spanOf } from './when.ts';

export const paperPages: readonly DeskPage[] = [
  {
    method: 'get',
    path: '/paper',
    right: 'push',
    run: (desk, ask) => {
      const said = ask.url.searchParams.get('ref')?.trim() ?? '';
      if (said === '') return findPage(desk, ask.visitor);
      const paper = paperOf(desk, ask, said);
      if (paper instanceof Promise || paper instanceof Response) return paper;
      return formPage(desk, ask.visitor, paper, { done: doneText(ask.url.searchParams, paper) });
    },
  },
  {
    method: 'post',
    path: '/paper',
    right: 'push',
    run: (desk, ask) => {
      const saving = savingOf(ask.form);
      const paper = paperOf(desk, ask, ask.form.one('ref') ?? '');
      if (paper instanceof Promise || paper instanceof Response) return paper;
      return written(desk, ask, paper, saving);
    },
  },
];

const MORE = 3;

const written = (
  desk: Desk,
  { form, visitor, log }: Ask,
  paper: Paper,
  saving: string,
): Response | Promise<Response> => {
  const step = form.one('step');
  const { ref } = paper.book.set.data;
  // All of a saving is recorded or none of it, so its first id tells.
  const first = idOf(saving, 0);
  if (paper.book.knowledge.known.ids.find(first).length > 0) return goTo(`/paper?ref=${ref}&saved=before`);
  if (step === 'change') return formPage(desk, visitor, paper, { form });
  if (step === 'more') return formPage(desk, visitor, paper, { form: withLines(form, linesIn(form) + MORE) });
  const again = (troubles: ReadonlyMap<string, Child>) =>
    formPage(desk, visitor, paper, { form, troubles, status: 400 });
  const reading = readPaper(paper.book, paper.onPaper, form, saving);
  if (reading.troubles.size > 0) return again(reading.troubles);
  if (reading.drafts.length === 0)
    return again(
      new Map([['who', say('There is nothing new on it: the set is returned, and what is ticked is in the book')]]),
    );
  const checked = checkDrafts(desk, visitor, saving, reading.drafts);
  if (!checked.ok)
    return again(
      new Map(
        checked.troubles.map(({ index, problem, pointer }) => [
          reading.fields[index] ?? 'who',
          pointer === undefined ? problem : inEnglish(problem),
        ]),
      ),
    );
  const { passed } = checked;
  if (step !== 'save' || form.one('read') !== markOf(reading))
    return readOverPage(desk, paper, { form, reading, passed, changed: step === 'save' });
  save(desk, passed);
  log.info({ ref, entries: passed.length }, 'a sheet is written up');
  return goTo(`/paper?ref=${ref}&saved=${passed.length}`);
};

const withLines = (form: Form, lines: number): Form => ({
  ...form,
  one: (name) => (name === 'lines' ? String(lines) : form.one(name)),
});

/** The set that was typed with all that is known of it, or the page that says why it can't be written up. */
const paperOf = (desk: Desk, { visitor }: Ask, said: string): Paper | Response | Promise<Response> => {
  const hand = atHand(desk, visitor, '/paper');
  if (hand === undefined) return goTo('/begin');
  let set: ReturnType<typeof setOf>;
  try {
    set = setOf(desk, said);
  } catch (thrown) {
    if (!(thrown instanceof RequestProblem)) throw thrown;
    return findPage(desk, visitor, {
      said: said.slice(0, 20),
      problem: problemText(thrown),
      status: thrown.problem === 'not-found' ? 404 : 400,
    });
  }
  const { ref, milking: id } = set.data;
  const milking = hand.schedule.findEver(id);
  const cannot = (sentence: string) =>
    page(
      {
        ...hand.frame,
        title: say('Write up {ref}', { ref }),
        children: (
          <div class="card">
            <p class="problem">{sentence}</p>
            <p>
              <a href={`/issued/${ref}`}>{say('The paper itself')}</a> · <a href="/paper">{say('Another sheet')}</a> ·{' '}
              <a href="/write">{say('Write one thing down')}</a>
            </p>
          </div>
        ),
      },
      409,
    );
  if (milking === undefined)
    return cannot(
      say(
        'The farm has no milking {milking} any more, so “at this milking” has no time; write down what stands on the sheet one by one',
        { milking: id },
      ),
    );
  const span = spanOf(hand.schedule, milking, desk.now());
  if (!hasBegun(span))
    return cannot(
      say(
        'This set is for {milking}, which has not begun: nothing on it can have been done yet. Come back with it after the milking.',
        { milking: hand.format.milking(id) },
      ),
    );
  return { hand, onPaper: onPaper(set), book: { knowledge: desk.knowing.now(), set, span, speaking: hand } };
};

const doneText = (query: URLSearchParams, { book }: Paper): string | undefined => {
  const saved = query.get('saved');
  if (saved === null || !book.knowledge.known.farm.returned.has(book.set.data.ref)) return undefined;
  return saved === 'before'
    ? say(
        'That form was saved before and counts once. If you changed something in it since, that is not recorded: tick it here.',
      )
    : say('Saved. The set {ref} is returned; what was not ticked stands open below.', { ref: book.set.data.ref });
};
