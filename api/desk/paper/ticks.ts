/** From the ticks of a form to what happened, line by line in the paper's order. What is not ticked records nothing and is said. */
import { assertNever } from '../../../shared/refusal.ts';
import type { Form } from '../ask.ts';
import type { Draft } from '../saving.ts';
import { say } from '../say.tsx';
import { type Book, courseOf, openRequests, type Stands, standsNow } from './already.ts';
import { takeCount } from './count-line.ts';
import { dryOffLine } from './dry-off-line.ts';
import type { DoseLine, PaperLine } from './on-paper.ts';
import type { Gathering } from './taken.ts';
import { type Sheet, type Taking, timeOf } from './taking.ts';

/** Marks beside a box that is itself not ticked. */
const STRAYS = ['by', 'time', 'sealant-given', 'quarters', 'band'];

export const takeLine = (book: Book, sheet: Sheet, line: PaperLine, into: Gathering): void => {
  const { form } = sheet;
  if (line.kind === 'count') {
    takeCount(book, sheet, line, into);
    return;
  }
  if (line.kind === 'undecided' || line.kind === 'pen') {
    takeWords(form, line, into);
    return;
  }
  const stands = standsNow(book, line);
  const ticked = form.one(line.field) !== undefined;
  const name = nameOf(line);
  if (ticked && stands.shut !== undefined) {
    into.shut.push(say('{what}: {said}', { what: name, said: stands.shut }));
    return;
  }
  if (stands.shut !== undefined) return;
  if (!ticked) {
    if (STRAYS.some((mark) => form.one(`${line.field}.${mark}`) !== undefined))
      into.troubles.set(
        line.field,
        say('Something is filled in beside it, but it is not ticked: tick it, or empty the rest'),
      );
    else into.notTicked.push(notDone(line));
    return;
  }
  if (line.kind === 'band') {
    into.notes.push(say('{cow} band off', { cow: line.cow }));
    return;
  }
  const time = timeOf(book, sheet, line.field, into);
  if (time === undefined) return;
  const draft = (type: Draft['type'], data: unknown): Draft => ({
    type,
    subject: stands.subjectAt(time.at),
    at: time.at,
    data,
  });
  const take = (says: string, drafts: readonly Draft[], cow?: string): void => {
    into.taken.push({ field: line.field, says: `${says}, ${time.said}`, drafts, cow, from: line.group });
  };
  const taking = { time, draft, take };
  switch (line.kind) {
    case 'dose':
      takeDose(book, sheet, line, stands, taking, into);
      break;
    case 'dry':
      dryOffLine(book, sheet, line, taking, into);
      break;
    case 'out':
      take(say('{cow} moved from {group} to {to}', { cow: line.cow, group: line.group, to: line.to }), [
        draft('group-move', { to: line.to }),
      ]);
      break;
    case 'in': {
      const to = form.one(`${line.field}.to`);
      if (to === undefined) into.troubles.set(line.field, say('Say which pen {cow} came into', { cow: line.cow }));
      else
        take(say('{cow} moved from {group} to {to}', { cow: line.cow, group: line.group, to }), [
          draft('group-move', { to }),
        ]);
      break;
    }
    case 'sort':
      take(
        name,
        openRequests(book, line).map((request) => draft('sort-done', { request })),
      );
      break;
    default:
      assertNever(line);
  }
};

const takeDose = (
  book: Book,
  sheet: Sheet,
  line: DoseLine,
  stands: Stands,
  { time, draft, take }: Taking,
  into: Gathering,
): void => {
  const course = courseOf(book.knowledge, line);
  const givenBy = sheet.form.one(`${line.field}.by`) ?? sheet.who;
  if (course === undefined) return;
  if (givenBy === undefined) {
    into.troubles.set(line.field, say('Say who gave it: the initials beside it, or above who wrote the sheet'));
    return;
  }
  const dose = draft('treatment', {
    medicine: line.medicine,
    ...(line.amount === null ? {} : { amount: line.amount }),
    ...(line.route === null ? {} : { route: line.route }),
    ...(line.quarters.length === 0 ? {} : { quarters: line.quarters }),
    givenBy,
    course: { id: course.id, dose: line.dose, of: Math.max(course.of, line.dose), everyHours: course.everyHours },
  });
  take(say('{dose} given by {by}', { dose: doseName(line), by: givenBy }), [dose], stands.subjectAt(time.at));
};

/** What is written in words and has no entry of its own. */
const takeWords = (form: Form, { kind, field, cow }: PaperLine & { readonly cow: string }, into: Gathering): void => {
  if (kind === 'undecided') {
    const decided = form.one(field);
    if (decided === undefined) into.notTicked.push(say('{cow}: nothing decided about her dry-off', { cow }));
    else into.notes.push(say('{cow} decided: {decided}', { cow, decided }));
    return;
  }
  const temperature = form.one(`${field}.temperature`);
  const checked = form.one(`${field}.milk`);
  const said = [
    ...(temperature === undefined ? [] : [say('temperature {temperature}', { temperature })]),
    ...(checked === undefined ? [] : [say('milk checked by {by}', { by: checked })]),
  ];
  if (said.length > 0) into.notes.push(`${cow} ${said.join(', ')}`);
};

export const doseName = ({ cow, medicine, dose, of }: DoseLine): string =>
  `${cow} ${say('{medicine}, dose {dose} of {of}', { medicine, dose, of })}`;

type Ticked = Exclude<PaperLine, { kind: 'count' | 'undecided' | 'pen' }>;

const nameOf = (line: Ticked): string => {
  switch (line.kind) {
    case 'dose':
      return doseName(line);
    case 'band':
      return say('{cow} band off', { cow: line.cow });
    case 'dry':
      return say('{cow} dried off', { cow: line.cow });
    case 'out':
      return say('{cow} to {group}', { cow: line.cow, group: line.to });
    case 'in':
      return say('{cow} into the fresh pen', { cow: line.cow });
    case 'sort':
      return line.to.length === 0
        ? say('{cow} sorted', { cow: line.cow })
        : say('{cow} sorted to {groups}', { cow: line.cow, groups: line.to.join(` ${say('or')} `) });
    default:
      return assertNever(line);
  }
};

const notDone = (line: Ticked): string => {
  switch (line.kind) {
    case 'dose':
      return say('{dose} was NOT given: it stays due', { dose: doseName(line) });
    case 'band':
      return say('{cow}: her band was not ticked as taken off', { cow: line.cow });
    case 'dry':
      return say('{cow} was NOT dried off: she stays on the list', { cow: line.cow });
    case 'out':
      return say('{cow} was not moved: she stays in {group}', { cow: line.cow, group: line.group });
    case 'in':
      return say('{cow} did not come into the fresh pen: she stays in {group}', { cow: line.cow, group: line.group });
    case 'sort':
      return say('{cow} was not sorted: she stays on the sort list', { cow: line.cow });
    default:
      return assertNever(line);
  }
};
